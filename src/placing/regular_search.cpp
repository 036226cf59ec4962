#include "evenlit/placing/regular_search.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "evenlit/base/parallel.hpp"
#include "grid_layouts.hpp"
#include "least_light.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// Rows or columns on the raster.
struct Stations {
  int first = 0;
  int step = 0;  ///< 0 of only one
  int count = 0;

  [[nodiscard]] int at(int index) const { return first + index * step; }
};

/// Whether rows and columns are about as far apart, where there are several of both.
bool is_balanced(const Stations& x, const Stations& y) {
  constexpr int k_most_ratio = 2;
  if (x.count == 1 || y.count == 1) return true;
  return std::max(x.step, y.step) <= k_most_ratio * std::min(x.step, y.step);
}

/// All evenly spaced stations of a count on a raster's side.
///
/// @param size  of the raster along that side
/// @param least step
std::vector<Stations> stations_of(int count, int size, int least, bool is_symmetric) {
  std::vector<Stations> all;
  const int middle = (size - 1) / 2;
  if (count == 1) {
    for (int first = 0; first < size; ++first) {
      if (!is_symmetric || first == middle) all.push_back({first, 0, 1});
    }
    return all;
  }
  for (int step = least; step * (count - 1) < size; ++step) {
    const int length = step * (count - 1);
    for (int first = 0; first + length < size; ++first) {
      const int beyond = size - 1 - first - length;
      if (first > step || beyond > step || (is_symmetric && first != beyond)) continue;
      all.push_back({first, step, count});
    }
  }
  return all;
}

/// A layout and what it is worth.
struct Scored {
  double shortfall = 0;
  double minimum_lx = -1;  ///< of none
  Stations x;
  Stations y;
};

struct Best {
  Scored brightest;
  Scored giving;
};

void keep_brighter(Scored& best, const Scored& other) {
  if (other.minimum_lx > best.minimum_lx) best = other;
}

void keep_best(Best& best, const Best& other) {
  keep_brighter(best.brightest, other.brightest);
  keep_brighter(best.giving, other.giving);
}

/// The cans of one row within some columns.
struct RowCans {
  bool may_be = true;  ///< no place in the plan is taken
  int count = 0;
  PointLight light;
  std::vector<double> averages_lx;
};

/// `shortfall(wants_of(...))` without what is the same for all layouts of a count.
class LightWanted {
 public:
  explicit LightWanted(const Job& job) : minimum_lx_(job.wanted.minimum_lx), uniformity_(job.wanted.uniformity) {
    averages_lx_.push_back(job.target_lx.value_or(0));
    for (const TaskArea& area : job.task_areas) {
      if (area.target_lx) averages_lx_.push_back(*area.target_lx);
    }
  }

  [[nodiscard]] double shortfall(const std::vector<double>& averages_lx, double minimum_lx) const {
    double most = 0;
    for (std::size_t i = 0; i < averages_lx.size(); ++i)
      most = std::max(most, short_of(averages_lx_[i], averages_lx[i]));
    if (minimum_lx_) most = std::max(most, short_of(*minimum_lx_, minimum_lx));
    if (uniformity_) most = std::max(most, short_of(*uniformity_ * averages_lx[0], minimum_lx));
    return most;
  }

 private:
  static double short_of(double wanted, double has) { return has < wanted ? 1 - has / wanted : 0; }

  std::vector<double> averages_lx_;
  std::optional<double> minimum_lx_;
  std::optional<double> uniformity_;
};

class Search {
 public:
  Search(const Job& job, const Candidates& candidates, const std::vector<int>& counts)
      : job_(job), candidates_(candidates), counts_(counts), wanted_(job) {
    base_ = point_light(candidates.base_lx.data(), candidates.points, k_never_least_lx);
    for (Eigen::Index place = 0; place < candidates.light_lx.cols(); ++place) {
      light_.push_back(point_light(candidates.light_lx.col(place).data(), candidates.points, 0));
    }
    for (int count = 0; count <= most_count(); ++count) {
      slot_.push_back(static_cast<int>(std::ranges::find(counts, count) - counts.begin()));
    }
    for (int rows = 1; rows <= most_along(); ++rows) row_stations_.push_back(stations(rows, raster().rows));
  }

