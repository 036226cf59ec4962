#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/names.hpp"
#include "evenlit/job/ceiling.hpp"
#include "rectangle.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

/// "wall 1" runs from the first corner to the second.
std::vector<std::string> numbered_wall_names(std::size_t count) {
  std::vector<std::string> names;
  for (std::size_t i = 1; i <= count; ++i) names.push_back(fmt::format("wall {}", i));
  return names;
}

std::optional<std::vector<std::string>> read_wall_names(const TomlValue& value, std::size_t walls,
                                                        ValueReader& reader) {
  const auto* list = reader.array(&value, "walls", R"(write a list of names like ["south", "east", "slant"])");
  if (list == nullptr) return std::nullopt;
  if (list->size() != walls) {
    reader.problem(value.place, fmt::format("{} wall names for {} walls", list->size(), walls),
                   "name each wall, in the order of the corners: the first runs from the first corner to the second");
    return std::nullopt;
  }
  std::vector<std::string> names;
  for (const auto& element : *list) {
    const auto name = reader.text(&element, "wall name");
    if (!name) continue;
    if (std::find(names.begin(), names.end(), *name) != names.end()) {
      reader.problem(element.place, fmt::format("two walls are named {}", quoted(*name)),
                     "give each wall its own name");
      continue;
    }
    names.push_back(*name);
  }
  if (names.size() < walls) return std::nullopt;
  return names;
}

/// Whether the corners, in the order of the file, make a plan; reports why they do not.
bool is_plan(const Polygon& corners, const std::vector<std::string>& walls, const Place& place, ValueReader& reader) {
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const auto next = (i + 1) % corners.size();
    if ((corners[next] - corners[i]).norm() >= k_room_side.least.value) continue;
    reader.problem(place, fmt::format("corners {} and {} are less than 1 cm apart", i + 1, next + 1),
                   "leave one of them out; the last corner joins the first by itself");
    return false;
  }
  if (const auto crossing = crossing_edges(corners)) {
    const auto& [a, b] = *crossing;
    reader.problem(place,
                   fmt::format("walls {} and {} cross or touch", quoted(walls[static_cast<std::size_t>(a)]),
                               quoted(walls[static_cast<std::size_t>(b)])),
                   "list the corners in the order in which you pass them walking along the walls");
    return false;
  }
  constexpr double k_least_m2 = 1e-4 * (1 - 1e-9);
  if (std::abs(signed_area(corners)) < k_least_m2) {
    reader.problem(place, "the plan encloses less than 1 cm2", "its corners are almost on one line: check them");
    return false;
  }
  return true;
}

/// The same walls, the inside on their left; the first corner stays the first.
void turn_counter_clockwise(Shape& shape) {
  if (signed_area(shape.corners_m) > 0) return;
  std::reverse(shape.corners_m.begin() + 1, shape.corners_m.end());
  std::reverse(shape.wall_names.begin(), shape.wall_names.end());
}

/// Fills in the corners and wall names of a plan given by its corners.
bool read_polygon(const TomlValue& corners_value, const TomlValue* walls_value, Shape& shape, ValueReader& reader) {
  const auto corners = read_corners(corners_value, "plan", reader);
  if (!corners) return false;
  auto names = walls_value != nullptr ? read_wall_names(*walls_value, corners->size(), reader)
                                      : numbered_wall_names(corners->size());
  if (!names || !is_plan(*corners, *names, corners_value.place, reader)) return false;
  shape.corners_m = *corners;
  shape.wall_names = std::move(*names);
  turn_counter_clockwise(shape);
  return true;
}

/// Reports what describes the plan a second time.
void refuse_keys(Fields& fields, std::string_view given, std::initializer_list<const char*> keys, ValueReader& reader) {
  for (const auto* key : keys) {
    const auto* other = fields.find(key);
    if (other == nullptr) continue;
    reader.problem(
        other->place, fmt::format("[room] has both {} and {}", given, key),
        "give width and depth for a rectangle, sides and a diagonal for four walls out of square, corners for "
        "any other plan");
  }
}

void refuse_names_of_four(const TomlValue* walls, ValueReader& reader) {
  if (walls == nullptr) return;
  reader.problem(walls->place, "[room] names the walls of a rectangle",
                 "leave that out, they are south, east, north and west; or give corners");
}

