#include "diagram_sheet.hpp"

#include <algorithm>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/text.hpp"
#include "evenlit/photometry/peak.hpp"
#include "plan_view.hpp"

namespace evenlit {
namespace {

bool is_even(const std::vector<IntensityProfile>& profiles, double candela) {
  return std::all_of(profiles.begin(), profiles.end(), [&](const IntensityProfile& profile) {
    return std::all_of(profile.points.begin(), profile.points.end(),
                       [&](const ProfilePoint& point) { return point.candela == candela; });
  });
}

std::string direction_text(const IntensityDistribution& distribution, const std::vector<IntensityProfile>& profiles,
                           const Peak& peak) {
  if (!(peak.candela > 0)) return "no light";
  if (distribution.candela.minCoeff() == peak.candela && is_even(profiles, peak.candela)) return "in all directions";
  if (peak.gamma_deg == 0) return "straight down";
  if (peak.gamma_deg == 180) return "straight up";
  const std::string around = is_rotational(distribution) ? " all around" : ", C" + fixed_text(peak.c_deg, 0);
  return "at " + angle_text(peak.gamma_deg) + around;
}

std::string spread_text(const std::optional<BeamEdges>& edges) {
  return edges ? angle_text(edges->to_deg - edges->from_deg) : "–";
}

Figure spread_figure(const std::string& name, const std::vector<IntensityProfile>& profiles,
                     std::optional<BeamEdges> IntensityProfile::*edges) {
  const std::string first = spread_text(profiles.front().*edges);
  const std::string second = spread_text(profiles.back().*edges);
  if (!(profiles.front().*edges) && !(profiles.back().*edges)) return {name, "–", "not defined"};
  if (profiles.size() == 1) return {name, first, "edge to edge"};
  return {name, first + " × " + second, "C0 plane × C90 plane"};
}

}  // namespace

void add_heading(Sheet& sheet, const DiagramText& text) {
  constexpr double k_title_size = 46;
  constexpr double k_width = k_diagram_right - k_diagram_margin;
  sheet.write(elided(text.title, k_title_size, Weight::bold, k_width), k_diagram_margin, 84, k_title_size, Weight::bold,
              k_dark);
  sheet.write(elided(text.line, k_diagram_text, Weight::regular, k_width), k_diagram_margin, 130, k_diagram_text,
              Weight::regular, k_grey);
}

void add_figure_row(Sheet& sheet, const std::vector<Figure>& figures, double top) {
  constexpr double k_value_size = 44;
  const double column = (k_diagram_right - k_diagram_margin) / static_cast<double>(figures.size());
  sheet.line(k_diagram_margin, top, k_diagram_right, top, 1.6, k_light_grey);
  for (std::size_t i = 0; i < figures.size(); ++i) {
    const double x = k_diagram_margin + column * static_cast<double>(i);
    sheet.write(figures[i].name, x, top + 46, k_diagram_text, Weight::regular, k_grey);
    sheet.write(figures[i].value, x, top + 100, k_value_size, Weight::bold, k_dark);
    sheet.write(figures[i].note, x, top + 144, k_diagram_text, Weight::regular, k_grey);
  }
}

std::string angle_text(double angle_deg) { return fixed_text(angle_deg, angle_deg < 9.95 ? 1 : 0) + "°"; }

Stroke plane_stroke(const IntensityProfile& profile, Polyline line) {
  constexpr double k_width = 5;
  const bool is_dashed = profile.c_deg != 0;
  return {std::move(line), false, k_width, k_dark, is_dashed ? std::vector<double>{19, 11} : std::vector<double>{}};
}

void add_edge_mark(Sheet& sheet, const Eigen::Vector2d& at) {
  const Polyline ring = circle(at, 8);
  sheet.items.emplace_back(Fill{{ring}, k_white});
  sheet.items.emplace_back(Stroke{ring, true, 3, k_dark, {}});
}

void add_legend(Sheet& sheet, const std::vector<IntensityProfile>& profiles, double baseline) {
  constexpr double k_sample = 98;
  constexpr double k_gap = 20;
  constexpr double k_between = 76;
  double x = k_diagram_margin;
  for (const IntensityProfile& profile : profiles) {
    const double y = baseline - k_cap_height / 2 * k_diagram_text;
    sheet.items.emplace_back(plane_stroke(profile, {{x, y}, {x + k_sample, y}}));
    sheet.write(profile.name, x + k_sample + k_gap, baseline, k_diagram_text, Weight::regular, k_dark);
    x += k_sample + k_gap + text_width(profile.name, k_diagram_text, Weight::regular) + k_between;
  }
}

std::vector<Figure> beam_figures(const IntensityDistribution& distribution,
                                 const std::vector<IntensityProfile>& profiles) {
  const Peak most = peak(distribution);
  return {{"Peak intensity", rounded_text(most.candela) + " cd", direction_text(distribution, profiles, most)},
          spread_figure("Beam angle, 50 %", profiles, &IntensityProfile::beam),
          spread_figure("Field angle, 10 %", profiles, &IntensityProfile::field)};
}

}  // namespace evenlit
