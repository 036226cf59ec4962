#include "evenlit/room/wall_grid.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/job/walls.hpp"
#include "evenlit/room/first_hit.hpp"

using namespace evenlit;

namespace {

/// A job over a plan with a cabinet against its first wall, low and in its middle.
Job job_over(Polygon plan_m, double turn_deg) {
  const double turn = turn_deg * std::numbers::pi / 180;
  const Eigen::Rotation2Dd turned(turn);
  Job job;
  for (std::size_t i = 0; i < plan_m.size(); ++i) job.room.wall_names.push_back("wall " + std::to_string(i + 1));
  for (Eigen::Vector2d& corner : plan_m) job.room.corners_m.emplace_back(turned * corner);
  job.room.ceiling_m = 2.5;
  Obstruction cabinet;
  cabinet.name = "cabinet";
  cabinet.from[0] = {"wall 1", 0};
  cabinet.from[1] = {job.room.wall_names.back(), 1};
  cabinet.width_m = 1.5;
  cabinet.depth_m = 0.6;
  cabinet.top_m = 0.9;
  if (turn_deg == 0) job.obstructions = {cabinet};
  return job;
}

const Polygon k_rectangle{{0, 0}, {5, 0}, {5, 4}, {0, 4}};
const Polygon k_l_shape{{0, 0}, {5, 0}, {5, 2}, {3, 2}, {3, 4}, {0, 4}};

double free_m2(const Scene& scene, const std::string& name) {
  double area = 0;
  for (const Surface& surface : scene.surfaces) {
    if (surface.name != name) continue;
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (const Outline& outline : surface.free_m) sum += vector_area(outline);
    area += sum.norm();
  }
  return area;
}

bool is_on_wall(const Scene& scene, const Receiver& receiver) {
  return std::ranges::any_of(scene.surfaces, [&](const Surface& surface) {
    return surface.part == Part::wall && surface.normal.dot(receiver.normal) > 1 - 1e-9 &&
           std::abs(surface.normal.dot(receiver.position_m - surface.corners_m.front())) < 1e-9 &&
           is_on_free_part(surface, receiver.position_m);
  });
}

}  // namespace

// A cell whose middle is free counts as a whole, so that along each edge of the free part up to half a cell is counted
// too much or too little.
TEST_CASE("the points of walls cover what is free of them and nothing else", "[room][property]") {
  const bool is_sloped = GENERATE(false, true);
  const double turn_deg = GENERATE(0.0, 25.0);
  for (const Polygon& plan_m : {k_rectangle, k_l_shape}) {
    Job job = job_over(plan_m, turn_deg);
    if (is_sloped) job.room.slopes = {{"wall 1", 1.2, 0.5}};
    const Scene scene = build_scene(job, {});
    const std::vector<WallGrid> grids = wall_grids(job, scene);
    REQUIRE(grids.size() == plan_m.size());
    for (const WallGrid& grid : grids) {
      const Lattice& lattice = grid.lattice;
      const double counted_m2 = static_cast<double>(lattice.points_m.size()) * lattice.spacing_m.prod();
      double edges_m = perimeter(grid.outline_m);
      for (const WallPart& part : grid.covered) edges_m += perimeter(part.outline_m);
      const double wanted_m2 = free_m2(scene, job.room.wall_names[grid.wall]);
      CHECK(std::abs(counted_m2 - wanted_m2) <= edges_m * lattice.spacing_m.maxCoeff() / 2);
      CHECK(lattice.spacing_m.maxCoeff() <= k_wall_spacing_m + 1e-9);
      CHECK(lattice.columns % k_wall_block == 0);
      CHECK(lattice.rows % k_wall_block == 0);
      const auto receivers = receivers_on(job.room, grid.wall, lattice.points_m);
      CHECK(std::ranges::all_of(receivers, [&](const Receiver& one) { return is_on_wall(scene, one); }));
    }
  }
}

TEST_CASE("walls follow one another as one turns round to the right", "[room][exact]") {
  const Job job = job_over(k_l_shape, 0);
  const std::vector<WallGrid> grids = wall_grids(job, build_scene(job, {}));
  CHECK(grids.front().wall == 0);
  for (std::size_t i = 0; i < grids.size(); ++i) {
    const WallGrid& grid = grids[i];
    const WallGrid& next = grids[(i + 1) % grids.size()];
    const Eigen::Vector3d right = on_wall(job.room, grid.wall, {wall_length_m(job.room, grid.wall), 0});
    CHECK((right - on_wall(job.room, next.wall, {0, 0})).norm() < 1e-12);
  }
}

TEST_CASE("what stands against a wall covers it, named; what stands free does not", "[room][exact]") {
  Job job = job_over(k_rectangle, 0);
  job.obstructions.push_back(job.obstructions.front());
  job.obstructions.back().name = "island";
  job.obstructions.back().from[0].distance_m = 1.5;
  const std::vector<WallGrid> grids = wall_grids(job, build_scene(job, {}));
  REQUIRE(grids[0].covered.size() == 1);
  CHECK(grids[0].covered[0].name == "cabinet");
  // Seen from inside, the last wall is at the right: 1 m from there, 1.5 m wide. Plane areas are rounded to some 1e-9
  // of their size, and what stands on a wall is cut 0.01 mm before it.
  const Eigen::AlignedBox2d box = bounds_of(grids[0].covered[0].outline_m);
  CHECK((box.min() - Eigen::Vector2d(2.5, 0)).norm() < 1e-6);
  CHECK((box.max() - Eigen::Vector2d(4, 0.9)).norm() < 1e-6);
  for (std::size_t i = 1; i < grids.size(); ++i) CHECK(grids[i].covered.empty());
}

TEST_CASE("before a wall are the cans nearest to it, not those behind them or behind another wall", "[room][exact]") {
  const Job job = job_over(k_l_shape, 0);
  Scene scene = build_scene(job, {});
  for (const auto& [x, y] : {std::pair{1.0, 1.0}, {1.0, 3.0}, {4.0, 1.0}, {2.0, 3.0}}) {
    Luminaire luminaire;
    luminaire.position_m = {x, y, 2.5};
    scene.luminaires.push_back(luminaire);
  }
  const std::vector<WallGrid> grids = wall_grids(job, scene);
  const auto numbers_before = [&](int wall) {
    const auto grid = std::ranges::find(grids, wall, &WallGrid::wall);
    std::vector<int> numbers;
    for (const LuminaireBefore& one : grid->luminaires) numbers.push_back(one.luminaire);
    return numbers;
  };
  CHECK(numbers_before(0) == std::vector{2, 3, 0});  // from left to right as seen from inside
  CHECK(numbers_before(1) == std::vector{2});        // the others in the line of 0 are behind 2
  CHECK(numbers_before(2) == std::vector{2});        // of the north leg's cans none is before the notch
  CHECK(numbers_before(3) == std::vector{3});
  CHECK(numbers_before(4) == std::vector{1, 3});
}
