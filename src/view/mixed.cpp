#include <algorithm>
#include <cassert>

#include "evenlit/base/parallel.hpp"
#include "evenlit/base/srgb.hpp"
#include "evenlit/base/vectorised.hpp"
#include "evenlit/view/room_view.hpp"

namespace evenlit {
namespace {

constexpr int k_pixels_together = 16384;

/// What a group's light does to each of the three colours.
struct GroupLight {
  float level;
  float tint[3];
};

/// Adds the light of one group. A tint changes the luminance of a coloured surface too; what it is mixed with is scaled
/// back. A trace of white keeps that defined where a tint has nothing of a surface's colour.
EVENLIT_VECTORISED
void add_group(const GroupLight& light, const float* luminance_of, int count, const float* __restrict red,
               const float* __restrict green, const float* __restrict blue, float* __restrict mixed_red,
               float* __restrict mixed_green, float* __restrict mixed_blue) {
  constexpr float k_trace = 1e-6F;
  constexpr float k_dark = 1e-30F;
  for (int i = 0; i < count; ++i) {
    const float luminance = luminance_of[0] * red[i] + luminance_of[1] * green[i] + luminance_of[2] * blue[i];
    const float r = light.tint[0] * red[i] + k_trace * luminance;
    const float g = light.tint[1] * green[i] + k_trace * luminance;
    const float b = light.tint[2] * blue[i] + k_trace * luminance;
    const float scale =
        light.level * luminance / (luminance_of[0] * r + luminance_of[1] * g + luminance_of[2] * b + k_dark);
    mixed_red[i] += scale * r;
    mixed_green[i] += scale * g;
    mixed_blue[i] += scale * b;
  }
}

}  // namespace

LuminancePicture mixed(const RoomView& view, std::span<const double> levels, std::span<const Eigen::Vector3d> tints) {
  assert(levels.size() == view.groups.size() && tints.size() == view.groups.size());
  const Eigen::Index pixels = static_cast<Eigen::Index>(view.size.width) * view.size.height;
  LuminancePicture picture{view.size.width, view.size.height, {}};
  for (auto& plane : picture.rgb_cd_m2) plane.resize(pixels);
  const Eigen::Vector3f luminance_of = k_luminance_of_rgb.cast<float>();
  parallel_for(static_cast<int>((pixels + k_pixels_together - 1) / k_pixels_together), [&](int block) {
    const Eigen::Index first = static_cast<Eigen::Index>(block) * k_pixels_together;
    const int count = static_cast<int>(std::min<Eigen::Index>(k_pixels_together, pixels - first));
    auto& [red, green, blue] = picture.rgb_cd_m2;
    for (auto& plane : picture.rgb_cd_m2) plane.segment(first, count).setZero();
    for (std::size_t group = 0; group < view.groups.size(); ++group) {
      const Eigen::Vector3f tint = tints[group].cast<float>();
      const GroupLight light{static_cast<float>(levels[group]), {tint[0], tint[1], tint[2]}};
      const auto& of_group = view.groups[group].rgb_cd_m2;
      add_group(light, luminance_of.data(), count, of_group[0].data() + first, of_group[1].data() + first,
                of_group[2].data() + first, red.data() + first, green.data() + first, blue.data() + first);
    }
  });
  return picture;
}

}  // namespace evenlit
