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

}  // namespace evenlit
