#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/drawing/intensity_diagrams.hpp"
#include "evenlit/photometry/distribution.hpp"
#include "intensity_profile.hpp"
#include "sheet.hpp"

namespace evenlit {

// What the diagrams have in common: the sheet, its sizes, its heading and what stands below.
inline constexpr double k_diagram_width = 1200;
inline constexpr double k_diagram_margin = 60;
inline constexpr double k_diagram_right = k_diagram_width - k_diagram_margin;
inline constexpr double k_diagram_text = 30;
inline constexpr Ink k_grid_ink{{206, 209, 214}};
inline constexpr Ink k_half_tenth_ink{{110, 115, 122}};

/// Title and the line below it, down to y = 140.
void add_heading(Sheet& sheet, const DiagramText& text);

/// A figure with its name above and a note below, from `top` down 122 units.
struct Figure {
  std::string name;
  std::string value;
  std::string note;
};

void add_figure_row(Sheet& sheet, const std::vector<Figure>& figures, double top);

/// `60°`, with one decimal below ten degrees.
std::string angle_text(double angle_deg);

/// How a plane is drawn.
Stroke plane_stroke(const IntensityProfile& profile, Polyline line);

/// A ring where a curve comes down to the share of the peak that ends the beam or the field.
void add_edge_mark(Sheet& sheet, const Eigen::Vector2d& at);

/// Which line is which plane, around the baseline given.
void add_legend(Sheet& sheet, const std::vector<IntensityProfile>& profiles, double baseline);

/// Peak, beam angle and field angle.
std::vector<Figure> beam_figures(const IntensityDistribution& distribution,
                                 const std::vector<IntensityProfile>& profiles);

}  // namespace evenlit
