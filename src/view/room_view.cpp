#include "evenlit/view/room_view.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/degrees.hpp"
#include "evenlit/base/parallel.hpp"
#include "evenlit/view/pixel_parts.hpp"
#include "luminaire_look.hpp"
#include "shader.hpp"

namespace evenlit {
namespace {

/// Rows that are shaded together, and after how many of these it is told how far the picture is.
constexpr int k_rows_together = 16;
constexpr int k_blocks_told = 8;

/// Of the time, what is gone when the light between surfaces is known.
constexpr double k_exchanged = 0.6;

std::vector<VisibleSource> sources_of(const Scene& scene, const std::vector<LuminaireLook>& looks,
                                      const Eigen::Vector3d& eye_m) {
  const Visibility visibility(scene);
  std::vector<VisibleSource> sources;
  for (std::size_t i = 0; i < scene.luminaires.size(); ++i) {
    Luminaire luminaire = scene.luminaires[i];
    luminaire.opening = shown_opening(luminaire, looks[i]);
    const Eigen::Vector3d to = luminaire.position_m - eye_m;
    const double candela = full_light_toward(scene, luminaire, eye_m).candela;
    const double lx = candela > 0 ? candela / to.squaredNorm() * seen_share(visibility, luminaire, eye_m) : 0;
    if (!(lx > 0)) continue;
    const double radius_m = std::max(luminaire.opening.width_m, luminaire.opening.length_m) / 2;
    sources.push_back({.direction = to.normalized(),
                       .lx = lx,
                       .radius_deg = std::atan2(radius_m, to.norm()) * k_deg_per_rad,
                       .group = looks[i].group});
  }
  return sources;
}

}  // namespace

RoomView room_view(const LitRoom& room, const Camera& camera, const Progress& progress) {
  RoomView view{.size = camera.size, .groups = {}, .sources = sources_of(room.scene(), room.looks(), camera.eye_m)};
  const Eigen::ArrayXf dark = Eigen::ArrayXf::Zero(static_cast<Eigen::Index>(camera.size.width) * camera.size.height);
  view.groups.assign(room.groups(), {camera.size.width, camera.size.height, {dark, dark, dark}});
  if (room.groups() == 0) return view;

  const std::vector<ShownFace> faces = shown_faces(room.scene(), room.looks(), camera.eye_m);
  const auto rows = pixel_parts(faces, camera);
  const Shader shader(room, faces, camera.eye_m);
  const int height = camera.size.height;
  const int blocks = (height + k_rows_together - 1) / k_rows_together;
  for (int told = 0; told < blocks; told += k_blocks_told) {
    const int count = std::min(k_blocks_told, blocks - told);
    parallel_for(count, [&](int i) {
      const int first_row = (told + i) * k_rows_together;
      shader.shade(rows, first_row, std::min(height, first_row + k_rows_together), view);
    });
    if (progress) progress(static_cast<double>(told + count) / blocks);
  }
  return view;
}

RoomView room_view(const Scene& scene, const std::vector<LuminaireLook>& looks, const Camera& camera,
                   const Progress& progress) {
  const LitRoom room(scene, looks, part_of(progress, 0, k_exchanged));
  return room_view(room, camera, part_of(progress, k_exchanged, 1));
}

}  // namespace evenlit
