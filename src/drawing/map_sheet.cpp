#include "map_sheet.hpp"

#include <Eigen/Geometry>
#include <algorithm>

#include "evenlit/base/figures.hpp"
#include "evenlit/drawing/text.hpp"
#include "plan_walls.hpp"

namespace evenlit {
namespace {

/// An item elsewhere.
struct Moved {
  Eigen::Vector2d by;

  Polyline operator()(Polyline line) const {
    for (Eigen::Vector2d& point : line) point += by;
    return line;
  }
  DrawingItem operator()(Fill fill) const {
    for (Polyline& outline : fill.outlines) outline = (*this)(std::move(outline));
    return fill;
  }
  DrawingItem operator()(Stroke stroke) const {
    stroke.points = (*this)(std::move(stroke.points));
    return stroke;
  }
  DrawingItem operator()(Text text) const {
    text.at += by;
    return text;
  }
  DrawingItem operator()(Picture picture) const {
    picture.at += by;
    return picture;
  }

  DrawingItem operator()(FalseColour picture) const {
    picture.field.first += by;
    for (Polyline& outline : picture.clip) outline = (*this)(std::move(outline));
    return picture;
  }
};

}  // namespace

double add_map_heading(Sheet& sheet, const std::string& title, const std::vector<std::string>& lines,
                       const Width& content) {
  constexpr double k_title_size = 40;
  constexpr double k_line_size = 22;
  const double width = content.right - content.left;
  double baseline = 74;
  sheet.write(elided(title, k_title_size, Weight::bold, width), content.left, baseline, k_title_size, Weight::bold,
              k_dark);
  baseline += 38;
  for (const std::string& line : lines) {
    sheet.write(elided(line, k_line_size, Weight::regular, width), content.left, baseline, k_line_size, Weight::regular,
                k_grey);
    baseline += 30;
  }
  return baseline - 14;
}

std::optional<std::string> target_text(const Job& job) {
  if (!job.target_lx) return std::nullopt;
  return "target " + level_text(*job.target_lx / unit_lx(job.units)) + " " + unit_name(job.units) + " (" +
         illuminance_text(*job.target_lx, 0, other(job.units)) + ")";
}

PlanView map_view(const Polygon& plan_m, double top) {
  constexpr double k_tallest_plan = 960;
  const double width = k_map_content.right - k_map_content.left - 2 * k_outside_plan;
  const Eigen::AlignedBox2d box = bounds_of(plan_m);
  const double scale = std::min(width / box.sizes().x(), k_tallest_plan / box.sizes().y());
  const double left = (k_map_width - scale * box.sizes().x()) / 2;
  return {scale, Eigen::Vector2d(left - scale * box.min().x(), top + scale * box.max().y())};
}

double bottom_of(const Polygon& plan_m, const PlanView& view) { return view.at(bounds_of(plan_m).min()).y(); }

void add_map_scale(Sheet& sheet, const LightScale& scale, const Width& content, double top) {
  constexpr double k_name = 34;  // of the unit, with the air after it
  const std::string first = signed_level_text(scale.bottom_lx / unit_lx(scale.units));
  const double indent = std::max(46.0, k_name + text_width(first, k_small_text, Weight::bold) / 2);
  add_light_scale(sheet, scale, {content.left, content.left + indent, content.right - 24, top, k_small_text});
}

void add_map_figures(Sheet& sheet, const std::vector<MapFigure>& figures, const Width& content, double top) {
  const double column = (content.right - content.left) / static_cast<double>(figures.size());
  double x = content.left;
  for (const auto& [name, value, note] : figures) {
    sheet.write(name, x, top + 18, k_small_text, Weight::regular, k_grey);
    sheet.write(value, x, top + 60, 36, Weight::bold, k_dark);
    sheet.write(note, x, top + 90, k_small_text, Weight::regular, k_grey);
    x += column;
  }
}

std::vector<DrawingItem> moved(std::vector<DrawingItem> items, const Eigen::Vector2d& by) {
  for (DrawingItem& item : items) item = std::visit(Moved{by}, item);
  return items;
}

std::vector<DrawingItem> line_sample(double width, const Ink& ink, const std::vector<double>& dash) {
  return {Stroke{{{-15, 0}, {15, 0}}, false, width, ink, dash}};
}

double add_legend(Sheet& sheet, const std::vector<LegendEntry>& entries, const Width& content, double top) {
  constexpr double k_line = 36;
  constexpr double k_gap = 10;
  constexpr double k_between = 34;
  double x = content.left;
  double middle = top + k_line / 2;
  for (const auto& [mark, text, mark_width] : entries) {
    const double room = content.right - content.left - mark_width - k_gap;
    const std::string shown = elided(text, k_small_text, Weight::regular, room);
    const double width = mark_width + k_gap + text_width(shown, k_small_text, Weight::regular);
    if (x > content.left && x + width > content.right) {
      x = content.left;
      middle += k_line;
    }
    sheet.add(moved(mark, {x + mark_width / 2, middle}));
    sheet.write(shown, x + mark_width + k_gap, middle + k_cap_height / 2 * k_small_text, k_small_text, Weight::regular,
                k_dark);
    x += width + k_between;
  }
  return middle + k_line / 2;
}

double add_footer(Sheet& sheet, const std::string& computed, const Width& content, double top) {
  sheet.line(content.left, top, content.right, top, 1.2, k_light_grey);
  sheet.write(computed, content.left, top + 34, k_smallest_text, Weight::regular, k_grey);
  sheet.write(
      "Before cutting a hole, find the joists, wires and pipes behind the ceiling. Wiring is for a licensed "
      "electrician.",
      content.left, top + 60, k_smallest_text, Weight::regular, k_grey);
  return top + 60 + 36;
}

double add_map_footer(Sheet& sheet, const Job& job, std::size_t points, double error_share, const Width& content,
                      double top) {
  const std::string where =
      job.work_plane.margin_m > 0 ? " points inside the dotted line." : " points of the work plane.";
  return add_footer(sheet,
                    "Calculated at " + std::to_string(points) + where + " Numerical error ≤ " +
                        error_percent_text(error_share) + " of the average at each.",
                    content, top);
}

}  // namespace evenlit
