#include "evenlit/photometry/zonal_cavity.hpp"

#include <Eigen/LU>
#include <cmath>

namespace evenlit {
namespace {

/// Form factor between the base and the top of a cavity: the handbook's fit.
double base_to_top(double ratio) { return 0.026 + 0.503 * std::exp(-0.270 * ratio) + 0.470 * std::exp(-0.119 * ratio); }

}  // namespace

ZonalFlux zonal_flux(const IntensityDistribution& distribution) {
  ZonalFlux flux;
  for (std::size_t zone = 0; zone < flux.down.size(); ++zone) {
    const double from_deg = 10.0 * static_cast<double>(zone);
    flux.down[zone] = zonal_lumens(distribution, from_deg, from_deg + 10);
  }
  flux.up = zonal_lumens(distribution, 90, 180);
  return flux;
}

double total(const ZonalFlux& flux) {
  double sum = flux.up;
  for (const double zone : flux.down) sum += zone;
  return sum;
}

double direct_ratio(const ZonalFlux& flux, double room_cavity_ratio) {
  constexpr std::array k_a = {0.0, 0.041, 0.070, 0.100, 0.136, 0.190, 0.315, 0.640, 2.10};
  constexpr std::array k_b = {0.0, 0.98, 1.05, 1.12, 1.16, 1.25, 1.25, 1.25, 0.80};
  double striking = 0;
  double down = 0;
  for (std::size_t zone = 0; zone < flux.down.size(); ++zone) {
    striking += flux.down[zone] * std::exp(-k_a[zone] * std::pow(room_cavity_ratio, k_b[zone]));
    down += flux.down[zone];
  }
  return down > 0 ? striking / down : 0;
}

double cavity_ratio(double height_m, double perimeter_m, double area_m2) {
  return 2.5 * height_m * perimeter_m / area_m2;
}

double effective_cavity_reflectance(double ratio, double base, double wall) {
  if (ratio <= 0) return base;
  const double f = base_to_top(ratio);
  const double base_over_wall = 2.5 / ratio;
  const double to_wall = base_over_wall * (1 - f);
  return (base * wall * f * (2 * to_wall - f) + base * f * f + wall * to_wall * (1 - f)) /
         (1 - base * wall * to_wall * (1 - f) - wall * (1 - 2 * to_wall));
}

double coefficient_of_utilization(const ZonalFlux& flux, double room_cavity_ratio, const CavityFinishes& finishes) {
  const double all = total(flux);
  if (all <= 0) return 0;
  const double down = all - flux.up;
  if (room_cavity_ratio <= 0)
    return (down + finishes.ceiling * flux.up) / (all * (1 - finishes.ceiling * finishes.floor));

  // Ceiling, walls and work plane, per unit of floor area: flux that arrives = initial + sum of F^T rho flux.
  const double f = base_to_top(room_cavity_ratio);
  const double wall_area = 0.4 * room_cavity_ratio;
  const double wall_to_end = (1 - f) / wall_area;
  const double direct = direct_ratio(flux, room_cavity_ratio);
  const Eigen::Vector3d initial(flux.up, down * (1 - direct), down * direct);
  Eigen::Matrix3d transfer;
  transfer << 0, wall_to_end, f,          //
      1 - f, 1 - 2 * wall_to_end, 1 - f,  //
      f, wall_to_end, 0;
  const Eigen::Vector3d reflectance(finishes.ceiling, finishes.walls, finishes.floor);
  const Eigen::Matrix3d system = Eigen::Matrix3d::Identity() - transfer * reflectance.asDiagonal();
  return system.lu().solve(initial).z() / all;
}

}  // namespace evenlit
