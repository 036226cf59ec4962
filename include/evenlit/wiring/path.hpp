#pragma once

#include <functional>
#include <vector>

namespace evenlit {

/// What it takes to bring a cable from one place to another. Fewer holes come first, then less cable.
struct Way {
  int crossings = 0;    ///< pieces of framing that it goes through
  double length_m = 0;  ///< of cable

  friend auto operator<=>(const Way&, const Way&) = default;
  friend Way operator+(const Way& a, const Way& b) { return {a.crossings + b.crossings, a.length_m + b.length_m}; }
};

/// Up to so many places the best order is certain.
inline constexpr int k_most_exact_places = 15;

/// In which order a cable visits places.
struct VisitOrder {
  std::vector<int> places;  ///< each once
  Way way;                  ///< all of it, from the start on
  bool is_exact = true;     ///< whether no other order does better
};

/// The best order in which to visit all places from a start, ending at any of them: by dynamic programming over sets of
/// places (M. Held, R. M. Karp, "A dynamic programming approach to sequencing problems", Journal of the SIAM 10 (1962))
/// up to `k_most_exact_places`. Of more, each place in turn is put in where it costs least, and stretches are turned
/// round while that helps; no other turn then does better, but another order may.
///
/// @param places how many; may be 0
/// @param from_start from the start to a place
/// @param between two places, the same both ways
VisitOrder best_order(int places, const std::function<Way(int)>& from_start,
                      const std::function<Way(int, int)>& between);

}  // namespace evenlit
