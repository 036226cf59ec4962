#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/job/job.hpp"
#include "light_scale.hpp"
#include "plan_view.hpp"
#include "sheet.hpp"

namespace evenlit {

// What the sheets with maps have in common around them: sizes, heading, figures, legend, what stands at the foot.
inline constexpr double k_map_width = 1200;  ///< of a sheet of one map
inline constexpr double k_map_margin = 44;
inline constexpr double k_smallest_text = 18;

/// From and to, across the sheet.
struct Width {
  double left = 0;
  double right = 0;
};

inline constexpr Width k_map_content{k_map_margin, k_map_width - k_map_margin};

/// The room's name and lines below it.
///
/// @return where the heading ends
double add_map_heading(Sheet& sheet, const std::string& title, const std::vector<std::string>& lines,
                       const Width& content);

/// `target 20 fc (215 lx)`; empty without one.
std::optional<std::string> target_text(const Job& job);

/// The plan as large as one map's sheet allows, in the middle, from `top` down.
PlanView map_view(const Polygon& plan_m, double top);

/// Where the plan ends on the sheet.
double bottom_of(const Polygon& plan_m, const PlanView& view);

/// A scale across the sheet.
void add_map_scale(Sheet& sheet, const LightScale& scale, const Width& content, double top);

/// A figure with its name above and a note below.
struct MapFigure {
  std::string name;
  std::string value;
  std::string note;
};

/// Figures side by side in columns, from `top` down 90 units.
void add_map_figures(Sheet& sheet, const std::vector<MapFigure>& figures, const Width& content, double top);

/// Items elsewhere.
std::vector<DrawingItem> moved(std::vector<DrawingItem> items, const Eigen::Vector2d& by);

/// What a mark means.
struct LegendEntry {
  std::vector<DrawingItem> mark;  ///< about the origin
  std::string text;
  double mark_width = 30;
};

/// A line for a legend, as long as a mark is wide.
std::vector<DrawingItem> line_sample(double width, const Ink& ink, const std::vector<double>& dash);

/// Entries side by side, in as many lines as they need.
///
/// @return where the legend ends
double add_legend(Sheet& sheet, const std::vector<LegendEntry>& entries, const Width& content, double top);

/// How the light was computed, and what to mind before cutting, below a line.
///
/// @return where it ends
double add_footer(Sheet& sheet, const std::string& computed, const Width& content, double top);

/// The same of a work plane: at how many points the light is known and how well.
double add_map_footer(Sheet& sheet, const Job& job, std::size_t points, double error_share, const Width& content,
                      double top);

}  // namespace evenlit
