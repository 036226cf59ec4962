#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>

#include "evenlit/base/names.hpp"
#include "evenlit/job/ceiling.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

constexpr std::size_t k_most_areas = 500;
constexpr std::size_t k_most_corners = 500;
constexpr double k_slack_m = 0.001;  // of what a tape and a level find straight
constexpr std::string_view k_corner_example =
    R"(write how far east and how far north it is, like ["12ft", "3ft 6in"], or how far east, north and up)";

/// Whether corners enclose a plane, simple area; reports why they do not.
bool is_plane_area(const PlaneCorners& corners, const Place& place, Units units, ValueReader& reader) {
  const Vector3d area = vector_area(corners);
  constexpr double k_least_m2 = 1e-6;
  if (area.norm() < k_least_m2) {
    reader.problem(place, "the task area's corners enclose nothing",
                   "list them in the order in which you pass them going round its edge");
    return false;
  }
  const Vector3d normal = area.normalized();
  Vector3d centre = Vector3d::Zero();
  for (const Vector3d& corner : corners) centre += corner / static_cast<double>(corners.size());
  double off_m = 0;
  for (const Vector3d& corner : corners) off_m = std::max(off_m, std::abs(normal.dot(corner - centre)));
  if (off_m > k_slack_m) {
    reader.problem(place,
                   fmt::format("a corner of the task area is {} off the plane of the others",
                               units == Units::imperial ? feet_inches(off_m, 32) : metric_length(off_m)),
                   "all corners lie in one plane, within 1 mm; divide a bent area into plane ones");
    return false;
  }
  const Vector3d u = normal.unitOrthogonal();
  const Vector3d v = normal.cross(u);
  Polygon flat;
  for (const Vector3d& corner : corners) flat.emplace_back(u.dot(corner), v.dot(corner));
  if (const auto crossing = crossing_edges(flat)) {
    const auto& [a, b] = *crossing;
    reader.problem(place, fmt::format("edges {} and {} of the task area cross or touch", a + 1, b + 1),
                   "list the corners in the order in which you pass them going round its edge; edge 1 runs from the "
                   "first to the second");
    return false;
  }
  return true;
}

/// Corners without heights lie at `height_m` and are counted from above, whichever way round they run.
std::optional<PlaneCorners> read_corners(const TomlValue& value, const TomlValue* height_value, double height_m,
                                         Units units, ValueReader& reader) {
  const auto* list =
      reader.array(&value, "corners", R"(write a list of corners like [[0, 0], ["4ft", 0], [0, "2ft"]])");
  if (list == nullptr) return std::nullopt;
  if (list->size() < 3 || list->size() > k_most_corners) {
    reader.problem(value.place, fmt::format("a task area of {} corners", list->size()),
                   fmt::format("a task area has 3 to {} corners", k_most_corners));
    return std::nullopt;
  }
  PlaneCorners corners;
  std::size_t with_height = 0;
  for (const auto& element : *list) {
    const auto lengths = read_corner_lengths(element, reader);
    if (lengths.empty()) continue;
    corners.emplace_back(lengths[0], lengths[1], lengths.size() == 3 ? lengths[2] : height_m);
    if (lengths.size() == 3) ++with_height;
  }
  if (corners.size() < list->size()) return std::nullopt;
  if (with_height > 0 && with_height < corners.size()) {
    reader.problem(value.place, "some corners of the task area have a height, some have none",
                   "write all of them as [east, north], or all as [east, north, up]");
    return std::nullopt;
  }
  if (with_height > 0 && height_value != nullptr) {
    reader.problem(height_value->place, "the task area has a height, and so have its corners", "leave one of them out");
    return std::nullopt;
  }
  if (!is_plane_area(corners, value.place, units, reader)) return std::nullopt;
  if (with_height == 0 && vector_area(corners).z() < 0) std::reverse(corners.begin() + 1, corners.end());
  return corners;
}

