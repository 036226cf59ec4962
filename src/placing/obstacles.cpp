#include "evenlit/placing/obstacles.hpp"

#include "convex.hpp"
#include "evenlit/job/ceiling.hpp"

namespace evenlit {
namespace {

using Kind = Obstacle::Kind;

void add_keep_out(std::vector<Obstacle>& obstacles, const Shape& room, const KeepOut& keep_out) {
  const auto add = [&](Polygon corners, double radius_m) {
    obstacles.push_back(
        {Kind::keep_out, keep_out.name, RoundedHull(std::move(corners), radius_m), keep_out.clearance_m});
  };
  if (const auto* circle = std::get_if<TapedCircle>(&keep_out.shape)) {
    add({plan_position(room, circle->from).value()}, circle->diameter_m / 2);
  } else if (const auto* rectangle = std::get_if<TapedRectangle>(&keep_out.shape)) {
    add(corners_of(room, *rectangle), 0);
  } else {
    for (Polygon& piece : convex_pieces(std::get<Polygon>(keep_out.shape))) add(std::move(piece), 0);
  }
}

bool reaches_ceiling(const Obstruction& box, const Shape& room, const Ceiling& ceiling) {
  constexpr double k_rounding_m = 1e-6;
  return box.top_m >= ceiling.height_m(plan_centre(room, box).value()) - k_rounding_m;
}

}  // namespace

std::vector<Obstacle> fixed_obstacles(const Job& job, const Framing& framing) {
  std::vector<Obstacle> obstacles;
  for (const Strip& strip : framing.strips) {
    obstacles.push_back({Kind::framing, strip.name, RoundedHull(strip.corners_m, 0)});
  }
  for (const KeepOut& keep_out : job.keep_outs) add_keep_out(obstacles, job.room, keep_out);
  const Polygon& plan = job.room.corners_m;
  for (std::size_t i = 0; i < plan.size(); ++i) {
    obstacles.push_back({Kind::wall, job.room.wall_names[i], RoundedHull({plan[i], plan[(i + 1) % plan.size()]}, 0)});
  }
  const Ceiling ceiling = ceiling_of(job.room);
  for (const Obstruction& box : job.obstructions) {
    if (!reaches_ceiling(box, job.room, ceiling)) continue;
    obstacles.push_back({Kind::box, box.name, RoundedHull(corners_of(job.room, box), 0)});
  }
  return obstacles;
}

std::vector<Obstacle> obstacles_of(const CanType& type, const std::string& name, const Eigen::Vector2d& centre_m,
                                   const Eigen::Vector2d& along) {
  std::vector<Obstacle> obstacles{{Kind::can, name, RoundedHull({centre_m}, type.hole_m.value() / 2)}};
  if (type.housing) {
    obstacles.push_back({Kind::can, name, RoundedHull(housing_corners(*type.housing, centre_m, along), 0)});
  }
  return obstacles;
}

Polygon housing_corners(const Housing& housing, const Eigen::Vector2d& centre_m, const Eigen::Vector2d& along) {
  const Eigen::Vector2d u = housing.length_m / 2 * along;
  const Eigen::Vector2d v = housing.width_m / 2 * left_of(along);
  return {centre_m - u - v, centre_m + u - v, centre_m + u + v, centre_m - u + v};
}

}  // namespace evenlit
