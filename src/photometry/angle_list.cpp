#include "angle_list.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

/// The nearest multiple of 90 degrees where it is within rounding of the angle, else the angle.
double snapped(double deg) {
  const double nearest = 90 * std::round(deg / 90) + 0.0;  // + 0.0 turns -0 into 0
  return std::abs(deg - nearest) <= 0.05 ? nearest : deg;
}

void reverse_descending(AngleList& list, Problems& warnings) {
  if (list.deg.size() < 2 || !std::ranges::is_sorted(list.deg, std::greater_equal<>{})) return;
  std::ranges::reverse(list.deg);
  std::ranges::reverse(list.index);
  warnings.push_back({list.in_file(0),
                      fmt::format("{} angles descend; they and their candelas are turned around", list.name),
                      "write angles in ascending order"});
}

/// @param same_data whether two neighbours, by their index in the file, have the same candelas
Result<AngleList> ascending(AngleList list, const std::function<bool(Eigen::Index, Eigen::Index)>& same_data,
                            Problems& warnings) {
  reverse_descending(list, warnings);
  AngleList kept{list.name, {}, {}, list.in_file};
  std::optional<std::size_t> dropped;
  for (std::size_t i = 0; i < list.deg.size(); ++i) {
    const double deg = list.deg[i];
    if (i > 0 && deg < list.deg[i - 1]) {
      return failure(list.place(i),
                     fmt::format("{} angles are not ascending: {} comes after {}", list.name, shortest_text(deg),
                                 shortest_text(list.deg[i - 1])),
                     "a number may be missing or too many before this one");
    }
    if (i > 0 && deg == list.deg[i - 1]) {
      if (!same_data(list.index[i - 1], list.index[i])) {
        return failure(list.place(i), fmt::format("{} angle {} comes twice with different candela values", list.name,
                                                  shortest_text(deg)));
      }
      if (!dropped) dropped = i;
      continue;
    }
    kept.deg.push_back(deg);
    kept.index.push_back(list.index[i]);
  }
  if (dropped) {
    warnings.push_back({list.place(*dropped),
                        fmt::format("{} angle {} comes twice with the same candela values; one is kept", list.name,
                                    shortest_text(list.deg[*dropped])),
                        ""});
  }
  return kept;
}

}  // namespace

AngleList in_file_order(std::string_view name, std::vector<double> deg, std::function<Place(Eigen::Index)> in_file) {
  std::vector<Eigen::Index> index(deg.size());
  std::iota(index.begin(), index.end(), Eigen::Index{0});
  return {name, std::move(deg), std::move(index), std::move(in_file)};
}

Result<AngleList> ascending_rows(AngleList list, const Eigen::ArrayXXd& candela, Problems& warnings) {
  const auto same_row = [&](Eigen::Index a, Eigen::Index b) { return (candela.row(a) == candela.row(b)).all(); };
  return ascending(std::move(list), same_row, warnings);
}

Result<AngleList> ascending_columns(AngleList list, const Eigen::ArrayXXd& candela, Problems& warnings) {
  const auto same_column = [&](Eigen::Index a, Eigen::Index b) { return (candela.col(a) == candela.col(b)).all(); };
  return ascending(std::move(list), same_column, warnings);
}

void snap_ends(std::vector<double>& ascending_deg) {
  const std::size_t size = ascending_deg.size();
  const double first = snapped(ascending_deg.front());
  if (size == 1 || first < ascending_deg[1]) ascending_deg.front() = first;
  const double last = snapped(ascending_deg.back());
  if (size == 1 || last > ascending_deg[size - 2]) ascending_deg.back() = last;
}

}  // namespace evenlit
