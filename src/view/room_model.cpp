#include "evenlit/view/room_model.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "evenlit/base/degrees.hpp"
#include "evenlit/base/polygon.hpp"
#include "free_pieces.hpp"
#include "luminaire_look.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

constexpr double k_trim_over_m = 1e-3;
constexpr double k_opening_over_m = 2e-3;

/// A corner this near to a side touches it, one this near to another is the same.
constexpr double k_touching_m = 1e-6;

/// Corners of all faces in the order of x.
class SharedCorners {
 public:
  explicit SharedCorners(std::vector<Vector3d> corners_m) : corners_m_(std::move(corners_m)) {
    std::ranges::sort(corners_m_, [](const Vector3d& a, const Vector3d& b) {
      return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end());
    });
    const auto is_same = [](const Vector3d& a, const Vector3d& b) { return a == b; };
    corners_m_.erase(std::unique(corners_m_.begin(), corners_m_.end(), is_same), corners_m_.end());
  }

  /// Corners between the ends of a side, as they follow along it.
  [[nodiscard]] std::vector<Vector3d> between(const Vector3d& from, const Vector3d& to) const {
    const double length_m = (to - from).norm();
    const Vector3d along = (to - from) / length_m;
    std::vector<Vector3d> touching;
    const double last = std::max(from.x(), to.x()) + k_touching_m;
    const double first = std::min(from.x(), to.x()) - k_touching_m;
    auto corner = std::lower_bound(corners_m_.begin(), corners_m_.end(), first,
                                   [](const Vector3d& one, double x) { return one.x() < x; });
    for (; corner != corners_m_.end() && corner->x() <= last; ++corner) {
      const Vector3d to_corner = *corner - from;
      const double at_m = along.dot(to_corner);
      if (at_m <= k_touching_m || at_m >= length_m - k_touching_m) continue;
      if ((to_corner - at_m * along).squaredNorm() < k_touching_m * k_touching_m) touching.push_back(*corner);
    }
    std::ranges::sort(touching, {}, [&](const Vector3d& one) { return along.dot(one - from); });
    const auto is_same = [](const Vector3d& a, const Vector3d& b) { return (a - b).norm() <= k_touching_m; };
    touching.erase(std::unique(touching.begin(), touching.end(), is_same), touching.end());
    return touching;
  }

 private:
  std::vector<Vector3d> corners_m_;
};

/// Triangles from the middle of a convex outline to its sides.
void add_fan(const Outline& outline, ModelFace& face) {
  Vector3d middle = Vector3d::Zero();
  for (const Vector3d& corner : outline) middle += corner / static_cast<double>(outline.size());
  const auto first = static_cast<int>(face.corners_m.size());
  const auto count = static_cast<int>(outline.size());
  face.corners_m.insert(face.corners_m.end(), outline.begin(), outline.end());
  face.corners_m.push_back(middle);
  for (int i = 0; i < count; ++i) face.triangles.push_back({first + count, first + i, first + (i + 1) % count});
}

/// A piece of a surface; corners that coincide are one. No corners of what rounding left between two pieces.
Outline outline_of(const Trapezoid& piece, const FaceFrame& frame) {
  constexpr double k_narrowest_m = 1e-5;
  Outline outline;
  if (std::min(width_m(piece), height_m(piece)) < k_narrowest_m) return outline;
  for (const auto& corner : piece) {
    const Vector3d lifted = frame.lifted(corner);
    const bool is_new =
        std::ranges::none_of(outline, [&](const Vector3d& other) { return (lifted - other).norm() <= k_touching_m; });
    if (is_new) outline.push_back(lifted);
  }
  return outline;
}

Outline with_touching(const Outline& outline, const SharedCorners& corners) {
  Outline result;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    result.push_back(outline[i]);
    const Outline between = corners.between(outline[i], outline[(i + 1) % outline.size()]);
    result.insert(result.end(), between.begin(), between.end());
  }
  return result;
}

