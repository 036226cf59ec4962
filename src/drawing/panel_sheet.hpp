#pragma once

#include <span>
#include <string>
#include <vector>

#include "evenlit/drawing/drawing.hpp"
#include "evenlit/drawing/panel_view.hpp"
#include "isolux_lines.hpp"
#include "room_plan.hpp"
#include "sheet.hpp"

namespace evenlit {

// What sheets with a panel for each of several lightings of one room have in common.

/// What they need beside the plan.
struct PanelNeeds {
  int most_columns = 1;
  double below_plan = 0;                  ///< height of what is written there, units
  std::span<const PanelView> views = {};  ///< one a panel, below that; may be none
};

/// All panels are alike: a heading, the plan, what is written below it.
struct Panels {
  int columns = 1;
  int rows = 1;
  double width = 0;
  double height = 0;
  double units_per_m = 1;

  [[nodiscard]] double content_width() const;
  [[nodiscard]] double content_height() const;

  /// The top left corner of a panel, in a sheet whose first is at `first`.
  [[nodiscard]] Eigen::Vector2d corner(int panel, const Eigen::Vector2d& first) const;

  /// The plan in a panel.
  [[nodiscard]] PlanView view(const Polygon& plan_m, const Eigen::Vector2d& corner) const;
};

/// Middle of a panel's heading, below its top.
inline constexpr double k_panel_heading_middle = 20;

/// So many columns that the sheet comes nearest to 4 : 3. Each panel is at least 480 units wide.
///
/// @param size_m of the largest plan
Panels best_panels(int count, const Eigen::Vector2d& size_m, const PanelNeeds& needs);

/// The view of a panel: its picture across the panel, its caption below.
///
/// @param top of the picture
void add_panel_view(Sheet& sheet, const PanelView& view, const Eigen::Vector2d& top_left, double width);

/// A panel's name, in the middle of its heading.
void add_panel_name(Sheet& sheet, const std::string& name, const Eigen::Vector2d& corner, double left, double width);

/// Light on a panel's plan.
struct PanelLight {
  SampledField painted_m;  ///< what the colours show
  double top = 1;          ///< its value at the last colour
  SampledField light_m;    ///< what the isolux lines show
  std::vector<Isolux> isolux;
  double label_size = 0;
};

/// What lies on the light; labels keep off all of it.
struct PanelMarks {
  std::vector<Disc> cans;
  std::vector<DrawingItem> can_marks;
  Eigen::Vector2d darkest_m;
};

/// The room, its light, its cans and the darkest point.
std::vector<DrawingItem> panel_picture(const RoomPlan& plan, const PanelLight& light, PanelMarks marks);

}  // namespace evenlit
