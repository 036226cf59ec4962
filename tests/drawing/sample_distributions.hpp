#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/photometry/synthetic.hpp"

namespace evenlit::sample {

// Invented distributions, and what to look for in the drawings of them.

inline constexpr double k_rad_per_deg = std::numbers::pi / 180;

/// Tabulated every 2.5 degrees down to `last_gamma_deg`, every 15 in C.
inline IntensityDistribution tabulated(double last_gamma_deg,
                                       const std::function<double(double gamma_rad, double c_rad)>& candela) {
  IntensityDistribution made;
  for (int i = 0; i * 2.5 <= last_gamma_deg; ++i) made.gamma_deg.push_back(i * 2.5);
  for (int j = 0; j <= 24; ++j) made.c_deg.push_back(j * 15);
  made.candela.resize(std::ssize(made.gamma_deg), std::ssize(made.c_deg));
  for (Eigen::Index i = 0; i < made.candela.rows(); ++i) {
    for (Eigen::Index j = 0; j < made.candela.cols(); ++j) {
      made.candela(i, j) = candela(made.gamma_deg[i] * k_rad_per_deg, made.c_deg[j] * k_rad_per_deg);
    }
  }
  return made;
}

/// I0 cos(gamma) in the lower half, tabulated every half degree.
inline IntensityDistribution cosine(double straight_down_cd) {
  IntensityDistribution made;
  made.c_deg = {0};
  for (int i = 0; i <= 180; ++i) made.gamma_deg.push_back(i * 0.5);
  made.candela.resize(181, 1);
  for (int i = 0; i <= 180; ++i) made.candela(i, 0) = straight_down_cd * std::cos(made.gamma_deg[i] * k_rad_per_deg);
  made.candela(180, 0) = 0;
  return made;
}

inline IntensityDistribution constant(double last_gamma_deg, double candela) {
  return {{0, last_gamma_deg}, {0}, Eigen::ArrayXXd::Constant(2, 1, candela)};
}

inline IntensityDistribution up_and_down() {
  return tabulated(180, [](double gamma, double c) {
    const double down = std::cos(gamma);
    return down > 0 ? 300 * down * (1 + 0.4 * std::cos(2 * c) * std::sin(gamma)) : 480 * down * down;
  });
}

inline IntensityDistribution thrown_to_c90() {
  return tabulated(90, [](double gamma, double c) {
    const double toward = std::cos(gamma) * std::cos(0.7) + std::sin(gamma) * std::sin(c) * std::sin(0.7);
    return 1000 * std::pow(std::max(0.0, toward), 6) * std::max(0.0, std::cos(gamma));
  });
}

/// Type B: planes that share the axis along C 0.
inline IntensityDistribution along_c0() {
  IntensityDistribution made;
  made.axis = IntensityDistribution::Axis::along_c0;
  made.gamma_deg = {30, 60, 90, 120, 150};
  made.c_deg = {-60, -30, 0, 30, 60};
  made.candela = Eigen::ArrayXXd::Constant(5, 5, 200);
  made.candela(2, 2) = 900;
  return made;
}

inline std::vector<std::pair<std::string, IntensityDistribution>> distributions() {
  SyntheticBeam batwing{1200, 100};
  batwing.batwing = Batwing{35, 0.5};
  return {{"cosine power", synthetic_beam({900, 60}).value()},
          {"narrow", synthetic_beam({600, 5}).value()},
          {"batwing", synthetic_beam(batwing).value()},
          {"thrown to C 90", thrown_to_c90()},
          {"up and down", up_and_down()},
          {"up", tabulated(180, [](double gamma, double) { return 500 * std::max(0.0, -std::cos(gamma)); })},
          {"dark", constant(90, 0)},
          {"the same everywhere", constant(180, 100)},
          {"faint", constant(90, 0.01)},
          {"strong", constant(60, 4e8)},
          {"type B", along_c0()}};
}

template <class Item>
std::vector<Item> all_of_kind(const Drawing& drawing) {
  std::vector<Item> found;
  for (const DrawingItem& item : drawing.items) {
    if (const Item* one = std::get_if<Item>(&item)) found.push_back(*one);
  }
  return found;
}

inline bool says(const Drawing& drawing, const std::string& wanted) {
  const std::vector<Text> texts = all_of_kind<Text>(drawing);
  return std::any_of(texts.begin(), texts.end(), [&](const Text& text) { return text.text == wanted; });
}

/// The curves of the diagrams: their thickest lines, without the samples of the legend.
inline std::vector<Stroke> curves(const Drawing& drawing) {
  std::vector<Stroke> found;
  for (const Stroke& stroke : all_of_kind<Stroke>(drawing)) {
    if (stroke.width == 5 && stroke.points.size() > 2) found.push_back(stroke);
  }
  return found;
}

}  // namespace evenlit::sample
