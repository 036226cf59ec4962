#include "written_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "sphere.hpp"

namespace evenlit {
namespace {

/// Whether every plane has an equal one at its mirror image in the vertical plane through `axis_deg`.
bool is_mirrored(const IntensityDistribution& d, double axis_deg) {
  for (std::size_t j = 0; j < d.c_deg.size(); ++j) {
    const double image_deg = std::fmod(2 * axis_deg - d.c_deg[j] + 720, 360);
    const auto image = std::ranges::find_if(d.c_deg, [&](double c) { return std::abs(c - image_deg) < 1e-9; });
    if (image == d.c_deg.end()) return false;
    const auto column = static_cast<Eigen::Index>(j);
    if ((d.candela.col(image - d.c_deg.begin()) != d.candela.col(column)).any()) return false;
  }
  return true;
}

/// The largest difference between two distributions at the directions of the first one's table, over its peak.
double difference(const IntensityDistribution& from, const IntensityDistribution& to) {
  const Eigen::Matrix3d luminaire_from_table = table_from_luminaire(from.axis).transpose();
  double worst = 0;
  for (std::size_t j = 0; j < from.c_deg.size(); ++j) {
    for (std::size_t i = 0; i < from.gamma_deg.size(); ++i) {
      const Eigen::Vector3d direction = direction_of(from.gamma_deg[i], from.c_deg[j]);
      worst = std::max(worst, std::abs(intensity_toward(to, luminaire_from_table * direction) - from.candela(i, j)));
    }
  }
  const double peak = from.candela.maxCoeff();
  return peak > 0 ? worst / peak : 0;
}

}  // namespace

Symmetry symmetry_of(const IntensityDistribution& distribution) {
  if (is_rotational(distribution)) return Symmetry::rotational;
  const bool about_c0 = is_mirrored(distribution, 0);
  const bool about_c90 = is_mirrored(distribution, 90);
  if (about_c0 && about_c90) return Symmetry::quadrant;
  if (about_c0) return Symmetry::about_c0;
  return about_c90 ? Symmetry::about_c90 : Symmetry::none;
}

IntensityDistribution in_c_planes(const IntensityDistribution& distribution, const Place& place,
                                  std::string_view reason, Problems& warnings) {
  if (is_type_c(distribution)) return distribution;
  IntensityDistribution planes = as_type_c(distribution);
  warnings.push_back({place,
                      fmt::format("{}: tabulated anew every degree around the vertical, up to {} % of the peak away",
                                  reason, fixed_text(100 * difference(distribution, planes), 1)),
                      ""});
  return planes;
}

IntensityDistribution with_planes_at(IntensityDistribution distribution, const std::vector<double>& c_deg) {
  for (const double c : c_deg) {
    const auto after = std::ranges::lower_bound(distribution.c_deg, c);
    if (after == distribution.c_deg.end() || *after == c) continue;
    const Eigen::Index column = after - distribution.c_deg.begin();
    Eigen::ArrayXXd wider(distribution.candela.rows(), distribution.candela.cols() + 1);
    wider.leftCols(column) = distribution.candela.leftCols(column);
    wider.rightCols(distribution.candela.cols() - column) =
        distribution.candela.rightCols(distribution.candela.cols() - column);
    for (Eigen::Index i = 0; i < wider.rows(); ++i) {
      wider(i, column) = intensity_at(distribution, distribution.gamma_deg[i], c);
    }
    distribution.candela = std::move(wider);
    distribution.c_deg.insert(after, c);
  }
  return distribution;
}

IntensityDistribution reaching(IntensityDistribution distribution, double first_deg, double last_deg) {
  constexpr double k_beside_deg = 1e-6;  // the last decimal of written angles
  auto& gamma = distribution.gamma_deg;
  const std::vector<double> before =
      gamma.front() > first_deg ? std::vector{first_deg, gamma.front() - k_beside_deg} : std::vector<double>{};
  const std::vector<double> after =
      gamma.back() < last_deg ? std::vector{gamma.back() + k_beside_deg, last_deg} : std::vector<double>{};
  Eigen::ArrayXXd longer = Eigen::ArrayXXd::Zero(distribution.candela.rows() + std::ssize(before) + std::ssize(after),
                                                 distribution.candela.cols());
  longer.middleRows(std::ssize(before), distribution.candela.rows()) = distribution.candela;
  distribution.candela = std::move(longer);
  gamma.insert(gamma.begin(), before.begin(), before.end());
  gamma.insert(gamma.end(), after.begin(), after.end());
  return distribution;
}

IntensityDistribution planes_between(const IntensityDistribution& distribution, double from_deg, double to_deg) {
  const auto& c = distribution.c_deg;
  const auto begin = std::ranges::lower_bound(c, from_deg) - c.begin();
  const auto end = std::ranges::upper_bound(c, to_deg) - c.begin();
  return {distribution.gamma_deg,
          {c.begin() + begin, c.begin() + end},
          distribution.candela.middleCols(begin, end - begin),
          distribution.axis};
}

std::string written_angle(double deg) { return shortest_text(std::round(deg * 1e6) / 1e6 + 0.0); }

int decimals_for(double largest) {
  if (!(largest > 0)) return 0;
  return std::clamp(5 - static_cast<int>(std::floor(std::log10(largest))), 0, 12);
}

}  // namespace evenlit
