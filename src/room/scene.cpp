#include "evenlit/room/scene.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/base/degrees.hpp"
#include "free_area.hpp"

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

Eigen::Vector3d lifted(const Eigen::Vector2d& point, double z) { return {point.x(), point.y(), z}; }

Surface floor_of(const Job& job) {
  Surface floor{.name = "floor",
                .corners_m = {},
                .free_m = {},
                .normal = Eigen::Vector3d::UnitZ(),
                .reflectance = job.finishes.floor};
  for (const auto& corner : job.room.corners_m) floor.corners_m.push_back(lifted(corner, 0));
  return floor;
}

Surface ceiling_of(const Job& job) {
  Surface ceiling{.name = "ceiling",
                  .corners_m = {},
                  .free_m = {},
                  .normal = -Eigen::Vector3d::UnitZ(),
                  .reflectance = job.finishes.ceiling};
  std::for_each(job.room.corners_m.rbegin(), job.room.corners_m.rend(), [&](const Eigen::Vector2d& corner) {
    ceiling.corners_m.push_back(lifted(corner, job.room.ceiling_m));
  });
  return ceiling;
}

Surface wall_of(const Job& job, int index) {
  const auto& corners = job.room.corners_m;
  const Eigen::Vector2d& start = corners[index];
  const Eigen::Vector2d& end = corners[(index + 1) % corners.size()];
  const Eigen::Vector2d along = (end - start).normalized();
  const double height = job.room.ceiling_m;
  return {.name = job.room.wall_names[index],
          .corners_m = {lifted(end, 0), lifted(start, 0), lifted(start, height), lifted(end, height)},
          .free_m = {},
          .normal = {-along.y(), along.x(), 0},
          .reflectance = wall_reflectance(job, index)};
}

Opening opening_of(const CanType& type, const PhotometricFile& photometry) {
  if (!type.opening) return photometry.opening;
  const auto& size = *type.opening;
  const auto shape = size.length_m > 0 ? Opening::Shape::rectangle : Opening::Shape::disc;
  return {.shape = shape, .width_m = size.width_m, .length_m = size.length_m, .height_m = 0};
}

Luminaire luminaire_of(const Job& job, const Can& can, const std::vector<PhotometricFile>& photometry) {
  const auto found = std::ranges::find(job.can_types, can.type, &CanType::name);
  const auto index = static_cast<int>(found - job.can_types.begin());
  return {.position_m = lifted(*plan_position(job.room, can), job.room.ceiling_m),
          .room_from_luminaire = room_from_luminaire(can.tilt_deg, can.toward_deg, can.rotation_deg),
          .opening = opening_of(*found, photometry[index]),
          .distribution = index,
          .output = found->light_loss_factor * tilt_factor(photometry[index], can.tilt_deg),
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
                     .reflectance = obstruction.reflectance});
  }
  return boxes;
}

}  // namespace

Eigen::Matrix3d room_from_luminaire(double tilt_deg, double toward_deg, double rotation_deg) {
  return turned_about_z(toward_deg) * tilted_toward_x(tilt_deg) * turned_about_z(rotation_deg - toward_deg);
}

void place_boxes(Scene& scene, std::vector<Box> boxes) {
  for (Surface& surface : scene.surfaces) surface.free_m = free_area(surface.corners_m, surface.normal, boxes);
  for (const Box& box : boxes) {
    for (const BoxFace& face : faces_of(box)) {
      auto free_m = free_area(face, boxes, scene.plan_m, scene.ceiling_m);
      if (free_m.empty()) continue;
      scene.surfaces.push_back({.name = box.name,
                                .corners_m = {face.corners_m.begin(), face.corners_m.end()},
                                .free_m = std::move(free_m),
                                .normal = face.normal,
                                .reflectance = box.reflectance});
    }
  }
  scene.boxes = std::move(boxes);
}

Scene build_scene(const Job& job, const std::vector<PhotometricFile>& photometry) {
  Scene scene{.plan_m = job.room.corners_m,
              .ceiling_m = job.room.ceiling_m,
              .surfaces = {floor_of(job), ceiling_of(job)},
              .distributions = {},
              .luminaires = {}};
  for (int wall = 0; wall < static_cast<int>(job.room.corners_m.size()); ++wall) {
    scene.surfaces.push_back(wall_of(job, wall));
  }
  place_boxes(scene, boxes_of(job));
  for (const auto& file : photometry) scene.distributions.push_back(file.distribution);
  for (const auto& can : job.cans) scene.luminaires.push_back(luminaire_of(job, can, photometry));
  return scene;
}

}  // namespace evenlit
