#pragma once

#include <vector>

#include "evenlit/field/trapezoids.hpp"
#include "evenlit/room/face.hpp"

namespace evenlit {

/// What is inside of an odd number of outlines in the plane of a frame, as trapezoids in it.
std::vector<Trapezoid> free_pieces(const std::vector<Outline>& outlines, const FaceFrame& frame);

/// The longer of the lower and the upper side.
double width_m(const Trapezoid& piece);

double height_m(const Trapezoid& piece);

/// Those that are wider and higher than 1 mm: points on others, which rounding left, are on their neighbours. All of
/// them where none is.
std::vector<Trapezoid> without_slivers(std::vector<Trapezoid> pieces);

}  // namespace evenlit
