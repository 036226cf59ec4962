#include <algorithm>
#include <array>
#include <cmath>

#include "diagram_sheet.hpp"
#include "evenlit/drawing/intensity_diagrams.hpp"
#include "evenlit/drawing/text.hpp"
#include "isolux_lines.hpp"
#include "light_scale.hpp"
#include "plan_view.hpp"

namespace evenlit {
namespace {

constexpr double k_half_cap = k_cap_height / 2 * k_diagram_text;
constexpr double k_first_dimension = 190;
constexpr double k_dimension_row = 50;

/// The angles shown on either side and how they are divided.
struct AngleRange {
  int limit_deg;
  int line_deg;
  int label_deg;
};

AngleRange range_of(const std::vector<IntensityProfile>& profiles) {
  constexpr std::array<AngleRange, 4> k_ranges{{{30, 5, 10}, {60, 10, 20}, {90, 15, 30}, {180, 30, 60}}};
  constexpr double k_faint = 2 * k_line_share;
  const double farthest = farthest_deg(profiles, k_faint);
  return *std::find_if(k_ranges.begin(), k_ranges.end() - 1, [&](const auto& r) { return farthest <= r.limit_deg; });
}

/// The frame of the curves on the sheet.
struct Frame {
  double left = 0;
  double right = 0;
  double top = 0;
  double bottom = 0;
  AngleRange angles{};
  RoundScale scale;

