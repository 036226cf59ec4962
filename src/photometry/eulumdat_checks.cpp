#include "eulumdat_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

constexpr double k_close_percent = 2;

bool agree(double percent, double other_percent) { return std::abs(percent - other_percent) <= k_close_percent; }

/// Whether the numbers are equal within 2 % of the second, which is > 0.
bool is_about(double value, double expected) { return std::abs(value - expected) <= 0.02 * expected; }

std::string percent_text(double percent) { return fixed_text(percent, 1) + " %"; }

/// What a table says whose output ratio is not the header's.
Problem output_ratio_problem(const Source& source, const EulumdatHeader& header, const EulumdatLamps& lamps,
                             std::size_t chosen, double table_percent) {
  const double header_percent = header.output_ratio_percent;
  const double factor = header.candela_factor;
  const int count = lamps.sets[chosen].lamps;
  const auto ratio_place = source.place(header.line(l_output_ratio));
  const auto figures = fmt::format("table gives a light output ratio of {}, the header says {}",
                                   percent_text(table_percent), percent_text(header_percent));

  const double lumens_read_as_candelas = 10 * table_percent / factor;  // were the values cd instead of cd per 1000 lm
  if (table_percent > 110 && lumens_read_as_candelas > 0.5 * lamps.lumens &&
      lumens_read_as_candelas < 1.1 * lamps.lumens) {
    return {ratio_place, figures + "; intensities look like cd, not cd per 1000 lm",
            "divide them by the lamp flux in thousands of lumens"};
  }
  if (header_percent > 0 && header_percent <= 1.5 && is_about(table_percent, 100 * header_percent)) {
    return {ratio_place,
            fmt::format("light output ratio {} is a fraction; the table, which is used, gives {}",
                        shortest_text(header_percent), percent_text(table_percent)),
            "write it in per cent"};
  }
  if (factor != 1 && agree(table_percent / factor, header_percent)) {
    return {source.place(header.line(l_factor)),
            fmt::format("{}; the conversion factor {} may be contained in the intensities already; it is applied",
                        figures, shortest_text(factor)),
            "write 1 if it is"};
  }
  const bool is_per_lamp =
      count > 1 && header_percent > 0 &&
      (is_about(table_percent, header_percent * count) || is_about(table_percent, header_percent / count));
  if (is_per_lamp) {
    return {source.place(lamps.lumens_line),
            fmt::format("{}; the flux may be that of one lamp; it is used as that of all {}", figures, count),
            "write the flux of all lamps of the set together"};
  }
  return {ratio_place, figures + "; the table is used", ""};
}

/// The angle of the stored plane that a symmetry carries C to.
double folded(int symmetry, double c_deg) {
  switch (symmetry) {
    case 1:
      return 0;
    case 2:
      return c_deg > 180 ? 360 - c_deg : c_deg;
    case 3:
      return c_deg > 90 && c_deg < 270 ? 180 - c_deg : c_deg;
    default:
      return folded(3, folded(2, c_deg));
  }
}

}  // namespace

void check_eulumdat_flux(const Source& source, const EulumdatHeader& header, const EulumdatLamps& lamps,
                         std::size_t chosen, const IntensityDistribution& distribution, Problems& warnings) {
  const double lm = lumens(distribution);
  if (lm <= 0) return;
  const double table_percent = 100 * lm / lamps.lumens;
  if (!agree(table_percent, header.output_ratio_percent)) {
    warnings.push_back(output_ratio_problem(source, header, lamps, chosen, table_percent));
  }
  const double downward_percent = 100 * zonal_lumens(distribution, 0, 90) / lm;
  if (!agree(downward_percent, header.downward_percent)) {
    warnings.push_back({source.place(header.line(l_downward)),
                        fmt::format("table sends {} of the flux down, the header says {}; the table is used",
                                    percent_text(downward_percent), percent_text(header.downward_percent)),
                        ""});
  }
}

void check_eulumdat_symmetry(const Source& source, const EulumdatHeader& header,
                             const IntensityDistribution& distribution, Problems& warnings) {
  double difference = 0;
  for (Eigen::Index j = 0; j < distribution.candela.cols(); ++j) {
    const double image_deg = folded(header.symmetry, distribution.c_deg[static_cast<std::size_t>(j)]);
    for (Eigen::Index i = 0; i < distribution.candela.rows(); ++i) {
      const double image_cd =
          intensity_at(distribution, distribution.gamma_deg[static_cast<std::size_t>(i)], image_deg);
      difference = std::max(difference, std::abs(distribution.candela(i, j) - image_cd));
    }
  }
  auto what = fmt::format("all C planes are stored in spite of symmetry indicator {}; they are read as they stand",
                          header.symmetry);
  const double percent = difference > 0 ? 100 * difference / distribution.candela.maxCoeff() : 0;
  if (percent > 1)
    what += fmt::format(", and differ from that symmetry by up to {} of the peak", percent_text(percent));
  warnings.push_back({source.place(header.line(l_symmetry)), std::move(what), "write symmetry indicator 0"});
}

}  // namespace evenlit
