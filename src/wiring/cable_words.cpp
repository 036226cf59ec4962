#include "evenlit/wiring/cable_words.hpp"

#include <algorithm>

#include "evenlit/base/number.hpp"

namespace evenlit {

std::string cable_word(const CableKind& cable) {
  const auto* known = std::ranges::find(k_cables, cable, &std::pair<std::string_view, CableKind>::second);
  return std::string(known->first);
}

std::string cable_name(const CableKind& cable) { return cable_word(cable) + " cable with ground"; }

std::string cable_length_text(double metres, Units units) {
  return units == Units::imperial ? feet_inches(metres, 1) : fixed_text(metres, 2) + " m";
}

}  // namespace evenlit
