#include "evenlit/drawing/set_out_plan.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "evenlit/drawing/paper.hpp"
#include "evenlit/drawing/text.hpp"
#include "map_sheet.hpp"
#include "plan_ceiling.hpp"
#include "plan_labels.hpp"
#include "plan_light.hpp"
#include "plan_walls.hpp"
#include "sheet.hpp"

namespace evenlit {
namespace {

constexpr double k_paper_units_per_m = k_paper_units_per_in / k_metres_per_inch;
constexpr Width k_content{0, k_paper_width};
constexpr double k_crossed_line = 26;   // what is said of cans that do not fit
constexpr double k_foot = 110;          // the scale's bar and the last line
constexpr double k_tallest_plan = 720;  // so that the first table still begins on the same sheet of most rooms
constexpr double k_smallest_can = 7;    // radius
constexpr double k_number_text = 26;

struct NamedScale {
  double ratio;
  std::string_view name;
};

constexpr std::array<NamedScale, 17> k_imperial{{{4, "3 in = 1 ft"},
                                                 {8, "1-1/2 in = 1 ft"},
                                                 {12, "1 in = 1 ft"},
                                                 {16, "3/4 in = 1 ft"},
                                                 {24, "1/2 in = 1 ft"},
                                                 {32, "3/8 in = 1 ft"},
                                                 {48, "1/4 in = 1 ft"},
                                                 {64, "3/16 in = 1 ft"},
                                                 {96, "1/8 in = 1 ft"},
                                                 {128, "3/32 in = 1 ft"},
                                                 {192, "1/16 in = 1 ft"},
                                                 {240, "1 in = 20 ft"},
                                                 {360, "1 in = 30 ft"},
                                                 {480, "1 in = 40 ft"},
                                                 {600, "1 in = 50 ft"},
                                                 {720, "1 in = 60 ft"},
                                                 {1200, "1 in = 100 ft"}}};

constexpr std::array<NamedScale, 13> k_metric{{{1, "1:1"},
                                               {2, "1:2"},
                                               {5, "1:5"},
                                               {10, "1:10"},
                                               {20, "1:20"},
                                               {25, "1:25"},
                                               {50, "1:50"},
                                               {100, "1:100"},
                                               {200, "1:200"},
                                               {250, "1:250"},
                                               {500, "1:500"},
                                               {1000, "1:1000"},
                                               {2000, "1:2000"}}};

template <std::size_t count>
DrawingScale first_from(const std::array<NamedScale, count>& scales, double least_ratio) {
  const auto found = std::ranges::find_if(scales, [&](const NamedScale& scale) { return scale.ratio >= least_ratio; });
  if (found != scales.end()) return {found->ratio, std::string(found->name)};
  double ratio = scales.back().ratio;
  for (double decade = 1000; ratio < least_ratio; decade *= 10) {
    for (const double factor : {1.0, 2.0, 5.0}) {
      if (ratio < least_ratio) ratio = std::max(ratio, factor * decade);
    }
  }
  return {ratio, fmt::format("1:{:.0f}", ratio)};
}

double can_radius(const Job& job, const Can& can, const PlanView& view) {
  const auto type = std::ranges::find(job.can_types, can.type, &CanType::name);
  return std::max(k_smallest_can, type->hole_m.value_or(0) / 2 * view.units_per_m);
}

/// The circles of the cans on the sheet, in the order of work.
std::vector<Disc> discs_of_cans(const Job& job, const SetOut& set_out, const PlanView& view) {
  std::vector<Disc> discs;
  for (const MarkedCan& can : set_out.cans) {
    discs.push_back({view.at(can.centre_m), can_radius(job, job.cans[static_cast<std::size_t>(can.can)], view)});
  }
  return discs;
}

std::vector<DrawingItem> snapped_lines(const SetOut& set_out, const PlanView& view) {
  std::vector<DrawingItem> items;
  for (const MarkedRow& row : set_out.rows) {
    items.emplace_back(Stroke{{view.at(row.start_m), view.at(row.end_m)}, false, 3.4, k_white, {}});
    items.emplace_back(Stroke{{view.at(row.start_m), view.at(row.end_m)}, false, 1.4, k_dark, {22, 5, 4, 5}});
  }
  return items;
}

std::string short_reading(double metres, Units units) {
  return units == Units::imperial ? feet_inches(metres) : tape_reading(metres, units);
}

/// A label on a white ground, so that no line runs through its figures; takes its space.
void add_figure(const std::optional<Text>& label, FreeSpace& space, std::vector<DrawingItem>& items) {
  if (!label) return;
  constexpr double k_air = 2;
  const double half = text_width(label->text, label->size, label->weight) / 2 + k_air;
  const double top = label->at.y() - k_cap_height * label->size - k_air;
  const double bottom = label->at.y() + k_air;
  const double x = label->at.x();
  items.emplace_back(Fill{{{{x - half, top}, {x + half, top}, {x + half, bottom}, {x - half, bottom}}}, k_white});
  add_label(label, space, items);
}

/// Cans with their numbers, those that do not fit crossed aslant.
std::vector<DrawingItem> numbered_cans(const SetOut& set_out, const std::vector<Disc>& discs, FreeSpace& space) {
  std::vector<DrawingItem> items;
  for (std::size_t i = 0; i < discs.size(); ++i) {
    append(items, can_mark(discs[i], !set_out.has_room(set_out.cans[i])));
    auto label = label_beside(std::to_string(i + 1), {discs[i].centre, discs[i].radius + 4}, Weight::bold, space);
    if (label) {
      // Larger than the place that was sought for it by what the air around it allows.
      label->size = k_number_text;
      label->at.y() += k_cap_height / 2 * (k_number_text - k_small_text);
    }
    add_figure(label, space, items);
  }
  return items;
}

/// A row by the first and the last of its cans: `5-8`.
std::string row_name(const MarkedRow& row) {
  const std::string first = std::to_string(row.cans.front() + 1);
  return row.cans.size() == 1 ? first : fmt::format("{}-{}", first, row.cans.back() + 1);
}

/// A label beside a row's line, near its start where there is room.
std::optional<Text> label_along(const std::string& label, const MarkedRow& row, const PlanView& view,
                                const FreeSpace& space) {
  constexpr double k_from_line = 4;
  for (const double way : {0.0, 1.0, 0.5, 0.25, 0.75, 0.125, 0.375, 0.625, 0.875}) {
    const Eigen::Vector2d beside_m = row.start_m + way * (row.end_m - row.start_m);
    if (auto text = label_beside(label, {view.at(beside_m), k_from_line}, Weight::regular, space)) return text;
  }
  return std::nullopt;
}

/// The running dimension of each can of the rows, and how far each row's line is off its wall, where there is room.
std::vector<DrawingItem> dimension_labels(const SetOut& set_out, const std::vector<Disc>& discs, const PlanView& view,
                                          Units units, FreeSpace& space) {
  std::vector<DrawingItem> items;
  // The rows' first: without them the stations say little.
  for (const MarkedRow& row : set_out.rows) {
    const std::string off = fmt::format("{}: {} off {}", row_name(row), short_reading(row.wall.distance_m, units),
                                        short_name(row.wall.wall));
    add_figure(label_along(off, row, view, space), space, items);
  }
  for (const MarkedRow& row : set_out.rows) {
    for (std::size_t k = 0; k < row.cans.size(); ++k) {
      const Disc& can = discs[row.cans[k]];
      add_figure(
          label_beside(short_reading(row.stations_m[k], units), {can.centre, can.radius + 4}, Weight::regular, space),
          space, items);
    }
  }
  return items;
}

bool is_any_crossed(const SetOut& set_out) {
  return !std::ranges::all_of(set_out.cans, [&](const MarkedCan& can) { return set_out.has_room(can); });
}

/// A bar of a round length on the paper, and what the sheet's scale is.
void add_scale_bar(Sheet& sheet, const DrawingScale& scale, Units units, double top) {
  const bool is_imperial = units == Units::imperial;
  const double part = is_imperial ? k_paper_units_per_in : k_paper_units_per_m / 50;  // 1 in or 20 mm
  constexpr int k_parts = 2;
  constexpr double k_height = 10;
  for (int i = 0; i < k_parts; ++i) {
    const Polyline box{
        {i * part, top}, {(i + 1) * part, top}, {(i + 1) * part, top + k_height}, {i * part, top + k_height}};
    if (i % 2 == 0) sheet.items.emplace_back(Fill{{box}, k_dark});
    sheet.items.emplace_back(Stroke{box, true, 1.4, k_dark, {}});
  }
  const std::string text =
      fmt::format("{}, printed at 100 %: this bar is {} long.", scale.name, is_imperial ? "2 in" : "40 mm");
  sheet.write(text, k_parts * part + 16, top + k_height / 2 + k_cap_height / 2 * k_small_text, k_small_text,
              Weight::regular, k_dark);
}

std::string line_below_title(const SetOut& set_out, const DrawingScale& scale) {
  return fmt::format("{} {}, numbered in the order of work  ·  {}", set_out.cans.size(),
                     set_out.cans.size() == 1 ? "can" : "cans", scale.name);
}

}  // namespace

DrawingScale drawing_scale(double width_m, double depth_m, double paper_width_m, double paper_height_m, Units units) {
  constexpr double k_rounding = 1e-9;
  const double least = std::max(width_m / paper_width_m, depth_m / paper_height_m) * (1 - k_rounding);
  return units == Units::imperial ? first_from(k_imperial, least) : first_from(k_metric, least);
}

Drawing set_out_plan(const Job& job, const SetOut& set_out) {
  const Eigen::AlignedBox2d box = bounds_of(job.room.corners_m);
  const DrawingScale scale =
      drawing_scale(box.sizes().x(), box.sizes().y(), (k_paper_width - 2 * k_outside_plan) / k_paper_units_per_m,
                    k_tallest_plan / k_paper_units_per_m, job.units);
  Sheet sheet;
  const double top =
      add_map_heading(sheet, job.room.name, {line_below_title(set_out, scale)}, k_content) + k_outside_plan;
  const double units_per_m = k_paper_units_per_m / scale.ratio;
  const double left = (k_paper_width - units_per_m * box.sizes().x()) / 2;
  const PlanView view{units_per_m,
                      Eigen::Vector2d(left - units_per_m * box.min().x(), top + units_per_m * box.max().y())};

  FreeSpace space(view.at(job.room.corners_m));
  const std::vector<Disc> discs = discs_of_cans(job, set_out, view);
  space.take(ceiling_discs(job, view));
  space.take(discs);
  const std::vector<DrawingItem> cans = numbered_cans(set_out, discs, space);
  const std::vector<DrawingItem> dimensions = dimension_labels(set_out, discs, view, job.units, space);
  const std::vector<DrawingItem> names = ceiling_names(job, view, space);
  sheet.add(wall_dimensions(job.room, view, job.units));
  sheet.add(framing_lines(job, view));
  sheet.add(ceiling_marks(job, view));
  sheet.add(snapped_lines(set_out, view));
  sheet.items.push_back(wall_band(job.room.corners_m, view));
  sheet.add(wall_names(job.room, view));
  for (const auto& items : {cans, dimensions, names}) sheet.add(items);

  const double bottom = bottom_of(job.room.corners_m, view) + k_outside_plan + 24;
  add_scale_bar(sheet, scale, job.units, bottom);
  sheet.write("Find joists, wires and pipes, drill a pilot hole and probe before you cut. Never cut a joist or truss.",
              0, bottom + 52, k_smallest_text, Weight::bold, k_dark);
  const bool is_any = is_any_crossed(set_out);
  if (is_any) {
    sheet.write("STOP: a crossed can does not fit. Do not cut it; the tables say what it hits.", 0,
                bottom + 52 + k_crossed_line, k_smallest_text, Weight::bold, k_dark);
  }
  return {k_paper_width,
          std::ceil(bottom + k_foot + (is_any ? k_crossed_line : 0) - 24),
          {255, 255, 255},
          std::move(sheet.items)};
}

}  // namespace evenlit