  [[nodiscard]] Eigen::Vector2d at(double angle_deg, double candela) const {
    return {left + (right - left) * (angle_deg / angles.limit_deg + 1) / 2,
            bottom - (bottom - top) * candela / scale.top()};
  }
};

std::string candela_label(const RoundScale& scale, int step) {
  return level_text(step * scale.step) + (step == scale.steps ? " cd" : "");
}

/// The angle between two edges, dimensioned.
struct Dimension {
  std::string label;
  BeamEdges edges;
  double candela = 0;  ///< at the edges
  bool is_dashed = false;
};

// The widest first, so that it comes to lie outermost.
std::vector<Dimension> dimensions_of(const std::vector<IntensityProfile>& profiles, double peak_cd) {
  std::vector<Dimension> dimensions;
  const auto add = [&](const std::string& name, double share, auto edges_of) {
    for (const IntensityProfile& profile : profiles) {
      const std::optional<BeamEdges>& edges = profile.*edges_of;
      if (!edges) continue;
      const std::string label = name + angle_text(edges->to_deg - edges->from_deg);
      dimensions.push_back({label, *edges, share * peak_cd, profile.c_deg != 0});
    }
  };
  add("field ", 0.1, &IntensityProfile::field);
  add("beam ", 0.5, &IntensityProfile::beam);
  const auto angle_deg = [](const Dimension& d) { return d.edges.to_deg - d.edges.from_deg; };
  std::stable_sort(dimensions.begin(), dimensions.end(),
                   [&](const Dimension& a, const Dimension& b) { return angle_deg(a) > angle_deg(b); });
  return dimensions;
}

Frame frame_of(const std::vector<IntensityProfile>& profiles, double peak_cd, std::size_t dimensions) {
  constexpr double k_height = 520;
  constexpr double k_gap = 16;
  Frame frame;
  frame.angles = range_of(profiles);
  frame.scale = round_scale(peak_cd);
  double widest = 0;
  for (int i = 0; i <= frame.scale.steps; ++i) {
    widest = std::max(widest, text_width(candela_label(frame.scale, i), k_diagram_text, Weight::regular));
  }
  frame.left = k_diagram_margin + widest + k_gap;
  frame.right = k_diagram_right - text_width("50 %", k_diagram_text, Weight::regular) - k_gap;
  frame.top = k_first_dimension + k_dimension_row * static_cast<double>(dimensions);
  frame.bottom = frame.top + k_height;
  return frame;
}

void add_grid(Sheet& sheet, const Frame& frame) {
  for (int angle = -frame.angles.limit_deg; angle <= frame.angles.limit_deg; angle += frame.angles.line_deg) {
    const double x = frame.at(angle, 0).x();
    const bool is_axis = angle == 0;
    sheet.line(x, frame.top, x, frame.bottom, is_axis ? 2.2 : 1.4, is_axis ? k_light_grey : k_grid_ink);
    if (angle % frame.angles.label_deg != 0) continue;
    sheet.write(std::to_string(std::abs(angle)) + "°", x, frame.bottom + 16 + 2 * k_half_cap, k_diagram_text,
                Weight::regular, k_grey, Anchor::middle);
  }
  for (int i = 0; i <= frame.scale.steps; ++i) {
    const double y = frame.at(0, i * frame.scale.step).y();
    sheet.line(frame.left, y, frame.right, y, i == 0 ? 2.2 : 1.4, i == 0 ? k_grey : k_grid_ink);
    sheet.write(candela_label(frame.scale, i), frame.left - 16, y + k_half_cap, k_diagram_text, Weight::regular, k_grey,
                Anchor::right);
  }
}

void add_axis_name(Sheet& sheet, const Frame& frame, const std::vector<IntensityProfile>& profiles) {
  const double baseline = frame.bottom + 62 + 2 * k_half_cap;
  sheet.write("angle from straight down", (frame.left + frame.right) / 2, baseline, k_diagram_text, Weight::regular,
              k_grey, Anchor::middle);
  if (profiles.size() == 1) return;
  sheet.write("C180, C270", frame.left, baseline, k_diagram_text, Weight::regular, k_dark);
  sheet.write("C0, C90", frame.right, baseline, k_diagram_text, Weight::regular, k_dark, Anchor::right);
}

void add_shares(Sheet& sheet, const Frame& frame, double peak_cd) {
  if (!(peak_cd > 0)) return;
  for (const auto& [share, label] : {std::pair{0.5, "50 %"}, {0.1, "10 %"}}) {
    const double y = frame.at(0, share * peak_cd).y();
    sheet.items.emplace_back(Stroke{{{frame.left, y}, {frame.right, y}}, false, 2.2, k_half_tenth_ink, {9, 6}});
    sheet.write(label, frame.right + 16, y + k_half_cap, k_diagram_text, Weight::regular, k_half_tenth_ink);
  }
}

void add_curve(Sheet& sheet, const Frame& frame, const IntensityProfile& profile) {
  Polyline line;
  for (const ProfilePoint& point : profile.points) {
    if (std::abs(point.angle_deg) <= frame.angles.limit_deg) line.push_back(frame.at(point.angle_deg, point.candela));
  }
  sheet.items.emplace_back(plane_stroke(profile, std::move(line)));
}

// An arrow's head, its tip at x.
Fill arrow_head(double x, double y, double pointing) {
  constexpr double k_length = 19;
  constexpr double k_half_width = 6;
  const double back = x - pointing * k_length;
  return {{{{x, y}, {back, y - k_half_width}, {back, y + k_half_width}}}, k_dark};
}

// The first place for a label `reach` to either side of its middle that no line up from an outer row's edges crosses.
double free_place(const std::vector<double>& candidates, double reach, const std::vector<double>& lines) {
  constexpr double k_rounding = 1e-6;
  const auto is_free = [&](double x) {
    return x - reach >= k_diagram_margin && x + reach <= k_diagram_right &&
           std::none_of(lines.begin(), lines.end(),
                        [&](double line) { return std::abs(line - x) < reach - k_rounding; });
  };
  const auto place = std::find_if(candidates.begin(), candidates.end(), is_free);
  return place == candidates.end() ? candidates.front() : *place;
}

// Between the edges arrows and the angle, or arrows from outside where there is no room.
void add_dimension(Sheet& sheet, const Frame& frame, const Dimension& dimension, double y,
                   const std::vector<double>& lines) {
  constexpr double k_gap = 14;
  constexpr double k_tail = 34;
  const std::vector<double> dash = dimension.is_dashed ? std::vector<double>{9, 6} : std::vector<double>{};
  const auto arrow = [&](double from, double to) {
    const double pointing = to > from ? 1 : -1;
    sheet.items.emplace_back(Stroke{{{from, y}, {to - pointing * 16, y}}, false, 2, k_dark, dash});
    sheet.items.emplace_back(arrow_head(to, y, pointing));
  };
  const double from = frame.at(dimension.edges.from_deg, 0).x();
  const double to = frame.at(dimension.edges.to_deg, 0).x();
  const double reach = text_width(dimension.label, k_diagram_text, Weight::regular) / 2 + k_gap;
  const bool is_roomy = to - from > 2 * (reach + k_tail);
  std::vector<double> candidates{(from + to) / 2};
  if (!is_roomy) candidates = {to + k_tail + reach, from - k_tail - reach};
  for (const double line : lines) {
    for (const double x : {line - reach, line + reach}) {
      const bool is_between = x - reach - k_tail > from && x + reach + k_tail < to;
      const bool is_outside = x + reach + k_tail < from || x - reach - k_tail > to;
      if (is_roomy ? is_between : is_outside) candidates.push_back(x);
    }
  }
  const double middle = free_place(candidates, reach, lines);
  arrow(is_roomy ? middle - reach : from - k_tail, from);
  arrow(is_roomy ? middle + reach : to + k_tail, to);
  sheet.items.emplace_back(halo_text(dimension.label, {middle, y}, k_diagram_text, Weight::regular));
}

// Rows of dimensions above the curves, the outermost first, with lines up from the edges.
void add_dimensions(Sheet& sheet, const Frame& frame, const std::vector<Dimension>& dimensions) {
  constexpr double k_overshoot = 9;
  std::vector<double> lines;
  double y = k_first_dimension;
  for (const Dimension& dimension : dimensions) {
    for (const double angle_deg : {dimension.edges.from_deg, dimension.edges.to_deg}) {
      const Eigen::Vector2d edge = frame.at(angle_deg, dimension.candela);
      sheet.line(edge.x(), edge.y(), edge.x(), y - k_overshoot, 1.6, k_half_tenth_ink);
      add_edge_mark(sheet, edge);
    }
    add_dimension(sheet, frame, dimension, y, lines);
    lines.push_back(frame.at(dimension.edges.from_deg, 0).x());
    lines.push_back(frame.at(dimension.edges.to_deg, 0).x());
    y += k_dimension_row;
  }
}

}  // namespace

Drawing linear_diagram(const IntensityDistribution& distribution, const DiagramText& text) {
  const double peak_cd = distribution.candela.maxCoeff();
  const std::vector<IntensityProfile> profiles = intensity_profiles(distribution);
  const std::vector<Dimension> dimensions = dimensions_of(profiles, peak_cd);
  const Frame frame = frame_of(profiles, peak_cd, dimensions.size());
  Sheet sheet;
  add_heading(sheet, text);
  add_grid(sheet, frame);
  add_axis_name(sheet, frame, profiles);
  add_shares(sheet, frame, peak_cd);
  for (const IntensityProfile& profile : profiles) add_curve(sheet, frame, profile);
  add_dimensions(sheet, frame, dimensions);
  const double legend = frame.bottom + 152;
  add_legend(sheet, profiles, legend);
  add_figure_row(sheet, beam_figures(distribution, profiles), legend + 40);
  return {k_diagram_width, std::ceil(legend + 40 + 144 + 50), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
