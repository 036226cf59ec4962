#include "evenlit/drawing/floor_sketch.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "diagram_sheet.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/text.hpp"
#include "free_space.hpp"
#include "isolux_lines.hpp"
#include "light_scale.hpp"
#include "plan_view.hpp"

namespace evenlit {
namespace {

constexpr double k_side = 900;  // of the square on the sheet
constexpr double k_left = 170;
constexpr double k_top = 216;
constexpr double k_half_cap = k_cap_height / 2 * k_diagram_text;

// I cos(gamma) / d^2, where cos(gamma) = h / d.
double illuminance_lx(const IntensityDistribution& distribution, double height_m, const Eigen::Vector2d& at_m) {
  const Eigen::Vector3d ray_m(at_m.x(), at_m.y(), -height_m);
  const double distance_m = ray_m.norm();
  return intensity_toward(distribution, ray_m) * height_m / (distance_m * distance_m * distance_m);
}

/// The light along rays from the point straight below.
struct Reach {
  double peak_lx = 0;
  double peak_at_m = 0;  ///< distance from straight below
  double twentieth_m = 0;
};

Reach reach_of(const IntensityDistribution& distribution, double height_m) {
  constexpr double k_farthest = 3;  // heights
  constexpr int k_steps = 600;
  constexpr int k_rays = 24;
  std::vector<std::pair<double, double>> samples;  // distance, lx
  for (int i = 0; i <= k_steps; ++i) {
    const double distance_m = k_farthest * height_m * i / k_steps;
    for (int ray = 0; ray < k_rays; ++ray) {
      const double angle = 2 * std::numbers::pi * ray / k_rays;
      const Eigen::Vector2d at_m(distance_m * std::cos(angle), distance_m * std::sin(angle));
      samples.emplace_back(distance_m, illuminance_lx(distribution, height_m, at_m));
    }
  }
  Reach reach;
  for (const auto& [distance_m, lx] : samples) {
    if (lx <= reach.peak_lx) continue;
    reach.peak_lx = lx;
    reach.peak_at_m = distance_m;
  }
  for (const auto& [distance_m, lx] : samples) {
    if (lx > reach.peak_lx / 20) reach.twentieth_m = distance_m;
  }
  return reach;
}

SampledField floor_light(const IntensityDistribution& distribution, double height_m, double side_m) {
  constexpr int k_points = 321;  // odd, so that one is straight below
  const double spacing_m = side_m / (k_points - 1);
  SampledField field{{-side_m / 2, -side_m / 2}, {spacing_m, spacing_m}, k_points, k_points, {}};
  for (int row = 0; row < k_points; ++row) {
    for (int column = 0; column < k_points; ++column) {
      const Eigen::Vector2d at_m(field.first.x() + column * spacing_m, field.first.y() + row * spacing_m);
      field.values.push_back(illuminance_lx(distribution, height_m, at_m));
    }
  }
  return field;
}

// 1, 2, 5, 10, 20 ... from a fiftieth of the peak on: light falls off too steeply for equal steps.
std::vector<Isolux> levels_of(double peak_lx, Units units) {
  const double peak = peak_lx / unit_lx(units);
  std::vector<Isolux> levels;
  if (!(peak > 0)) return levels;
  for (double decade = std::pow(10.0, std::floor(std::log10(peak)) - 2); decade < peak; decade *= 10) {
    for (const double factor : {1.0, 2.0, 5.0}) {
      const double value = factor * decade;
      if (value >= peak / 50 && value < peak) levels.push_back({value * unit_lx(units), level_text(value), false});
    }
  }
  return levels;
}

void add_axes(Sheet& sheet, const PlanView& view, double side_m, Units units) {
  const double unit_m = units == Units::imperial ? k_metres_per_foot : 1;
  const double step = round_scale(side_m / 2 / unit_m).step;
  const double bottom = k_top + k_side;
  const auto add_tick = [&](double value) {
    const Eigen::Vector2d at = view.at(Eigen::Vector2d(value * unit_m, value * unit_m));
    const std::string label = level_text(std::abs(value));
    sheet.line(at.x(), bottom, at.x(), bottom + 10, 1.6, k_dark);
    sheet.line(k_left - 10, at.y(), k_left, at.y(), 1.6, k_dark);
    sheet.write(label, at.x(), bottom + 20 + 2 * k_half_cap, k_diagram_text, Weight::regular, k_grey, Anchor::middle);
    sheet.write(label, k_left - 20, at.y() + k_half_cap, k_diagram_text, Weight::regular, k_grey, Anchor::right);
  };
  add_tick(0);
  for (int i = 1; i * step * unit_m <= side_m / 2 * (1 + 1e-9); ++i) {
    add_tick(i * step);
    add_tick(-i * step);
  }
  const std::string unit = units == Units::imperial ? "feet" : "metres";
  sheet.write(unit + " from straight below", k_left + k_side / 2, bottom + 64 + 2 * k_half_cap, k_diagram_text,
              Weight::regular, k_grey, Anchor::middle);
  sheet.write("C0", k_left + k_side + 16, k_top + k_side / 2 + k_half_cap, k_diagram_text, Weight::regular, k_dark);
  sheet.write("C90", k_left + k_side / 2, k_top - 16, k_diagram_text, Weight::regular, k_dark, Anchor::middle);
}

void add_luminaire(Sheet& sheet, const Eigen::Vector2d& at) {
  constexpr double k_radius = 9;
  constexpr double k_arm = 16;
  sheet.items.emplace_back(Fill{{circle(at, k_radius + 3)}, k_halo});
  sheet.items.emplace_back(Stroke{circle(at, k_radius), true, 2, k_dark, {}});
  sheet.line(at.x() - k_arm, at.y(), at.x() + k_arm, at.y(), 1.4, k_dark);
  sheet.line(at.x(), at.y() - k_arm, at.x(), at.y() + k_arm, 1.4, k_dark);
}

void add_floor(Sheet& sheet, const SampledField& field_m, const PlanView& view, double peak_lx, double top_lx,
               Units units) {
  constexpr double k_label_size = 28;
  const double half_m = -field_m.first.x();
  const Polygon square_m{{-half_m, -half_m}, {half_m, -half_m}, {half_m, half_m}, {-half_m, half_m}};
  const Polyline outline = view.at(square_m);
  const Eigen::Vector2d luminaire = view.at(Eigen::Vector2d(0, 0));
  FreeSpace space(outline);
  space.take({{luminaire, 16}});
  sheet.items.emplace_back(FalseColour{view.at(field_m), top_lx, {outline}});
  sheet.add(isolux_lines(field_m, square_m, levels_of(peak_lx, units), view, k_label_size, space));
  sheet.items.emplace_back(Stroke{outline, true, 2, k_dark, {}});
  add_luminaire(sheet, luminaire);
}

std::vector<Figure> figures_of(const Reach& reach, const FloorSketch& options) {
  const Units units = options.units;
  const double off_m = reach.peak_at_m;
  const std::string distance = units == Units::imperial ? feet_inches(off_m, 1) : fixed_text(off_m, 1) + " m";
  const std::string where = off_m > 0 ? distance + " from straight below" : "straight below";
  return {
      {"Largest illuminance", illuminance_both_text(reach.peak_lx, 0, units), reach.peak_lx > 0 ? where : "no light"},
      {"Height above the floor", length_text(options.height_m, units), length_text(options.height_m, other(units))}};
}

}  // namespace

Drawing floor_sketch(const IntensityDistribution& distribution, const FloorSketch& options) {
  const double height_m = options.height_m;
  const Reach reach = reach_of(distribution, height_m);
  const double side_m = std::clamp(2 * reach.twentieth_m, 1.5 * height_m, 6 * height_m);
  const double top_lx = automatic_top_lx(reach.peak_lx, options.units);
  const PlanView view{k_side / side_m, {k_left + k_side / 2, k_top + k_side / 2}};
  Sheet sheet;
  add_heading(sheet, options.text);
  add_floor(sheet, floor_light(distribution, height_m, side_m), view, reach.peak_lx, top_lx, options.units);
  add_axes(sheet, view, side_m, options.units);
  const double scale_top = k_top + k_side + 172;
  add_light_scale(sheet, {options.units, top_lx, {}},
                  {k_diagram_margin, k_diagram_margin + 62, k_diagram_right - 30, scale_top, k_diagram_text});
  const double figures = scale_top + 104;
  add_figure_row(sheet, figures_of(reach, options), figures);
  sheet.write("Direct light of one luminaire as a point, no reflections.", k_diagram_margin, figures + 206, 28,
              Weight::regular, k_grey);
  return {k_diagram_width, std::ceil(figures + 206 + 44), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
