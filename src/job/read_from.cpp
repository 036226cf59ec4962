#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/names.hpp"
#include "tables.hpp"

namespace evenlit {

bool read_from(const TomlValue& value, std::string_view noun, const Shape* room, Taped (&from)[2], ValueReader& reader,
               std::string_view key) {
  const auto* table = reader.table(&value, key);
  if (table == nullptr) return false;
  if (table->entries.size() != 2) {
    reader.problem(value.place,
                   fmt::format("the {} is to be measured from 2 walls, not from {}", noun, table->entries.size()),
                   fmt::format(R"(write {} = {{ west = "3ft 3in", south = "3ft 3in" }})", key));
    return false;
  }
  bool is_whole = true;
  for (std::size_t i = 0; i < 2; ++i) {
    const auto& [wall, key_place, distance] = table->entries[i];
    const auto metres = reader.length_m(&distance, fmt::format("distance from wall {}", quoted(wall)), k_distance);
    from[i] = {wall, metres.value_or(0)};
    if (room != nullptr) check_wall_name(*room, wall, key_place, reader);
    is_whole = is_whole && metres && (room == nullptr || wall_index(*room, wall));
  }
  return is_whole;
}

void check_walls_meet(const TomlValue& from, const std::optional<Eigen::Vector2d>& point, ValueReader& reader) {
  if (point) return;
  const auto& walls = std::get<TomlTable>(from.content).entries;
  reader.problem(from.place, fmt::format("walls {} and {} are parallel", quoted(walls[0].key), quoted(walls[1].key)),
                 "measure from two walls that meet at an angle");
}

void check_centre(const TomlValue& from, std::string_view noun, const std::optional<Eigen::Vector2d>& centre,
                  const Shape& room, Units units, ValueReader& reader) {
  check_walls_meet(from, centre, reader);
  if (centre && !is_inside(room.corners_m, *centre)) {
    reader.problem(from.place,
                   fmt::format("the {}'s centre is {} outside the room", noun,
                               length_text(distance_to_outline(room.corners_m, *centre), units)),
                   "each distance is square to its wall, from the wall into the room");
  }
}

void report_taken_name(const Place& place, std::string_view noun, std::string_view name, ValueReader& reader) {
  reader.problem(place, fmt::format("two {}s are named {}", noun, quoted(name)),
                 fmt::format("give each {} its own name", noun));
}

const TomlArray* short_list(const TomlValue& value, std::string_view key, std::string_view noun, std::size_t most,
                            ValueReader& reader) {
  const auto* list = reader.array(&value, key, fmt::format("write its header in double brackets: [[{}]]", key));
  if (list == nullptr || list->size() <= most) return list;
  reader.problem(value.place, fmt::format("the job has {} {}", list->size(), noun),
                 fmt::format("a job has at most {} {}", most, noun));
  return nullptr;
}

const TomlTable* named_tables(const TomlValue& value, std::string_view key, std::string_view noun, std::size_t most,
                              ValueReader& reader) {
  const auto* table = reader.table(&value, key);
  if (table == nullptr) return nullptr;
  if (table->entries.size() > most) {
    reader.problem(value.place, fmt::format("the job has {} {}", table->entries.size(), noun),
                   fmt::format("a job has at most {} {}", most, noun));
    return nullptr;
  }
  const auto nameless = std::ranges::find(table->entries, std::string_view(), &TomlEntry::key);
  if (nameless == table->entries.end()) return table;
  reader.problem(nameless->key_place, fmt::format("a name in [{}] is empty", key),
                 fmt::format("write [{}.a_name]", key));
  return nullptr;
}

bool read_rectangle(Fields& fields, std::string_view noun, const Shape* room, Units units, TapedRectangle& rectangle,
                    ValueReader& reader) {
  const auto* from = fields.require("from", k_from_example);
  const auto width = reader.length_m(fields.require("width", R"(add a line like width = "7ft")"),
                                     fmt::format("{} width", noun), k_side);
  const auto depth = reader.length_m(fields.require("depth", R"(add a line like depth = "3ft")"),
                                     fmt::format("{} depth", noun), k_side);
  rectangle.width_m = width.value_or(0);
  rectangle.depth_m = depth.value_or(0);
  const bool is_placed = from != nullptr && read_from(*from, noun, room, rectangle.from, reader) && width && depth;
  if (is_placed && room != nullptr) check_centre(*from, noun, plan_centre(*room, rectangle), *room, units, reader);
  return is_placed;
}

void check_below_ceiling(const Place& place, std::string_view noun, double height_m, double ceiling_m, Units units,
                         ValueReader& reader) {
  if (height_m <= ceiling_m) return;
  reader.problem(place,
                 fmt::format("the {}'s height at {} is above the ceiling at {}", noun, length_text(height_m, units),
                             length_text(ceiling_m, units)),
                 "heights are above the floor");
}

}  // namespace evenlit
