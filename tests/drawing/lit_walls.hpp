#pragma once

#include <Eigen/Geometry>
#include <numbers>
#include <string>
#include <vector>

#include "evenlit/field/section_light.hpp"
#include "evenlit/field/wall_light.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit::sample {

// Invented rooms with light that the engine computes.

struct LitWalls {
  Job job;
  Scene scene;

  [[nodiscard]] std::vector<WallLight> walls() const { return wall_light(job.room, scene, wall_grids(job, scene)); }
  [[nodiscard]] SectionLight section(int through) const {
    return section_light(scene, cross_section(scene, job.work_plane, through));
  }
};

/// @param cans_m on the plan, before it is turned; measured from walls 1 and 2, which must be square to each other
inline LitWalls lit_walls(const std::string& name, const Polygon& plan_m, const std::vector<Eigen::Vector2d>& cans_m,
                          double turn_deg = 0, const std::vector<Slope>& slopes = {}) {
  const Eigen::Rotation2Dd turned(turn_deg * std::numbers::pi / 180);
  LitWalls made;
  Job& job = made.job;
  job.room.name = name;
  for (const Eigen::Vector2d& corner : plan_m) {
    job.room.wall_names.push_back("wall " + std::to_string(job.room.corners_m.size() + 1));
    job.room.corners_m.emplace_back(turned * corner);
  }
  job.room.ceiling_m = 2.5;
  job.room.slopes = slopes;
  job.target_lx = 200;
  CanType type;
  type.name = "downlight";
  type.beam = SyntheticBeam{900, 60};
  type.hole_m = 0.16;
  job.can_types = {type};
  for (const Eigen::Vector2d& can_m : cans_m) {
    Can can;
    can.type = type.name;
    can.from[0] = {"wall 1", can_m.y()};
    can.from[1] = {"wall 2", plan_m[1].x() - can_m.x()};
    job.cans.push_back(can);
  }
  PhotometricFile file;
  file.distribution = synthetic_beam(*type.beam).value();
  file.opening = {Opening::Shape::disc, 0.13, 0, 0};
  made.scene = build_scene(job, {file});
  return made;
}

inline LitWalls furnished_room() {
  LitWalls made = lit_walls("Studio", {{0, 0}, {5, 0}, {5, 4}, {0, 4}}, {{1, 1}, {4, 1}, {1, 3}, {4, 3}, {2.5, 2}});
  Obstruction wardrobe;
  wardrobe.name = "wardrobe";
  wardrobe.from[0] = {"wall 1", 0};
  wardrobe.from[1] = {"wall 4", 1.5};
  wardrobe.width_m = 1.8;
  wardrobe.depth_m = 0.6;
  wardrobe.top_m = 2.1;
  made.job.obstructions = {wardrobe};
  WallArea door;
  door.name = "door";
  door.wall = "wall 2";
  door.from = {"wall 1", 1};
  door.width_m = 0.9;
  door.top_m = 2;
  made.job.wall_areas = {door};
  PhotometricFile file;
  file.distribution = made.scene.distributions.front();
  file.opening = {Opening::Shape::disc, 0.13, 0, 0};
  made.scene = build_scene(made.job, {file});
  return made;
}

inline std::vector<LitWalls> rooms_of_walls() {
  const Polygon rectangle{{0, 0}, {5, 0}, {5, 4}, {0, 4}};
  const Polygon l_shape{{0, 0}, {5, 0}, {5, 2}, {3, 2}, {3, 4}, {0, 4}};
  const std::vector<Eigen::Vector2d> four{{1, 1}, {4, 1}, {1, 3}, {2, 3}};
  std::vector<LitWalls> rooms{furnished_room(),
                              lit_walls("Turned", rectangle, four, 25),
                              lit_walls("L", l_shape, four, 0),
                              lit_walls("Turned L", l_shape, four, 25),
                              lit_walls("Loft", rectangle, four, 0, {{"wall 1", 1.2, 0.7}, {"wall 3", 1.5, 1}}),
                              lit_walls("Closet", {{0, 0}, {0.9, 0}, {0.9, 1.2}, {0, 1.2}}, {{0.45, 0.6}}),
                              lit_walls("Corridor", {{0, 0}, {14, 0}, {14, 1.1}, {0, 1.1}},
                                        {{1, 0.5}, {1.2, 0.6}, {3, 0.5}, {7, 0.5}, {13, 0.5}})};
  rooms[2].job.units = Units::metric;
  rooms[6].job.room.wall_names[0] = std::string(80, 'W');
  return rooms;
}

}  // namespace evenlit::sample
