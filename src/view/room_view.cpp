#include "evenlit/view/room_view.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/degrees.hpp"
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
constexpr double k_exchanged = 0.6;

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

Eigen::MatrixXd by_group(const Eigen::MatrixXd& by_luminaire, const std::vector<LuminaireLook>& looks,
                         Eigen::Index groups) {
  Eigen::MatrixXd sums = Eigen::MatrixXd::Zero(by_luminaire.rows(), groups);
  for (Eigen::Index i = 0; i < by_luminaire.cols(); ++i) sums.col(looks[i].group) += by_luminaire.col(i);
  return sums;
}

SurfaceLight indirect_light(const Scene& scene, const std::vector<LuminaireLook>& looks, Eigen::Index groups,
                            const Progress& progress) {
  constexpr Accuracy k_as_an_eye_tells{.share = 0.01};
  constexpr double k_grey = 0.6;  // of the time where there are colours
  Lattice lattice = lattice_on(scene);
  const auto& points = lattice.points;
  const int colours = has_colours(scene) ? 3 : 0;
  Eigen::MatrixXd lx(std::ssize(points), (1 + colours) * groups);
  const Progress of_grey = part_of(progress, 0, colours > 0 ? k_grey : 1);
  lx.leftCols(groups) = by_group(response(scene, points, k_as_an_eye_tells, of_grey).indirect_lx, looks, groups);
  for (int colour = 0; colour < colours; ++colour) {
    // Only how the three compare is taken from them, which a coarse mesh tells.
    const auto done = [&](int count) { return k_grey + (1 - k_grey) * count / colours; };
    const Response light = response(in_colour(scene, colour), points, coarse_mesh(scene),
                                    part_of(progress, done(colour), done(colour + 1)));
    lx.middleCols((1 + colour) * groups, groups) = by_group(light.indirect_lx, looks, groups);
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
