#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/room/scene.hpp"
#include "evenlit/room/visibility.hpp"

namespace evenlit {

/// What a luminaire sends toward a point that is far against its opening, at its level.
struct OpeningLight {
  double candela = 0;
  double projected_area_m2 = 0;  ///< of the opening as the point sees it; 0 of a point
};

/// @param point_m not the luminaire's own place
OpeningLight light_toward(const Scene& scene, const Luminaire& luminaire, const Eigen::Vector3d& point_m);

/// Sizes along C 0 and C 90. A point or a line counts as a millimetre wide.
Eigen::Vector2d opening_sizes_m(const Opening& opening);

/// A place in the plane of the opening, from its centre along C 0 and C 90, in the room.
Eigen::Vector3d place_on(const Luminaire& luminaire, const Eigen::Vector2d& from_centre_m);

/// The opening's outline in its plane, counter-clockwise: a rectangle, or 64 corners of an ellipse.
Polygon opening_outline(const Opening& opening);

/// Points that stand for equal parts of the opening, in its plane.
std::vector<Eigen::Vector2d> opening_points(const Opening& opening);

/// The share of an opening that an eye sees past walls and boxes.
double seen_share(const Visibility& visibility, const Luminaire& luminaire, const Eigen::Vector3d& eye_m);

}  // namespace evenlit
