#include "evenlit/report/cautions.hpp"

#include <array>

namespace evenlit {
namespace {

constexpr std::size_t k_at_every_result = 6;

/// In the order of `Caution`.
constexpr std::array<std::string_view, 12> k_cautions{
    "This is a plan made by calculation. Measure the room again before you mark the ceiling.",
    "Wiring is for a licensed electrician, under the local code and the fixture's own instructions.",
    "Before cutting, find the joists, wires, pipes and ducts above the ceiling.",
    "Switch the circuit off at the panel and prove it dead at the work before touching a wire.",
    "Where insulation touches or covers a can, its housing must be rated for that contact.",
    "Work from a stable ladder or platform, with the eyes covered when cutting overhead.",
    "Lock the breaker off, or tag it and tell everyone in the house.",
    "Prove the tester on a live source before and after; a tester that only glows is no proof.",
    "Cover the eyes, wear a dust mask, catch the dust at the hole.",
    "Cut no joist. Trusses, I-joists and laminated members take no hole without their maker's written word.",
    "Aluminium wires, cloth-covered wires, wires on knobs or a box without a ground: stop and ask a licensed "
    "electrician before joining anything to them.",
    "An old ceiling may hold asbestos, old paint lead: have it tested before any dust is made; stop when in doubt.",
};

}  // namespace

std::string_view caution_text(Caution caution) { return k_cautions[static_cast<std::size_t>(caution)]; }

std::span<const std::string_view> cautions() { return std::span(k_cautions).first(k_at_every_result); }

std::span<const std::string_view> cautions(Step step) {
  static constexpr std::array<std::string_view, 2> k_marking{
      "This is a plan made by calculation. Check the room against it before you mark: where its walls or diagonals "
      "measure otherwise, stop and measure the room again.",
      "Work from a stable ladder or platform on firm ground. Move it instead of leaning out to a mark.",
  };
  static constexpr std::array<std::string_view, 5> k_cutting{
      "Find the joists, trusses, wires, pipes and ducts above the ceiling first. Then drill a pilot hole at the mark "
      "and "
      "turn a bent wire through it all the way round: where it finds anything, stop.",
      "Switch off what may run above the ceiling and prove it dead before you saw.",
      "Never cut, notch or drill a joist, a truss or an engineered member to make room for a can.",
      "Ceilings of old houses may hold asbestos or lead: before you make dust, stop and ask, and have it tested where "
      "that is not known.",
      "Cover your eyes, guard your breathing, and catch the dust.",
  };
  static constexpr std::array<std::string_view, 3> k_wiring{
      "Switch the circuit off at the panel, lock or tag it, and prove it dead at the work with a tester that is itself "
      "proven on a live source before and after.",
      "Where insulation or wood touches a can, its housing must be rated for that contact.",
      "Wiring is for a licensed electrician, under a permit where the law wants one. The local code, the fixture's own "
      "instructions and the inspector come before this sheet.",
  };
  switch (step) {
    case Step::marking:
      return k_marking;
    case Step::cutting:
      return k_cutting;
    case Step::wiring:
      break;
  }
  return k_wiring;
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
