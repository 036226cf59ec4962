#include "evenlit/view/seen_room.hpp"

#include "evenlit/view/light_groups.hpp"
#include "evenlit/view/veil.hpp"

namespace evenlit {
namespace {

/// Light that a picture shows, by its colour: cd/m2 on average.
Eigen::Vector3d mean_light(const RoomView& view, std::span<const double> levels,
                           std::span<const Eigen::Vector3d> tints) {
  Eigen::Vector3d light = Eigen::Vector3d::Zero();
  for (std::size_t group = 0; group < view.groups.size(); ++group) {
    light += levels[group] * luminances_cd_m2(view.groups[group]).cast<double>().mean() * tints[group];
  }
  return light;
}

std::vector<GlareSource> glare_sources(const RoomView& view, std::span<const double> levels,
                                       std::span<const Eigen::Vector3d> tints) {
  std::vector<GlareSource> sources;
  for (const VisibleSource& source : view.sources) {
    const auto group = static_cast<std::size_t>(source.group);
    sources.push_back({.direction = source.direction.cast<float>(),
                       .facing_lx = levels[group] * source.lx,
                       .tint = tints[group].cast<float>(),
                       .radius_deg = source.radius_deg});
  }
  return sources;
}

/// Of luminance 1; white in the dark.
Eigen::Vector3d colour_of(const Eigen::Vector3d& light) {
  const double luminance = k_luminance_of_rgb.dot(light);
  if (!(luminance > 0)) return Eigen::Vector3d::Ones();
  return (light / luminance).cwiseMax(0);
}

}  // namespace

SeenRoom seen_room(const Job& job, const RoomView& view, const Camera& camera, std::span<const double> can_levels) {
  const std::vector<double> levels = group_levels(job, can_levels);
  const std::vector<Eigen::Vector3d> tints = group_tints(job, can_levels, k_d65);
  Eigen::Matrix3f axes;
  axes << camera.right.cast<float>(), -camera.up.cast<float>(), camera.forward.cast<float>();
  const double tan_half_width = camera.size.width / 2.0 / camera.focal_px;
  return {.picture = veiled(mixed(view, levels, tints), axes, tan_half_width, glare_sources(view, levels, tints)),
          .light_rgb = colour_of(mean_light(view, levels, tints))};
}

Exposure common_exposure(std::span<const SeenRoom> rooms) {
  std::vector<LuminancePicture> pictures;
  Eigen::Vector3d light = Eigen::Vector3d::Zero();
  for (const SeenRoom& room : rooms) {
    pictures.push_back(room.picture);
    light += luminances_cd_m2(room.picture).cast<double>().mean() * room.light_rgb;
  }
  return exposure(pictures, colour_of(light));
}

}  // namespace evenlit
