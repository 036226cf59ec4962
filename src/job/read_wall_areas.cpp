#include <fmt/format.h>

#include "can_words.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/job/walls.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_wall_areas = 200;
constexpr std::string_view k_along_example =
    R"(write from = { west = "3ft" }: along the wall, from the corner that it makes with that neighbour)";

void check_on_wall(const Place& place, std::string_view name, const WallRectangle& rectangle, const Shape& room,
                   ValueReader& reader) {
  constexpr double k_least_m2 = 1e-6;  // 1 mm x 1 mm
  if (signed_area(outline_on_wall(room, ceiling_of(room), rectangle)) >= k_least_m2) return;
  reader.problem(place, fmt::format("no part of {} is on wall {}", quoted(name), quoted(rectangle.wall)),
                 "from is along the wall to the near edge, bottom and top are heights above the floor");
}

WallArea read_wall_area(const TomlValue& value, const Shape* room, const std::vector<WallArea>& earlier,
                        ValueReader& reader) {
  Fields fields(value, "a wall area in [[wall_areas]]", reader);
  WallArea area;
  area.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "window")");
  if (const auto name = reader.text(name_value, "wall area name")) {
    area.name = *name;
    check_name(*name_value, "wall area", *name, earlier, reader);
  }
  read_wall_rectangle(fields, value.place, "wall area", area.name, room, area, reader);
  const auto* reflectance =
      fields.require("reflectance", R"(add a line like reflectance = 0.1: a window at night sends back little)");
  area.reflectance = reader.fraction(reflectance, "wall area reflectance", k_reflectance).value_or(area.reflectance);
  area.kind = read_word(fields.find("kind"), "wall area kind", k_wall_area_kinds, reader);
  area.colour = read_colour(fields.find("colour"), "wall area colour", reader).value_or(area.colour);
  fields.refuse_other_keys();
  return area;
}

}  // namespace

std::optional<Taped> read_along(const TomlValue& value, std::string_view noun, std::string_view own_wall,
                                const Shape* room, ValueReader& reader) {
  const auto* table = reader.table(&value, "from");
  if (table == nullptr) return std::nullopt;
  if (table->entries.size() != 1) {
    reader.problem(value.place,
                   fmt::format("the {} is to be measured from 1 wall, not from {}", noun, table->entries.size()),
                   std::string(k_along_example));
    return std::nullopt;
  }
  const auto& [wall, key_place, distance] = table->entries.front();
  const auto metres = reader.length_m(&distance, fmt::format("distance from wall {}", quoted(wall)), k_distance);
  if (room != nullptr) check_wall_name(*room, wall, key_place, reader);
  const auto own = room != nullptr ? wall_index(*room, own_wall) : std::nullopt;
  const auto other = room != nullptr ? wall_index(*room, wall) : std::nullopt;
  if (own && other) {
    const auto [left, right] = neighbours_of(*room, *own);
    if (*other != left && *other != right) {
      reader.problem(
          key_place, fmt::format("wall {} does not meet wall {}", quoted(wall), quoted(own_wall)),
          fmt::format("measure from {} or {}", quoted(room->wall_names[left]), quoted(room->wall_names[right])));
      return std::nullopt;
    }
  }
  return metres ? std::optional(Taped{wall, *metres}) : std::nullopt;
}

void read_wall_rectangle(Fields& fields, const Place& place, std::string_view noun, std::string_view name,
                         const Shape* room, WallRectangle& rectangle, ValueReader& reader) {
  const auto* wall_value = fields.require("wall", R"(add a line like wall = "south")");
  if (const auto wall = reader.text(wall_value, fmt::format("wall of the {}", noun))) {
    rectangle.wall = *wall;
    if (room != nullptr) check_wall_name(*room, *wall, wall_value->place, reader);
  }
  const auto* from_value = fields.require("from", k_along_example);
  const auto from = from_value != nullptr ? read_along(*from_value, noun, rectangle.wall, room, reader) : std::nullopt;
  const auto width = reader.length_m(fields.require("width", R"(add a line like width = "3ft")"),
                                     fmt::format("{} width", noun), k_side);
  const auto* bottom_value = fields.find("bottom");
  const auto bottom = reader.length_m(bottom_value, fmt::format("{} bottom", noun), k_distance);
  const auto* top_value = fields.require("top", R"(add a line like top = "80in": its height above the floor)");
  const auto top = reader.length_m(top_value, fmt::format("{} top", noun), k_distance);

  rectangle.from = from.value_or(Taped{});
  rectangle.width_m = width.value_or(0);
  rectangle.bottom_m = bottom.value_or(0);
  rectangle.top_m = top.value_or(0);
  if (top && rectangle.top_m - rectangle.bottom_m < k_side.least.value && (bottom || bottom_value == nullptr)) {
    reader.problem(top_value->place, fmt::format("the {}'s top is not at least 1 mm above its bottom", noun),
                   "top and bottom are heights above the floor");
  } else if (room != nullptr && wall_index(*room, rectangle.wall) && from && wall_index(*room, from->wall) && width &&
             top) {
    check_on_wall(place, name, rectangle, *room, reader);
  }
}

std::vector<WallArea> read_wall_areas(const TomlValue& value, const Shape* room, ValueReader& reader) {
  return read_each<WallArea>(value, "wall_areas", "wall areas", k_most_wall_areas, reader,
                             [&](const TomlValue& element, const std::vector<WallArea>& earlier) {
                               return read_wall_area(element, room, earlier, reader);
                             });
}

}  // namespace evenlit
