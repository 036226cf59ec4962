#pragma once

#include <vector>

#include "evenlit/field/direct.hpp"
#include "evenlit/room/visibility.hpp"
#include "evenlit/view/pixel_parts.hpp"
#include "evenlit/view/room_view.hpp"
#include "surface_light.hpp"

namespace evenlit {

/// What a face makes of light: luminance of white light is lx times `cd_m2_per_lx`, and its colour `tint`.
struct Paint {
  float cd_m2_per_lx = 0;
  Eigen::Vector3f tint = Eigen::Vector3f::Ones();
};

/// Puts the light of parts of pixels into pictures. What it is made of must outlive it.
class Shader {
 public:
  /// @param indirect columns: luminance by group; where it has colours, then red, green and blue, each by group
  Shader(const Scene& scene, const std::vector<LuminaireLook>& looks, const std::vector<ShownFace>& faces,
         const Eigen::Vector3d& eye_m, const SurfaceLight& indirect, bool has_colours);

  /// Adds rows of a picture to those of each group.
  void shade(const std::vector<std::vector<PixelPart>>& rows, int first_row, int last_row, RoomView& view) const;

 private:
  struct Run;

  [[nodiscard]] std::vector<Run> runs_of(const std::vector<std::vector<PixelPart>>& rows, int first_row, int last_row,
                                         int width) const;
  void add_direct(std::vector<Run>& runs) const;
  void put_reflected(const Run& run, RoomView& view) const;
  void put_opening(const Run& run, RoomView& view) const;

  const Scene& scene_;
  const std::vector<LuminaireLook>& looks_;
  const std::vector<ShownFace>& faces_;
  const SurfaceLight& indirect_;
  Visibility visibility_;
  bool has_colours_;
  int groups_;
  std::vector<Paint> paints_;         ///< one a face
  std::vector<float> opening_cd_m2_;  ///< one a face; of openings
  std::vector<DirectLight> lights_;
  Figures openings_;  ///< of all luminaires; empty where nothing ever hides
};

}  // namespace evenlit
