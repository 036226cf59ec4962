#include "evenlit/view/shown_face.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/room/first_hit.hpp"
#include "luminaire_look.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

constexpr double k_trim_over_hole_m = 0.0254;  // 1 in
constexpr double k_trim_over_opening = 1.25;

/// The surface that a luminaire is flush with, or -1.
int surface_around(const Scene& scene, const Luminaire& luminaire) {
  constexpr double k_flush_m = 1e-3;
  for (int i = 0; i < static_cast<int>(scene.surfaces.size()); ++i) {
    const Surface& surface = scene.surfaces[i];
    const double above_m = surface.normal.dot(luminaire.position_m - surface.corners_m.front());
    if (std::abs(above_m) <= k_flush_m && is_on_free_part(surface, luminaire.position_m)) return i;
  }
  return -1;
}

Outline lifted(const Vector3d& centre, const Vector3d& along, const Vector3d& across, const Polygon& outline) {
  Outline corners;
  for (const Vector2d& corner : outline) corners.push_back(centre + corner.x() * along + corner.y() * across);
  return corners;
}

Opening trim_around(const Opening& opening, const std::optional<double>& hole_m) {
  Opening trim = opening;
  if (hole_m && opening.shape == Opening::Shape::disc) {
    trim.width_m = trim.length_m = std::max(*hole_m, opening.width_m) + k_trim_over_hole_m;
  } else {
    trim.width_m *= k_trim_over_opening;
    trim.length_m *= k_trim_over_opening;
  }
  return trim;
}

ShownFace trim_of(const Scene& scene, const LuminaireLook& look, int index, int flush) {
  const Luminaire& luminaire = scene.luminaires[index];
  const Vector3d& normal = scene.surfaces[flush].normal;
  // The opening's own axes, laid down on the surface.
  const Vector3d own = luminaire.room_from_luminaire.col(0);
  const Vector3d laid = own - normal.dot(own) * normal;
  constexpr double k_upright = 1e-6;
  const Vector3d along = laid.norm() > k_upright ? Vector3d(laid.normalized()) : normal.unitOrthogonal();
  const Polygon outline = opening_outline(trim_around(shown_opening(luminaire, look), look.hole_m));
  return {.kind = ShownFace::Kind::trim,
          .surface = flush,
          .luminaire = index,
          .outlines = {lifted(luminaire.position_m, along, normal.cross(along), outline)},
          .plane_m = luminaire.position_m,
          .normal = normal};
}

Vector3d aim_of(const Luminaire& luminaire) { return -luminaire.room_from_luminaire.col(2); }

bool is_before(const Luminaire& luminaire, const Vector3d& eye_m) {
  return aim_of(luminaire).dot(eye_m - luminaire.position_m) > 0;
}

/// One that hangs free is seen from where it is aimed.
ShownFace opening_of(const Scene& scene, const LuminaireLook& look, int index, int flush) {
  const Luminaire& luminaire = scene.luminaires[index];
  const Eigen::Matrix3d& axes = luminaire.room_from_luminaire;
  const Polygon outline = opening_outline(shown_opening(luminaire, look));
  return {.kind = ShownFace::Kind::opening,
          .surface = flush,
          .luminaire = index,
          .outlines = {lifted(luminaire.position_m, axes.col(0), axes.col(1), outline)},
          .plane_m = luminaire.position_m,
          .normal = flush >= 0 ? scene.surfaces[flush].normal : aim_of(luminaire)};
}

bool hangs_free(const ShownFace& face) { return face.kind == ShownFace::Kind::opening && face.surface < 0; }

}  // namespace

std::vector<ShownFace> all_faces(const Scene& scene, const std::vector<LuminaireLook>& looks) {
  std::vector<ShownFace> faces;
  for (int i = 0; i < static_cast<int>(scene.surfaces.size()); ++i) {
    const Surface& surface = scene.surfaces[i];
    faces.push_back(
        {.surface = i, .outlines = surface.free_m, .plane_m = surface.corners_m.front(), .normal = surface.normal});
  }
  for (int i = 0; i < static_cast<int>(scene.luminaires.size()); ++i) {
    const int flush = surface_around(scene, scene.luminaires[i]);
    if (flush >= 0) faces.push_back(trim_of(scene, looks[i], i, flush));
    faces.push_back(opening_of(scene, looks[i], i, flush));
  }
  return faces;
}

std::vector<ShownFace> shown_faces(const Scene& scene, const std::vector<LuminaireLook>& looks, const Vector3d& eye_m) {
  std::vector<ShownFace> faces;
  for (ShownFace& face : all_faces(scene, looks)) {
    if (hangs_free(face) && !is_before(scene.luminaires[face.luminaire], eye_m)) {
      if (!(full_light_toward(scene, scene.luminaires[face.luminaire], eye_m).candela > 0)) continue;
      face.normal = -face.normal;
    }
    faces.push_back(std::move(face));
  }
  return faces;
}

}  // namespace evenlit
