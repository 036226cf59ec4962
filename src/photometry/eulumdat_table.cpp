#include "eulumdat_table.hpp"

#include <fmt/format.h>

#include <cmath>

#include "evenlit/base/number.hpp"
#include "table_ends.hpp"

namespace evenlit {
namespace {

constexpr double k_largest_cd = 1e9;

/// Number of an intensity in the file.
std::size_t number_of(const EulumdatLayout& layout, Eigen::Index vertical, Eigen::Index plane) {
  return layout.first_intensity() + static_cast<std::size_t>(plane) * layout.verticals +
         static_cast<std::size_t>(vertical);
}

std::string direction_text(const EulumdatLayout& layout, const TablePlanes& planes, const EulumdatNumbers& numbers,
                           Eigen::Index vertical, Eigen::Index plane) {
  const double c_deg = planes.deg[static_cast<std::size_t>(plane)];
  return fmt::format("C {}, vertical angle {}", shortest_text(c_deg < 0 ? c_deg + 360 : c_deg),
                     shortest_text(numbers[layout.listed + static_cast<std::size_t>(vertical)]));
}

/// The candelas of the planes, each vertical angle a row.
Result<Eigen::ArrayXXd> candela_table(const EulumdatLayout& layout, const TablePlanes& planes,
                                      const EulumdatNumbers& numbers, double factor, Problems& warnings) {
  Eigen::ArrayXXd table(static_cast<Eigen::Index>(layout.verticals), std::ssize(planes.deg));
  for (Eigen::Index j = 0; j < table.cols(); ++j) {
    for (Eigen::Index i = 0; i < table.rows(); ++i) table(i, j) = factor * numbers[number_of(layout, i, j)];
  }
  const double peak = table.maxCoeff();
  std::optional<std::size_t> first_negative;
  for (Eigen::Index j = 0; j < table.cols(); ++j) {
    for (Eigen::Index i = 0; i < table.rows(); ++i) {
      const std::size_t number = number_of(layout, i, j);
      if (std::abs(table(i, j)) > k_largest_cd) {
        return failure(numbers.place(number),
                       fmt::format("intensity {} is out of range", shortest_text(numbers[number])));
      }
      if (table(i, j) < -0.005 * peak || (table(i, j) < 0 && peak <= 0)) {
        return failure(numbers.place(number),
                       fmt::format("intensity {} at {} is negative", shortest_text(numbers[number]),
                                   direction_text(layout, planes, numbers, i, j)));
      }
      if (table(i, j) < 0 && !first_negative) first_negative = number;
    }
  }
  if (first_negative) {
    warnings.push_back(
        {numbers.place(*first_negative),
         fmt::format("intensity {} and any other below 0 are read as 0", shortest_text(numbers[*first_negative])), ""});
  }
  if (peak <= 0) {
    warnings.push_back({numbers.place(layout.first_intensity()), "all intensities are 0: there is no light", ""});
  }
  return table.max(0.0);
}

AngleList vertical_list(const EulumdatLayout& layout, const EulumdatNumbers& numbers) {
  AngleList list{"vertical", {}, {}, [&numbers, first = layout.listed](Eigen::Index i) {
                   return numbers.place(first + static_cast<std::size_t>(i));
                 }};
  for (std::size_t i = 0; i < layout.verticals; ++i) {
    list.deg.push_back(numbers[layout.listed + i]);
    list.index.push_back(static_cast<Eigen::Index>(i));
  }
  return list;
}

Result<void> check_range(const AngleList& vertical) {
  for (std::size_t i = 0; i < vertical.deg.size(); ++i) {
    if (vertical.deg[i] >= 0 && vertical.deg[i] <= 180) continue;
    return failure(vertical.place(i),
                   fmt::format("vertical angle {} is outside 0 to 180", shortest_text(vertical.deg[i])),
                   "they count from 0 straight down to 180 straight up");
  }
  return {};
}

void check_steps(const AngleList& vertical, double step_deg, Problems& warnings) {
  if (step_deg == 0) return;
  for (std::size_t i = 1; i < vertical.deg.size(); ++i) {
    if (std::abs(std::abs(vertical.deg[i] - vertical.deg[i - 1]) - step_deg) <= 0.05) continue;
    warnings.push_back({vertical.place(i),
                        fmt::format("distance between vertical angles {} does not agree with the vertical angles, "
                                    "which are used",
                                    shortest_text(step_deg)),
                        ""});
    return;
  }
}

}  // namespace

Result<IntensityDistribution> eulumdat_distribution(const EulumdatHeader& header, const EulumdatLayout& layout,
                                                    const TablePlanes& planes, const EulumdatNumbers& numbers,
                                                    double candela_factor, Problems& warnings) {
  AngleList listed = vertical_list(layout, numbers);
  if (const auto in_range = check_range(listed); !in_range) return tl::unexpected(in_range.error());
  auto table = candela_table(layout, planes, numbers, candela_factor, warnings);
  if (!table) return tl::unexpected(table.error());
  check_steps(listed, header.vertical_step_deg, warnings);

  const auto same_row = [&](Eigen::Index a, Eigen::Index b) { return (table->row(a) == table->row(b)).all(); };
  auto vertical = ascending(std::move(listed), same_row, warnings);
  if (!vertical) return tl::unexpected(vertical.error());
  if (vertical->deg.size() < 2) return failure(vertical->place(0), "at least two vertical angles are needed");
  Eigen::ArrayXXd candela = (*table)(vertical->index, Eigen::all);
  snap_ends(vertical->deg);
  if (vertical->deg.front() == 90) {
    warnings.push_back({vertical->place(0), "vertical angles begin at 90; below the horizontal there is no light", ""});
  }
  complete_ends(*vertical, candela, warnings);

  auto circle = full_circle(planes, std::move(candela), numbers);
  if (!circle) return tl::unexpected(circle.error());
  IntensityDistribution distribution{vertical->deg, std::move(circle->c_deg), std::move(circle->candela)};
  level_poles(distribution, *vertical, 0, 180, warnings);
  return distribution;
}

}  // namespace evenlit
