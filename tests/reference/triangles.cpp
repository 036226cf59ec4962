#include "triangles.hpp"

#include <Eigen/Geometry>
#include <algorithm>

namespace evenlit::reference {
namespace {

using Eigen::Vector3d;

/// Twice the area of a corner's triangle, negative where the outline turns inwards.
double turn(const Triangle& t, const Vector3d& normal) { return normal.dot((t[1] - t[0]).cross(t[2] - t[0])); }

bool covers(const Triangle& t, const Vector3d& normal, const Vector3d& point) {
  return turn({t[0], t[1], point}, normal) >= 0 && turn({t[1], t[2], point}, normal) >= 0 &&
         turn({t[2], t[0], point}, normal) >= 0;
}

}  // namespace

std::vector<Triangle> triangles(Outline corners, const Vector3d& normal) {
  constexpr double k_straight_m2 = 1e-12;
  std::vector<Triangle> result;
  const auto cut_off = [&](std::size_t i) {
    const std::size_t n = corners.size();
    const Triangle ear{corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]};
    const double area = turn(ear, normal);
    const bool is_straight = std::abs(area) < k_straight_m2;
    const bool is_ear = area > 0 && std::ranges::none_of(corners, [&](const Vector3d& corner) {
                          return std::ranges::find(ear, corner) == ear.end() && covers(ear, normal, corner);
                        });
    if (!is_straight && !is_ear) return false;
    if (!is_straight) result.push_back(ear);
    corners.erase(corners.begin() + static_cast<std::ptrdiff_t>(i));
    return true;
  };
  for (bool found = true; found && corners.size() >= 3;) {
    found = false;
    for (std::size_t i = 0; i < corners.size() && !found; ++i) found = cut_off(i);
  }
  return result;
}

}  // namespace evenlit::reference
