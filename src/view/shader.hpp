#pragma once

#include <vector>

#include "evenlit/view/lit_room.hpp"
#include "evenlit/view/pixel_parts.hpp"
#include "evenlit/view/room_view.hpp"
#include "luminaire_look.hpp"

namespace evenlit {

/// Puts the light of parts of pixels into pictures. What it is made of must outlive it.
class Shader {
 public:
  Shader(const LitRoom& room, const std::vector<ShownFace>& faces, const Eigen::Vector3d& eye_m);

  /// Adds rows of a picture to those of each group.
  void shade(const std::vector<std::vector<PixelPart>>& rows, int first_row, int last_row, RoomView& view) const;

 private:
  struct Run;

  [[nodiscard]] std::vector<Run> runs_of(const std::vector<std::vector<PixelPart>>& rows, int first_row, int last_row,
                                         int width) const;
  void put_reflected(const Run& run, const FacetLight& light, RoomView& view) const;
  void put_opening(const Run& run, RoomView& view) const;

  const LitRoom& room_;
  const std::vector<ShownFace>& faces_;
  std::vector<Paint> paints_;         ///< one a face
  std::vector<float> opening_cd_m2_;  ///< one a face; of openings
};

}  // namespace evenlit
