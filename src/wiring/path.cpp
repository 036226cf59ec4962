#include "evenlit/wiring/path.hpp"

#include <algorithm>
#include <limits>

namespace evenlit {
namespace {

constexpr Way k_no_way{std::numeric_limits<int>::max(), std::numeric_limits<double>::infinity()};

/// What every step takes, asked once.
struct Steps {
  std::vector<Way> first;                 ///< by place
  std::vector<std::vector<Way>> between;  ///< by both places

  [[nodiscard]] Way to(const std::vector<int>& order, std::size_t at) const {
    return at == 0 ? first[index(order[0])] : between[index(order[at - 1])][index(order[at])];
  }

  [[nodiscard]] Way whole(const std::vector<int>& order) const {
    Way sum;
    for (std::size_t i = 0; i < order.size(); ++i) sum = sum + to(order, i);
    return sum;
  }

  static std::size_t index(int place) { return static_cast<std::size_t>(place); }
};

/// The best way through each set of places to each that it may end at, and the place before that one.
std::vector<int> exact_order(int places, const Steps& steps) {
  const std::size_t count = Steps::index(places);
  const std::size_t sets = std::size_t{1} << count;
  std::vector<Way> best(sets * count, k_no_way);
  std::vector<int> before(sets * count, -1);
  for (std::size_t last = 0; last < count; ++last) best[(std::size_t{1} << last) * count + last] = steps.first[last];
  for (std::size_t set = 1; set < sets; ++set) {
    for (std::size_t last = 0; last < count; ++last) {
      const Way& here = best[set * count + last];
      if (here == k_no_way) continue;
      for (std::size_t next = 0; next < count; ++next) {
        const std::size_t with_next = set | (std::size_t{1} << next);
        if (with_next == set) continue;
        const Way there = here + steps.between[last][next];
        if (there >= best[with_next * count + next]) continue;
        best[with_next * count + next] = there;
        before[with_next * count + next] = static_cast<int>(last);
      }
    }
  }
  std::size_t set = sets - 1;
  const auto ends = best.begin() + static_cast<std::ptrdiff_t>(set * count);
  int last = static_cast<int>(std::min_element(ends, best.end()) - ends);
  std::vector<int> order;
  while (last >= 0) {
    order.push_back(last);
    const int previous = before[set * count + Steps::index(last)];
    set &= ~(std::size_t{1} << Steps::index(last));
    last = previous;
  }
  std::ranges::reverse(order);
  return order;
}

/// Each place put in where the way grows least.
std::vector<int> inserted_order(int places, const Steps& steps) {
  std::vector<int> order;
  for (int place = 0; place < places; ++place) {
    std::vector<int> best;
    Way best_way = k_no_way;
    for (std::size_t at = 0; at <= order.size(); ++at) {
      std::vector<int> tried = order;
      tried.insert(tried.begin() + static_cast<std::ptrdiff_t>(at), place);
      const Way way = steps.whole(tried);
      if (way >= best_way) continue;
      best_way = way;
      best = std::move(tried);
    }
    order = std::move(best);
  }
  return order;
}

/// What turning round the stretch [from, to] saves, up to rounding: whether the order gets better.
bool turn_helps(const std::vector<int>& order, std::size_t from, std::size_t to, const Steps& steps) {
  constexpr double k_rounding_m = 1e-9;
  const auto step = [&](int before, int place) {
    return before < 0 ? steps.first[Steps::index(place)] : steps.between[Steps::index(before)][Steps::index(place)];
  };
  const int before = from == 0 ? -1 : order[from - 1];
  Way now = step(before, order[from]);
  Way turned = step(before, order[to]);
  if (to + 1 < order.size()) {
    now = now + step(order[to], order[to + 1]);
    turned = turned + step(order[from], order[to + 1]);
  }
  turned.length_m += k_rounding_m;
  return turned < now;
}

void turn_while_it_helps(std::vector<int>& order, const Steps& steps) {
  for (bool has_turned = true; has_turned;) {
    has_turned = false;
    for (std::size_t from = 0; from < order.size(); ++from) {
      for (std::size_t to = from + 1; to < order.size(); ++to) {
        if (!turn_helps(order, from, to, steps)) continue;
        std::reverse(order.begin() + static_cast<std::ptrdiff_t>(from),
                     order.begin() + static_cast<std::ptrdiff_t>(to) + 1);
        has_turned = true;
      }
    }
  }
}

Steps all_steps(int places, const std::function<Way(int)>& from_start, const std::function<Way(int, int)>& between) {
  Steps steps;
  for (int a = 0; a < places; ++a) {
    steps.first.push_back(from_start(a));
    std::vector<Way>& row = steps.between.emplace_back(Steps::index(places));
    for (int b = 0; b < places; ++b) {
      if (b != a) row[Steps::index(b)] = b < a ? steps.between[Steps::index(b)][Steps::index(a)] : between(a, b);
    }
  }
  return steps;
}

}  // namespace

VisitOrder best_order(int places, const std::function<Way(int)>& from_start,
                      const std::function<Way(int, int)>& between) {
  if (places == 0) return {};
  const Steps steps = all_steps(places, from_start, between);
  VisitOrder visits{.places = {}, .way = {}, .is_exact = places <= k_most_exact_places};
  if (visits.is_exact) {
    visits.places = exact_order(places, steps);
  } else {
    visits.places = inserted_order(places, steps);
    turn_while_it_helps(visits.places, steps);
  }
  visits.way = steps.whole(visits.places);
  return visits;
}

}  // namespace evenlit
