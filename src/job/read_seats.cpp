#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/job/ceiling.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

constexpr std::size_t k_most_seats = 100;
constexpr std::size_t k_most_screens = 100;
constexpr Range k_tilt_from_level{{.value = -90, .text = "-90"}, {.value = 90, .text = "90"}};
constexpr std::string_view k_looking_example = "write looking = { toward = 90, tilt = -10 }";
constexpr std::string_view k_corners_example =
    "list the four corners of a rectangle, each [east, north, up], counter-clockwise seen from the side that mirrors";

Seat read_seat(const TomlValue& value, const Shape* room, Units units, const std::vector<Seat>& earlier,
               ValueReader& reader) {
  Fields fields(value, "a seat in [[seats]]", reader);
  Seat seat;
  seat.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "sofa")");
  if (const auto name = reader.text(name_value, "seat name")) {
    seat.name = *name;
    check_name(*name_value, "seat", *name, earlier, reader);
  }
  read_spot(fields, "seat", R"(add a line like height = "44in": of the eyes above the floor)", room, units, seat.from,
            seat.height_m, reader);
  if (const auto* looking = fields.require("looking", k_looking_example)) seat.looking = read_looking(*looking, reader);
  fields.refuse_other_keys();
  return seat;
}

/// Four corners are those of a rectangle when its diagonals halve each other and are equal, as a tape tells.
bool is_rectangle(const PlaneCorners& corners) {
  constexpr double k_slack_m = 0.001;
  const Vector3d first = corners[2] - corners[0];
  const Vector3d second = corners[3] - corners[1];
  const Vector3d between_middles = (corners[0] + corners[2] - corners[1] - corners[3]) / 2;
  const double area_m2 = first.cross(second).norm() / 2;
  constexpr double k_least_m2 = 1e-6;  // 1 mm x 1 mm
  return between_middles.norm() <= k_slack_m && std::abs(first.norm() - second.norm()) <= k_slack_m &&
         area_m2 >= k_least_m2;
}

std::optional<PlaneCorners> read_rectangle_corners(const TomlValue& value, ValueReader& reader) {
  const auto* list = reader.array(&value, "corners", k_corners_example);
  if (list == nullptr) return std::nullopt;
  PlaneCorners corners;
  bool is_read = true;
  for (const auto& element : *list) {
    const auto lengths = read_corner_lengths(element, reader);
    is_read = is_read && !lengths.empty();
    if (lengths.size() == 3) corners.emplace_back(lengths[0], lengths[1], lengths[2]);
  }
  if (!is_read) return std::nullopt;
  if (list->size() == 4 && corners.size() == 4 && is_rectangle(corners)) return corners;
  reader.problem(value.place, "the screen's corners are not those of a rectangle", std::string(k_corners_example));
  return std::nullopt;
}

Screen read_screen(const TomlValue& value, const Shape* room, Units units, const std::vector<Screen>& earlier,
                   ValueReader& reader) {
  Fields fields(value, "a screen in [[screens]]", reader);
  Screen screen;
  screen.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "television")");
  if (const auto name = reader.text(name_value, "screen name")) {
    screen.name = *name;
    check_name(*name_value, "screen", *name, earlier, reader);
  }
  const auto* corners_value = fields.find("corners");
  if (corners_value == nullptr) {
    WallRectangle rectangle;
    read_wall_rectangle(fields, value.place, "screen", screen.name, room, rectangle, reader);
    screen.shape = std::move(rectangle);
  } else {
    for (const auto* key : {"wall", "from", "width", "bottom", "top"}) {
      const auto* on_wall = fields.find(key);
      if (on_wall == nullptr) continue;
      reader.problem(on_wall->place, fmt::format("the screen has both corners and {}", key),
                     "give wall, from, width, bottom and top for a screen on a wall, corners for any other");
    }
    if (auto corners = read_rectangle_corners(*corners_value, reader)) {
      if (room != nullptr) check_in_room(*corners, "screen", corners_value->place, *room, units, reader);
      screen.shape = std::move(*corners);
    }
  }
  fields.refuse_other_keys();
  return screen;
}

}  // namespace

Looking read_looking(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "looking", reader);
  Looking looking;
  looking.toward_deg = reader.number(fields.require("toward", k_looking_example), "looking toward", k_turn).value_or(0);
  looking.tilt_deg = reader.number(fields.find("tilt"), "looking tilt", k_tilt_from_level).value_or(0);
  fields.refuse_other_keys();
  return looking;
}

void read_spot(Fields& fields, std::string_view noun, std::string_view height_example, const Shape* room, Units units,
               Taped (&from)[2], double& height_m, ValueReader& reader) {
  const auto* from_value = fields.require("from", k_from_example);
  std::optional<Eigen::Vector2d> plan;
  if (from_value != nullptr && read_from(*from_value, noun, room, from, reader) && room != nullptr) {
    plan = plan_position(*room, from);
    check_centre(*from_value, noun, plan, *room, units, reader);
  }
  const auto* height_value = height_example.empty() ? fields.find("height") : fields.require("height", height_example);
  height_m = reader.length_m(height_value, fmt::format("{} height", noun), k_distance).value_or(height_m);
  if (plan) {
    const Place& place = height_value != nullptr ? height_value->place : from_value->place;
    check_below_ceiling(place, noun, height_m, ceiling_of(*room).height_m(*plan), units, reader);
  }
}

std::vector<Seat> read_seats(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  return read_each<Seat>(value, "seats", "seats", k_most_seats, reader,
                         [&](const TomlValue& element, const std::vector<Seat>& earlier) {
                           return read_seat(element, room, units, earlier, reader);
                         });
}

std::vector<Screen> read_screens(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  return read_each<Screen>(value, "screens", "screens", k_most_screens, reader,
                           [&](const TomlValue& element, const std::vector<Screen>& earlier) {
                             return read_screen(element, room, units, earlier, reader);
                           });
}

}  // namespace evenlit
