#include "plan_view.hpp"

#include <cmath>

#include "evenlit/drawing/text.hpp"

namespace evenlit {

Text centred_text(std::string text, const Eigen::Vector2d& centre, double size, Weight weight, double turn_rad) {
  const Eigen::Vector2d down(-std::sin(turn_rad), std::cos(turn_rad));
  return {.text = std::move(text),
          .at = centre + k_cap_height / 2 * size * down,
          .size = size,
          .weight = weight,
          .anchor = Anchor::middle,
          .turn_rad = turn_rad,
          .ink = k_dark,
          .halo_width = 0,
          .halo = k_halo};
}

double upright_turn(const Eigen::Vector2d& along) {
  constexpr double k_nearly_upright = 1e-9;
  const bool turn_round = along.x() < -k_nearly_upright * along.norm() ||
                          (std::abs(along.x()) <= k_nearly_upright * along.norm() && along.y() > 0);
  const Eigen::Vector2d reading = turn_round ? Eigen::Vector2d(-along) : along;
  return std::atan2(reading.y(), reading.x());
}

}  // namespace evenlit
