#pragma once

#include <optional>

namespace evenlit {

/// How much brighter a task may be than what is close around it, and than what is farther off in view, or the other
/// way round. Common practice, no source.
inline constexpr double k_task_to_surround = 3;
inline constexpr double k_task_to_background = 10;

/// The luminance of a task against something else in view.
struct LuminanceRatio {
  std::optional<double> task_over_other;  ///< empty where the other is dark
  bool is_within = false;                 ///< whether neither is brighter by more than the limit
};

/// @param task_cd_m2, other_cd_m2 >= 0
/// @param limit 1 or more
LuminanceRatio luminance_ratio(double task_cd_m2, double other_cd_m2, double limit);

/// Whether the eye may wander between a task and the rest of what it sees without strain.
struct LuminanceBalance {
  LuminanceRatio to_surround;
  LuminanceRatio to_background;
};

/// All three in cd/m2, >= 0.
LuminanceBalance luminance_balance(double task_cd_m2, double surround_cd_m2, double background_cd_m2);

}  // namespace evenlit
