#include "zone_bound.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cstdint>
#include <functional>
#include <limits>
#include <queue>

namespace evenlit {
namespace {

constexpr int k_most_nodes = 400'000;
constexpr int k_none = -1;

/// A part of the plan.
struct Zone {
  int first = 0;  ///< of a list of what may be chosen
  int count = 0;
  double size_m = 0;
  PointLight most;     ///< for each point what the best of it adds
  float weighted = 0;  ///< what the best of it adds to the weighted mean
  int half = k_none;   ///< the first of its two halves, the other follows; none of a zone of a single place
};

/// The zones of so many choices.
struct Node {
  float bound_lx = 0;
  std::uint16_t choices = 0;
  std::array<std::uint16_t, k_most_bounded> zones{};

  bool operator<(const Node& other) const { return bound_lx < other.bound_lx; }
};

class ZoneSearch {
 public:
  ZoneSearch(const std::vector<Choosable>& all, const PointLight& base, const PointLight& weights)
      : all_(all), base_(base), padded_(static_cast<int>(base.size())) {
    for (int i = 0; i < std::ssize(all); ++i) order_.push_back(i);
    std::ranges::stable_sort(order_, std::greater(), [&](int i) { return cans_of(i); });
    for (const Choosable& each : all) weighted_.push_back(weighted_sum(each.light.data(), weights.data(), padded_));
    float mean = 0;
    for (std::size_t i = 0; i < base.size(); ++i) mean += weights[i] == 0 ? 0 : weights[i] * base[i];
    base_weighted_ = mean;
    for (int first = 0; first < std::ssize(order_);) {
      const int cans = cans_of(order_[static_cast<std::size_t>(first)]);
      int end = first;
      while (end < std::ssize(order_) && cans_of(order_[static_cast<std::size_t>(end)]) == cans) ++end;
      roots_.push_back({cans, static_cast<int>(zones_.size())});
      zones_.push_back(zone_of(first, end - first));
      first = end;
    }
    for (int zone = 0; zone < std::ssize(zones_); ++zone) halve(zone);
  }

  [[nodiscard]] double bound_lx(int count, double found_lx, const IsStopped& is_stopped) {
    std::priority_queue<Node> open;
    add_roots({}, 0, count, open);
    for (int nodes = 0; nodes < k_most_nodes && !open.empty();) {
      const Node node = open.top();
      if (node.bound_lx <= found_lx) return found_lx;
      const auto zone = largest_of(node);
      if (!zone || (nodes % 1024 == 0 && is_stopped && is_stopped())) return node.bound_lx;
      open.pop();
      nodes += split(node, *zone, found_lx, open);
    }
    return open.empty() ? found_lx : std::max(found_lx, static_cast<double>(open.top().bound_lx));
  }

 private:
  /// Choices of as many cans, and the zone of all of these.
  struct Root {
    int cans = 0;
    int zone = 0;
  };

  [[nodiscard]] int cans_of(int index) const { return all_[static_cast<std::size_t>(index)].cans; }

  /// Adds a node for every way to make up so many cans of roots from `next` on.
  void add_roots(Node node, std::size_t next, int count, std::priority_queue<Node>& open) {
    if (count == 0) {
      node.bound_lx = bound_of(node);
      open.push(node);
      return;
    }
    if (next == roots_.size()) return;
    add_roots(node, next + 1, count, open);
    for (int left = count - roots_[next].cans; left >= 0; left -= roots_[next].cans) {
      node.zones[node.choices++] = static_cast<std::uint16_t>(roots_[next].zone);
      add_roots(node, next + 1, left, open);
    }
  }

  [[nodiscard]] Zone zone_of(int first, int count) const {
    Zone zone{.first = first, .count = count, .most = PointLight(base_.size(), 0)};
    Eigen::AlignedBox2d box;
    for (int i = first; i < first + count; ++i) {
      const Choosable& each = all_[static_cast<std::size_t>(order_[static_cast<std::size_t>(i)])];
      box.extend(each.at_m);
      for (std::size_t k = 0; k < zone.most.size(); ++k) zone.most[k] = std::max(zone.most[k], each.light[k]);
      zone.weighted = std::max(zone.weighted, weighted_[static_cast<std::size_t>(order_[static_cast<std::size_t>(i)])]);
    }
    zone.size_m = count > 1 ? box.sizes().maxCoeff() : 0;
    return zone;
  }

