#include "evenlit/moods/colour_warm_dim.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {
namespace {

using Points = std::span<const WarmDimPoint>;

/// The straight line from one point to the next.
struct Piece {
  double width = 0;
  double kelvin_per_level = 0;
};

Piece piece_after(Points points, std::size_t i) {
  const double width = points[i + 1].level - points[i].level;
  return {width, (points[i + 1].kelvin - points[i].kelvin) / width};
}

/// The slope that keeps the curve on a piece between the piece's ends: that of a parabola, held to 0 ... twice the
/// slope of the piece.
double held(double slope, double of_piece) {
  return of_piece > 0 ? std::clamp(slope, 0.0, 2 * of_piece) : std::clamp(slope, 2 * of_piece, 0.0);
}

double slope_between(const Piece& before, const Piece& after) {
  const double parabola =
      (before.kelvin_per_level * after.width + after.kelvin_per_level * before.width) / (before.width + after.width);
  return held(held(parabola, before.kelvin_per_level), after.kelvin_per_level);
}

/// The curve's slope at a point; at the first and the last that of the piece.
double slope_at(Points points, std::size_t i) {
  if (i == 0) return piece_after(points, 0).kelvin_per_level;
  if (i == points.size() - 1) return piece_after(points, i - 1).kelvin_per_level;
  return slope_between(piece_after(points, i - 1), piece_after(points, i));
}

}  // namespace

double warm_dim_kelvin(Points points, double level) {
  if (!(level > points.front().level)) return points.front().kelvin;
  if (level >= points.back().level) return points.back().kelvin;
  const auto after = std::ranges::upper_bound(points, level, {}, &WarmDimPoint::level);
  const auto i = static_cast<std::size_t>(after - points.begin()) - 1;
  const Piece piece = piece_after(points, i);
  const double along = level - points[i].level;
  const double at_start = slope_at(points, i);
  const double at_end = slope_at(points, i + 1);
  const double bend = (3 * piece.kelvin_per_level - 2 * at_start - at_end) / piece.width;
  const double twist = (at_start + at_end - 2 * piece.kelvin_per_level) / (piece.width * piece.width);
  return points[i].kelvin + along * (at_start + along * (bend + along * twist));
}

}  // namespace evenlit
