#include "evenlit/moods/reflections.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>

#include "evenlit/moods/opening_light.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// What is on or above a plane: where normal . place >= least.
struct HalfSpace {
  Vector3d normal;
  double least = 0;
};

/// A rectangle that an eye in front looks into.
struct Mirror {
  Vector3d centre_m;
  Vector3d normal;  ///< unit, toward the eye's side
  Vector3d eye_m;
  Vector3d image_m;  ///< of the eye, behind the rectangle
  /// Before the rectangle, and within each side of the pyramid from the eye's image through it.
  std::array<HalfSpace, 5> seen;
};

HalfSpace side_through(const Vector3d& apex, const Vector3d& from, const Vector3d& to, const Vector3d& inside) {
  const Vector3d normal = (from - apex).cross(to - apex);
  const Vector3d inward = normal.dot(inside - apex) < 0 ? Vector3d(-normal) : normal;
  return {inward, inward.dot(apex)};
}

/// @return empty where the eye is not in front of the rectangle
std::optional<Mirror> mirror_before(const ShinyRectangle& rectangle, const Vector3d& eye_m) {
  const Vector3d& centre = rectangle.centre_m;
  const Vector3d normal = rectangle.half_along_m.cross(rectangle.half_up_m).normalized();
  const double height_m = normal.dot(eye_m - centre);
  if (!(height_m > 0)) return std::nullopt;
  const Vector3d image = eye_m - 2 * height_m * normal;
  const std::array<Vector3d, 4> corners{
      centre - rectangle.half_along_m - rectangle.half_up_m, centre + rectangle.half_along_m - rectangle.half_up_m,
      centre + rectangle.half_along_m + rectangle.half_up_m, centre - rectangle.half_along_m + rectangle.half_up_m};
  Mirror mirror{centre, normal, eye_m, image, {HalfSpace{normal, normal.dot(centre)}}};
  for (std::size_t i = 0; i < 4; ++i) {
    mirror.seen[i + 1] = side_through(image, corners[i], corners[(i + 1) % 4], centre);
  }
  return mirror;
}

/// The part of an opening, in its plane, that the eye sees in the mirror while nothing hides it.
Polygon mirrored_part(const Mirror& mirror, const Luminaire& luminaire) {
  Polygon part = opening_outline(luminaire.opening);
  for (const HalfSpace& side : mirror.seen) {
    const Vector2d across = -luminaire.room_from_luminaire.leftCols<2>().transpose() * side.normal;
    part = part_within(part, across, side.normal.dot(luminaire.position_m) - side.least);
  }
  return part;
}

/// Where on the mirror the eye sees a place of the room that is before it.
Vector3d place_in(const Mirror& mirror, const Vector3d& place_m) {
  const double eye_height_m = mirror.normal.dot(mirror.eye_m - mirror.centre_m);
  const double height_m = std::max(mirror.normal.dot(place_m - mirror.centre_m), 0.0);
  return mirror.image_m + eye_height_m / (eye_height_m + height_m) * (place_m - mirror.image_m);
}

/// A convex polygon's centre of area.
Vector2d middle_of(const Polygon& convex) {
  Vector2d moment = Vector2d::Zero();
  double twice_area = 0;
  const Vector2d& first = convex.front();
  for (std::size_t i = 1; i + 1 < convex.size(); ++i) {
    const Vector2d a = convex[i] - first;
    const Vector2d b = convex[i + 1] - first;
    const double weight = a.x() * b.y() - a.y() * b.x();
    moment += weight * (a + b) / 3;
    twice_area += weight;
  }
  return twice_area > 0 ? Vector2d(first + moment / twice_area) : first;
}

/// What of a part of an opening the eye sees past walls and boxes.
struct SeenPart {
  double share = 0;  ///< of the part
  Vector2d middle;   ///< in the opening's plane
};

SeenPart part_in_sight(const Visibility& visibility, const Mirror& mirror, const Luminaire& luminaire,
                       const Polygon& part) {
  const Vector2d middle = middle_of(part);
  if (visibility.is_always_clear()) return {1, middle};
  std::vector<Vector2d> points;
  for (const Vector2d& point : opening_points(luminaire.opening)) {
    if (is_inside(part, point)) points.push_back(point);
  }
  if (points.empty()) points.push_back(middle);
  int seen = 0;
  Vector2d sum = Vector2d::Zero();
  for (const Vector2d& point : points) {
    const Vector3d place = place_on(luminaire, point);
    const Vector3d mirrored = place_in(mirror, place);
    if (!visibility.is_clear(mirror.eye_m, mirrored) || !visibility.is_clear(mirrored, place)) continue;
    ++seen;
    sum += point;
  }
  const auto count = static_cast<int>(points.size());
  if (seen == 0 || seen == count) return {seen == 0 ? 0.0 : 1.0, middle};
  return {static_cast<double>(seen) / count, sum / seen};
}

/// What an eye sees of one of the scene's luminaires.
std::optional<MirrorImage> image_of(const Scene& scene, const Visibility& visibility, const Mirror& mirror,
                                    double refractive_index, int index) {
  constexpr double k_rounding = 1e-9;
  constexpr double k_least_area_m2 = 1e-9;  // below, it is an edge seen within rounding
  const Luminaire& luminaire = scene.luminaires[static_cast<std::size_t>(index)];
  const Polygon part = mirrored_part(mirror, luminaire);
  if (part.empty()) return std::nullopt;
  const double cut = signed_area(part) / signed_area(opening_outline(luminaire.opening));
  const SeenPart in_sight = part_in_sight(visibility, mirror, luminaire, part);
  const double share = cut * in_sight.share;
  if (!(share > k_rounding)) return std::nullopt;

  MirrorImage image{.luminaire = index, .seen_share = share};
  const Vector3d place = place_on(luminaire, in_sight.middle);
  image.place_m = place_in(mirror, place);
  const double incidence_cosine = mirror.normal.dot((mirror.eye_m - image.place_m).normalized());
  image.reflectance = fresnel_reflectance(incidence_cosine, refractive_index);
  const OpeningLight light = light_toward(scene, luminaire, image.place_m);
  if (light.projected_area_m2 < k_least_area_m2) return image;
  image.opening_cd_m2 = light.candela / light.projected_area_m2;
  image.reflected_cd_m2 = image.reflectance * *image.opening_cd_m2;
  return image;
}

}  // namespace

double fresnel_reflectance(double incidence_cosine, double refractive_index) {
  const double inside_cosine =
      std::sqrt(1 - (1 - incidence_cosine * incidence_cosine) / (refractive_index * refractive_index));
  const double crosswise =
      (incidence_cosine - refractive_index * inside_cosine) / (incidence_cosine + refractive_index * inside_cosine);
  const double lengthwise =
      (refractive_index * incidence_cosine - inside_cosine) / (refractive_index * incidence_cosine + inside_cosine);
  return (crosswise * crosswise + lengthwise * lengthwise) / 2;
}

std::vector<MirrorImage> mirror_images(const Scene& scene, const Visibility& visibility,
                                       const ShinyRectangle& rectangle, const Vector3d& eye_m) {
  std::vector<MirrorImage> images;
  const auto mirror = mirror_before(rectangle, eye_m);
  if (!mirror) return images;
  for (int i = 0; i < static_cast<int>(scene.luminaires.size()); ++i) {
    const auto image = image_of(scene, visibility, *mirror, rectangle.refractive_index, i);
    if (image) images.push_back(*image);
  }
  return images;
}

}  // namespace evenlit