  /// Halves a zone's places across its longer side.
  void halve(int index) {
    const int first = zones_[static_cast<std::size_t>(index)].first;
    const int count = zones_[static_cast<std::size_t>(index)].count;
    if (count < 2 || zones_.size() + 2 > std::numeric_limits<std::uint16_t>::max()) return;
    Eigen::AlignedBox2d box;
    const auto begin = order_.begin() + first;
    for (auto it = begin; it != begin + count; ++it) box.extend(all_[static_cast<std::size_t>(*it)].at_m);
    const int axis = box.sizes().x() >= box.sizes().y() ? 0 : 1;
    const auto key = [&](int i) {
      const Eigen::Vector2d& at = all_[static_cast<std::size_t>(i)].at_m;
      return std::pair(at[axis], at[1 - axis]);
    };
    std::sort(begin, begin + count, [&](int a, int b) { return key(a) < key(b); });
    zones_[static_cast<std::size_t>(index)].half = static_cast<int>(zones_.size());
    zones_.push_back(zone_of(first, count / 2));
    zones_.push_back(zone_of(first + count / 2, count - count / 2));
  }

  [[nodiscard]] const Zone& zone(int index) const { return zones_[static_cast<std::size_t>(index)]; }

  [[nodiscard]] float bound_of(const Node& node) {
    parts_ = {base_.data()};
    float mean = base_weighted_;
    for (int i = 0; i < node.choices; ++i) {
      const Zone& of_choice = zone(node.zones[static_cast<std::size_t>(i)]);
      parts_.push_back(of_choice.most.data());
      mean += of_choice.weighted;
    }
    return std::min(mean, least_of_sum(parts_, padded_));
  }

  /// The largest zone that can be halved.
  [[nodiscard]] std::optional<int> largest_of(const Node& node) const {
    std::optional<int> largest;
    for (int i = 0; i < node.choices; ++i) {
      const int index = node.zones[static_cast<std::size_t>(i)];
      if (zone(index).half == k_none) continue;
      if (!largest || zone(index).size_m > zone(*largest).size_m) largest = index;
    }
    return largest;
  }

  /// Adds the ways to share a zone's choices among its halves that may be brighter than what is found.
  ///
  /// @return how many ways there are
  int split(const Node& node, int halved, double found_lx, std::priority_queue<Node>& open) {
    Node child{.choices = node.choices};
    int others = 0;
    for (int i = 0; i < node.choices; ++i) {
      const auto index = node.zones[static_cast<std::size_t>(i)];
      if (index != halved) child.zones[static_cast<std::size_t>(others++)] = index;
    }
    const int shared = node.choices - others;
    const int half = zone(halved).half;
    for (int in_first = 0; in_first <= shared; ++in_first) {
      for (int i = 0; i < shared; ++i) {
        child.zones[static_cast<std::size_t>(others + i)] = static_cast<std::uint16_t>(i < in_first ? half : half + 1);
      }
      child.bound_lx = std::min(node.bound_lx, bound_of(child));
      if (child.bound_lx > found_lx) open.push(child);
    }
    return shared + 1;
  }

  const std::vector<Choosable>& all_;
  const PointLight& base_;
  int padded_;
  std::vector<int> order_;
  std::vector<float> weighted_;
  float base_weighted_ = 0;
  std::vector<Zone> zones_;
  std::vector<Root> roots_;
  std::vector<const float*> parts_;
};

}  // namespace

double zone_bound_lx(const std::vector<Choosable>& all, const PointLight& base, const PointLight& weights, int count,
                     double found_lx, const IsStopped& is_stopped) {
  return ZoneSearch(all, base, weights).bound_lx(count, found_lx, is_stopped);
}

}  // namespace evenlit
