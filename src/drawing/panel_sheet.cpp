#include "panel_sheet.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>

#include "evenlit/drawing/text.hpp"
#include "map_sheet.hpp"
#include "plan_light.hpp"

namespace evenlit {
namespace {

constexpr double k_least_content = 1000;
constexpr double k_least_panel = 480;
constexpr double k_between_panels = 48;
constexpr double k_panel_heading = 52;
constexpr double k_above_view = 14;
constexpr double k_caption_size = 22;
constexpr double k_caption_line = 30;

/// A caption broken between words; what does not fit into a line by itself is cut.
std::vector<std::string> caption_lines(const PanelView& view, double width) {
  const auto fits = [&](const std::string& text) { return text_width(text, k_caption_size, Weight::regular) <= width; };
  std::vector<std::string> lines;
  for (const std::string& sentence : view.caption) {
    std::istringstream words(sentence);
    std::string line;
    for (std::string word; words >> word;) {
      if (!line.empty() && !fits(line + " " + word)) lines.push_back(std::exchange(line, {}));
      line += (line.empty() ? "" : " ") + word;
    }
    lines.push_back(line);
  }
  for (std::string& line : lines) line = elided(line, k_caption_size, Weight::regular, width);
  return lines;
}

/// So high that every panel's view has room.
double views_height(std::span<const PanelView> views, double width) {
  double highest = 0;
  for (const PanelView& view : views) {
    const double picture = width * view.picture.height / view.picture.width;
    highest = std::max(
        highest, k_above_view + picture + k_caption_line * static_cast<double>(caption_lines(view, width).size()));
  }
  return highest;
}

Panels panels_in(int columns, int count, const Eigen::Vector2d& size_m, const PanelNeeds& needs) {
  constexpr double k_tallest = 1.25;  // plan over panel
  Panels panels{.columns = columns, .rows = (count + columns - 1) / columns};
  panels.width = std::max(k_least_panel, (k_least_content - (columns - 1) * k_between_panels) / columns);
  panels.units_per_m = std::min((panels.width - 2 * k_wall_band) / size_m.x(), k_tallest * panels.width / size_m.y());
  panels.height = k_panel_heading + panels.units_per_m * size_m.y() + 2 * k_wall_band + needs.below_plan +
                  views_height(needs.views, panels.width);
  return panels;
}

}  // namespace

double Panels::content_width() const { return columns * width + (columns - 1) * k_between_panels; }

double Panels::content_height() const { return rows * height + (rows - 1) * k_between_panels; }

Eigen::Vector2d Panels::corner(int panel, const Eigen::Vector2d& first) const {
  return first + Eigen::Vector2d((panel % columns) * (width + k_between_panels),
                                 (panel / columns) * (height + k_between_panels));
}

PlanView Panels::view(const Polygon& plan_m, const Eigen::Vector2d& corner) const {
  const Eigen::AlignedBox2d bounds_m = bounds_of(plan_m);
  const Eigen::Vector2d plan_corner = corner + Eigen::Vector2d(k_wall_band, k_panel_heading + k_wall_band);
  return {units_per_m, plan_corner + units_per_m * Eigen::Vector2d(-bounds_m.min().x(), bounds_m.max().y())};
}

Panels best_panels(int count, const Eigen::Vector2d& size_m, const PanelNeeds& needs) {
  constexpr double k_wanted = 4.0 / 3;
  constexpr double k_around_panels = 420;  // about the height of heading, scale, legend and foot
  const auto misfit = [&](const Panels& panels) {
    const double width = panels.content_width() + 2 * k_map_margin;
    return std::abs(std::log(width / (panels.content_height() + k_around_panels) / k_wanted));
  };
  Panels best = panels_in(1, count, size_m, needs);
  for (int columns = 2; columns <= std::min(count, needs.most_columns); ++columns) {
    const Panels panels = panels_in(columns, count, size_m, needs);
    if (misfit(panels) < misfit(best)) best = panels;
  }
  return best;
}

void add_panel_view(Sheet& sheet, const PanelView& view, const Eigen::Vector2d& top_left, double width) {
  const Picture picture{view.picture, top_left + Eigen::Vector2d(0, k_above_view), width};
  double baseline = picture.at.y() + picture.height() + k_caption_line - 4;
  sheet.items.emplace_back(picture);
  for (const std::string& line : caption_lines(view, width)) {
    sheet.write(line, top_left.x(), baseline, k_caption_size, Weight::regular, k_dark);
    baseline += k_caption_line;
  }
}

void add_panel_name(Sheet& sheet, const std::string& name, const Eigen::Vector2d& corner, double left, double width) {
  constexpr double k_size = 26;
  sheet.write(elided(name, k_size, Weight::bold, width - left), corner.x() + left,
              corner.y() + k_panel_heading_middle + k_cap_height / 2 * k_size, k_size, Weight::bold, k_dark);
}

std::vector<DrawingItem> panel_picture(const RoomPlan& plan, const PanelLight& light, PanelMarks marks) {
  const auto& [job, boxes, view] = plan;
  const Disc darkest{view.at(marks.darkest_m), k_darkest_radius};
  FreeSpace space = free_space(plan);
  space.take(marks.cans);
  space.take({darkest});
  std::vector<DrawingItem> items =
      room_picture(plan, {{.field = view.at(light.painted_m), .top = light.top},
                          isolux_lines(light.light_m, job.room.corners_m, light.isolux, view, light.label_size, space),
                          {}});
  append(items, std::move(marks.can_marks));
  append(items, darkest_mark(darkest.centre));
  return items;
}

}  // namespace evenlit
