#pragma once

#include <cmath>
#include <numbers>

#include "field/rooms.hpp"

namespace evenlit {

/// In the middle of a cube with faces `distance_m` away it lights all of them evenly: I = E d^2 / cos^3 of the angle
/// from the nearest face's normal. In steps of half a degree straight lines leave that by less than 0.05 %.
inline IntensityDistribution even_on_cube(double lux, double distance_m) {
  constexpr int k_per_deg = 2;
  IntensityDistribution distribution{
      .gamma_deg = {}, .c_deg = {}, .candela = {180 * k_per_deg + 1, 360 * k_per_deg + 1}};
  for (int i = 0; i < distribution.candela.rows(); ++i) {
    const double gamma = i * std::numbers::pi / (180 * k_per_deg);
    distribution.gamma_deg.push_back(static_cast<double>(i) / k_per_deg);
    for (int j = 0; j < distribution.candela.cols(); ++j) {
      const double c = j * std::numbers::pi / (180 * k_per_deg);
      if (i == 0) distribution.c_deg.push_back(static_cast<double>(j) / k_per_deg);
      const Eigen::Vector3d direction(std::sin(gamma) * std::cos(c), std::sin(gamma) * std::sin(c), std::cos(gamma));
      const bool is_pole = i == 0 || i + 1 == distribution.candela.rows();
      const double cosine = is_pole ? 1 : direction.cwiseAbs().maxCoeff();
      distribution.candela(i, j) = lux * distance_m * distance_m / (cosine * cosine * cosine);
    }
  }
  return distribution;
}

/// 100 lx on all faces of a cube of 3 m, before any reflection.
inline Scene furnace(double reflectance) {
  Scene scene = testing::box_room(3, 3, 3, {reflectance, reflectance, reflectance});
  testing::add_point(scene, {1.5, 1.5, 1.5}, even_on_cube(100, 1.5));
  return scene;
}

}  // namespace evenlit
