#include <fmt/format.h>

#include "evenlit/base/names.hpp"
#include "evenlit/job/ceiling.hpp"
#include "tables.hpp"

namespace evenlit {

Finishes read_finishes(const TomlValue& value, const Shape* room, ValueReader& reader) {
  Fields fields(value, "[finishes]", reader);
  Finishes finishes;
  const auto read = [&](std::string_view key, double fallback) {
    return reader.fraction(fields.find(key), fmt::format("{} reflectance", key), k_reflectance).value_or(fallback);
  };
  finishes.floor = read("floor", finishes.floor);
  finishes.ceiling = read("ceiling", finishes.ceiling);
  finishes.walls = read("walls", finishes.walls);
  if (const auto* own = reader.table(fields.find("wall"), "wall in [finishes]")) {
    for (const auto& [wall, key_place, reflectance] : own->entries) {
      if (room != nullptr) check_wall_name(*room, wall, key_place, reader);
      const auto label = fmt::format("reflectance of wall {}", quoted(wall));
      finishes.wall[wall] = reader.fraction(&reflectance, label, k_reflectance).value_or(0);
    }
  }
  fields.refuse_other_keys();
  return finishes;
}

WorkPlane read_work_plane(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  Fields fields(value, "[work_plane]", reader);
  WorkPlane plane;
  const auto* height = fields.find("height");
  plane.height_m = reader.length_m(height, "work plane height", k_distance).value_or(plane.height_m);
  plane.spacing_m = reader.length_m(fields.find("spacing"), "grid spacing", k_room_side);
  plane.margin_m = reader.length_m(fields.find("margin"), "grid margin", k_distance).value_or(plane.margin_m);
  fields.refuse_other_keys();

  const double highest_m = room != nullptr ? ceiling_of(*room).highest_m : plane.height_m + 1;
  if (plane.height_m >= highest_m) {
    reader.problem(height != nullptr ? height->place : value.place,
                   fmt::format("the work plane at {} is not below the ceiling at {}",
                               length_text(plane.height_m, units), length_text(highest_m, units)),
                   "give [work_plane] a height between the floor and the ceiling");
  }
  return plane;
}

}  // namespace evenlit
