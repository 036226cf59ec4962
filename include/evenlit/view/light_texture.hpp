#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "evenlit/base/progress.hpp"
#include "evenlit/room/face.hpp"
#include "evenlit/view/lit_room.hpp"

namespace evenlit {

/// Texels from side to side of a light texture, at most.
inline constexpr int k_most_texels = 1024;

/// The texels of one surface: what is free of it fills the rectangle, side by side with a border that is one texel
/// wide and repeats what is next to it, so that linear filtering never takes from another surface.
struct TextureRectangle {
  FaceFrame frame;
  Eigen::Vector2d low_m;  ///< in the frame: the corner from which columns and rows count
  Eigen::Vector2d size_m;
  int column = 0;  ///< of the first texel, without the border
  int row = 0;
  int columns = 0;  ///< none where nothing is free
  int rows = 0;

  /// Where a point of the surface is in the texture, in texels from its first corner; beside the rectangle: on its
  /// side.
  [[nodiscard]] Eigen::Vector2d place_of(const Eigen::Vector3d& point_m) const;
};

/// The light on all surfaces of a room, side by side in one image for each group of luminaires.
struct LightTexture {
  int width = 0;
  int height = 0;
  double texel_m = 0;                        ///< no side of a texel is longer
  std::vector<TextureRectangle> rectangles;  ///< one a surface
  /// One a group, at full level, its light white: red, green and blue of the illuminance, lx, linear, of which
  /// `k_luminance_of_rgb` makes the illuminance itself; width x height each, row by row, finite, not below 0.
  std::vector<std::array<Eigen::ArrayXf, 3>> groups_lx;
};

/// The light as `LitRoom` has it in the middle of every texel, or, where that is not free, in the nearest free point of
/// the texel. Texels of which nothing is free repeat the nearest of the same surface.
///
/// Texels are 2 cm wide and high, or less where that makes them fill a surface; larger by steps of a twentieth where
/// the texture would have more than `k_most_texels` columns or rows. It has as many columns, a multiple of 32, as make
/// it smallest.
LightTexture light_texture(const LitRoom& room, const Progress& progress = {});

}  // namespace evenlit
