#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "evenlit/room/scene.hpp"
#include "room/furnished_room.hpp"

namespace evenlit {

/// 6 m x 6 m, 2.5 m high, with no luminaires yet. Walls: y = 0 south, x = 6 east, y = 6 north, x = 0 west.
inline Scene wide_room(std::vector<Box> boxes = {}) {
  Scene scene = build_scene(empty_job({{0, 0}, {6, 0}, {6, 6}, {0, 6}}, {"south", "east", "north", "west"}), {});
  if (!boxes.empty()) place_boxes(scene, std::move(boxes));
  return scene;
}

/// A box along the plan's axes.
inline Box upright_box(const Eigen::Vector2d& low, const Eigen::Vector2d& high, double bottom_m, double top_m) {
  return {
      .name = "box", .centre_m = (low + high) / 2, .half_m = (high - low) / 2, .bottom_m = bottom_m, .top_m = top_m};
}

/// Of a diffuse opening: peak x cos(gamma) below, in steps that are straight to within 1e-7 of it.
inline IntensityDistribution diffuse(double peak_cd) {
  constexpr int k_steps = 1800;
  IntensityDistribution distribution{.c_deg = {0}, .candela = Eigen::ArrayXXd(k_steps + 1, 1)};
  for (int i = 0; i <= k_steps; ++i) {
    distribution.gamma_deg.push_back(90.0 * i / k_steps);
    distribution.candela(i, 0) = peak_cd * std::max(0.0, std::cos(i * std::numbers::pi / (2 * k_steps)));
  }
  distribution.candela(k_steps, 0) = 0;
  return distribution;
}

inline Opening disc(double diameter_m) {
  return {.shape = Opening::Shape::disc, .width_m = diameter_m, .length_m = diameter_m};
}

inline Opening rectangle_of(double length_m, double width_m) {
  return {.shape = Opening::Shape::rectangle, .width_m = width_m, .length_m = length_m};
}

/// A luminaire aimed straight down.
inline void add_luminaire(Scene& scene, const Eigen::Vector3d& position_m, const Opening& opening,
                          IntensityDistribution distribution) {
  scene.luminaires.push_back({.position_m = position_m,
                              .room_from_luminaire = room_from_luminaire(0, 0, 0),
                              .opening = opening,
                              .distribution = static_cast<int>(scene.distributions.size())});
  scene.distributions.push_back(std::move(distribution));
}

}  // namespace evenlit
