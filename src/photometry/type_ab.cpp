#include "type_ab.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "table_ends.hpp"

namespace evenlit {
namespace {

Result<void> check_range(const AngleList& list, double most) {
  for (const std::size_t i : {std::size_t{0}, list.last()}) {
    if (std::abs(list.deg[i]) <= most) continue;
    return failure(list.place(i),
                   fmt::format("{} angle {} is outside -{} to {}", list.name, shortest_text(list.deg[i]),
                               shortest_text(most), shortest_text(most)),
                   "types A and B count both ways from the beam's axis");
  }
  return {};
}

/// The list with its mirror image in 0 before it.
void mirror(AngleList& list) {
  std::vector<double> deg(list.deg.rbegin(), list.deg.rend() - 1);
  for (double& angle : deg) angle = -angle;
  std::vector<Eigen::Index> index(list.index.rbegin(), list.index.rend() - 1);
  list.deg.insert(list.deg.begin(), deg.begin(), deg.end());
  list.index.insert(list.index.begin(), index.begin(), index.end());
}

void warn_of_horizontal_ends(const AngleList& horizontal, Problems& warnings) {
  for (const std::size_t i : {std::size_t{0}, horizontal.last()}) {
    const double deg = horizontal.deg[i];
    if (std::abs(deg) >= 90) continue;
    warnings.push_back({horizontal.place(i),
                        fmt::format("horizontal angles {} at {}; the intensity counts as 0 {} it",
                                    i == 0 ? "begin" : "end", shortest_text(deg), i == 0 ? "before" : "after"),
                        ""});
  }
}

}  // namespace

Result<IntensityDistribution> type_ab_distribution(AngleList vertical, AngleList horizontal, Eigen::ArrayXXd candela,
                                                   IntensityDistribution::Axis axis, Problems& warnings) {
  if (horizontal.deg.size() < 2) {
    return failure(horizontal.place(0), "types A and B need at least two horizontal angles",
                   "one plane that stands for all is of type C, code 1");
  }
  auto up = ascending_rows(std::move(vertical), candela, warnings);
  if (!up) return tl::unexpected(up.error());
  auto across = ascending_columns(std::move(horizontal), candela, warnings);
  if (!across) return tl::unexpected(across.error());
  snap_ends(up->deg);
  snap_ends(across->deg);
  if (const auto in_range = check_range(*up, 90); !in_range) return tl::unexpected(in_range.error());
  if (const auto in_range = check_range(*across, 180); !in_range) return tl::unexpected(in_range.error());

  if (across->deg.front() == 0) mirror(*across);
  const bool is_type_b = axis == IntensityDistribution::Axis::along_c0;
  if (up->deg.front() == 0 && is_type_b) {
    mirror(*up);
  } else if (up->deg.front() == 0) {
    warnings.push_back(
        {up->place(0), "vertical angles begin at 0; below the horizontal the intensity counts as 0", ""});
  }
  warn_of_horizontal_ends(*across, warnings);
  candela = Eigen::ArrayXXd(candela(up->index, across->index));
  if (const auto completed = complete_ends(*up, candela, warnings); !completed) {
    return tl::unexpected(completed.error());
  }

  IntensityDistribution distribution{.gamma_deg = up->deg, .c_deg = across->deg, .candela = {}, .axis = axis};
  for (double& deg : distribution.gamma_deg) deg += 90;
  std::ranges::reverse(distribution.c_deg);
  for (double& deg : distribution.c_deg) deg = 0 - deg;
  distribution.candela = candela.rowwise().reverse();
  level_poles(distribution, *up, -90, 90, warnings);
  return distribution;
}

}  // namespace evenlit
