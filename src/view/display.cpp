#include "evenlit/view/display.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstdint>

#include "evenlit/base/parallel.hpp"
#include "evenlit/base/vectorised.hpp"
#include "evenlit/moods/colour_display.hpp"
#include "evenlit/view/luminance_range.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

/// What `displayed` does to each pixel, as numbers.
struct Mapping {
  Eigen::Vector3f gains;
  float scale, white, per_white2;
};

Mapping mapping_of(const Exposure& exposure) {
  return {colour_gains(exposure).cast<float>(), static_cast<float>(exposure.scale_m2_per_cd),
          static_cast<float>(exposure.white), static_cast<float>(1 / (exposure.white * exposure.white))};
}

// Grey levels stand in a table by the root of the light, in which the encoding is nowhere steep: no more than 370
// levels from dark to white, so that half a step of the table is 0.012 of a level.
constexpr int k_steps = 1 << 14;

using GreyLevels = std::array<std::uint8_t, k_steps + 1>;

/// For the middle of each step, and for white itself.
GreyLevels grey_levels() {
  GreyLevels levels{};
  for (int step = 0; step < k_steps; ++step) {
    const double root = (step + 0.5) / k_steps;
    levels[static_cast<std::size_t>(step)] = static_cast<std::uint8_t>(std::lround(255 * encoded(root * root)));
  }
  levels.back() = 255;
  return levels;
}

constexpr int k_block = 256;  ///< pixels handled at a time, so that what is between stays in the cache

/// Roots of red, green and blue in steps of the table.
struct Roots {
  alignas(64) std::array<std::int32_t, k_block> red, green, blue;
};

[[gnu::always_inline]] inline std::int32_t root_of(float share) {
  const float within = std::min(1.0F, std::max(0.0F, share));  // 0 for what is not a number
  return static_cast<std::int32_t>(std::sqrt(within) * k_steps);
}

EVENLIT_VECTORISED
void map(Mapping mapping, const float* __restrict red, const float* __restrict green, const float* __restrict blue,
         int count, std::int32_t* __restrict red_root, std::int32_t* __restrict green_root,
         std::int32_t* __restrict blue_root) {
  constexpr float k_tiny = 1e-30F;        // keeps 0 / 0 away
  constexpr float k_always_kept = 0.35F;  // of a colour, however bright
  const float red_gain = mapping.gains[0];
  const float green_gain = mapping.gains[1];
  const float blue_gain = mapping.gains[2];
  const Eigen::Vector3f of = k_luminance_of_rgb.cast<float>();
  const float of_red = of[0];
  const float of_green = of[1];
  const float of_blue = of[2];
  for (int i = 0; i < count; ++i) {
    const float r = red_gain * red[i];
    const float g = green_gain * green[i];
    const float b = blue_gain * blue[i];
    const float luminance = std::max(0.0F, of_red * red[i] + of_green * green[i] + of_blue * blue[i]);
    const float seen = std::max(0.0F, of_red * r + of_green * g + of_blue * b);
    const float light = std::min(luminance * mapping.scale, mapping.white);
    const float shown = std::min(light * (1 + light * mapping.per_white2) / (1 + light), 1.0F);
    const float factor = shown / (seen + k_tiny);
    const float off_red = factor * r - shown;
    const float off_green = factor * g - shown;
    const float off_blue = factor * b - shown;
    const float most = std::max(std::max(off_red, off_green), off_blue);
    const float least = std::min(std::min(off_red, off_green), off_blue);
    const float above = (1 - shown) / std::max(most, 1 - shown + k_tiny);  // 1 within what the screen can show
    const float below = shown / std::max(-least, shown + k_tiny);
    const float kept = std::min(std::max(std::sqrt(above), k_always_kept), below);
    const float fitting = 1 / std::max(1.0F, shown + kept * most);
    red_root[i] = root_of(fitting * (shown + kept * off_red));
    green_root[i] = root_of(fitting * (shown + kept * off_green));
    blue_root[i] = root_of(fitting * (shown + kept * off_blue));
  }
}

}  // namespace

double visibility_scale(double adaptation_cd_m2) {
  const auto threshold = [](double cd_m2) { return std::pow(1.219 + std::pow(cd_m2, 0.4), 2.5); };
  return threshold(k_screen_white_cd_m2 / 2) / threshold(adaptation_cd_m2);
}

double shoulder(double light, double white) { return light * (1 + light / (white * white)) / (1 + light); }

double colour_adaptation(double adaptation_cd_m2) {
  constexpr double k_average_surround = 1;
  return k_average_surround * (1 - std::exp(-(adaptation_cd_m2 + 42) / 92) / 3.6);
}

Vector3d colour_gains(const Exposure& exposure) {
  constexpr double k_faintest = 0.02;  // of white; light without a trace of blue has no blue to be brought back
  assert(exposure.light_rgb.minCoeff() >= 0 && exposure.light_rgb.maxCoeff() > 0);
  const Vector3d light = exposure.light_rgb / k_luminance_of_rgb.dot(exposure.light_rgb);
  return exposure.colour_adaptation * light.cwiseMax(k_faintest).cwiseInverse() +
         (1 - exposure.colour_adaptation) * Vector3d::Ones();
}

Exposure exposure(std::span<const LuminancePicture> pictures, const Vector3d& light_rgb) {
  double usual = k_darkest_cd_m2;
  double brightest = k_darkest_cd_m2;
  for (const LuminancePicture& picture : pictures) {
    const LuminanceRange range = luminance_range({&picture, 1});
    usual = std::max(usual, range.usual_cd_m2);
    brightest = std::max(brightest, range.brightest_cd_m2);
  }
  const double straight = visibility_scale(usual) / k_screen_white_cd_m2;
  Exposure exposure{.adaptation_cd_m2 = usual,
                    .scale_m2_per_cd = straight,
                    .white = 1,
                    .light_rgb = light_rgb,
                    .colour_adaptation = colour_adaptation(usual)};
  if (straight * brightest <= 1) return exposure;
  // The curve has to pass through the usual luminance's place, and through 1 at the brightest: two equations for the
  // scale and the white. The place is less than 0.82 whatever the luminance.
  const double shown = straight * usual;
  const double over_usual = brightest / usual;
  const double light = (shown - 1 / (over_usual * over_usual)) / (1 - shown);
  exposure.scale_m2_per_cd = light / usual;
  exposure.white = light * over_usual;
  return exposure;
}

Image displayed(const LuminancePicture& picture, const Exposure& exposure) {
  static const GreyLevels k_levels = grey_levels();
  const Mapping mapping = mapping_of(exposure);
  Image image{picture.width, picture.height, {}};
  image.pixels.resize(static_cast<std::size_t>(picture.rgb_cd_m2[0].size()));
  parallel_for(picture.height, [&](int row) {
    Roots roots;
    for (int first = 0; first < picture.width; first += k_block) {
      const int count = std::min(k_block, picture.width - first);
      const Eigen::Index at = static_cast<Eigen::Index>(row) * picture.width + first;
      const auto channel = [&](int which) { return picture.rgb_cd_m2[which].data() + at; };
      map(mapping, channel(0), channel(1), channel(2), count, roots.red.data(), roots.green.data(), roots.blue.data());
      for (int i = 0; i < count; ++i) {
        image.pixels[static_cast<std::size_t>(at + i)] = {k_levels[roots.red[i]], k_levels[roots.green[i]],
                                                          k_levels[roots.blue[i]]};
      }
    }
  });
  return image;
}

}  // namespace evenlit
