#pragma once

#include <optional>
#include <vector>

#include "evenlit/job/wiring.hpp"

namespace evenlit {

/// Coils that hold a length of cable.
struct CoilPurchase {
  std::vector<int> counts;     ///< by kind of coil
  double length_m = 0;         ///< of all of them
  std::optional<double> cost;  ///< empty where a kind has no price
};

/// How many of each kind to buy so that together they hold the length: those of least cost where all have prices, else
/// of least length left over; of equals the least length, then the fewest coils. Lengths count in whole centimetres, so
/// that none is short. Beyond twenty of the longest coil whole coils of the best value come first.
///
/// Coils are counted by their whole length: the waste in the needed length is what their ends leave.
///
/// @param coils one or more, of one cable
/// @param needed_m >= 0
CoilPurchase coils_for(double needed_m, const std::vector<Coil>& coils);

}  // namespace evenlit
