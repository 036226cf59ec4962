#include <algorithm>
#include <cmath>
#include <numbers>

#include "diagram_sheet.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/drawing/intensity_diagrams.hpp"
#include "evenlit/drawing/text.hpp"
#include "isolux_lines.hpp"
#include "light_scale.hpp"
#include "plan_view.hpp"

namespace evenlit {
namespace {

/// Where intensities lie on the sheet.
struct Rose {
  Eigen::Vector2d centre;
  double radius = 0;  ///< of the outermost ring
  RoundScale scale;
  bool shows_down = true;
  bool shows_up = true;

  [[nodiscard]] bool is_whole() const { return shows_down && shows_up; }
  [[nodiscard]] double bottom() const { return centre.y() + (shows_down ? radius : 0); }

  [[nodiscard]] bool shows(double angle_deg) const {
    return std::abs(angle_deg) <= 90 ? shows_down || std::abs(angle_deg) == 90 : shows_up;
  }

  /// Toward an angle of the plane, counted from straight down, positive to the right.
  [[nodiscard]] static Eigen::Vector2d toward(double angle_deg) {
    const double angle = angle_deg / 180 * std::numbers::pi;
    return {std::sin(angle), std::cos(angle)};
  }

  [[nodiscard]] Eigen::Vector2d at(double angle_deg, double candela) const {
    return centre + candela / scale.top() * radius * toward(angle_deg);
  }

