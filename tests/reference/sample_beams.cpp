#include "sample_beams.hpp"

#include <cmath>
#include <numbers>

#include "evenlit/photometry/synthetic.hpp"
#include "field/rooms.hpp"

namespace evenlit::reference {

IntensityDistribution beam(double lumens, double beam_angle_deg) {
  return *synthetic_beam({.lumens = lumens, .beam_angle_deg = beam_angle_deg});
}

IntensityDistribution down_and_up(double down_cd, double up_cd) {
  return testing::tabulated(
      [=](double gamma) { return std::cos(gamma) > 0 ? down_cd * std::cos(gamma) : -up_cd * std::cos(gamma); }, 180,
      2.5);
}

IntensityDistribution spot_of_ten_degrees() {
  IntensityDistribution spot{
      .gamma_deg = {0, 1, 2, 3, 4, 5, 6, 7, 8, 10, 15, 30, 90}, .c_deg = {0}, .candela = Eigen::ArrayXXd(13, 1)};
  spot.candela << 9000, 8700, 7900, 6700, 5500, 4500, 3100, 1900, 900, 300, 80, 20, 0;
  return spot;
}

IntensityDistribution wall_wash(double peak_cd) {
  IntensityDistribution wash{.gamma_deg = {}, .c_deg = {}, .candela = Eigen::ArrayXXd(19, 25)};
  for (int i = 0; i < 19; ++i) wash.gamma_deg.push_back(5.0 * i);
  for (int j = 0; j < 25; ++j) wash.c_deg.push_back(15.0 * j);
  for (int j = 0; j < 25; ++j) {
    for (int i = 0; i < 19; ++i) {
      const double gamma = wash.gamma_deg[i] * std::numbers::pi / 180;
      const double c = wash.c_deg[j % 24] * std::numbers::pi / 180;
      const double fall = i < 12 ? std::pow(std::cos(1.5 * gamma), 1.5) : 0;
      wash.candela(i, j) = peak_cd * fall * (0.5 + 0.5 * std::sin(gamma) * std::cos(c));
    }
  }
  return wash;
}

IntensityDistribution trough(double peak_cd) {
  IntensityDistribution table{.gamma_deg = {},
                              .c_deg = {-90, -60, -30, -15, 0, 15, 30, 60, 90},
                              .candela = Eigen::ArrayXXd(19, 9),
                              .axis = IntensityDistribution::Axis::along_c0};
  const Eigen::Array<double, 1, 9> across{0, 0.1, 0.5, 0.9, 1, 0.9, 0.5, 0.1, 0};
  for (int i = 0; i < 19; ++i) {
    table.gamma_deg.push_back(10.0 * i);
    table.candela.row(i) = i % 18 == 0 ? 0 * across : peak_cd * std::sin(i * std::numbers::pi / 18) * across;
  }
  return table;
}

}  // namespace evenlit::reference
