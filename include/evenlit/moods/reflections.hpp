#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "evenlit/room/scene.hpp"
#include "evenlit/room/visibility.hpp"

namespace evenlit {

/// Refractive index of window and picture glass. Common practice, no source.
inline constexpr double k_glass_index = 1.5;

/// The share of unpolarised light that the smooth surface of a clear material reflects.
///
/// @param incidence_cosine 0...1, 1 straight on
/// @param refractive_index of the material in air, more than 1
/// @source Fresnel's equations: M. Born, E. Wolf, Principles of Optics, 1.5.2 (place from memory)
double fresnel_reflectance(double incidence_cosine, double refractive_index);

/// A flat, shiny rectangle: a screen, the glass of a picture. It mirrors on its front, toward `half_along` x `half_up`.
struct ShinyRectangle {
  std::string name;
  Eigen::Vector3d centre_m;
  Eigen::Vector3d half_along_m;  ///< from the centre to the middle of an edge
  Eigen::Vector3d half_up_m;     ///< square to it
  double refractive_index = k_glass_index;
};

/// The opening of a luminaire that an eye sees mirrored.
struct MirrorImage {
  int luminaire = 0;                      ///< index into the scene's
  Eigen::Vector3d place_m;                ///< on the rectangle: the middle of what is seen
  double seen_share = 0;                  ///< of the opening: 1 where all of it is seen
  double reflectance = 0;                 ///< of one smooth surface there
  std::optional<double> opening_cd_m2;    ///< luminance of the opening toward that place, on average, at its level;
                                          ///< empty where it shows no area, as a point does
  std::optional<double> reflected_cd_m2;  ///< luminance of the image: it stands over that of what is behind the glass
};

/// Which luminaires an eye sees mirrored in a rectangle, in the scene's order, lit or not.
///
/// Exact for flat openings: the opening is cut to what the eye's own mirror image sees through the rectangle. An
/// opening of a solid counts as flat, a point or a line as a millimetre wide, a disc as a polygon of 64 corners. What
/// walls and boxes hide of the way from the opening to the rectangle or from there to the eye is found by lines from 64
/// points of the opening.
///
/// The reflectance is that of one surface. A pane in front of a dark picture has a second one behind, and shows up to
/// twice the luminance.
std::vector<MirrorImage> mirror_images(const Scene& scene, const Visibility& visibility,
                                       const ShinyRectangle& rectangle, const Eigen::Vector3d& eye_m);

}  // namespace evenlit