  /// An arc of one intensity over the part that is shown.
  [[nodiscard]] Stroke arc(double candela, double width, const Ink& ink, std::vector<double> dash = {}) const {
    Polyline line;
    const double first_deg = is_whole() ? -180 : shows_down ? -90 : 90;
    const double range_deg = is_whole() ? 360 : 180;
    constexpr int k_steps = 180;
    for (int i = 0; i <= k_steps; ++i) line.push_back(at(first_deg + range_deg * i / k_steps, candela));
    return {std::move(line), false, width, ink, std::move(dash)};
  }
};

Rose rose_of(const std::vector<IntensityProfile>& profiles, double peak_cd) {
  constexpr double k_top = 236;
  Rose rose;
  rose.scale = round_scale(peak_cd);
  rose.shows_up = farthest_deg(profiles, k_line_share) > 90;
  rose.shows_down = !rose.shows_up || nearest_deg(profiles, k_line_share) < 90;
  rose.radius = rose.is_whole() ? 420 : 460;
  rose.centre = {k_diagram_width / 2, rose.shows_up ? k_top + rose.radius : k_top};
  return rose;
}

void add_grid(Sheet& sheet, const Rose& rose) {
  constexpr double k_inner = 0.04;  // of the radius; rays that all met in one point would make a blot
  for (int angle_deg = -165; angle_deg <= 180; angle_deg += 15) {
    if (!rose.shows(angle_deg)) continue;
    const bool is_axis = angle_deg % 90 == 0;
    const Eigen::Vector2d from = rose.centre + (is_axis ? 0 : k_inner * rose.radius) * Rose::toward(angle_deg);
    const Eigen::Vector2d to = rose.at(angle_deg, rose.scale.top());
    sheet.line(from.x(), from.y(), to.x(), to.y(), is_axis ? 2.2 : 1.4, is_axis ? k_light_grey : k_grid_ink);
  }
  for (int i = 1; i <= rose.scale.steps; ++i) {
    const bool is_outermost = i == rose.scale.steps;
    sheet.items.emplace_back(
        rose.arc(i * rose.scale.step, is_outermost ? 2.2 : 1.4, is_outermost ? k_light_grey : k_grid_ink));
  }
}

void add_angles(Sheet& sheet, const Rose& rose) {
  constexpr double k_gap = 16;
  for (int angle_deg = -150; angle_deg <= 180; angle_deg += 30) {
    if (!rose.shows(angle_deg)) continue;
    const std::string label = std::to_string(std::abs(angle_deg)) + "°";
    const Eigen::Vector2d half_size(text_width(label, k_diagram_text, Weight::regular) / 2,
                                    k_cap_height / 2 * k_diagram_text);
    const Eigen::Vector2d outward = Rose::toward(angle_deg);
    const Eigen::Vector2d centre = rose.centre + (rose.radius + k_gap) * outward + outward.cwiseProduct(half_size);
    Text text = centred_text(label, centre, k_diagram_text, Weight::regular);
    text.ink = k_grey;
    sheet.items.emplace_back(std::move(text));
  }
}

// Which plane ends on which side, beyond the ends of the horizontal.
void add_sides(Sheet& sheet, const Rose& rose, const std::vector<IntensityProfile>& profiles) {
  if (profiles.size() == 1) return;
  constexpr double k_line = 42;
  const double down = rose.shows_down ? 1 : -1;
  const double reach = rose.radius + 16;
  double y = rose.centre.y() + k_cap_height / 2 * k_diagram_text;
  for (const auto& [left, right] : {std::pair{"C180", "C0"}, {"C270", "C90"}}) {
    y += down * k_line;
    sheet.write(left, rose.centre.x() - reach, y, k_diagram_text, Weight::regular, k_dark, Anchor::right);
    sheet.write(right, rose.centre.x() + reach, y, k_diagram_text, Weight::regular, k_dark);
  }
}

// The shares of the peak at which a beam or a field ends.
std::vector<double> shares_of(const std::vector<IntensityProfile>& profiles) {
  const auto any_has = [&](auto edges) {
    return std::any_of(profiles.begin(), profiles.end(), [&](const auto& p) { return (p.*edges).has_value(); });
  };
  std::vector<double> shares;
  if (any_has(&IntensityProfile::beam)) shares.push_back(0.5);
  if (any_has(&IntensityProfile::field)) shares.push_back(0.1);
  return shares;
}

// Along the horizontal, on the side that the curves leave free where there is one: candelas to the right, shares of the
// peak to the left. Where all are shown the curves meet in the middle, which stays free of labels.
void add_ring_labels(Sheet& sheet, const Rose& rose, const std::vector<double>& shares, double peak_cd) {
  constexpr double k_air = 18;
  const double offset = (rose.shows_down ? -1 : 1) * (20 + k_cap_height / 2 * k_diagram_text);
  const double free_from = rose.is_whole() ? 0.24 * rose.radius : 0;
  const auto write = [&](const std::string& label, double distance, const Ink& ink) {
    if (std::abs(distance) < free_from) return;
    Text text = halo_text(label, rose.centre + Eigen::Vector2d(distance, offset), k_diagram_text, Weight::regular);
    text.ink = ink;
    sheet.items.emplace_back(std::move(text));
  };
  const double last_width = text_width(level_text(rose.scale.top()), k_diagram_text, Weight::regular);
  const int every = last_width + k_air > rose.radius / rose.scale.steps ? 2 : 1;
  for (int i = rose.scale.steps; i > 0; i -= every) {
    write(level_text(i * rose.scale.step), rose.radius * i / rose.scale.steps, k_dark);
  }
  const double unit_width = text_width("cd", k_diagram_text, Weight::regular);
  write("cd", rose.radius + last_width / 2 + 10 + unit_width / 2, k_dark);
  for (const double share : shares) {
    write(percent_text(share), -share * peak_cd / rose.scale.top() * rose.radius, k_half_tenth_ink);
  }
}

// The line begins where what is not shown ends, so that no part of it is cut in two.
void add_curve(Sheet& sheet, const Rose& rose, const IntensityProfile& profile) {
  std::vector<ProfilePoint> points = profile.points;
  const auto middle = std::find_if(points.begin(), points.end(), [](const auto& p) { return p.angle_deg >= 0; });
  if (!rose.shows_down) std::rotate(points.begin(), middle, points.end());
  Polyline line;
  for (const ProfilePoint& point : points) {
    if (rose.shows(point.angle_deg)) line.push_back(rose.at(point.angle_deg, point.candela));
  }
  sheet.items.emplace_back(plane_stroke(profile, std::move(line)));
}

void add_share_arcs(Sheet& sheet, const Rose& rose, const std::vector<double>& shares, double peak_cd) {
  for (const double share : shares) {
    sheet.items.emplace_back(rose.arc(share * peak_cd, 2.2, k_half_tenth_ink, {3, 7}));
  }
}

void add_edge_marks(Sheet& sheet, const Rose& rose, const IntensityProfile& profile, double peak_cd) {
  const auto mark = [&](const std::optional<BeamEdges>& edges, double share) {
    if (!edges) return;
    for (const double angle_deg : {edges->from_deg, edges->to_deg}) {
      if (!rose.shows(angle_deg)) continue;
      add_edge_mark(sheet, rose.at(angle_deg, share * peak_cd));
    }
  };
  mark(profile.beam, 0.5);
  mark(profile.field, 0.1);
}

}  // namespace

Drawing polar_diagram(const IntensityDistribution& distribution, const DiagramText& text) {
  const double peak_cd = distribution.candela.maxCoeff();
  const std::vector<IntensityProfile> profiles = intensity_profiles(distribution);
  const std::vector<double> shares = shares_of(profiles);
  const Rose rose = rose_of(profiles, peak_cd);
  Sheet sheet;
  add_heading(sheet, text);
  add_grid(sheet, rose);
  add_angles(sheet, rose);
  add_sides(sheet, rose, profiles);
  add_share_arcs(sheet, rose, shares, peak_cd);
  for (const IntensityProfile& profile : profiles) add_curve(sheet, rose, profile);
  for (const IntensityProfile& profile : profiles) add_edge_marks(sheet, rose, profile, peak_cd);
  add_ring_labels(sheet, rose, shares, peak_cd);
  const double legend = rose.bottom() + (rose.shows_down ? 122 : 142);
  add_legend(sheet, profiles, legend);
  add_figure_row(sheet, beam_figures(distribution, profiles), legend + 46);
  return {k_diagram_width, std::ceil(legend + 46 + 144 + 50), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