/// Convex outlines of each surface, with an area.
std::vector<std::vector<Outline>> surface_outlines(const Scene& scene) {
  std::vector<std::vector<Outline>> all;
  for (const Surface& surface : scene.surfaces) {
    std::vector<Outline>& own = all.emplace_back();
    const FaceFrame frame = frame_of(surface.corners_m, surface.normal);
    for (const Trapezoid& piece : free_pieces(surface.free_m, frame)) {
      if (Outline outline = outline_of(piece, frame); !outline.empty()) own.push_back(std::move(outline));
    }
  }
  return all;
}

SharedCorners corners_of(const std::vector<std::vector<Outline>>& outlines) {
  std::vector<Vector3d> corners;
  for (const auto& own : outlines) {
    for (const Outline& outline : own) corners.insert(corners.end(), outline.begin(), outline.end());
  }
  return SharedCorners(std::move(corners));
}

/// Of a trim or an opening, laid flat over its surface if it lies on one; counter-clockwise. No corners where that has
/// no area.
Outline laid_over(const ShownFace& face) {
  constexpr double k_least_m2 = 1e-9;
  Outline outline = face.outlines.front();
  if (face.surface >= 0) {
    const double over_m = face.kind == ShownFace::Kind::trim ? k_trim_over_m : k_opening_over_m;
    for (Vector3d& corner : outline) corner += (over_m - face.normal.dot(corner - face.plane_m)) * face.normal;
  }
  const double area_m2 = face.normal.dot(vector_area(outline));
  if (std::abs(area_m2) < k_least_m2) return {};
  if (area_m2 < 0) std::ranges::reverse(outline);
  return outline;
}

std::vector<ModelFace> faces_of(const LitRoom& room) {
  const auto outlines = surface_outlines(room.scene());
  const SharedCorners corners = corners_of(outlines);
  std::vector<ModelFace> faces;
  for (const ShownFace& shown : all_faces(room.scene(), room.looks())) {
    const Paint paint = paint_of(room.scene(), shown);
    ModelFace face{.kind = shown.kind,
                   .surface = shown.surface,
                   .luminaire = shown.luminaire,
                   .reflectance = paint.reflectance,
                   .tint = paint.tint,
                   .normal = shown.normal,
                   .corners_m = {},
                   .triangles = {}};
    if (shown.kind == ShownFace::Kind::surface) {
      for (const Outline& outline : outlines[shown.surface]) add_fan(with_touching(outline, corners), face);
    } else {
      if (const Outline outline = laid_over(shown); !outline.empty()) add_fan(outline, face);
    }
    if (!face.triangles.empty()) faces.push_back(std::move(face));
  }
  return faces;
}

std::vector<double> luminances_by_angle(const Scene& scene, const LuminaireLook& look, int index) {
  constexpr int k_around = 24;
  const Luminaire& luminaire = scene.luminaires[index];
  std::vector<double> cd_m2;
  for (int angle_deg = 0; angle_deg <= 180; angle_deg += k_opening_step_deg) {
    double sum = 0;
    for (int i = 0; i < k_around; ++i) {
      const double around_rad = 2 * std::numbers::pi * i / k_around;
      const double aside = sine_of_degrees(angle_deg);
      const Vector3d direction(aside * std::cos(around_rad), aside * std::sin(around_rad),
                               -cosine_of_degrees(angle_deg));
      sum += opening_cd_m2(scene, look, index, luminaire.position_m + luminaire.room_from_luminaire * direction);
    }
    cd_m2.push_back(sum / k_around);
  }
  return cd_m2;
}

std::vector<ModelOpening> openings_of(const LitRoom& room, const std::vector<ModelFace>& faces) {
  std::vector<ModelOpening> openings;
  for (std::size_t i = 0; i < faces.size(); ++i) {
    if (faces[i].kind != ShownFace::Kind::opening) continue;
    const int luminaire = faces[i].luminaire;
    const LuminaireLook& look = room.looks()[luminaire];
    openings.push_back({.luminaire = luminaire,
                        .group = look.group,
                        .face = static_cast<int>(i),
                        .cd_m2 = luminances_by_angle(room.scene(), look, luminaire)});
  }
  return openings;
}

}  // namespace

RoomModel room_model(const LitRoom& room, const Progress& progress) {
  RoomModel model{.light = light_texture(room, progress), .faces = faces_of(room), .openings = {}};
  model.openings = openings_of(room, model.faces);
  return model;
}

}  // namespace evenlit
