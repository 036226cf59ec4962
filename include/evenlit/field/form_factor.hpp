#pragma once

#include <Eigen/Core>
#include <span>

namespace evenlit {

/// Configuration factor: the illuminance at a point per unit exitance of a diffuse polygon, E = M C. Exact, also where
/// the polygon dips below the point's horizon: that part is cut off.
///
/// @param point   m; not on the polygon
/// @param normal  unit, of the receiving plane
/// @param polygon convex, plane, m; the point sees its corners run counter-clockwise when it sees the front
/// @return 0...1; 0 where the point is behind the polygon
/// @source Lambert, Photometria (1760): sum over the edges of subtended angle x normal component; as catalogue entry
///         B-3/B-4 of Howell, A Catalog of Radiation Heat Transfer Configuration Factors, for rectangles
double configuration_factor(const Eigen::Vector3d& point, const Eigen::Vector3d& normal,
                            std::span<const Eigen::Vector3d> polygon);

/// Exchange area A1 F12 = A2 F21 of two diffuse convex polygons that see each other wholly: the flux from one to the
/// other per unit exitance, m2.
///
/// The double contour integral of ln r: exact between parallel edges, Gauss quadrature between others, parted and
/// crowded where they come near each other. Next to a strip so narrow that its terms nearly cancel (1e-5 of its length)
/// the relative error stays below 1e-3.
///
/// @param first, second counter-clockwise seen from their fronts, m
/// @source Siegel and Howell, Thermal Radiation Heat Transfer, "contour integration"
double exchange_area(std::span<const Eigen::Vector3d> first, std::span<const Eigen::Vector3d> second);

}  // namespace evenlit
