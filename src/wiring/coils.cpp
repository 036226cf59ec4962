#include "evenlit/wiring/coils.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace evenlit {
namespace {

constexpr double k_rounding_cm = 1e-6;

/// A kind of coil as it is searched.
struct Kind {
  int length_cm = 0;
  double price = 0;  ///< 0 where not all have prices
};

/// What is bought so far, the better the less.
struct Bought {
  double cost = 0;
  long long length_cm = 0;
  int coils = 0;

  friend bool operator<(const Bought& a, const Bought& b) {
    return std::tie(a.cost, a.length_cm, a.coils) < std::tie(b.cost, b.length_cm, b.coils);
  }
};

/// The counts of least cost, length and number that hold a length, by dynamic programming over the centimetres.
std::vector<int> best_counts(int needed_cm, const std::vector<Kind>& kinds) {
  const auto at = [](int cm) { return static_cast<std::size_t>(std::max(cm, 0)); };
  std::vector<Bought> best(at(needed_cm) + 1);
  std::vector<int> last(best.size(), 0);
  for (int cm = 1; cm <= needed_cm; ++cm) {
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      const Bought& rest = best[at(cm - kinds[i].length_cm)];
      const Bought with{rest.cost + kinds[i].price, rest.length_cm + kinds[i].length_cm, rest.coils + 1};
      if (i > 0 && !(with < best[at(cm)])) continue;
      best[at(cm)] = with;
      last[at(cm)] = static_cast<int>(i);
    }
  }
  std::vector<int> counts(kinds.size(), 0);
  for (int cm = needed_cm; cm > 0;) {
    const auto kind = static_cast<std::size_t>(last[at(cm)]);
    ++counts[kind];
    cm -= kinds[kind].length_cm;
  }
  return counts;
}

}  // namespace

CoilPurchase coils_for(double needed_m, const std::vector<Coil>& coils) {
  constexpr int k_most_exact = 20;
  const bool has_prices = std::ranges::all_of(coils, [](const Coil& coil) { return coil.price.has_value(); });
  std::vector<Kind> kinds;
  for (const Coil& coil : coils) {
    kinds.push_back({static_cast<int>(std::floor(100 * coil.length_m + k_rounding_cm)), has_prices ? *coil.price : 0});
  }
  const auto longest = std::ranges::max_element(kinds, {}, &Kind::length_cm);
  const auto best_value =
      has_prices
          ? std::ranges::min_element(
                kinds, {}, [](const Kind& kind) { return std::tuple(kind.price / kind.length_cm, -kind.length_cm); })
          : longest;
  double rest_cm = std::ceil(100 * needed_m - k_rounding_cm);
  const double beyond_cm = std::max(0.0, rest_cm - double{k_most_exact} * longest->length_cm);
  const int whole = static_cast<int>(std::ceil(beyond_cm / best_value->length_cm));
  rest_cm -= double{1} * whole * best_value->length_cm;

  CoilPurchase purchase{.counts = best_counts(static_cast<int>(std::max(rest_cm, 0.0)), kinds)};
  purchase.counts[static_cast<std::size_t>(best_value - kinds.begin())] += whole;
  if (has_prices) purchase.cost = 0;
  for (std::size_t i = 0; i < coils.size(); ++i) {
    purchase.length_m += purchase.counts[i] * coils[i].length_m;
    if (has_prices) *purchase.cost += purchase.counts[i] * *coils[i].price;
  }
  return purchase;
}

}  // namespace evenlit
