#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/names.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_series = 20;
constexpr std::size_t k_most_members = 500;
constexpr int k_most_joists = 1000;
constexpr std::string_view k_line_example =
    R"(write from = { west = "5ft" } for its centre line parallel to that wall, or start and end like { west = "5ft", south = 0 })";

/// Square to the wall, from it to the farthest corner that is on its room's side.
double reach_m(const Shape& room, int wall) {
  const Eigen::Vector2d along = along_wall(room, wall);
  const Eigen::Vector2d inward(-along.y(), along.x());
  double reach = 0;
  for (const auto& corner : room.corners_m) {
    reach = std::max(reach, inward.dot(corner - room.corners_m[static_cast<std::size_t>(wall)]));
  }
  return reach;
}

void check_spacing(const TomlValue& spacing, const Joists& joists, const Shape& room, ValueReader& reader) {
  const auto wall = wall_index(room, joists.parallel_to);
  if (!wall) return;
  const double count = std::floor((reach_m(room, *wall) - joists.first_m) / joists.spacing_m) + 1;
  if (count <= k_most_joists) return;
  reader.problem(spacing.place, fmt::format("that makes {:.0f} joists", count),
                 fmt::format("a ceiling has at most {}: check the spacing", k_most_joists));
}

Joists read_series(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  Fields fields(value, "[joists]", reader);
  Joists joists;
  const auto* parallel_to = fields.require("parallel_to", R"(add a line like parallel_to = "south")");
  if (const auto wall = reader.text(parallel_to, "parallel_to")) {
    joists.parallel_to = *wall;
    if (room != nullptr) check_wall_name(*room, *wall, parallel_to->place, reader);
  }
  const auto* first =
      fields.require("first", R"(add a line like first = "8in": from that wall to the first joist's centre)");
  joists.first_m = reader.length_m(first, "first joist", k_distance).value_or(0);
  const auto* spacing_value = fields.require("spacing", R"(add a line like spacing = "16in")");
  const auto spacing = reader.length_m(spacing_value, "joist spacing", k_room_side);
  const auto* thickness = fields.find("thickness");
  joists.thickness_m = reader.length_m(thickness, "joist thickness", k_part_size).value_or(joists.thickness_m);
  if (const auto* area = fields.find("area")) {
    Fields keys(*area, "area of the joists", reader);
    PlanArea read;
    if (read_plan_area(keys, "joist area", room, units, read, reader)) joists.area = std::move(read);
    keys.refuse_other_keys();
  }
  fields.refuse_other_keys();

  joists.spacing_m = spacing.value_or(0);
  if (spacing && joists.thickness_m >= *spacing) {
    reader.problem(thickness != nullptr ? thickness->place : value.place, "the joists are as thick as their spacing",
                   "spacing is from centre to centre, thickness that of one joist");
  }
  if (spacing && room != nullptr) check_spacing(*spacing_value, joists, *room, reader);
  return joists;
}

/// The one tape measurement to a line that is parallel to its wall.
std::optional<Taped> read_parallel(const TomlValue& value, const Shape* room, ValueReader& reader) {
  const auto* table = reader.table(&value, "from");
  if (table == nullptr) return std::nullopt;
  if (table->entries.size() != 1) {
    reader.problem(value.place, fmt::format("the member is to be parallel to 1 wall, not to {}", table->entries.size()),
                   std::string(k_line_example));
    return std::nullopt;
  }
  const auto& [wall, key_place, distance] = table->entries.front();
  const auto metres = reader.length_m(&distance, fmt::format("distance from wall {}", quoted(wall)), k_distance);
  if (room != nullptr) check_wall_name(*room, wall, key_place, reader);
  return metres ? std::optional(Taped{wall, *metres}) : std::nullopt;
}

TapedLine read_ends(const TomlValue& start, const TomlValue& end, const Shape* room, ValueReader& reader) {
  TapedLine line;
  const auto point = [&](const TomlValue& value, std::string_view key, Taped(&from)[2]) {
    std::optional<Eigen::Vector2d> plan;
    if (read_from(value, fmt::format("member's {}", key), room, from, reader, key) && room != nullptr) {
      plan = plan_position(*room, from);
      check_walls_meet(value, plan, reader);
    }
    return plan;
  };
  const auto a = point(start, "start", line.start);
  const auto b = point(end, "end", line.end);
  if (a && b && (*a - *b).norm() < k_side.least.value) {
    reader.problem(end.place, fmt::format("the member ends less than {} from its start", k_side.least.text),
                   "start and end are the ends of its centre line");
  }
  return line;
}

void read_line(Fields& fields, const Place& place, const Shape* room, Member& member, ValueReader& reader) {
  const auto* from = fields.find("from");
  const auto* start = fields.find("start");
  const auto* end = fields.find("end");
  const bool has_ends = start != nullptr && end != nullptr;
  const bool has_one_end = (start != nullptr) != (end != nullptr);
  if (has_one_end || (from != nullptr) == has_ends) {
    reader.problem(place,
                   has_one_end ? fmt::format("the member has no {}", start != nullptr ? "end" : "start")
                               : fmt::format("the member has {}", has_ends ? "both from and ends" : "no place"),
                   std::string(k_line_example));
    return;
  }
  if (has_ends) {
    member.line = read_ends(*start, *end, room, reader);
  } else if (auto parallel = read_parallel(*from, room, reader)) {
    member.line = std::move(*parallel);
  }
}

Member read_member(const TomlValue& value, const Shape* room, const std::vector<Member>& earlier, ValueReader& reader) {
  Fields fields(value, "a member in [[members]]", reader);
  Member member;
  member.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "doubled joist")");
  if (const auto name = reader.text(name_value, "member name")) {
    member.name = *name;
    check_name(*name_value, "member", *name, earlier, reader);
  }
  read_line(fields, value.place, room, member, reader);
  const auto* thickness = fields.require("thickness", R"(add a line like thickness = "3in": its width on the plan)");
  member.thickness_m = reader.length_m(thickness, "member thickness", k_part_size).value_or(0);
  fields.refuse_other_keys();
  return member;
}

}  // namespace

std::vector<Joists> read_joists(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  if (std::holds_alternative<TomlTable>(value.content)) return {read_series(value, room, units, reader)};
  return read_each<Joists>(
      value, "joists", "series of joists", k_most_series, reader,
      [&](const TomlValue& element, const std::vector<Joists>&) { return read_series(element, room, units, reader); });
}

std::vector<Member> read_members(const TomlValue& value, const Shape* room, ValueReader& reader) {
  return read_each<Member>(value, "members", "members", k_most_members, reader,
                           [&](const TomlValue& element, const std::vector<Member>& earlier) {
                             return read_member(element, room, earlier, reader);
                           });
}

}  // namespace evenlit
