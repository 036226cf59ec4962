#include "evenlit/placing/free_search.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "evenlit/placing/ceiling_map.hpp"
#include "least_light.hpp"
#include "zone_bound.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// Places that are chosen together.
struct Group {
  std::vector<int> places;
  PointLight light;

  [[nodiscard]] int size() const { return static_cast<int>(places.size()); }
};

/// Indices of groups.
using Choice = std::vector<int>;

/// How much light at points is worth, the more the better: the darkest point's alone, or a sum over all points of the
/// light to the power of -2^squarings, less than nothing.
struct Measure {
  int squarings = 0;  ///< 0: the darkest point
  float scale = 1;    ///< in whose unit light is raised to a power, so that no power overflows

  [[nodiscard]] double value(const PointLight& light, const PointLight& more) const {
    const auto points = static_cast<int>(light.size());
    if (squarings == 0) return least_of_sum({light.data(), more.data()}, points);
    return -sum_of_powers(light.data(), more.data(), scale, squarings, points);
  }
};

class FreeSearch {
 public:
  FreeSearch(const Job& job, const Candidates& candidates)
      : job_(job),
        candidates_(candidates),
        base_(point_light(candidates.base_lx.data(), candidates.points, k_never_least_lx)) {
    const Raster& raster = candidates.raster;
    const bool is_symmetric = job.wanted.is_symmetric;
    for (int row = 0; row < (is_symmetric ? raster.rows / 2 + 1 : raster.rows); ++row) {
      for (int column = 0; column < (is_symmetric ? raster.columns / 2 + 1 : raster.columns); ++column) {
        add_group(column, row);
      }
    }
  }

  [[nodiscard]] FreeLayout best(int count, const std::optional<Layout>& start, const IsStopped& is_stopped) const {
    FreeLayout result;
    const auto [mean_bound_lx, weights] = mean_bound(count, is_stopped);
    result.bound_lx = mean_bound_lx;
    std::vector<Choice> starts;
    if (start) {
      if (auto choice = choice_of(*start)) starts.push_back(std::move(*choice));
    }
    const auto step = std::max<std::size_t>(1, groups_.size() / k_starts);
    for (std::size_t first = step / 2; first < groups_.size(); first += step) {
      if (is_stopped && is_stopped()) break;
      if (auto choice = greedy(count, static_cast<int>(first))) starts.push_back(std::move(*choice));
    }
    Choice best;
    for (Choice& choice : starts) {
      for (const int squarings : {3, 5, 0}) {
        if (!improve(choice, squarings, is_stopped)) result.is_whole = false;
      }
      if (best.empty() || least_lx(choice) > least_lx(best)) best = choice;
    }
    if (best.empty()) return result;
    result.found = layout_of(best);
    if (count <= k_most_bounded) {
      const double zone_lx = zone_bound_lx(choosable(), base_, weights, count, result.found->minimum_lx, is_stopped);
      result.bound_lx = std::min(result.bound_lx, zone_lx);
    }
    return result;
  }

 private:
  void add_group(int column, int row) {
    const Raster& raster = candidates_.raster;
    Group group;
    for (const int y : mirrored(row, raster.rows)) {
      for (const int x : mirrored(column, raster.columns)) group.places.push_back(raster.at(x, y));
    }
    if (std::ranges::any_of(group.places, [](int place) { return place < 0; })) return;
    if (are_near(group.places)) return;
    group.light.assign(base_.size(), 0);
    for (const int place : group.places) {
      add(group.light, point_light(candidates_.light_lx.col(place).data(), candidates_.points, 0));
    }
    groups_.push_back(std::move(group));
  }

  /// An index and, where symmetry is wanted, its mirror image.
  [[nodiscard]] std::vector<int> mirrored(int index, int size) const {
    if (!job_.wanted.is_symmetric || index == size - 1 - index) return {index};
    return {index, size - 1 - index};
  }

  [[nodiscard]] bool are_near(int place, int other) const {
    const std::vector<Vector2d>& places = candidates_.raster.places_m;
    return (places[static_cast<std::size_t>(place)] - places[static_cast<std::size_t>(other)]).norm() <
           candidates_.least_apart_m;
  }

