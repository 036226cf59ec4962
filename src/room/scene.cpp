#include "evenlit/room/scene.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <span>

#include "evenlit/base/degrees.hpp"
#include "evenlit/job/mounting.hpp"
#include "free_area.hpp"
#include "room_surfaces.hpp"

namespace evenlit {
namespace {

Eigen::Matrix3d turned_about_z(double degrees) {
  const double c = cosine_of_degrees(degrees);
  const double s = sine_of_degrees(degrees);
  return (Eigen::Matrix3d() << c, -s, 0, s, c, 0, 0, 0, 1).finished();
}

/// Carries straight down toward +x.
Eigen::Matrix3d tilted_toward_x(double degrees) {
  const double c = cosine_of_degrees(degrees);
  const double s = sine_of_degrees(degrees);
  return (Eigen::Matrix3d() << c, 0, -s, 0, 1, 0, s, 0, c).finished();
}

Opening opening_of(const CanType& type, const PhotometricFile& photometry) {
  if (!type.opening) return photometry.opening;
  const auto& [width_m, length_m] = *type.opening;
  if (length_m > 0) return {.shape = Opening::Shape::rectangle, .width_m = width_m, .length_m = length_m};
  return {.shape = Opening::Shape::disc, .width_m = width_m, .length_m = width_m};
}

Luminaire luminaire_of(const Job& job, const Ceiling& ceiling, const Can& can,
                       const std::vector<PhotometricFile>& photometry) {
  const auto found = std::ranges::find(job.can_types, can.type, &CanType::name);
  const auto index = static_cast<int>(found - job.can_types.begin());
  const auto [opening_m, tilt_deg, toward_deg] = mounting(job.room, ceiling, can).value();
  return {.position_m = opening_m,
          .room_from_luminaire = room_from_luminaire(tilt_deg, toward_deg, can.rotation_deg),
          .opening = opening_of(*found, photometry[index]),
          .distribution = index,
          .output = found->light_loss_factor * tilt_factor(photometry[index], tilt_deg),
          .level = can.level,
          .watts = found->watts ? found->watts : lamps_of(photometry[index]).watts};
}

std::vector<Box> boxes_of(const Job& job) {
  std::vector<Box> boxes;
  for (const Obstruction& obstruction : job.obstructions) {
    const double turn_deg = obstruction.turn_deg;
    boxes.push_back({.name = obstruction.name,
                     .centre_m = *plan_centre(job.room, obstruction),
                     .half_m = Eigen::Vector2d(obstruction.width_m, obstruction.depth_m) / 2,
                     .along = {cosine_of_degrees(turn_deg), sine_of_degrees(turn_deg)},
                     .bottom_m = obstruction.bottom_m,
                     .top_m = obstruction.top_m,
                     .reflectance = obstruction.reflectance,
                     .tint = tint_of(obstruction.colour)});
  }
  return boxes;
}

}  // namespace

Eigen::Matrix3d room_from_luminaire(double tilt_deg, double toward_deg, double rotation_deg) {
  return turned_about_z(toward_deg) * tilted_toward_x(tilt_deg) * turned_about_z(rotation_deg - toward_deg);
}

void place_boxes(Scene& scene, std::vector<Box> boxes) {
  for (Surface& surface : scene.surfaces) surface.free_m = free_area(surface.free_m, surface.normal, boxes);
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const Box& box = boxes[i];
    for (const BoxFace& face : faces_of(box)) {
      auto free_m = free_area(face, boxes, std::span(boxes).first(i), scene.plan_m, scene.ceiling);
      if (free_m.empty()) continue;
      scene.surfaces.push_back({.name = box.name,
                                .part = Part::box,
                                .corners_m = {face.corners_m.begin(), face.corners_m.end()},
                                .free_m = std::move(free_m),
                                .normal = face.normal,
                                .reflectance = box.reflectance,
                                .tint = box.tint});
    }
  }
  scene.boxes = std::move(boxes);
}

double mean_ceiling_m(const Scene& scene) {
  // Over a triangle of the plan a plane's mean height is that of the corners. Counted from the lowest point, so that a
  // level ceiling comes out exactly.
  const double lowest_m = scene.ceiling.lowest_m;
  double area_m2 = 0;
  double above_lowest_m3 = 0;
  for (const Surface& surface : scene.surfaces) {
    if (surface.part != Part::ceiling) continue;
    const Outline& c = surface.corners_m;
    for (std::size_t i = 1; i + 1 < c.size(); ++i) {
      const double triangle_m2 = -(c[i] - c[0]).cross(c[i + 1] - c[0]).z() / 2;
      area_m2 += triangle_m2;
      above_lowest_m3 += triangle_m2 * (c[0].z() + c[i].z() + c[i + 1].z() - 3 * lowest_m) / 3;
    }
  }
  return lowest_m + above_lowest_m3 / area_m2;
}

Scene build_scene(const Job& job, const std::vector<PhotometricFile>& photometry) {
  Scene scene{.plan_m = job.room.corners_m, .ceiling = ceiling_of(job.room)};
  scene.surfaces = room_surfaces(job, scene.ceiling);
  place_boxes(scene, boxes_of(job));
  for (const auto& file : photometry) scene.distributions.push_back(file.distribution);
  for (const auto& can : job.cans) scene.luminaires.push_back(luminaire_of(job, scene.ceiling, can, photometry));
  return scene;
}

}  // namespace evenlit
