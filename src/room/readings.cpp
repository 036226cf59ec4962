#include "evenlit/room/readings.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "evenlit/base/degrees.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/room/face.hpp"
#include "evenlit/room/first_hit.hpp"
#include "evenlit/room/grid.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// A point on a countertop is not in it.
constexpr double k_rounding_m = 1e-6;

/// What is no farther than this from a face may be meant to lie on it.
constexpr double k_touch_m = 1e-3;

/// The unit vector at `tilt_deg` from straight up.
Vector3d direction_of(double tilt_deg, double toward_deg) {
  const double aside = sine_of_degrees(tilt_deg);
  return {aside * cosine_of_degrees(toward_deg), aside * sine_of_degrees(toward_deg), cosine_of_degrees(tilt_deg)};
}

/// The box that a point lies in, or null.
const Box* box_around(const Scene& scene, const Vector3d& point) {
  const auto found =
      std::ranges::find_if(scene.boxes, [&](const Box& box) { return is_inside(box, point, k_rounding_m); });
  return found == scene.boxes.end() ? nullptr : &*found;
}

/// An area's equal cells in its own frame.
struct AreaGrid {
  FaceFrame frame;
  Vector3d normal;
  Polygon outline;
  Vector2d first;  ///< centre of the cell in row 0, column 0
  Vector2d cell;
  double columns;
  double rows;
};

AreaGrid grid_over(const PlaneCorners& corners, std::optional<double> spacing_m) {
  constexpr double k_fewest = 3;
  const Vector3d normal = vector_area(corners).normalized();
  const FaceFrame frame = frame_of(corners, normal);
  Polygon outline;
  Eigen::AlignedBox2d bounds;
  for (const Vector3d& corner : corners) bounds.extend(outline.emplace_back(frame.flat(corner)));
  const Vector2d size = bounds.sizes();
  const double spacing = spacing_m.value_or(recommended_spacing_m(size.maxCoeff()));
  const auto cells = [&](double length) { return std::max(k_fewest, std::ceil(length / spacing - 1e-9)); };
  const double columns = cells(size.x());
  const double rows = cells(size.y());
  const Vector2d cell(size.x() / columns, size.y() / rows);
  return {frame, normal, std::move(outline), bounds.min() + cell / 2, cell, columns, rows};
}

/// Whether a point is inside the room's walls and in no box.
bool is_in_the_open(const Scene& scene, const Vector3d& point) {
  return is_inside(scene.plan_m, point.head<2>()) && box_around(scene, point) == nullptr;
}

/// The grid's points in the open. What a tape put a touch inside of a wall or a box lies on it: it is moved to before
/// it.
std::vector<Receiver> receivers_on(const AreaGrid& grid, const Scene& scene) {
  std::vector<Receiver> receivers;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const Vector2d flat = grid.first + grid.cell.cwiseProduct(Vector2d(column, row));
      if (!is_inside(grid.outline, flat)) continue;
      Vector3d point = grid.frame.lifted(flat);
      if (!is_in_the_open(scene, point)) point += k_touch_m * grid.normal;
      if (is_in_the_open(scene, point)) receivers.push_back({point, grid.normal});
    }
  }
  return receivers;
}

/// Collects readings and what is wrong with them.
class Asking {
 public:
  Asking(const Job& job, const Scene& scene) : job_(job), scene_(scene) {}

  void add(const TaskArea& area) {
    const AreaGrid grid = grid_over(corners_of(job_.room, area), area.spacing_m);
    if (grid.columns * grid.rows > k_most_receivers) {
      problem(area.origin,
              fmt::format("a grid of {:.0f} x {:.0f} points on task area {} is more than {}", grid.columns, grid.rows,
                          quoted(area.name), k_most_receivers),
              "choose a wider spacing of its grid");
      return;
    }
    const auto receivers = receivers_on(grid, scene_);
    if (receivers.empty()) {
      problem(area.origin, fmt::format("no grid point of task area {} is in the open", quoted(area.name)),
              "choose another place, or a closer spacing");
      return;
    }
    if (std::ranges::all_of(receivers, [&](const Receiver& receiver) { return is_blind(receiver); })) {
      problem(area.origin, fmt::format("task area {} faces into what is behind it", quoted(area.name)),
              "list its corners the other way round: counter-clockwise seen from the side on which light is counted");
      return;
    }
    const auto count = static_cast<Eigen::Index>(receivers.size());
    readings_.task_areas.push_back({.name = area.name,
                                    .area_m2 = signed_area(grid.outline),
                                    .average = append(receivers, Eigen::VectorXd::Constant(count, 1.0 / count)),
                                    .reflectance = {}});
  }

