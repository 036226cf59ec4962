#pragma once

#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/drawing/drawing.hpp"
#include "evenlit/drawing/sampled_field.hpp"

namespace evenlit {

// The few inks and sizes that the sheet is made of.
inline constexpr Ink k_dark{{30, 34, 40}};
inline constexpr Ink k_grey{{96, 102, 110}};
inline constexpr Ink k_light_grey{{178, 183, 190}};
inline constexpr Ink k_white{{255, 255, 255}};
inline constexpr Ink k_halo{{255, 255, 255}, 0.85};
inline constexpr double k_small_text = 20;
inline constexpr double k_wall_band = 14;

/// Where the plan lies on the sheet: from metres, y up, to the sheet's units, y down.
struct PlanView {
  double units_per_m = 1;
  Eigen::Vector2d origin;  ///< of the plan's coordinates, on the sheet

  Eigen::Vector2d at(const Eigen::Vector2d& plan_m) const {
    return origin + units_per_m * Eigen::Vector2d(plan_m.x(), -plan_m.y());
  }

  Polyline at(std::vector<Eigen::Vector2d> plan_m) const {
    for (Eigen::Vector2d& point : plan_m) point = at(Eigen::Vector2d(point));
    return plan_m;
  }

  SampledField at(SampledField field_m) const {
    field_m.first = at(Eigen::Vector2d(field_m.first));
    field_m.spacing = units_per_m * Eigen::Vector2d(field_m.spacing.x(), -field_m.spacing.y());
    return field_m;
  }
};

/// Text whose middle, in both directions, is at `centre`.
Text centred_text(std::string text, const Eigen::Vector2d& centre, double size, Weight weight, double turn_rad = 0);

/// The turn at which text along a direction reads from the left or from below.
double upright_turn(const Eigen::Vector2d& along);

}  // namespace evenlit