  [[nodiscard]] bool are_near(const std::vector<int>& places) const {
    for (std::size_t i = 0; i < places.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (are_near(places[i], places[j])) return true;
      }
    }
    return false;
  }

  [[nodiscard]] const Group& group(int index) const { return groups_[static_cast<std::size_t>(index)]; }

  /// Whether a group is clear of all of a choice but the one at `but`.
  [[nodiscard]] bool is_clear(int index, const Choice& choice, int but) const {
    for (int i = 0; i < std::ssize(choice); ++i) {
      if (i == but) continue;
      for (const int place : group(index).places) {
        for (const int other : group(choice[static_cast<std::size_t>(i)]).places) {
          if (are_near(place, other)) return false;
        }
      }
    }
    return true;
  }

  [[nodiscard]] PointLight light_of(const Choice& choice) const {
    PointLight light = base_;
    for (const int index : choice) add(light, group(index).light);
    return light;
  }

  [[nodiscard]] double least_lx(const Choice& choice) const {
    const PointLight light = light_of(choice);
    return least_of_sum({light.data()}, static_cast<int>(light.size()));
  }

  /// The group of a size that does most with the light of the others; empty where none has room.
  [[nodiscard]] std::optional<int> best_group(const PointLight& light, int size, const Choice& choice, int but,
                                              const Measure& measure) const {
    std::optional<int> best;
    double most = 0;
    for (int index = 0; index < std::ssize(groups_); ++index) {
      if (group(index).size() != size) continue;
      const double worth = measure.value(light, group(index).light);
      if ((best && worth <= most) || !is_clear(index, choice, but)) continue;
      best = index;
      most = worth;
    }
    return best;
  }

  /// Moves one group after the other until none gains.
  ///
  /// @return false where it was stopped
  bool improve(Choice& choice, int squarings, const IsStopped& is_stopped) const {
    constexpr double k_gain = 1e-5;  // of the value: less is rounding
    constexpr int k_most_rounds = 50;
    const Measure measure{squarings, static_cast<float>(least_lx(choice))};
    for (int round = 0; round < k_most_rounds; ++round) {
      bool gains = false;
      for (int i = 0; i < std::ssize(choice); ++i) {
        if (is_stopped && is_stopped()) return false;
        int& moved = choice[static_cast<std::size_t>(i)];
        Choice others = choice;
        others.erase(others.begin() + i);
        const PointLight light = light_of(others);
        const auto better = best_group(light, group(moved).size(), choice, i, measure);
        if (!better) continue;
        const double before = measure.value(light, group(moved).light);
        if (measure.value(light, group(*better).light) <= before + k_gain * std::abs(before)) continue;
        moved = *better;
        gains = true;
      }
      if (!gains) break;
    }
    return true;
  }

  /// Adds to a group the ones that do most, larger ones first, until there are as many cans as wanted.
  [[nodiscard]] std::optional<Choice> greedy(int count, int first) const {
    if (group(first).size() > count) return std::nullopt;
    Choice choice{first};
    PointLight light = light_of(choice);
    for (int left = count - group(first).size(); left > 0;) {
      const Measure measure{3, std::max(1e-3F, least_of_sum({light.data()}, static_cast<int>(light.size())))};
      std::optional<int> next;
      for (const int size : {4, 2, 1}) {
        if (!next && size <= left) next = best_group(light, size, choice, -1, measure);
      }
      if (!next) return std::nullopt;
      choice.push_back(*next);
      add(light, group(*next).light);
      left -= group(*next).size();
    }
    return choice;
  }

  /// The groups whose places a layout has.
  [[nodiscard]] std::optional<Choice> choice_of(const Layout& layout) const {
    const auto has = [&](int place) {
      return std::ranges::any_of(layout.positions_m, [&](const Vector2d& position) {
        return (position - candidates_.raster.places_m[static_cast<std::size_t>(place)]).norm() < k_touch_m;
      });
    };
    Choice choice;
    int count = 0;
    for (int index = 0; index < std::ssize(groups_); ++index) {
      if (!std::ranges::all_of(group(index).places, has)) continue;
      choice.push_back(index);
      count += group(index).size();
    }
    if (count != std::ssize(layout.positions_m)) return std::nullopt;
    return choice;
  }

  struct MeanBound {
    double lx = k_never_least_lx;
    PointLight weights;
  };

  /// The least of the means that any weights of the points allow, as far as they were sought.
  [[nodiscard]] MeanBound mean_bound(int count, const IsStopped& is_stopped) const {
    constexpr int k_rounds = 1500;
    constexpr double k_rate = 8;
    Eigen::VectorXd exponents = Eigen::VectorXd::Zero(candidates_.points);
    Eigen::VectorXd before;
    MeanBound least;
    for (int round = 0; round < k_rounds; ++round) {
      const Eigen::VectorXf weights = weights_of(exponents);
      const Eigen::VectorXd best = best_for(weights, count);
      const double mean_lx = weights.cast<double>().dot(best);
      if (mean_lx < least.lx) least = {mean_lx, point_light(weights.data(), candidates_.points, 0)};
      if (is_stopped && is_stopped()) break;
      // Twice this step less the last one: the prediction that the next light will be like this.
      const Eigen::VectorXd step = round == 0 ? best : Eigen::VectorXd(2 * best - before);
      exponents -= k_rate / std::sqrt(1.0 + round) * (step / mean_lx);
      before = best;
    }
    return least;
  }

  [[nodiscard]] std::vector<Choosable> choosable() const {
    std::vector<Choosable> all;
    for (const Group& group : groups_) {
      const auto first = static_cast<std::size_t>(group.places.front());
      all.push_back({group.size(), candidates_.raster.places_m[first], group.light});
    }
    return all;
  }

  /// Positive, adding up to 1.
  [[nodiscard]] static Eigen::VectorXf weights_of(const Eigen::VectorXd& exponents) {
    const Eigen::VectorXd raised = (exponents.array() - exponents.maxCoeff()).exp();
    return (raised / raised.sum()).cast<float>();
  }

  /// The light of those places, up to `count` cans and the last group in part, whose weighted mean is largest.
  [[nodiscard]] Eigen::VectorXd best_for(const Eigen::VectorXf& weights, int count) const {
    const PointLight padded = point_light(weights.data(), candidates_.points, 0);
    std::vector<std::pair<float, int>> worth;
    for (int index = 0; index < std::ssize(groups_); ++index) {
      const float light = weighted_sum(padded.data(), group(index).light.data(), static_cast<int>(padded.size()));
      worth.emplace_back(-light / static_cast<float>(group(index).size()), index);
    }
    const auto most = std::min<std::size_t>(worth.size(), static_cast<std::size_t>(count));
    std::partial_sort(worth.begin(), worth.begin() + static_cast<std::ptrdiff_t>(most), worth.end());
    Eigen::VectorXd sum = candidates_.base_lx.cast<double>();
    double left = count;
    for (std::size_t i = 0; i < most && left > 0; ++i) {
      const Group& next = group(worth[i].second);
      const double part = std::min(1.0, left / next.size());
      sum += part * Eigen::Map<const Eigen::VectorXf>(next.light.data(), candidates_.points).cast<double>();
      left -= next.size();
    }
    return sum;
  }

  [[nodiscard]] FoundLayout layout_of(const Choice& choice) const {
    std::vector<int> places;
    for (const int index : choice) {
      places.insert(places.end(), group(index).places.begin(), group(index).places.end());
    }
    std::ranges::sort(places);
    FoundLayout found{.minimum_lx = least_lx(choice)};
    found.layout = {.name = fmt::format("{} placed freely", places.size()), .type = candidates_.type};
    for (const int place : places) {
      found.layout.positions_m.push_back(candidates_.raster.places_m[static_cast<std::size_t>(place)]);
    }
    found.layout.along = candidates_.raster.frame.along;
    found.layout.wall_offset_m = wall_offset_m(job_.room.corners_m, found.layout.along, found.layout.positions_m);
    return found;
  }

  static constexpr std::size_t k_starts = 16;

  const Job& job_;
  const Candidates& candidates_;
  PointLight base_;  ///< of the cans that stay
  std::vector<Group> groups_;
};

}  // namespace

FreeLayout free_layout(const Job& job, const Candidates& candidates, int count, const std::optional<Layout>& start,
                       const IsStopped& is_stopped) {
  return FreeSearch(job, candidates).best(count, start, is_stopped);
}

}  // namespace evenlit