  void add(const NamedPoint& point) {
    const Vector2d plan = *plan_position(job_.room, point);
    const Vector3d at(plan.x(), plan.y(), point.height_m);
    if (const Box* box = box_around(scene_, at)) {
      problem(point.origin, fmt::format("point {} is inside obstruction {}", quoted(point.name), quoted(box->name)),
              "light is read in the open; choose another place or height");
      return;
    }
    std::visit([&](const auto& reads) { read(point, at, reads); }, point.reads);
  }

  Result<Readings> finished() {
    const auto count = readings_.receivers.size();
    if (count > k_most_receivers) {
      const Origin& any = job_.task_areas.empty() ? job_.points.front().origin : job_.task_areas.front().origin;
      problem({whole_file(any.place.file)},
              fmt::format("the task areas and points of the job count light at {} places, more than {}", count,
                          k_most_receivers),
              fmt::format("choose wider spacings of the task areas' grids, or fewer areas and points; a point that "
                          "faces around takes {}",
                          k_cylinder_facets));
    }
    if (!problems_.empty()) return tl::unexpected(std::move(problems_));
    return std::move(readings_);
  }

 private:
  void read(const NamedPoint& point, const Vector3d& at, const Facing& facing) {
    readings_.points.push_back(
        {.name = point.name,
         .quantity = Quantity::illuminance,
         .value = append({{at, direction_of(facing.tilt_deg, facing.toward_deg)}}, Eigen::VectorXd::Ones(1)),
         .surface = {},
         .relative_error = 0});
  }

  void read(const NamedPoint& point, const Vector3d& at, const Around&) {
    std::vector<Receiver> facets;
    for (int i = 0; i < k_cylinder_facets; ++i) facets.push_back({at, direction_of(90, 360.0 * i / k_cylinder_facets)});
    readings_.points.push_back(
        {.name = point.name,
         .quantity = Quantity::cylindrical_illuminance,
         .value = append(facets, Eigen::VectorXd::Constant(k_cylinder_facets, 1.0 / k_cylinder_facets)),
         .surface = {},
         .relative_error = k_cylinder_error});
  }

  void read(const NamedPoint& point, const Vector3d& at, const Looking& looking) {
    const auto seen = first_hit(scene_, at, direction_of(90 - looking.tilt_deg, looking.toward_deg));
    if (!seen) {
      problem(point.origin, fmt::format("nothing is seen from point {} in that direction", quoted(point.name)),
              "look a little aside of where surfaces meet");
      return;
    }
    const Surface& surface = scene_.surfaces[seen->surface];
    readings_.points.push_back({.name = point.name,
                                .quantity = Quantity::luminance,
                                .value = append({{seen->position_m, surface.normal}},
                                                Eigen::VectorXd::Constant(1, surface.reflectance / std::numbers::pi)),
                                .surface = surface.name,
                                .relative_error = 0});
  }

  /// Whether a wall, the floor, the ceiling or a box is right before the receiver.
  bool is_blind(const Receiver& receiver) const {
    const Vector3d ahead = receiver.position_m + k_touch_m * receiver.normal;
    return !is_in_the_open(scene_, ahead) || ahead.z() < 0 || ahead.z() > scene_.ceiling.height_m(ahead.head<2>());
  }

  Reading append(const std::vector<Receiver>& receivers, Eigen::VectorXd weights) {
    const int first = static_cast<int>(readings_.receivers.size());
    readings_.receivers.insert(readings_.receivers.end(), receivers.begin(), receivers.end());
    return {first, std::move(weights)};
  }

  void problem(const Origin& origin, std::string what, std::string hint) {
    problems_.push_back({origin.place, std::move(what), std::move(hint)});
  }

  const Job& job_;
  const Scene& scene_;
  Readings readings_;
  Problems problems_;
};

}  // namespace

Result<Readings> readings_of(const Job& job, const Scene& scene) {
  Asking asking(job, scene);
  for (const TaskArea& area : job.task_areas) asking.add(area);
  for (const NamedPoint& point : job.points) asking.add(point);
  return asking.finished();
}

}  // namespace evenlit
