#include "plan_labels.hpp"

#include <array>
#include <cmath>

#include "evenlit/drawing/text.hpp"
#include "isolux_lines.hpp"

namespace evenlit {

std::string short_name(const std::string& name) {
  constexpr double k_longest = 240;
  return elided(name, k_small_text, Weight::regular, k_longest);
}

std::optional<Text> label_beside(const std::string& label, const Disc& mark, Weight weight, const FreeSpace& space) {
  // Near places first: right, left, above, below, then what lies between.
  constexpr std::array<double, 20> k_directions_deg{0,   180, 90, 270, 15,  345, 165, 195, 45,  135,
                                                    225, 315, 30, 60,  120, 150, 210, 240, 300, 330};
  const Eigen::Vector2d half_size(text_width(label, k_small_text, weight) / 2 + k_halo_width,
                                  k_cap_height / 2 * k_small_text + k_halo_width);
  for (const double gap : {3.0, 12.0, 24.0, 40.0}) {
    for (const double direction_deg : k_directions_deg) {
      const double angle = direction_deg / 90 * std::acos(0.0);
      const Eigen::Vector2d direction(std::cos(angle), -std::sin(angle));
      const Eigen::Vector2d side = (1.5 * direction).cwiseMax(-1).cwiseMin(1);  // of the label's box, toward the mark
      const Eigen::Vector2d centre = mark.centre + (mark.radius + gap) * direction + side.cwiseProduct(half_size);
      const Text text = halo_text(label, centre, k_small_text, weight);
      if (space.is_free(discs_of(text))) return text;
    }
  }
  return std::nullopt;
}

void add_label(const std::optional<Text>& label, FreeSpace& space, std::vector<DrawingItem>& items) {
  if (!label) return;
  space.take(discs_of(*label));
  items.emplace_back(*label);
}

}  // namespace evenlit
