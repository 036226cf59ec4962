#include "cases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>

#include "evenlit/photometry/synthetic.hpp"
#include "evenlit/room/grid.hpp"
#include "field/rooms.hpp"
#include "load_job.hpp"

namespace evenlit::bench {
namespace {

using Places = std::vector<Eigen::Vector2d>;

constexpr double k_work_plane_m = 0.8;
constexpr double k_ceiling_m = 2.5;
const Polygon k_l{{0, 0}, {5.4, 0}, {5.4, 2.8}, {3.0, 2.8}, {3.0, 4.8}, {0, 4.8}};

Polygon rectangle(double x_m, double y_m) { return {{0, 0}, {x_m, 0}, {x_m, y_m}, {0, y_m}}; }

IntensityDistribution beam(double angle_deg) { return *synthetic_beam({.lumens = 600, .beam_angle_deg = angle_deg}); }

/// Luminaires of one distribution in the ceiling, each a disc of 0.12 m.
void hang(Scene& scene, const IntensityDistribution& distribution, const Places& places) {
  scene.distributions = {distribution};
  scene.luminaires.clear();
  for (const auto& place : places) {
    scene.luminaires.push_back(
        {.position_m = {place.x(), place.y(), scene.ceiling.highest_m},
         .room_from_luminaire = room_from_luminaire(0, 0, 0),
         .opening = {.shape = Opening::Shape::disc, .width_m = 0.12, .length_m = 0.12, .height_m = 0}});
  }
}

bool is_free(const Scene& scene, const Eigen::Vector2d& place, double height_m) {
  const Eigen::Vector3d point(place.x(), place.y(), height_m);
  return is_inside(scene.plan_m, place) &&
         std::ranges::none_of(scene.boxes, [&](const Box& box) { return is_inside(box, point); });
}

/// The middles of equal cells of the plan's bounding rectangle that are free at a height.
Places raster(const Scene& scene, int columns, int rows, double height_m) {
  Eigen::Vector2d size = Eigen::Vector2d::Zero();
  for (const auto& corner : scene.plan_m) size = size.cwiseMax(corner);
  Places places;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const Eigen::Vector2d place((column + 0.5) * size.x() / columns, (row + 0.5) * size.y() / rows);
      if (is_free(scene, place, height_m)) places.push_back(place);
    }
  }
  return places;
}

void receive(Case& room, int columns, int rows) {
  room.receivers.clear();
  for (const auto& place : raster(room.scene, columns, rows, k_work_plane_m)) {
    room.receivers.push_back({{place.x(), place.y(), k_work_plane_m}, Eigen::Vector3d::UnitZ()});
  }
}

/// A box over a rectangle of the plan, then turned about its centre.
Box box(const Eigen::Vector2d& low, const Eigen::Vector2d& high, double bottom_m, double top_m, double reflectance,
        double turn_deg = 0) {
  const double turn = turn_deg * std::numbers::pi / 180;
  return {.name = "box",
          .centre_m = (low + high) / 2,
          .half_m = (high - low) / 2,
          .along = {std::cos(turn), std::sin(turn)},
          .bottom_m = bottom_m,
          .top_m = top_m,
          .reflectance = reflectance};
}

Case l_with(const std::string& name, std::vector<Box> boxes) {
  Case room{name, testing::room_over(k_l, k_ceiling_m), {}};
  place_boxes(room.scene, std::move(boxes));
  hang(room.scene, beam(65),
       {{0.8, 0.8}, {2.2, 0.8}, {3.6, 0.8}, {4.7, 0.8}, {0.8, 2.3}, {2.3, 2.3}, {0.8, 3.9}, {2.3, 3.9}});
  receive(room, 18, 16);
  return room;
}

/// A bed or table turned a little, a tall cabinet in a corner, a chest beside it, a shelf on a wall.
Case furnished_room(int which) {
  const double x_m = 3.2 + 0.25 * (which % 5);
  const double y_m = 3.0 + 0.3 * (which % 4);
  Case room{fmt::format("room {}", which + 1), testing::room_over(rectangle(x_m, y_m), k_ceiling_m), {}};
  place_boxes(room.scene, {box({0.3 * x_m, 0.35 * y_m}, {0.65 * x_m, 0.7 * y_m}, 0, 0.45, 0.4, 7.0 * which),
                           box({x_m - 0.6, y_m - 1.1}, {x_m, y_m}, 0, 2.1, 0.4),
                           box({x_m - 1.5, y_m - 0.45}, {x_m - 0.6, y_m}, 0, 0.9, 0.6),
                           box({0, 0.2 * y_m}, {0.25, 0.6 * y_m}, 1.3, 1.6, 0.5)});
  hang(room.scene, beam(50 + 3 * which), raster(room.scene, 2 + which % 2, 2, k_ceiling_m));
  respace(room, 0.25);
  return room;
}

