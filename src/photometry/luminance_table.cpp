#include "evenlit/photometry/luminance_table.hpp"

#include <cmath>
#include <numbers>

#include "sphere.hpp"

namespace evenlit {
namespace {

/// How many of the columns at 0, 45, ... 315 say what the others repeat.
Eigen::Index telling_columns(const Eigen::ArrayXXd& columns) {
  const double noise = 1e-9 * columns.maxCoeff();
  const auto agree = [&](Eigen::Index a, Eigen::Index b) {
    return ((columns.col(a) - columns.col(b)).abs() <= noise).all();
  };
  const bool quadrants_agree = agree(0, 4) && agree(2, 6) && agree(1, 3) && agree(1, 5) && agree(1, 7);
  if (!quadrants_agree) return columns.cols();
  return agree(0, 1) && agree(0, 2) ? 1 : 3;
}

}  // namespace

double projected_area_m2(const Opening& opening, double gamma_deg, double c_deg) {
  const double cosine = std::abs(std::cos(gamma_deg * k_rad_per_deg));
  const double sine = std::sin(gamma_deg * k_rad_per_deg);
  const bool is_round =
      opening.shape == Opening::Shape::disc || (opening.shape == Opening::Shape::other && opening.height_m == 0);
  const double base_m2 = opening.width_m * opening.length_m * (is_round ? std::numbers::pi / 4 : 1);
  const double seen_width_m = is_round ? opening.width_m
                                       : opening.width_m * std::abs(std::cos(c_deg * k_rad_per_deg)) +
                                             opening.length_m * std::abs(std::sin(c_deg * k_rad_per_deg));
  return base_m2 * cosine + opening.height_m * seen_width_m * sine;
}

std::optional<LuminanceTable> luminance_table(const IntensityDistribution& distribution, const Opening& opening) {
  LuminanceTable table{{45, 55, 65, 75, 85}, {0, 45, 90, 135, 180, 225, 270, 315}, {}};
  table.cd_m2.resize(std::ssize(table.gamma_deg), std::ssize(table.c_deg));
  constexpr double k_smallest_m2 = 1e-9;  // below, it is an edge seen within rounding
  for (Eigen::Index j = 0; j < table.cd_m2.cols(); ++j) {
    for (Eigen::Index i = 0; i < table.cd_m2.rows(); ++i) {
      const double area_m2 = projected_area_m2(opening, table.gamma_deg[i], table.c_deg[j]);
      if (area_m2 < k_smallest_m2) return std::nullopt;
      table.cd_m2(i, j) = intensity_at(distribution, table.gamma_deg[i], table.c_deg[j]) / area_m2;
    }
  }
  const Eigen::Index columns = telling_columns(table.cd_m2);
  table.c_deg.resize(static_cast<std::size_t>(columns));
  table.cd_m2.conservativeResize(Eigen::NoChange, columns);
  return table;
}

}  // namespace evenlit
