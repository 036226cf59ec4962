#include "evenlit/drawing/wiring_sheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "evenlit/wiring/cable_words.hpp"
#include "isolux_lines.hpp"
#include "map_sheet.hpp"
#include "plan_ceiling.hpp"
#include "plan_labels.hpp"
#include "plan_light.hpp"
#include "plan_walls.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

constexpr double k_cable_width = 3.4;
constexpr double k_switch_side = 18;
constexpr double k_hole_radius = 4.5;

/// How the cables of a circuit are drawn.
struct CableStyle {
  Ink ink;
  std::vector<double> dash;
};

/// Inks that colour-blind eyes tell apart (M. Okabe, K. Ito, "Color universal design", 2008, from memory), and a dash
/// for each of those that come again.
CableStyle style_of(std::optional<int> circuit) {
  constexpr std::array<Rgb, 5> k_inks{{{0, 114, 178}, {213, 94, 0}, {0, 138, 100}, {178, 92, 150}, {150, 110, 0}}};
  if (!circuit) return {k_dark, {}};
  const auto i = static_cast<std::size_t>(*circuit);
  const std::array<std::vector<double>, 3> dashes{{{}, {12, 5}, {4, 4}}};
  return {{k_inks[i % k_inks.size()]}, dashes[i / k_inks.size() % dashes.size()]};
}

bool is_same_box(const Stop& a, const Stop& b) { return a.kind == b.kind && a.index == b.index; }

/// A cable as it is drawn: those that leave a box along one wall lie side by side up to where they turn off.
Polyline cable_points(const std::vector<Leg>& legs, std::size_t index, const PlanView& view) {
  constexpr double k_apart = 5;
  const Leg& leg = legs[index];
  Polyline line = view.at(leg.route.points_m);
  const auto before = std::count_if(legs.begin(), legs.begin() + static_cast<std::ptrdiff_t>(index),
                                    [&](const Leg& other) { return is_same_box(other.from, leg.from); });
  const bool turns = line.size() == 3 && line[0] != line[1];
  if (!turns || (line[2] - line[1]).norm() <= static_cast<double>(before) * k_apart) return line;
  const Vector2d aside = static_cast<double>(before) * k_apart * (line[2] - line[1]).normalized();
  line[0] += aside;
  line[1] += aside;
  return line;
}

std::vector<DrawingItem> cable_line(const std::vector<Leg>& legs, std::size_t index, const PlanView& view) {
  const auto& [ink, dash] = style_of(legs[index].circuit);
  const Polyline line = cable_points(legs, index, view);
  return {Stroke{line, false, k_cable_width + 3, k_halo, {}}, Stroke{line, false, k_cable_width, ink, dash}};
}

std::vector<DrawingItem> hole_marks(const Leg& leg, const PlanView& view) {
  std::vector<DrawingItem> items;
  for (const Crossing& crossing : leg.route.crossings) {
    const Vector2d at = view.at(Vector2d(crossing.at_m));
    items.emplace_back(Fill{{circle(at, k_hole_radius + 1.5)}, k_white});
    items.emplace_back(Fill{{circle(at, k_hole_radius)}, k_dark});
  }
  return items;
}

/// Discs along a cable, for labels to keep off.
std::vector<Disc> cable_discs(const Polyline& line) {
  constexpr double k_step = 6;
  std::vector<Disc> discs;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Vector2d step = line[i] - line[i - 1];
    const int count = static_cast<int>(std::ceil(step.norm() / k_step));
    for (int k = 0; k <= count; ++k) discs.push_back({line[i - 1] + step * k / std::max(count, 1), k_cable_width / 2});
  }
  return discs;
}

/// Number and length on the longest straight part of a cable, where there is room beside it.
std::optional<Text> leg_label(const std::string& label, const Polyline& line, const FreeSpace& space) {
  constexpr double k_off = 17;
  std::size_t longest = 1;
  for (std::size_t i = 2; i < line.size(); ++i) {
    if ((line[i] - line[i - 1]).norm() > (line[longest] - line[longest - 1]).norm()) longest = i;
  }
  const Vector2d start = line[longest - 1];
  const Vector2d step = line[longest] - start;
  if (step.norm() == 0) return std::nullopt;
  const Vector2d normal = Vector2d(-step.y(), step.x()).normalized();
  for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7}) {
    for (const double side : {-k_off, k_off}) {
      const Text text =
          halo_text(label, start + share * step + side * normal, k_smallest_text, Weight::regular, upright_turn(step));
      if (space.is_free(discs_of(text))) return text;
    }
  }
  return std::nullopt;
}

/// A box on the plan with what it is called.
struct BoxMark {
  Vector2d at;
  std::string name;
};

/// The switch boxes and the feed, each once.
std::vector<BoxMark> boxes_of(const WiredJob& wired, const PlanView& view) {
  std::vector<BoxMark> marks;
  for (const Leg& leg : wired.take_off.legs) {
    for (const Stop* stop : {&leg.from, &leg.to}) {
      if (stop->kind == Stop::Kind::can) continue;
      const Vector2d at = view.at(Vector2d(stop->plan_m));
      const std::string name = stop->kind == Stop::Kind::feed
                                   ? "feed"
                                   : wired.job.wiring->switches[static_cast<std::size_t>(stop->index)].name;
      const bool is_known =
          std::ranges::any_of(marks, [&](const BoxMark& mark) { return mark.at == at && mark.name == name; });
      if (!is_known) marks.push_back({at, name});
    }
  }
  return marks;
}

