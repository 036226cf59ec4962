#pragma once

#include <array>
#include <optional>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

/// The four walls of a room as they were taped, none of its corners taken for square, and one diagonal.
struct MeasuredRoom {
  enum class Diagonal { southwest_northeast, southeast_northwest };

  double south_m = 0;
  double east_m = 0;
  double north_m = 0;
  double west_m = 0;
  Diagonal diagonal = Diagonal::southwest_northeast;
  double diagonal_m = 0;
};

/// Between which lengths, ends excluded, the diagonal must be so that the walls close and no corner opens inward: at
/// one end two walls lie in line, by Stewart's theorem or as the sum of both. Empty where one wall is as long as the
/// other three together, which close with no diagonal.
///
/// @source Euclid, Elements, I.20; M. Stewart, Some General Theorems (1746), proposition 2
std::optional<std::array<double, 2>> diagonal_range_m(const MeasuredRoom& room);

/// The plan by triangulation: southwest corner at 0, 0, the south wall along +x, counter-clockwise from there.
///
/// @param room whose diagonal is within `diagonal_range_m`
Polygon measured_plan(const MeasuredRoom& room);

}  // namespace evenlit
