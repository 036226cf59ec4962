#include "exposure_json.hpp"

namespace evenlit {

Json rgb_json(const Eigen::Vector3d& values) { return {number(values[0]), number(values[1]), number(values[2])}; }

Json exposure_json(const Exposure& exposure) {
  return {{"adaptation_cd_m2", number(exposure.adaptation_cd_m2)},
          {"scale_m2_per_cd", number(exposure.scale_m2_per_cd)},
          {"white", number(exposure.white)},
          {"adapted_light_linear_rgb", rgb_json(exposure.light_rgb)},
          {"degree_of_colour_adaptation", number(exposure.colour_adaptation)},
          {"colour_gains", rgb_json(colour_gains(exposure))},
          {"screen_white_cd_m2", number(k_screen_white_cd_m2)}};
}

}  // namespace evenlit
