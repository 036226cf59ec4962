#include "evenlit/moods/comfort_ratios.hpp"

namespace evenlit {

LuminanceRatio luminance_ratio(double task_cd_m2, double other_cd_m2, double limit) {
  LuminanceRatio ratio{.is_within = task_cd_m2 <= limit * other_cd_m2 && other_cd_m2 <= limit * task_cd_m2};
  if (other_cd_m2 > 0) ratio.task_over_other = task_cd_m2 / other_cd_m2;
  return ratio;
}

LuminanceBalance luminance_balance(double task_cd_m2, double surround_cd_m2, double background_cd_m2) {
  return {luminance_ratio(task_cd_m2, surround_cd_m2, k_task_to_surround),
          luminance_ratio(task_cd_m2, background_cd_m2, k_task_to_background)};
}

}  // namespace evenlit
