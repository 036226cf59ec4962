#include "evenlit/job/mounting.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evenlit {
namespace {

constexpr double k_degrees = 180 / std::numbers::pi;

constexpr double k_rounding_m = 1e-6;

bool is_at_height_of(const Obstruction& box, double height_m, double ceiling_m) {
  const bool reaches_ceiling = box.top_m >= ceiling_m - k_rounding_m;
  return height_m > box.bottom_m + k_rounding_m && (reaches_ceiling || height_m < box.top_m - k_rounding_m);
}

bool is_around(const Obstruction& box, const Shape& room, const Eigen::Vector2d& plan_m) {
  const auto centre = plan_centre(room, box);
  if (!centre) return false;
  const Eigen::Vector2d along(std::cos(box.turn_deg / k_degrees), std::sin(box.turn_deg / k_degrees));
  const Eigen::Vector2d across(-along.y(), along.x());
  const Eigen::Vector2d from_centre = plan_m - *centre;
  return std::abs(from_centre.dot(along)) < box.width_m / 2 - k_rounding_m &&
         std::abs(from_centre.dot(across)) < box.depth_m / 2 - k_rounding_m;
}

}  // namespace

std::optional<Mounting> mounting(const Shape& room, const Ceiling& ceiling, const Can& can) {
  const auto plan = plan_position(room, can);
  if (!plan) return std::nullopt;
  const double height_m = can.height_m.value_or(ceiling.height_m(*plan) - can.drop_m.value_or(0));
  Mounting mounting{{plan->x(), plan->y(), height_m}, can.tilt_deg, can.toward_deg};
  if (can.is_square) {
    const Eigen::Vector2d rise = ceiling.planes[ceiling.plane_over(*plan)].rise;
    mounting.tilt_deg = std::atan(rise.norm()) * k_degrees;
    mounting.toward_deg = std::atan2(rise.y(), rise.x()) * k_degrees;
  }
  return mounting;
}

const Obstruction* obstruction_around(const std::vector<Obstruction>& obstructions, const Shape& room,
                                      const Ceiling& ceiling, const Eigen::Vector3d& point_m) {
  const Eigen::Vector2d plan_m = point_m.head<2>();
  const double ceiling_m = ceiling.height_m(plan_m);
  const auto found = std::ranges::find_if(obstructions, [&](const Obstruction& box) {
    return is_at_height_of(box, point_m.z(), ceiling_m) && is_around(box, room, plan_m);
  });
  return found == obstructions.end() ? nullptr : &*found;
}

}  // namespace evenlit