std::vector<DrawingItem> box_mark(const Vector2d& centre) {
  const double half = k_switch_side / 2;
  const Polyline square{centre + Vector2d(-half, -half), centre + Vector2d(half, -half), centre + Vector2d(half, half),
                        centre + Vector2d(-half, half)};
  return {Fill{{square}, k_white}, Stroke{square, true, 3, k_dark, {}}};
}

void add_plan(Sheet& sheet, const WiredJob& wired, const Scene& scene, const PlanView& view) {
  const Job& job = wired.job;
  FreeSpace space(view.at(job.room.corners_m));
  space.take(ceiling_discs(job, view));
  const std::vector<Disc> holes = can_discs(job.can_types, job.cans, scene.luminaires, view);
  space.take(holes);
  const std::vector<BoxMark> boxes = boxes_of(wired, view);
  for (const BoxMark& box : boxes) space.take({{box.at, k_switch_side}});
  for (const Leg& leg : wired.take_off.legs) {
    for (const Crossing& crossing : leg.route.crossings)
      space.take({{view.at(Vector2d(crossing.at_m)), k_hole_radius}});
  }
  for (std::size_t i = 0; i < wired.take_off.legs.size(); ++i) {
    space.take(cable_discs(cable_points(wired.take_off.legs, i, view)));
  }
  std::vector<DrawingItem> labels = can_marks(holes, space);
  for (const BoxMark& box : boxes) {
    add_label(label_beside(short_name(box.name), {box.at, k_switch_side / 2}, Weight::bold, space), space, labels);
  }
  append(labels, ceiling_names(job, view, space));
  for (std::size_t i = 0; i < wired.take_off.legs.size(); ++i) {
    const Leg& leg = wired.take_off.legs[i];
    const std::string label = std::to_string(i + 1) + ":  " + cable_length_text(leg.length_m, job.units);
    add_label(leg_label(label, cable_points(wired.take_off.legs, i, view), space), space, labels);
  }
  sheet.add(wall_dimensions(job.room, view, job.units));
  sheet.add(framing_lines(job, view));
  sheet.add(ceiling_marks(job, view));
  sheet.items.push_back(wall_band(job.room.corners_m, view));
  for (std::size_t i = 0; i < wired.take_off.legs.size(); ++i) sheet.add(cable_line(wired.take_off.legs, i, view));
  for (const Leg& leg : wired.take_off.legs) sheet.add(hole_marks(leg, view));
  for (const BoxMark& box : boxes) sheet.add(box_mark(box.at));
  sheet.add(wall_names(job.room, view));
  sheet.add(std::move(labels));
}

std::vector<LegendEntry> legend_of(const WiredJob& wired) {
  std::vector<LegendEntry> entries;
  const auto& legs = wired.take_off.legs;
  if (std::ranges::any_of(legs, [](const Leg& leg) { return !leg.circuit; })) {
    entries.push_back({line_sample(k_cable_width, k_dark, {}), "always live"});
  }
  for (const CircuitRun& run : wired.take_off.circuits) {
    const auto& [ink, dash] = style_of(run.circuit);
    entries.push_back({line_sample(k_cable_width, ink, dash),
                       short_name(wired.job.circuits[static_cast<std::size_t>(run.circuit)].name)});
  }
  entries.push_back({box_mark({0, 0}), "switch box, feed"});
  if (crossings(wired.take_off) > 0) {
    entries.push_back({{Fill{{circle({0, 0}, k_hole_radius)}, k_dark}}, "hole through framing"});
  }
  if (!wired.job.joists.empty() || !wired.job.members.empty()) entries.push_back({framing_sample(), "framing"});
  return entries;
}

std::vector<MapFigure> figures_of(const WiredJob& wired) {
  std::vector<MapFigure> figures;
  const Units units = wired.job.units;
  for (const CableLength& cable : cable_lengths(*wired.job.wiring, wired.take_off)) {
    figures.push_back({cable_name(cable.cable), cable_length_text(cable.length_m, units),
                       cable_length_text(cable.length_m, other(units)) + ", with waste"});
  }
  figures.push_back({"Holes through framing", std::to_string(crossings(wired.take_off)), ""});
  double worst = 0;
  bool is_known = !wired.take_off.circuits.empty();
  for (const CircuitRun& run : wired.take_off.circuits) {
    is_known = is_known && run.drop_share;
    worst = std::max(worst, run.drop_share.value_or(0));
  }
  if (is_known) figures.push_back({"Most voltage lost", fixed_text(100 * worst, 2) + " %", "advice: 3 % at most"});
  return figures;
}

}  // namespace

Drawing wiring_sheet(const WiredJob& wired, const Scene& scene) {
  const Job& job = wired.job;
  Sheet sheet;
  const bool is_open = job.wiring->path == Wiring::Path::open;
  const double heading = add_map_heading(sheet, job.room.name,
                                         {is_open ? "cables from above, straight over the joists"
                                                  : "cables from above, along the joists and square through them"},
                                         k_map_content);
  const PlanView view = map_view(job.room.corners_m, heading + k_outside_plan);
  add_plan(sheet, wired, scene, view);
  const double plan_bottom = bottom_of(job.room.corners_m, view) + k_outside_plan;
  const double legend_bottom = add_legend(sheet, legend_of(wired), k_map_content, plan_bottom + 24);
  add_map_figures(sheet, figures_of(wired), k_map_content, legend_bottom + 24);
  const double bottom =
      add_footer(sheet,
                 "Lengths are to cut, with the way down the walls and " + length_text(job.wiring->slack_m, job.units) +
                     " of slack at each end. Check the locally adopted code.",
                 k_map_content, legend_bottom + 144);
  return {k_map_width, std::ceil(bottom), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
