#include <fmt/format.h>

#include "evenlit/base/names.hpp"
#include "tables.hpp"

namespace evenlit {

bool read_from(const TomlValue& value, std::string_view noun, const Shape* room, Taped (&from)[2],
               ValueReader& reader) {
  const auto* table = reader.table(&value, "from");
  if (table == nullptr) return false;
  if (table->entries.size() != 2) {
    reader.problem(value.place,
                   fmt::format("the {} is to be measured from 2 walls, not from {}", noun, table->entries.size()),
                   std::string(k_from_example));
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

void check_centre(const TomlValue& from, std::string_view noun, const std::optional<Eigen::Vector2d>& centre,
                  const Shape& room, Units units, ValueReader& reader) {
  const auto& walls = std::get<TomlTable>(from.content).entries;
  if (!centre) {
    reader.problem(from.place, fmt::format("walls {} and {} are parallel", quoted(walls[0].key), quoted(walls[1].key)),
                   "measure from two walls that meet at an angle");
  } else if (!is_inside(room.corners_m, *centre)) {
    reader.problem(from.place,
                   fmt::format("the {}'s centre is {} outside the room", noun,
                               length_text(distance_to_outline(room.corners_m, *centre), units)),
                   "each distance is square to its wall, from the wall into the room");
  }
}

}  // namespace evenlit
