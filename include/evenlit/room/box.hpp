#pragma once

#include <Eigen/Core>
#include <array>
#include <string>
#include <vector>

namespace evenlit {

/// A box turned about the vertical that blocks and reflects light: furniture, a cabinet, an island, a beam, a soffit.
struct Box {
  std::string name;
  Eigen::Vector2d centre_m;                          ///< on the plan
  Eigen::Vector2d half_m;                            ///< half its sizes along its own axes
  Eigen::Vector2d along = Eigen::Vector2d::UnitX();  ///< its first axis on the plan, unit
  double bottom_m = 0;                               ///< above the floor
  double top_m = 0;
  double reflectance = 0.5;
  Eigen::Vector3d tint = Eigen::Vector3d::Ones();  ///< of all its faces, as `Surface::tint`
};

/// A point as the box sees it: from its centre, along its axes.
Eigen::Vector3d in_box_frame(const Box& box, const Eigen::Vector3d& point);

/// From the box's centre to its upper corner along its axes.
Eigen::Vector3d half_extent(const Box& box);

/// Whether a point is inside the box by more than `depth_m`.
bool is_inside(const Box& box, const Eigen::Vector3d& point, double depth_m = 0);

/// Whether the segment between two points runs through the box deeper than `depth_m`; with a negative depth, whether it
/// comes nearer than that (in the box's own axes).
///
/// @source separating axes of a segment and a box: S. Gottschalk, M. C. Lin, D. Manocha, "OBBTree", SIGGRAPH '96
bool is_crossed(const Box& box, const Eigen::Vector3d& from, const Eigen::Vector3d& to, double depth_m);

/// A face of a box, corners counter-clockwise seen from outside.
struct BoxFace {
  std::array<Eigen::Vector3d, 4> corners_m;
  Eigen::Vector3d normal;  ///< unit, outward
};

/// Bottom, top, and the four sides.
std::array<BoxFace, 6> faces_of(const Box& box);

}  // namespace evenlit