[[noreturn]] void give_up(const InputFiles& files, const Problems& problems) {
  std::fputs(files.text_of(problems).c_str(), stderr);
  std::exit(1);
}

}  // namespace

Case empty_room() {
  Case room{"empty", testing::room_over(rectangle(4.2, 3.6), k_ceiling_m), {}};
  hang(room.scene, beam(65), raster(room.scene, 3, 2, k_ceiling_m));
  receive(room, 14, 12);
  return room;
}

Case l_shape() { return l_with("L", {}); }

Case furnished_l() {
  return l_with("L, furnished", {box({0.6, 0.1}, {2.6, 1.0}, 0, 0.75, 0.3),              // sofa
                                 box({1.2, 1.5}, {2.3, 2.1}, 0, 0.42, 0.4, 24),          // low table, turned
                                 box({0, 2.6}, {0.35, 4.0}, 0, 1.8, 0.4),                // shelf on the wall
                                 box({3.6, 1.1}, {5.0, 1.9}, 0, 0.91, 0.5),              // island
                                 box({2.4, 4.2}, {3.0, 4.8}, 0, 2.1, 0.6),               // tall cabinet in a corner
                                 box({2.4, 4.15}, {3.0, 4.8}, 2.1, k_ceiling_m, 0.8)});  // soffit over it
}

Case narrow_beams() {
  Case room{"narrow beams", testing::room_over(rectangle(4.4, 3.7), k_ceiling_m), {}};
  hang(room.scene, beam(20), raster(room.scene, 3, 2, k_ceiling_m));
  receive(room, 15, 12);
  return room;
}

std::vector<Case> house(int rooms) {
  std::vector<Case> result;
  for (int which = 0; which < rooms; ++which) result.push_back(furnished_room(which));
  return result;
}

Case cluttered_room(int boxes) {
  Case room{fmt::format("{} boxes", boxes), testing::room_over(rectangle(6, 4), k_ceiling_m), {}};
  hang(room.scene, beam(65), raster(room.scene, 3, 2, k_ceiling_m));
  Places places = raster(room.scene, 8, 4, k_work_plane_m);
  std::vector<Box> standing;
  for (int i = 0; i < boxes; ++i) {
    const Eigen::Vector2d& at = places[i * 13 % places.size()];
    const Eigen::Vector2d half(0.25, 0.2);
    standing.push_back(box(at - half, at + half, 0, 0.5 + 0.3 * (i % 4), 0.5, 11.0 * i));
  }
  place_boxes(room.scene, std::move(standing));
  respace(room, 0.3);
  return room;
}

std::string demo_job_path() { return EVENLIT_SOURCE_DIR "/scenes/family-room.toml"; }

Case demo_job() {
  InputFiles files;
  const auto loaded = load_job(demo_job_path(), files);
  if (!loaded) give_up(files, loaded.error());
  Case room{"demo job", build_scene(loaded->job, loaded->photometry), {}};
  const auto grid =
      work_plane_grid(loaded->job.room, loaded->job.work_plane, whole_file(demo_job_path()), room.scene.boxes);
  if (!grid) give_up(files, grid.error());
  for (const auto& point : grid->points_m) {
    room.receivers.push_back({{point.x(), point.y(), grid->height_m}, Eigen::Vector3d::UnitZ()});
  }
  return room;
}

void rehang(Case& room, int count) {
  Places places;
  for (int side = 1; static_cast<int>(places.size()) < count; ++side) {
    places = raster(room.scene, side, side, room.scene.ceiling.highest_m - 1e-3);
  }
  places.resize(count);
  hang(room.scene, beam(65), places);
}

void respace(Case& room, double spacing_m) {
  Eigen::Vector2d size = Eigen::Vector2d::Zero();
  for (const auto& corner : room.scene.plan_m) size = size.cwiseMax(corner);
  const Eigen::Vector2d cells = (size / spacing_m).array().ceil();
  receive(room, static_cast<int>(cells.x()), static_cast<int>(cells.y()));
}

}  // namespace evenlit::bench
