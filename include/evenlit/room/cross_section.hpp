#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/receiver.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// What a section cuts of a box: convex, counter-clockwise.
struct SectionBox {
  std::string name;
  Polygon outline_m;
};

/// A luminaire whose centre is in the plane of a section.
struct SectionLuminaire {
  int luminaire = 0;  ///< index
  Eigen::Vector2d at_m;
};

/// The part of a section that a luminaire sees between two directions.
struct SectionCone {
  double angle_deg = 0;  ///< between the directions
  Polygon outline_m;     ///< from the luminaire around; ends where the room or a box does
};

/// An upright section through one luminaire, square to the wall that is nearest to it, from that wall to the next one
/// opposite. Coordinates: x from the wall at the left, y above the floor. Left is west, or south in a section that runs
/// due north.
struct CrossSection {
  int through = 0;          ///< luminaire
  Eigen::Vector2d start_m;  ///< on the plan, where x is 0
  Eigen::Vector2d along;    ///< of x on the plan, unit
  int left_wall = 0;
  int right_wall = 0;
  double length_m = 0;
  Polygon outline_m;  ///< floor, walls and ceiling: convex, counter-clockwise from the lower left
  std::vector<SectionBox> boxes;
  std::vector<SectionLuminaire> row;  ///< from left to right, the one in question among them
  std::optional<SectionCone> beam;    ///< as far as the luminaire has half its maximum intensity in the section's plane
  std::optional<SectionCone> field;   ///< the same of a tenth
  double work_plane_m = 0;            ///< above the floor
  double spacing_m = 0;               ///< between stations, at most 5 cm
  std::vector<double> stations_m;     ///< x of points of the work plane, in the open, ascending

  [[nodiscard]] Eigen::Vector2d plan_at(double x_m) const { return start_m + x_m * along; }
};

/// The luminaire nearest to the middle of the plan's bounding rectangle, of several the first.
///
/// @param scene with a luminaire at least
int middle_luminaire(const Scene& scene);

/// @param scene   of a job with that work plane
/// @param through index of a luminaire inside the plan
/// @source ANSI/IES LS-1, "beam angle", "field angle": half and a tenth of the maximum
CrossSection cross_section(const Scene& scene, const WorkPlane& work_plane, int through);

/// One upward receiver at each station.
std::vector<Receiver> receivers_of(const CrossSection& section);

}  // namespace evenlit
