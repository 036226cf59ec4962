#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "evenlit/room/scene.hpp"

namespace evenlit {

/// A plane thing that a picture may show: the free part of a surface, a luminaire's opening, or the trim around it.
struct ShownFace {
  enum class Kind { surface, trim, opening };

  Kind kind = Kind::surface;
  int surface = -1;               ///< it is a part of, or lies on; -1 of an opening that lies on none
  int luminaire = -1;             ///< of a trim or an opening
  std::vector<Outline> outlines;  ///< what is inside of an odd number of them is shown
  Eigen::Vector3d plane_m;        ///< a point of the plane that tells how far the face is from the eye
  Eigen::Vector3d normal;         ///< of that plane, unit, toward the side from which the face is seen
};

/// How a luminaire looks beside what the scene says of it.
struct LuminaireLook {
  int group = 0;                 ///< of light: what is dimmed and coloured alike
  std::optional<double> hole_m;  ///< diameter cut for it
};

/// What there is to be seen in a room: first its surfaces, in the scene's order, then for each luminaire its trim, if
/// it has one, and its opening; of one that hangs free from where it is aimed.
///
/// An opening without size is shown as a disc as wide as its hole, else 10 cm. A luminaire that is flush with a surface
/// has a trim on it: a ring around its opening as wide as its hole and 1 in more, else 1.25 times the opening (common
/// practice, no source). The opening of such a luminaire shows whole, also what of it is tilted into the ceiling.
///
/// @param looks one a luminaire
std::vector<ShownFace> all_faces(const Scene& scene, const std::vector<LuminaireLook>& looks);

/// The same as an eye may see it: openings that hang free face it, and are there only if the eye is where they send
/// light or are aimed to.
std::vector<ShownFace> shown_faces(const Scene& scene, const std::vector<LuminaireLook>& looks,
                                   const Eigen::Vector3d& eye_m);

}  // namespace evenlit
