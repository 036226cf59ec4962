#include "evenlit/drawing/section_drawing.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/isolux.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/text.hpp"
#include "free_space.hpp"
#include "isolux_lines.hpp"
#include "light_scale.hpp"
#include "map_sheet.hpp"
#include "plan_light.hpp"
#include "plan_view.hpp"
#include "plan_walls.hpp"

namespace evenlit {
namespace {

constexpr Ink k_beam_ink{{250, 214, 84}, 0.7};
constexpr Ink k_field_ink{{252, 236, 178}, 0.6};
constexpr Ink k_grid_line{{214, 217, 222}};
constexpr double k_above_room = 112;  // numbers of cans, distances between them
constexpr double k_below_room = 84;   // its length
constexpr double k_chart_height = 300;

PlanView section_view(const CrossSection& section, double top) {
  constexpr double k_tallest = 560;
  constexpr double k_beside = k_outside_plan;  // heights, walls' names; below, the chart's figures
  const Eigen::AlignedBox2d bounds = bounds_of(section.outline_m);
  const double width = k_map_content.right - k_map_content.left - 2 * k_beside;
  const double scale = std::min(width / section.length_m, k_tallest / bounds.max().y());
  return {scale, {(k_map_width - scale * section.length_m) / 2, top + k_above_room + scale * bounds.max().y()}};
}

/// Two edges of a cone, from the luminaire outward.
std::vector<DrawingItem> cone_marks(const SectionCone& cone, const PlanView& view, const Ink& ink,
                                    const std::vector<double>& dash) {
  const Polyline outline = view.at(cone.outline_m);
  std::vector<DrawingItem> items{Fill{{outline}, ink}};
  for (const Eigen::Vector2d& end : {outline[1], outline.back()}) {
    items.emplace_back(Stroke{{outline.front(), end}, false, 1.8, k_dark, dash});
  }
  return items;
}

const std::vector<double> k_field_dash{3, 5};
const std::vector<double> k_plane_dash{14, 6};
const std::vector<double> k_alone_dash{9, 6};

std::vector<DrawingItem> box_figures(const CrossSection& section, const PlanView& view, FreeSpace& space) {
  std::vector<DrawingItem> items;
  std::vector<DrawingItem> names;
  for (const SectionBox& box : section.boxes) {
    const Polyline outline = view.at(box.outline_m);
    items.emplace_back(Fill{{outline}, k_light_grey});
    items.emplace_back(Stroke{outline, true, 1.6, k_dark, {}});
    const Eigen::AlignedBox2d bounds = bounds_of(outline);
    const std::string name = elided(box.name, k_small_text, Weight::regular, bounds.sizes().x() - 14);
    if (name.empty()) continue;
    const Text text = halo_text(name, bounds.center(), k_small_text, Weight::regular);
    if (!FreeSpace(outline).is_free(discs_of(text)) || !space.is_free(discs_of(text))) continue;
    space.take(discs_of(text));
    names.emplace_back(text);
  }
  append(items, std::move(names));
  return items;
}

/// A can as it stands in the ceiling.
std::vector<DrawingItem> can_figure(const Eigen::Vector2d& opening, double width, bool is_shown) {
  const Eigen::Vector2d half(width / 2, 0);
  const Eigen::Vector2d up(0, -k_wall_band);
  const Polyline outline{opening - half, opening + half, opening + half + up, opening - half + up};
  return {Fill{{outline}, is_shown ? Ink{k_beam_ink.colour} : k_white}, Stroke{outline, true, 2, k_dark, {}}};
}

double can_width(const Job& job, const Scene& scene, int can, double units_per_m) {
  constexpr double k_least = 12;
  const PlanView view{units_per_m, {0, 0}};
  const Disc hole = can_discs(job.can_types, {job.cans[can]}, {scene.luminaires[can]}, view).front();
  return std::max(k_least, 2 * hole.radius);
}

void add_row(Sheet& sheet, const Job& job, const Scene& scene, const CrossSection& section, const PlanView& view,
             FreeSpace& space) {
  for (const auto& [can, at_m] : section.row) {
    const Eigen::Vector2d opening = view.at(at_m);
    sheet.add(can_figure(opening, can_width(job, scene, can, view.units_per_m), can == section.through));
    const Text number =
        halo_text(std::to_string(can + 1), opening - Eigen::Vector2d(0, k_wall_band + 18), k_small_text, Weight::bold);
    if (!space.is_free(discs_of(number))) continue;
    space.take(discs_of(number));
    sheet.items.emplace_back(number);
  }
}

/// A dimension whose text has space; without, only its lines.
void add_dimension(Sheet& sheet, std::vector<DrawingItem> dimension, FreeSpace& space) {
  for (DrawingItem& item : dimension) {
    if (const Text* text = std::get_if<Text>(&item)) {
      if (!space.is_free(discs_of(*text))) continue;
      space.take(discs_of(*text));
    }
    sheet.items.push_back(std::move(item));
  }
}

/// How high a section is at one of its walls.
double wall_height_m(const CrossSection& section, double x_m) {
  constexpr double k_rounding_m = 1e-6;
  double height = 0;
  for (const Eigen::Vector2d& corner : section.outline_m) {
    if (std::abs(corner.x() - x_m) < k_rounding_m) height = std::max(height, corner.y());
  }
  return height;
}

void add_dimensions(Sheet& sheet, const CrossSection& section, const PlanView& view, Units units, FreeSpace& space) {
  constexpr double k_from_number = 26;
  const double top = view.at(bounds_of(section.outline_m).max()).y() - 56;
  const auto add = [&](const Eigen::Vector2d& from, const Eigen::Vector2d& to, double distance, double length_m) {
    add_dimension(sheet, dimension_line(from, to, distance, length_text(length_m, units)), space);
  };
  std::vector<double> places{0};
  for (const SectionLuminaire& one : section.row) places.push_back(one.at_m.x());
  places.push_back(section.length_m);
  for (std::size_t i = 1; i < places.size(); ++i) {
    const double left = view.at(Eigen::Vector2d(places[i - 1], 0)).x();
    const double right = view.at(Eigen::Vector2d(places[i], 0)).x();
    add({right, top}, {left, top}, k_from_number, places[i] - places[i - 1]);
  }
  const double left_m = wall_height_m(section, 0);
  const double right_m = wall_height_m(section, section.length_m);
  const auto at = [&](double x_m, double y_m) { return view.at(Eigen::Vector2d(x_m, y_m)); };
  add(at(0, left_m), at(0, 0), 66, left_m);
  add(at(section.length_m, 0), at(section.length_m, right_m), 66, right_m);
  add(at(0, 0), at(section.length_m, 0), k_wall_band + 34, section.length_m);
}

/// Beside the wall, turned to read from below.
void add_wall_name(Sheet& sheet, const std::string& name, double x, double floor, double ceiling) {
  constexpr double k_quarter = -1.5707963267948966;
  const std::string shown = elided(name, k_small_text, Weight::regular, floor - ceiling);
  if (shown.empty()) return;
  Text text = centred_text(shown, {x, (floor + ceiling) / 2}, k_small_text, Weight::regular, k_quarter);
  text.ink = k_grey;
  sheet.items.emplace_back(text);
}

/// Above its line, as far to the right as there is space.
void add_plane_name(Sheet& sheet, const std::string& name, double plane, const Eigen::AlignedBox2d& room,
                    const FreeSpace& space) {
  constexpr double k_step = 20;
  for (double x = room.max().x() - k_step; x > room.min().x(); x -= k_step) {
    const Text text = halo_text(name, {x, plane - 18}, k_small_text, Weight::regular);
    if (!space.is_free(discs_of(text))) continue;
    sheet.items.emplace_back(text);
    return;
  }
}

void add_room(Sheet& sheet, const Job& job, const Scene& scene, const CrossSection& section, const PlanView& view) {
  const Polyline outline = view.at(section.outline_m);
  const Eigen::AlignedBox2d bounds = bounds_of(outline);
  FreeSpace inside(outline);
  FreeSpace around({{0, 0}, {k_map_width, 0}, {k_map_width, 1e6}, {0, 1e6}});
  if (section.field) sheet.add(cone_marks(*section.field, view, k_field_ink, k_field_dash));
  if (section.beam) sheet.add(cone_marks(*section.beam, view, k_beam_ink, {}));
  const double plane = view.at(Eigen::Vector2d(0, section.work_plane_m)).y();
  for (const Polyline& line :
       clipped({{{0, section.work_plane_m}, {section.length_m, section.work_plane_m}}}, section.outline_m)) {
    sheet.items.emplace_back(Stroke{view.at(line), false, 2, k_dark, k_plane_dash});
  }
  sheet.add(box_figures(section, view, inside));
  for (const SectionBox& box : section.boxes) inside.take(discs_on(view.at(box.outline_m)));
  add_plane_name(sheet, "work plane " + length_text(section.work_plane_m, job.units), plane, bounds, inside);
  sheet.items.push_back(wall_band(section.outline_m, view));
  add_row(sheet, job, scene, section, view, around);
  add_dimensions(sheet, section, view, job.units, around);
  const auto ceiling = [&](double x_m) { return view.at(Eigen::Vector2d(x_m, wall_height_m(section, x_m))).y(); };
  add_wall_name(sheet, job.room.wall_names[section.left_wall], bounds.min().x() - 33, bounds.max().y(), ceiling(0));
  add_wall_name(sheet, job.room.wall_names[section.right_wall], bounds.max().x() + 33, bounds.max().y(),
                ceiling(section.length_m));
}

/// Where the chart is on the sheet.
struct Chart {
  PlanView view;  ///< of the section: x alone counts
  double left = 0;
  double right = 0;
  double top = 0;
  double bottom = 0;
  double top_lx = 1;

