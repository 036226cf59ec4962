#include "evenlit/view/room_view.hpp"

#include <algorithm>

#include "evenlit/base/parallel.hpp"
#include "evenlit/field/response.hpp"
#include "evenlit/view/pixel_parts.hpp"
#include "luminaire_look.hpp"
#include "shader.hpp"
#include "surface_light.hpp"

namespace evenlit {
namespace {

/// Rows that are shaded together, and after how many of these it is told how far the picture is.
constexpr int k_rows_together = 16;
constexpr int k_blocks_told = 8;

/// Of the time, what is gone when the light between surfaces is known.
constexpr double k_exchanged = 0.3;

bool has_colours(const Scene& scene) {
  return std::ranges::any_of(scene.surfaces, [](const Surface& surface) {
    return (surface.tint - Eigen::Vector3d::Ones()).cwiseAbs().maxCoeff() > 1e-9;
  });
}

/// The room as one of the three colours meets it.
Scene in_colour(Scene scene, int colour) {
  constexpr double k_most_reflectance = 0.97;
  for (Surface& surface : scene.surfaces) {
    surface.reflectance = std::min(surface.reflectance * surface.tint[colour], k_most_reflectance);
  }
  return scene;
}

/// Receivers x groups.
Eigen::MatrixXd indirect_by_group(const Scene& scene, const std::vector<LuminaireLook>& looks,
                                  const std::vector<Receiver>& receivers, Eigen::Index groups,
                                  const Progress& progress) {
  const Response light = response(scene, receivers, coarse_mesh(scene), progress);
  Eigen::MatrixXd by_group = Eigen::MatrixXd::Zero(light.indirect_lx.rows(), groups);
  for (Eigen::Index i = 0; i < light.indirect_lx.cols(); ++i) by_group.col(looks[i].group) += light.indirect_lx.col(i);
  return by_group;
}

SurfaceLight indirect_light(const Scene& scene, const std::vector<LuminaireLook>& looks, Eigen::Index groups,
                            const Progress& progress) {
  Lattice lattice = lattice_on(scene);
  const int solves = has_colours(scene) ? 4 : 1;
  Eigen::MatrixXd lx(std::ssize(lattice.points), solves * groups);
  for (int solve = 0; solve < solves; ++solve) {
    const Progress part = part_of(progress, static_cast<double>(solve) / solves, (solve + 1.0) / solves);
    lx.middleCols(solve * groups, groups) =
        indirect_by_group(solve == 0 ? scene : in_colour(scene, solve - 1), looks, lattice.points, groups, part);
  }
  return {std::move(lattice), lx};
}

std::vector<VisibleSource> sources_of(const Scene& scene, const std::vector<LuminaireLook>& looks,
                                      const Eigen::Vector3d& eye_m) {
  const Visibility visibility(scene);
  std::vector<VisibleSource> sources;
  for (std::size_t i = 0; i < scene.luminaires.size(); ++i) {
    Luminaire luminaire = scene.luminaires[i];
    luminaire.opening = shown_opening(luminaire, looks[i]);
    const Eigen::Vector3d to = luminaire.position_m - eye_m;
    if (!(to.norm() > 0)) continue;
    const double candela = full_light_toward(scene, luminaire, eye_m).candela;
    const double lx = candela > 0 ? candela / to.squaredNorm() * seen_share(visibility, luminaire, eye_m) : 0;
    if (lx > 0) sources.push_back({to.normalized(), lx, looks[i].group});
  }
  return sources;
}

}  // namespace

RoomView room_view(const Scene& scene, const std::vector<LuminaireLook>& looks, const Camera& camera,
                   const Progress& progress) {
  int groups = 0;
  for (const LuminaireLook& look : looks) groups = std::max(groups, look.group + 1);
  RoomView view{.size = camera.size, .groups = {}, .sources = sources_of(scene, looks, camera.eye_m)};
  const Eigen::ArrayXf dark = Eigen::ArrayXf::Zero(static_cast<Eigen::Index>(camera.size.width) * camera.size.height);
  view.groups.assign(groups, {camera.size.width, camera.size.height, {dark, dark, dark}});
  if (groups == 0) return view;

  const std::vector<ShownFace> faces = shown_faces(scene, looks, camera.eye_m);
  const auto rows = pixel_parts(faces, camera);
  const SurfaceLight indirect = indirect_light(scene, looks, groups, part_of(progress, 0, k_exchanged));
  const Shader shader(scene, looks, faces, camera.eye_m, indirect, has_colours(scene));
  const int height = camera.size.height;
  const int blocks = (height + k_rows_together - 1) / k_rows_together;
  for (int told = 0; told < blocks; told += k_blocks_told) {
    const int count = std::min(k_blocks_told, blocks - told);
    parallel_for(count, [&](int i) {
      const int first_row = (told + i) * k_rows_together;
      shader.shade(rows, first_row, std::min(height, first_row + k_rows_together), view);
    });
    if (progress) progress(k_exchanged + (1 - k_exchanged) * (told + count) / blocks);
  }
  return view;
}

}  // namespace evenlit
