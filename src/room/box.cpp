#include "evenlit/room/box.hpp"

#include <cmath>

namespace evenlit {
namespace {

Eigen::Vector2d across(const Box& box) { return {-box.along.y(), box.along.x()}; }

}  // namespace

Eigen::Vector3d half_extent(const Box& box) { return {box.half_m.x(), box.half_m.y(), (box.top_m - box.bottom_m) / 2}; }

Eigen::Vector3d in_box_frame(const Box& box, const Eigen::Vector3d& point) {
  const Eigen::Vector2d from_centre = point.head<2>() - box.centre_m;
  return {from_centre.dot(box.along), from_centre.dot(across(box)), point.z() - (box.bottom_m + box.top_m) / 2};
}

bool is_inside(const Box& box, const Eigen::Vector3d& point, double depth_m) {
  return (in_box_frame(box, point).array().abs() < half_extent(box).array() - depth_m).all();
}

bool is_crossed(const Box& box, const Eigen::Vector3d& from, const Eigen::Vector3d& to, double depth_m) {
  const Eigen::Array3d half = half_extent(box).array() - depth_m;
  const Eigen::Array3d a = in_box_frame(box, from);
  const Eigen::Array3d b = in_box_frame(box, to);
  // Apart when a plane square to an axis of the box, or to an axis and the segment, has one on each side.
  const Eigen::Array3d middle = (a + b) / 2;
  const Eigen::Array3d reach = (b - a) / 2;
  const Eigen::Array3d size = reach.abs();
  if ((half <= 0).any() || (middle.abs() >= half + size).any()) return false;
  const auto is_apart = [&](int i, int j) {
    return std::abs(middle[i] * reach[j] - middle[j] * reach[i]) >= half[i] * size[j] + half[j] * size[i];
  };
  return !((is_apart(1, 2) && size[1] + size[2] > 0) || (is_apart(2, 0) && size[2] + size[0] > 0) ||
           (is_apart(0, 1) && size[0] + size[1] > 0));
}

std::array<BoxFace, 6> faces_of(const Box& box) {
  const auto corner = [&](int along, int aside, int up) {
    const Eigen::Vector2d plan =
        box.centre_m + along * box.half_m.x() * box.along + aside * box.half_m.y() * across(box);
    return Eigen::Vector3d(plan.x(), plan.y(), up > 0 ? box.top_m : box.bottom_m);
  };
  const auto lifted = [](const Eigen::Vector2d& direction) { return Eigen::Vector3d(direction.x(), direction.y(), 0); };
  const Eigen::Vector3d u = lifted(box.along);
  const Eigen::Vector3d v = lifted(across(box));
  return {{{{corner(-1, -1, -1), corner(-1, 1, -1), corner(1, 1, -1), corner(1, -1, -1)}, -Eigen::Vector3d::UnitZ()},
           {{corner(-1, -1, 1), corner(1, -1, 1), corner(1, 1, 1), corner(-1, 1, 1)}, Eigen::Vector3d::UnitZ()},
           {{corner(1, -1, -1), corner(1, 1, -1), corner(1, 1, 1), corner(1, -1, 1)}, u},
           {{corner(1, 1, -1), corner(-1, 1, -1), corner(-1, 1, 1), corner(1, 1, 1)}, v},
           {{corner(-1, 1, -1), corner(-1, -1, -1), corner(-1, -1, 1), corner(-1, 1, 1)}, -u},
           {{corner(-1, -1, -1), corner(1, -1, -1), corner(1, -1, 1), corner(-1, -1, 1)}, -v}}};
}

}  // namespace evenlit