  [[nodiscard]] double y(double lx) const { return bottom - (bottom - top) * lx / top_lx; }
  [[nodiscard]] double x(double x_m) const { return view.at(Eigen::Vector2d(x_m, 0)).x(); }
};

void add_axis(Sheet& sheet, const Chart& chart, Units units, bool is_left) {
  constexpr double k_from_axis = 10;
  const double unit = unit_lx(units);
  const Weight weight = is_left ? Weight::bold : Weight::regular;
  const double axis = is_left ? chart.left : chart.right;
  const double outward = is_left ? -1 : 1;
  const Anchor anchor = is_left ? Anchor::right : Anchor::left;
  std::vector<double> values = round_levels(chart.top_lx / unit);
  values.insert(values.begin(), 0);
  if (is_left) values.push_back(chart.top_lx / unit);
  const double half_cap = k_cap_height / 2 * k_small_text;
  for (const double value : values) {
    const double y = chart.y(value * unit);
    if (is_left) sheet.line(chart.left, y, chart.right, y, 1.2, k_grid_line);
    sheet.line(axis, y, axis + outward * 6, y, 1.4, k_dark);
    sheet.write(level_text(value), axis + outward * k_from_axis, y + half_cap, k_small_text, weight, k_dark, anchor);
  }
  sheet.write(unit_name(units), axis + outward * k_from_axis, chart.top - 22, k_small_text, weight, k_dark, anchor);
}

/// A curve with gaps where nothing is known.
std::vector<DrawingItem> curve(const Chart& chart, const CrossSection& section, const Eigen::VectorXd& lx, double width,
                               const std::vector<double>& dash) {
  std::vector<DrawingItem> items;
  Polyline line;
  const auto end_line = [&] {
    if (line.size() > 1) items.emplace_back(Stroke{line, false, width, k_dark, dash});
    line.clear();
  };
  for (std::size_t i = 0; i < section.stations_m.size(); ++i) {
    const double x_m = section.stations_m[i];
    if (i > 0 && x_m - section.stations_m[i - 1] > 1.5 * section.spacing_m) end_line();
    line.emplace_back(chart.x(x_m), chart.y(std::max(0.0, lx[static_cast<Eigen::Index>(i)])));
  }
  end_line();
  return items;
}

void add_chart(Sheet& sheet, const Job& job, const SectionLight& light, const Chart& chart) {
  add_axis(sheet, chart, job.units, true);
  add_axis(sheet, chart, other(job.units), false);
  for (const SectionLuminaire& one : light.section.row) {
    const double x = chart.x(one.at_m.x());
    sheet.line(x, chart.top, x, chart.bottom, 1.2, k_grid_line);
  }
  if (job.target_lx && *job.target_lx < chart.top_lx) {
    const double y = chart.y(*job.target_lx);
    sheet.line(chart.left, y, chart.right, y, 2, k_grey);
  }
  sheet.items.emplace_back(Stroke{
      {{chart.left, chart.top}, {chart.right, chart.top}, {chart.right, chart.bottom}, {chart.left, chart.bottom}},
      true,
      1.4,
      k_grey,
      {}});
  sheet.add(curve(chart, light.section, light.alone_lx, 2.4, k_alone_dash));
  sheet.add(curve(chart, light.section, light.total_lx, 3.4, {}));
}

std::vector<DrawingItem> cone_sample(const Ink& ink, const std::vector<double>& dash) {
  return cone_marks({0, {{0, 11}, {13, -11}, {-13, -11}}}, {1, {0, 0}}, ink, dash);
}

std::string degrees_text(double degrees) { return fixed_text(degrees, 0) + "°"; }

std::vector<LegendEntry> legend_of(const Job& job, const CrossSection& section) {
  const std::string can = "can " + std::to_string(section.through + 1);
  std::vector<LegendEntry> entries{{line_sample(3.4, k_dark, {}), "all cans"},
                                   {line_sample(2.4, k_dark, k_alone_dash), can + " alone"}};
  if (const auto target = target_text(job)) entries.push_back({line_sample(2, k_grey, {}), *target});
  if (section.beam) {
    entries.push_back(
        {cone_sample(k_beam_ink, {}), "beam " + degrees_text(section.beam->angle_deg) + ": half the peak"});
  }
  if (section.field) {
    entries.push_back(
        {cone_sample(k_field_ink, k_field_dash), "field " + degrees_text(section.field->angle_deg) + ": a tenth"});
  }
  return entries;
}

std::vector<MapFigure> figures_of(const Job& job, const SectionLight& light) {
  if (light.total_lx.size() == 0) return {};
  constexpr double k_error = 0.005;  // what the light is computed to
  const auto figure = [&](const std::string& name, double lx) {
    return MapFigure{name, illuminance_text(lx, k_error * lx, job.units),
                     illuminance_text(lx, k_error * lx, other(job.units))};
  };
  return {figure("Highest", light.total_lx.maxCoeff()), figure("Lowest", std::max(0.0, light.total_lx.minCoeff())),
          figure("Can " + std::to_string(light.section.through + 1) + " alone, highest", light.alone_lx.maxCoeff())};
}

}  // namespace

Drawing section_drawing(const Job& job, const Scene& scene, const SectionLight& light) {
  const CrossSection& section = light.section;
  Sheet sheet;
  const double heading = add_map_heading(
      sheet, job.room.name,
      {"section through can " + std::to_string(section.through + 1) + ", " + job.room.wall_names[section.left_wall] +
       " to " + job.room.wall_names[section.right_wall] + "  ·  light on the work plane along it"},
      k_map_content);
  const PlanView view = section_view(section, heading);
  add_room(sheet, job, scene, section, view);
  const double floor = view.at(Eigen::Vector2d(0, 0)).y();
  const double chart_top = floor + k_below_room + 44;
  const double maximum_lx = light.total_lx.size() > 0 ? light.total_lx.maxCoeff() : 0;
  const Chart chart{view,      view.at(Eigen::Vector2d(0, 0)).x(), view.at(Eigen::Vector2d(section.length_m, 0)).x(),
                    chart_top, chart_top + k_chart_height,         automatic_top_lx(maximum_lx, job.units)};
  add_chart(sheet, job, light, chart);
  const double legend_bottom = add_legend(sheet, legend_of(job, section), k_map_content, chart.bottom + 30);
  add_map_figures(sheet, figures_of(job, light), k_map_content, legend_bottom + 24);
  const double bottom = add_footer(
      sheet,
      "Calculated at " + std::to_string(section.stations_m.size()) + " points of the section, reflections included.",
      k_map_content, legend_bottom + 144);
  return {k_map_width, std::ceil(bottom), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
