#pragma once

#include <Eigen/Core>
#include <array>
#include <memory>
#include <span>
#include <vector>

#include "evenlit/base/progress.hpp"
#include "evenlit/field/direct.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/room/visibility.hpp"
#include "evenlit/view/shown_face.hpp"

namespace evenlit {

class SurfaceLight;

/// Facets of one surface that are close together, so that most of what hides a luminaire is decided for all of them.
struct FacetRun {
  int surface = 0;
  const Facets* facets = nullptr;
};

/// Illuminances of facets by group of luminaires, each group at full level, its light white: facets x groups, lx.
struct FacetLight {
  Eigen::ArrayXXf lx;
  std::array<Eigen::ArrayXXf, 3> rgb_lx;  ///< red, green and blue of the light: how they compare is its colour; empty
                                          ///< where no surface has one
};

/// The light of a room, which all its pictures share.
///
/// Direct light is computed for every facet as `DirectLight` does, openings divided as finely as an eye can tell (1 %);
/// indirect light by `response`, to 1 %, on points 25 cm apart, nearer where surfaces end, and between them by bicubic
/// interpolation.
///
/// Where surfaces have colours, the light that they reflect is computed for red, green and blue too, with reflectances
/// times tints, none above 0.97. Only the chromaticity is to be taken from that: luminances stay those of grey
/// surfaces.
///
/// @source R. G. Keys, "Cubic convolution interpolation for digital image processing", IEEE Transactions on Acoustics,
///         Speech, and Signal Processing 29 (1981) (from memory)
class LitRoom {
 public:
  /// @param looks one a luminaire; groups are counted from 0 without a gap
  LitRoom(Scene scene, std::vector<LuminaireLook> looks, const Progress& progress = {});

  [[nodiscard]] const Scene& scene() const { return scene_; }
  [[nodiscard]] const std::vector<LuminaireLook>& looks() const { return looks_; }
  [[nodiscard]] int groups() const { return groups_; }

  /// One a run.
  [[nodiscard]] std::vector<FacetLight> light_on(std::span<const FacetRun> runs) const;

 private:
  [[nodiscard]] std::vector<Eigen::ArrayXXf> direct_lx(std::span<const FacetRun> runs) const;
  [[nodiscard]] FacetLight with_indirect(const FacetRun& run, const Eigen::ArrayXXf& direct_lx) const;

  Scene scene_;
  std::vector<LuminaireLook> looks_;
  int groups_;
  bool has_colours_;
  Visibility visibility_;
  std::vector<DirectLight> lights_;               ///< one a luminaire
  Figures openings_;                              ///< of all luminaires; empty where nothing ever hides
  std::shared_ptr<const SurfaceLight> indirect_;  ///< columns: luminance by group; where there are colours, then red,
                                                  ///< green and blue, each by group
};

}  // namespace evenlit
