#include "eulumdat_table.hpp"

#include <fmt/format.h>

#include <cmath>

#include "candela_table.hpp"
#include "evenlit/base/number.hpp"
#include "table_ends.hpp"

namespace evenlit {
namespace {

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
  const TableInFile in_file{
      .name = "intensity",
      .plural = "intensities",
      .value = [&](Eigen::Index i, Eigen::Index j) { return numbers[number_of(layout, i, j)]; },
      .place = [&](Eigen::Index i, Eigen::Index j) { return numbers.place(number_of(layout, i, j)); },
      .direction = [&](Eigen::Index i, Eigen::Index j) { return direction_text(layout, planes, numbers, i, j); }};
  return checked_candelas(table, in_file, warnings);
}

AngleList vertical_list(const EulumdatLayout& layout, const EulumdatNumbers& numbers) {
  std::vector<double> deg;
  for (std::size_t i = 0; i < layout.verticals; ++i) deg.push_back(numbers[layout.listed + i]);
  return in_file_order("vertical", std::move(deg), [&numbers, first = layout.listed](Eigen::Index i) {
    return numbers.place(first + static_cast<std::size_t>(i));
  });
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

  auto vertical = ascending_rows(std::move(listed), *table, warnings);
  if (!vertical) return tl::unexpected(vertical.error());
  if (vertical->deg.size() < 2) return failure(vertical->place(0), "at least two vertical angles are needed");
  Eigen::ArrayXXd candela = (*table)(vertical->index, Eigen::all);
  snap_ends(vertical->deg);
  if (vertical->deg.front() == 90) {
    warnings.push_back({vertical->place(0), "vertical angles begin at 90; below the horizontal there is no light", ""});
  }
  if (const auto completed = complete_ends(*vertical, candela, warnings); !completed) {
    return tl::unexpected(completed.error());
  }

  auto circle = full_circle(planes, std::move(candela), numbers);
  if (!circle) return tl::unexpected(circle.error());
  IntensityDistribution distribution{vertical->deg, std::move(circle->c_deg), std::move(circle->candela)};
  level_poles(distribution, *vertical, 0, 180, warnings);
  return distribution;
}

}  // namespace evenlit