TaskArea read_task_area(const TomlValue& value, const Shape* room, const std::vector<TaskArea>& earlier,
                        double usual_height_m, Units units, ValueReader& reader) {
  Fields fields(value, "a task area in [[task_areas]]", reader);
  TaskArea area;
  area.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "desk")");
  if (const auto name = reader.text(name_value, "task area name")) {
    area.name = *name;
    check_name(*name_value, "task area", *name, earlier, reader);
  }
  const auto* height_value = fields.find("height");
  const double height_m = reader.length_m(height_value, "task area height", k_distance).value_or(usual_height_m);
  area.spacing_m = reader.length_m(fields.find("spacing"), "task area spacing", k_side);
  area.target_lx = reader.illuminance_lx(fields.find("target"), "task area target", k_target);

  bool is_whole = false;
  const auto* corners_value = fields.find("corners");
  if (corners_value != nullptr) {
    for (const auto* key : {"from", "width", "depth", "turn"}) {
      const auto* of_rectangle = fields.find(key);
      if (of_rectangle == nullptr) continue;
      reader.problem(of_rectangle->place, fmt::format("the task area has both corners and {}", key),
                     "give from, width and depth for a level rectangle, corners for any other plane area");
    }
    if (auto corners = read_corners(*corners_value, height_value, height_m, units, reader)) {
      area.shape = std::move(*corners);
      is_whole = true;
    }
  } else {
    LevelRectangle rectangle;
    is_whole = read_rectangle(fields, "task area", room, units, rectangle, reader);
    rectangle.turn_deg = reader.number(fields.find("turn"), "task area turn", k_turn).value_or(0);
    rectangle.height_m = height_m;
    const auto centre = is_whole && room != nullptr ? plan_centre(*room, rectangle) : std::nullopt;
    is_whole = centre && is_inside(room->corners_m, *centre);
    area.shape = std::move(rectangle);
  }
  if (is_whole && room != nullptr)
    check_in_room(corners_of(*room, area), "task area", value.place, *room, units, reader);
  fields.refuse_other_keys();
  return area;
}

}  // namespace

std::vector<double> read_corner_lengths(const TomlValue& value, ValueReader& reader) {
  const auto* list = reader.array(&value, "a corner", k_corner_example);
  if (list == nullptr) return {};
  if (list->size() != 2 && list->size() != 3) {
    reader.problem(value.place, fmt::format("a corner of {} lengths, not of 2 or 3", list->size()),
                   std::string(k_corner_example));
    return {};
  }
  std::vector<double> lengths;
  for (std::size_t i = 0; i < list->size(); ++i) {
    const auto length = reader.length_m(&list->at(i), "corner", i < 2 ? k_coordinate : k_distance);
    if (length) lengths.push_back(*length);
  }
  return lengths.size() == list->size() ? lengths : std::vector<double>{};
}

void check_in_room(const PlaneCorners& corners, std::string_view noun, const Place& place, const Shape& room,
                   Units units, ValueReader& reader) {
  double beyond_m = 0;
  for (const Vector3d& corner : corners) {
    const Eigen::Vector2d plan = corner.head<2>();
    if (!is_inside(room.corners_m, plan)) beyond_m = std::max(beyond_m, distance_to_outline(room.corners_m, plan));
  }
  if (beyond_m > k_slack_m) {
    reader.problem(place, fmt::format("the {} reaches {} outside the room", noun, length_text(beyond_m, units)),
                   "all of it is inside of the walls");
  }
  const Ceiling ceiling = ceiling_of(room);
  const auto above_ceiling_m = [&](const Vector3d& corner) { return corner.z() - ceiling.height_m(corner.head<2>()); };
  const Vector3d highest = *std::ranges::max_element(corners, {}, above_ceiling_m);
  if (above_ceiling_m(highest) > k_slack_m) {
    check_below_ceiling(place, noun, highest.z(), ceiling.height_m(highest.head<2>()), units, reader);
  }
}

std::vector<TaskArea> read_task_areas(const TomlValue& value, const Shape* room, double usual_height_m, Units units,
                                      ValueReader& reader) {
  std::vector<TaskArea> areas;
  const auto* list = reader.array(&value, "task_areas", "write its header in double brackets: [[task_areas]]");
  if (list == nullptr) return areas;
  if (list->size() > k_most_areas) {
    reader.problem(value.place, fmt::format("the job has {} task areas", list->size()),
                   fmt::format("a job has at most {} task areas", k_most_areas));
    return areas;
  }
  for (const auto& element : *list) {
    areas.push_back(read_task_area(element, room, areas, usual_height_m, units, reader));
  }
  return areas;
}

}  // namespace evenlit
