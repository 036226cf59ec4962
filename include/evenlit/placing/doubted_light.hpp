#pragma once

#include <array>
#include <vector>

#include "evenlit/placing/wanted.hpp"

namespace evenlit {

/// What may turn out otherwise than the job says.
enum class Doubt {
  dark_finishes,   ///< every surface reflects `k_darker` less
  aged_lamps,      ///< the lamps give `k_aged` of the job's light
  cans_off_place,  ///< every can that is laid out is up to `k_off_place_m` off its place
  dead_can,        ///< one can is dark: for each figure the one whose light is missed most
  dark_and_aged    ///< finishes and lamps together
};

inline constexpr std::array k_doubts{Doubt::dark_finishes, Doubt::aged_lamps, Doubt::cans_off_place, Doubt::dead_can,
                                     Doubt::dark_and_aged};

/// Taken off the reflectance of floor, ceiling, walls, wall areas and obstructions, down to 0. Our choice, no source.
inline constexpr double k_darker = 0.2;

/// Common practice, no source.
inline constexpr double k_aged = 0.8;

/// 1/2 in: what a tape and a hole saw miss a mark by. Our choice, no source.
inline constexpr double k_off_place_m = 0.0127;

/// A layout in a case of doubt.
struct DoubtedLight {
  Doubt doubt = Doubt::dark_finishes;
  Estimate average_lx;
  Estimate minimum_lx;
  std::vector<Want> wants;  ///< power and cost as without the doubt

  [[nodiscard]] bool gives_all() const { return !wants.empty() && shortfall(wants) == 0; }
};

/// In the order of `k_doubts`.
using LayoutDoubts = std::array<DoubtedLight, k_doubts.size()>;

}  // namespace evenlit