  [[nodiscard]] RegularLayouts best(const IsStopped& is_stopped, const Progress& progress) const {
    RegularLayouts result;
    std::vector<Best> best(counts_.size());
    for (int columns = 1; columns <= most_along(); ++columns) {
      const std::vector<Stations> all = stations(columns, raster().columns);
      std::vector<std::vector<Best>> of_columns(all.size(), std::vector<Best>(counts_.size()));
      std::vector<std::int64_t> looked_at(all.size());
      std::vector<char> is_done(all.size());
      parallel_for(static_cast<int>(all.size()), [&](int i) {
        if (is_stopped && is_stopped()) return;
        looked_at[i] = look_at(all[i], of_columns[i]);
        is_done[i] = 1;
      });
      for (const auto& found : of_columns) {
        for (std::size_t slot = 0; slot < best.size(); ++slot) keep_best(best[slot], found[slot]);
      }
      result.looked_at = std::accumulate(looked_at.begin(), looked_at.end(), result.looked_at);
      result.is_whole = result.is_whole && std::ranges::count(is_done, 0) == 0;
      if (progress) progress(static_cast<double>(columns) / most_along());
    }
    for (const auto& [brightest, giving] : best) result.best.push_back({layout_of(brightest), layout_of(giving)});
    return result;
  }

 private:
  [[nodiscard]] const Raster& raster() const { return candidates_.raster; }
  [[nodiscard]] int most_count() const { return counts_.empty() ? 0 : *std::ranges::max_element(counts_); }

  /// Of a grid over the bounding rectangle the plan keeps about its share of it: twice as many leave room for what
  /// stands too near to a wall.
  [[nodiscard]] int most_along() const { return most_count() * (is_rectangle() ? 1 : 2); }

  [[nodiscard]] bool is_rectangle() const { return std::ranges::count(raster().place_of, Raster::k_outside) == 0; }

  [[nodiscard]] std::vector<Stations> stations(int count, int size) const {
    const int least = static_cast<int>(std::ceil(k_least_apart_m / raster().step_m - 1e-9));
    return stations_of(count, size, least, job_.wanted.is_symmetric);
  }

  [[nodiscard]] std::vector<RowCans> rows_of(const Stations& x) const {
    std::vector<RowCans> rows(static_cast<std::size_t>(raster().rows));
    for (int y = 0; y < raster().rows; ++y) {
      RowCans& row = rows[static_cast<std::size_t>(y)];
      for (int i = 0; i < x.count; ++i) {
        const int place = raster().at(x.at(i), y);
        if (place == Raster::k_taken) row.may_be = false;
        if (place >= 0) ++row.count;
      }
      if (!row.may_be || row.count == 0) continue;
      row.light.assign(base_.size(), 0);
      row.averages_lx.assign(static_cast<std::size_t>(candidates_.averages_lx.rows()), 0);
      for (int i = 0; i < x.count; ++i) {
        const int place = raster().at(x.at(i), y);
        if (place < 0) continue;
        add(row.light, light_[static_cast<std::size_t>(place)]);
        for (std::size_t k = 0; k < row.averages_lx.size(); ++k) {
          row.averages_lx[k] += candidates_.averages_lx(static_cast<Eigen::Index>(k), place);
        }
      }
    }
    return rows;
  }

  /// Looks at all layouts that have these columns.
  ///
  /// @param best one a count
  /// @return how many there are
  std::int64_t look_at(const Stations& x, std::vector<Best>& best) const {
    const std::vector<RowCans> rows = rows_of(x);
    const int most_rows = is_rectangle() ? most_count() / x.count : most_along();
    std::int64_t looked_at = 0;
    std::vector<const RowCans*> chosen;
    for (int count = 1; count <= most_rows; ++count) {
      for (const Stations& y : row_stations_[static_cast<std::size_t>(count - 1)]) {
        if (!is_balanced(x, y)) continue;
        const int cans = choose(rows, y, chosen);
        const auto slot = static_cast<std::size_t>(slot_[static_cast<std::size_t>(cans)]);
        if (cans == 0 || slot == counts_.size()) continue;
        ++looked_at;
        const Scored scored = score_of(chosen, x, y);
        keep_brighter(best[slot].brightest, scored);
        if (scored.shortfall == 0) keep_brighter(best[slot].giving, scored);
      }
    }
    return looked_at;
  }