/// Fills in the corners and wall names of a room by its width and depth.
bool read_rectangle_plan(Fields& fields, Shape& shape, ValueReader& reader) {
  const auto width =
      reader.length_m(fields.require("width", R"(add a line like width = "18ft 2in")"), "room width", k_room_side);
  const auto depth =
      reader.length_m(fields.require("depth", R"(add a line like depth = "13ft")"), "room depth", k_room_side);
  if (!width || !depth) return false;
  shape.corners_m = rectangle_plan(*width, *depth);
  shape.wall_names = rectangle_wall_names();
  return true;
}

/// Fills in the corners and wall names of a room by its sides and a diagonal.
bool read_measured_plan(const TomlValue& sides, const TomlValue* diagonal, Shape& shape, Units units,
                        ValueReader& reader) {
  auto plan = read_measured_room(sides, diagonal, units, reader);
  if (!plan || !is_plan(*plan, rectangle_wall_names(), sides.place, reader)) return false;
  shape.corners_m = std::move(*plan);
  shape.wall_names = rectangle_wall_names();
  return true;
}

/// Fills in the corners and wall names, whichever way they are given.
bool read_plan(Fields& fields, Shape& shape, Units units, ValueReader& reader) {
  const auto* corners = fields.find("corners");
  const auto* sides = fields.find("sides");
  const auto* walls = fields.find("walls");
  const auto* diagonal = fields.find("diagonal");
  if (corners != nullptr) {
    refuse_keys(fields, "corners", {"width", "depth", "sides", "diagonal"}, reader);
    return read_polygon(*corners, walls, shape, reader);
  }
  refuse_names_of_four(walls, reader);
  if (sides == nullptr) {
    if (diagonal != nullptr) {
      reader.problem(diagonal->place, "[room] has a diagonal and no sides",
                     "give the four sides too, or leave the diagonal out");
    }
    return read_rectangle_plan(fields, shape, reader);
  }
  refuse_keys(fields, "sides", {"width", "depth"}, reader);
  return read_measured_plan(*sides, diagonal, shape, units, reader);
}

/// Whether a ceiling with slopes is over the floor everywhere and within measure; reports why it is not.
bool is_ceiling(const Shape& shape, const Place& place, ValueReader& reader) {
  const Ceiling ceiling = ceiling_of(shape);
  constexpr double k_rounding_m = 1e-9;
  if (ceiling.lowest_m < k_room_side.least.value - k_rounding_m) {
    reader.problem(place, "the ceiling comes down to less than 1 cm above the floor",
                   "raise the slopes; a plane goes on beyond the line of its wall, where the plan does");
    return false;
  }
  if (ceiling.highest_m > k_room_side.most.value) {
    reader.problem(place, "the ceiling rises to more than 1 km above the floor",
                   R"(flatten the slopes, or add a level part like ceiling = "10ft")");
    return false;
  }
  return true;
}

}  // namespace

std::optional<Shape> read_shape(const TomlValue& value, Units units, ValueReader& reader) {
  Fields fields(value, "[room]", reader);
  Shape shape;
  shape.name = reader.text(fields.find("name"), "room name").value_or("Room");
  const auto* slopes = fields.find("slopes");
  const auto* ceiling =
      slopes != nullptr ? fields.find("ceiling") : fields.require("ceiling", R"(add a line like ceiling = "8ft")");
  shape.ceiling_m = reader.length_m(ceiling, "ceiling height", k_room_side);
  const bool has_plan = read_plan(fields, shape, units, reader);
  fields.refuse_other_keys();
  if (!has_plan) return std::nullopt;
  const bool is_level_known = ceiling == nullptr || shape.ceiling_m;
  if (slopes == nullptr) return shape.ceiling_m ? std::optional(shape) : std::nullopt;
  auto read = read_slopes(*slopes, shape, reader);
  if (!read || !is_level_known) return std::nullopt;
  shape.slopes = std::move(*read);
  return is_ceiling(shape, slopes->place, reader) ? std::optional(shape) : std::nullopt;
}

void check_wall_name(const Shape& room, std::string_view name, const Place& place, ValueReader& reader) {
  if (wall_index(room, name)) return;
  reader.unknown_name(place, fmt::format("the room has no wall {}", quoted(name)), name,
                      {room.wall_names.begin(), room.wall_names.end()});
}

}  // namespace evenlit
