#pragma once

#include <vector>

#include "evenlit/view/camera.hpp"
#include "evenlit/view/shown_face.hpp"

namespace evenlit {

/// What one pixel shows of one face.
struct PixelPart {
  int column = 0;
  int face = 0;
  float weight = 1;            ///< share of the pixel; the weights of its parts add up to 1
  Eigen::Vector3f position_m;  ///< in the middle of what is shown
};

/// What every pixel shows, row by row from the top, in each from left to right.
///
/// Each row of pixels is cut by eight lines, on which faces meet at exact places; between two meetings the face nearest
/// to the eye is seen. Where rounding leaves a gap between two faces it is closed.
///
/// @param faces  none of which cuts through another; they close the room around the eye
/// @source lines cut into spans between the edges of faces: G. S. Watkins, "A real time visible surface algorithm",
///         University of Utah (1970) (from memory)
std::vector<std::vector<PixelPart>> pixel_parts(const std::vector<ShownFace>& faces, const Camera& camera);

}  // namespace evenlit
