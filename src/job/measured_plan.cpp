#include "measured_plan.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Diagonal = MeasuredRoom::Diagonal;

/// The same room seen in a mirror, where the other diagonal leads from the southwest.
MeasuredRoom mirrored(MeasuredRoom room) {
  std::swap(room.east_m, room.west_m);
  return room;
}

/// The corner of a triangle that is left of the side from a to b, by its distances from both.
Vector2d third_corner(const Vector2d& a, const Vector2d& b, double from_a_m, double from_b_m) {
  const Vector2d side = b - a;
  const double length = side.norm();
  const double along = (from_a_m * from_a_m - from_b_m * from_b_m + length * length) / (2 * length);
  const double square = std::sqrt(std::max(0.0, from_a_m * from_a_m - along * along));
  return a + (along * side + square * Vector2d(-side.y(), side.x())) / length;
}

/// From a corner of a triangle to the point that parts the side opposite to it into `near_b` and `near_c`; `b` and `c`
/// are the sides that meet at the corner.
double cevian(double b, double c, double near_b, double near_c) {
  const double square = (b * b * near_c + c * c * near_b) / (near_b + near_c) - near_b * near_c;
  return std::sqrt(std::max(0.0, square));
}

}  // namespace

std::optional<std::array<double, 2>> diagonal_range_m(const MeasuredRoom& measured) {
  const MeasuredRoom room = measured.diagonal == Diagonal::southwest_northeast ? measured : mirrored(measured);
  const auto& [south, east, north, west, diagonal, length] = room;
  const double longest = std::max({south, east, north, west});
  if (longest >= south + east + north + west - longest) return std::nullopt;
  const double least =
      south + west <= east + north ? cevian(east, north, south, west) : cevian(south, west, east, north);
  return std::array{least, std::min(south + east, north + west)};
}

Polygon measured_plan(const MeasuredRoom& measured) {
  const bool is_mirrored = measured.diagonal == Diagonal::southeast_northwest;
  const MeasuredRoom room = is_mirrored ? mirrored(measured) : measured;
  const Vector2d southwest(0, 0);
  const Vector2d southeast(room.south_m, 0);
  const Vector2d northeast = third_corner(southwest, southeast, room.diagonal_m, room.east_m);
  const Vector2d northwest = third_corner(southwest, northeast, room.west_m, room.north_m);
  if (!is_mirrored) return {southwest, southeast, northeast, northwest};
  const auto back = [&](const Vector2d& corner) { return Vector2d(room.south_m - corner.x(), corner.y()); };
  return {southwest, southeast, back(northwest), back(northeast)};
}

}  // namespace evenlit
