#pragma once

#include <string>
#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/drawing/drawing.hpp"
#include "evenlit/drawing/sampled_field.hpp"
#include "free_space.hpp"
#include "plan_view.hpp"

namespace evenlit {

inline constexpr double k_halo_width = 3.5;

/// Text in the middle of a place that stands out from what lies below it.
Text halo_text(std::string text, const Eigen::Vector2d& centre, double size, Weight weight, double turn_rad = 0);

/// A line through all places of one illuminance.
struct Isolux {
  double lx = 0;
  std::string label;
  bool is_heavy = false;
  bool is_dashed = false;
};

/// Isolux lines with a label on each where it runs straight for long enough and is not in the way of anything.
std::vector<DrawingItem> isolux_lines(const SampledField& field_m, const Polygon& plan_m,
                                      const std::vector<Isolux>& levels, const PlanView& view, double label_size,
                                      FreeSpace& space);

}  // namespace evenlit