  /// Those of some rows that have cans.
  ///
  /// @return how many cans; 0 where there are too many or a row cannot be
  int choose(const std::vector<RowCans>& rows, const Stations& y, std::vector<const RowCans*>& chosen) const {
    chosen.clear();
    int cans = 0;
    for (int i = 0; i < y.count; ++i) {
      const RowCans& row = rows[static_cast<std::size_t>(y.at(i))];
      cans += row.count;
      if (!row.may_be || cans > most_count()) return 0;
      if (row.count > 0) chosen.push_back(&row);
    }
    return cans;
  }

  [[nodiscard]] Scored score_of(const std::vector<const RowCans*>& rows, const Stations& x, const Stations& y) const {
    thread_local std::vector<const float*> parts;
    thread_local std::vector<double> averages_lx;
    parts = {base_.data()};
    averages_lx.assign(candidates_.base_averages_lx.begin(), candidates_.base_averages_lx.end());
    for (const RowCans* row : rows) {
      parts.push_back(row->light.data());
      for (std::size_t k = 0; k < averages_lx.size(); ++k) averages_lx[k] += row->averages_lx[k];
    }
    const double minimum_lx = least_of_sum(parts, static_cast<int>(base_.size()));
    return {wanted_.shortfall(averages_lx, minimum_lx), minimum_lx, x, y};
  }

  [[nodiscard]] std::optional<FoundLayout> layout_of(const Scored& best) const {
    const auto& [shortfall, minimum_lx, x, y] = best;
    if (minimum_lx < 0) return std::nullopt;
    Layout layout{.name = grid_name(y.count, x.count),
                  .type = candidates_.type,
                  .along = raster().frame.along,
                  .rows = y.count,
                  .columns = x.count};
    const Eigen::AlignedBox2d box = bounds_of(raster().frame.in(job_.room.corners_m));
    const Vector2d offset_m = raster().first_m - box.min() + raster().step_m * Vector2d(x.first, y.first);
    const Vector2d beyond_m =
        box.max() - raster().first_m - raster().step_m * Vector2d(x.at(x.count - 1), y.at(y.count - 1));
    layout.wall_offset_m = offset_m.cwiseMax(beyond_m);
    layout.spacing_m = raster().step_m * Vector2d(x.step, y.step);
    for (int axis = 0; axis < 2; ++axis) {
      if (layout.spacing_m[axis] == 0) layout.spacing_m[axis] = 2 * layout.wall_offset_m[axis];
    }
    for (int row = 0; row < y.count; ++row) {
      for (int column = 0; column < x.count; ++column) {
        const int place = raster().at(x.at(column), y.at(row));
        if (place >= 0) layout.positions_m.push_back(raster().places_m[static_cast<std::size_t>(place)]);
      }
    }
    return FoundLayout{std::move(layout), shortfall, minimum_lx};
  }

  const Job& job_;
  const Candidates& candidates_;
  const std::vector<int>& counts_;
  std::vector<int> slot_;  ///< of each number of cans its index among the counts, or their number
  LightWanted wanted_;
  std::vector<std::vector<Stations>> row_stations_;  ///< of one row, of two ...
  PointLight base_;                                  ///< of the cans that stay
  std::vector<PointLight> light_;                    ///< of each place
};

}  // namespace

RegularLayouts regular_layouts(const Job& job, const Candidates& candidates, const std::vector<int>& counts,
                               const IsStopped& is_stopped, const Progress& progress) {
  return Search(job, candidates, counts).best(is_stopped, progress);
}

}  // namespace evenlit
