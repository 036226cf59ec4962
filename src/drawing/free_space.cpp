#include "free_space.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/drawing/text.hpp"

namespace evenlit {
namespace {

constexpr double k_air = 3;  // between one thing and another, and between all and the outline

}  // namespace

std::vector<Disc> discs_of(const Text& text) {
  const double width = text_width(text.text, text.size, text.weight);
  const double radius = k_cap_height / 2 * text.size + text.halo_width;
  const Eigen::Vector2d along(std::cos(text.turn_rad), std::sin(text.turn_rad));
  const Eigen::Vector2d up(along.y(), -along.x());
  const double left = text.anchor == Anchor::left ? 0 : text.anchor == Anchor::middle ? -width / 2 : -width;
  const Eigen::Vector2d start = text.at + left * along + k_cap_height / 2 * text.size * up;
  const double inset = std::min(radius - text.halo_width, width / 2);
  const double length = width - 2 * inset;  // between the centres of the first and the last disc
  const int steps = std::max(1, static_cast<int>(std::ceil(length / radius)));
  std::vector<Disc> discs;
  for (int i = 0; i <= steps; ++i) discs.push_back({start + (inset + length * i / steps) * along, radius});
  return discs;
}

std::vector<Disc> discs_on(const Polygon& figure) {
  constexpr double k_step = 12;
  const Eigen::AlignedBox2d bounds = bounds_of(figure);
  const Eigen::Array2i count = (bounds.sizes() / k_step).array().ceil().max(1).min(300).cast<int>();
  std::vector<Disc> discs;
  for (int i = 0; i < count.x(); ++i) {
    for (int j = 0; j < count.y(); ++j) {
      const Eigen::Array2d share = (Eigen::Array2d(i, j) + 0.5) / count.cast<double>();
      const Eigen::Vector2d centre = bounds.min().array() + share * bounds.sizes().array();
      if (is_inside(figure, centre)) discs.push_back({centre, k_step / 2});
    }
  }
  return discs;
}

bool FreeSpace::is_free(const std::vector<Disc>& discs) const {
  return std::all_of(discs.begin(), discs.end(), [&](const Disc& disc) {
    return is_inside(outline_, disc.centre) && distance_to_outline(outline_, disc.centre) >= disc.radius + k_air &&
           std::none_of(taken_.begin(), taken_.end(), [&](const Disc& other) {
             return (other.centre - disc.centre).norm() < other.radius + disc.radius + k_air;
           });
  });
}

}  // namespace evenlit
