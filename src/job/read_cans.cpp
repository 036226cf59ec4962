#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/names.hpp"
#include "evenlit/job/mounting.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_cans = 500;
constexpr Range k_level{{.value = 0, .text = "0"}, {.value = 1, .text = "1"}};
constexpr Range k_tilt{{.value = 0, .text = "0"}, {.value = 180, .text = "180"}};
constexpr Range k_height{{.value = 0, .text = "0", .is_included = false}, {.value = 1000, .text = "1 km"}};

void read_aim(const TomlValue& value, Can& can, ValueReader& reader) {
  if (const auto* name = std::get_if<std::string>(&value.content)) {
    can.is_square = *name == "square";
    if (can.is_square) return;
    reader.problem(value.place, fmt::format("aim {} is unknown", quoted(*name)),
                   R"(write aim = "square" to the ceiling, or aim = { tilt = 30, toward = 90 })");
    return;
  }
  Fields fields(value, "aim", reader);
  constexpr std::string_view k_example = "write aim = { tilt = 30, toward = 90 }";
  can.tilt_deg = reader.number(fields.require("tilt", k_example), "aim tilt", k_tilt).value_or(0);
  can.toward_deg = reader.number(fields.find("toward"), "aim toward", k_turn).value_or(0);
  fields.refuse_other_keys();
}

/// Reads where the opening is up and down; whether that is known.
bool read_mounting(Fields& fields, Can& can, ValueReader& reader) {
  const auto* drop = fields.find("drop");
  const auto* height = fields.find("height");
  can.drop_m = reader.length_m(drop, "can drop", k_distance);
  can.height_m = reader.length_m(height, "can height", k_height);
  const bool is_read = (drop == nullptr || can.drop_m) && (height == nullptr || can.height_m);
  if (drop == nullptr || height == nullptr) return is_read;
  reader.problem(height->place, "the can has both drop and height",
                 "drop is from the ceiling down to the opening, height from the floor up to it: give one of them");
  return false;
}

/// Reports an opening that is not in the room.
void check_opening(const Place& place, const Can& can, const Shape& room, const Ceiling& ceiling, const Job& job,
                   ValueReader& reader) {
  const auto mounted = mounting(room, ceiling, can);
  if (!mounted || !is_inside(room.corners_m, mounted->opening_m.head<2>())) return;
  constexpr double k_rounding_m = 1e-9;
  const double height_m = mounted->opening_m.z();
  const double ceiling_m = ceiling.height_m(mounted->opening_m.head<2>());
  if (height_m > ceiling_m + k_rounding_m) {
    reader.problem(place,
                   fmt::format("the can's opening at {} is above the ceiling, which is at {} there",
                               length_text(height_m, job.units), length_text(ceiling_m, job.units)),
                   "height is above the floor; leave it out for a can that is flush with the ceiling");
  } else if (height_m <= 0) {
    reader.problem(place,
                   fmt::format("the can hangs {} below the ceiling, which is only {} above the floor there",
                               length_text(*can.drop_m, job.units), length_text(ceiling_m, job.units)),
                   "drop is from the ceiling down to the opening");
  } else if (const auto* box = obstruction_around(job.obstructions, room, ceiling, mounted->opening_m)) {
    reader.problem(place, fmt::format("can is inside {}", quoted(box->name)),
                   "move it, or give its height above the floor: that of the box's underside or top");
  }
}

Can read_can(const TomlValue& value, const Shape* room, const Ceiling* ceiling, const Job& job, ValueReader& reader) {
  Fields fields(value, "a can in [[cans]]", reader);
  Can can;
  can.origin = {value.place};
  const auto* type = fields.require("type", R"(add a line like type = "six_inch", the name of a can type)");
  if (const auto name = reader.text(type, "type")) {
    can.type = *name;
    if (!job.can_types.empty()) check_known(type->place, "can type", *name, job.can_types, reader);
  }
  const auto* from = fields.require("from", k_from_example);
  bool is_placed = false;
  if (from != nullptr && read_from(*from, "can", room, can.from, reader) && room != nullptr) {
    check_centre(*from, "can", plan_position(*room, can), *room, job.units, reader);
    is_placed = true;
  }
  can.level = reader.fraction(fields.find("level"), "can level", k_level).value_or(can.level);
  const auto* circuit = fields.find("circuit");
  can.circuit = reader.text(circuit, "can circuit");
  if (can.circuit) check_known(circuit->place, "circuit", *can.circuit, job.circuits, reader);
  const bool is_mounted = read_mounting(fields, can, reader);
  if (is_placed && is_mounted) check_opening(value.place, can, *room, *ceiling, job, reader);
  if (const auto* aim = fields.find("aim")) read_aim(*aim, can, reader);
  can.rotation_deg = reader.number(fields.find("rotation"), "can rotation", k_turn).value_or(can.rotation_deg);
  fields.refuse_other_keys();
  return can;
}

}  // namespace

std::vector<Can> read_cans(const TomlValue& value, const Shape* room, const Job& job, ValueReader& reader) {
  std::vector<Can> cans;
  const auto* list = reader.array(&value, "cans", "write its header in double brackets: [[cans]]");
  if (list == nullptr) return cans;
  if (list->empty() || list->size() > k_most_cans) {
    reader.problem(value.place, fmt::format("the job has {} cans", list->size()),
                   fmt::format("a job has 1 to {} cans", k_most_cans));
    return cans;
  }
  const auto ceiling = room != nullptr ? std::optional(ceiling_of(*room)) : std::nullopt;
  for (const auto& element : *list) {
    cans.push_back(read_can(element, room, ceiling ? &*ceiling : nullptr, job, reader));
  }
  return cans;
}

}  // namespace evenlit
