#include "evenlit/report/cautions.hpp"

#include <array>

namespace evenlit {

std::span<const std::string_view> cautions() {
  static constexpr std::array<std::string_view, 6> k_cautions{
      "This is a plan made by calculation. Measure the room again before you mark the ceiling.",
      "Wiring is for a licensed electrician, under the local code and the fixture's own instructions.",
      "Before cutting, find the joists, wires, pipes and ducts above the ceiling.",
      "Switch the circuit off at the panel and prove it dead at the work before touching a wire.",
      "Where insulation touches or covers a can, its housing must be rated for that contact.",
      "Work from a stable ladder or platform, with the eyes covered when cutting overhead.",
  };
  return k_cautions;
}

std::span<const std::string_view> owner_cautions() {
  static constexpr std::array<std::string_view, 4> k_cautions{
      "The electrical work must be done by a licensed electrician, under a permit where the local code asks for one.",
      "Ceilings of old houses may hold asbestos or lead paint: have them tested before anybody cuts or sands.",
      "Lights, dimmers and insulation must suit each other: change none of them without asking the electrician.",
      "While the work goes on keep children and pets out, and stay clear of ladders and of the open ceiling.",
  };
  return k_cautions;
}

}  // namespace evenlit
