#include "evenlit/room/grid.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

namespace {

Shape rectangle(double x_m, double y_m) {
  return {.name = "",
          .corners_m = {{0, 0}, {x_m, 0}, {x_m, y_m}, {0, y_m}},
          .wall_names = {"south", "east", "north", "west"},
          .ceiling_m = 2.4};
}

const Place k_place{.file = "job.toml", .line = 7, .column = 3, .width = 4};

}  // namespace

// EN 12464-1:2011, 4.4: p = 0.2 x 5^(log10 d), equation from memory; values evaluated to six digits.
TEST_CASE("recommended grid spacing", "[room][formula]") {
  CHECK(recommended_spacing_m(2) == Approx(0.324669).epsilon(2e-6));
  CHECK(recommended_spacing_m(3.6576) == Approx(0.495094).epsilon(2e-6));
  CHECK(recommended_spacing_m(5) == Approx(0.616012).epsilon(2e-6));
  CHECK(recommended_spacing_m(10) == Approx(1.0).epsilon(1e-12));
}

TEST_CASE("cells divide the room evenly and are no larger than asked for", "[room][exact]") {
  const auto grid = work_plane_grid(rectangle(5, 4), {.height_m = 0.8, .spacing_m = 0.3, .margin_m = 0}, k_place);
  REQUIRE(grid);
  CHECK(grid->columns == 17);
  CHECK(grid->rows == 14);
  CHECK(grid->spacing_m.x() == Approx(5.0 / 17));
  CHECK(grid->first_m.x() == Approx(5.0 / 34));
  CHECK(grid->points_m.size() == 17 * 14);
  CHECK(grid->points_m.back().x() == Approx(5 - 5.0 / 34));
  CHECK(grid->height_m == 0.8);
}

TEST_CASE("a spacing that fits is kept", "[room][exact]") {
  const auto grid = work_plane_grid(rectangle(0.3 * 7, 0.3 * 3), {.height_m = 0.8, .spacing_m = 0.3}, k_place);
  REQUIRE(grid);
  CHECK(grid->columns == 7);
  CHECK(grid->rows == 3);
}

TEST_CASE("points outside the plan or inside the margin are left out", "[room][exact]") {
  Shape l_shape = rectangle(4, 4);
  l_shape.corners_m = {{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 4}, {0, 4}};
  const auto whole = work_plane_grid(l_shape, {.height_m = 0.8, .spacing_m = 1.0, .margin_m = 0}, k_place);
  REQUIRE(whole);
  CHECK(whole->points_m.size() == 12);
  CHECK(whole->point_of_cell[3 * 4 + 3] == -1);
  CHECK(whole->point_of_cell[3 * 4 + 1] == 11);

  const auto inner = work_plane_grid(rectangle(4, 4), {.height_m = 0.8, .spacing_m = 1.0, .margin_m = 0.6}, k_place);
  REQUIRE(inner);
  CHECK(inner->points_m.size() == 4);
}

TEST_CASE("a grid without points and a grid of absurd size are refused", "[room]") {
  const auto none = work_plane_grid(rectangle(1, 1), {.height_m = 0.8, .spacing_m = 0.5, .margin_m = 0.6}, k_place);
  REQUIRE_FALSE(none);
  CHECK(none.error() == Problems{{k_place, "no grid point is left inside the work plane's margin",
                                  "choose a smaller margin or a closer spacing"}});

  const auto absurd = work_plane_grid(rectangle(100, 100), {.height_m = 0.8, .spacing_m = 1e-6}, k_place);
  REQUIRE_FALSE(absurd);
  CHECK(absurd.error() == Problems{{k_place, "a grid of 100000000 x 100000000 points is more than 50000",
                                    "choose a wider spacing of the work plane's grid"}});
}

TEST_CASE("points inside of boxes do not count, points on top of them do", "[room][exact]") {
  const Shape room = rectangle(4, 4);
  const WorkPlane plane{.height_m = 0.9, .spacing_m = 0.5};
  Box box{.name = "box", .centre_m = {1, 1}, .half_m = {1, 1}, .bottom_m = 0.3, .top_m = 2, .reflectance = 0.5};
  const auto points = [&] { return work_plane_grid(room, plane, {}, {box}).value().points_m.size(); };
  CHECK(points() == 64 - 16);
  box.top_m = 0.9;
  CHECK(points() == 64);
  box.bottom_m = 0.9;
  box.top_m = 1.2;
  CHECK(points() == 64);
}

TEST_CASE("points that a slope leaves no height for do not count", "[room][exact]") {
  Shape attic = rectangle(4, 4);
  attic.slopes = {{"west", 0.5, 1}};  // up to the work plane at x = 0.4 m
  const WorkPlane plane{.height_m = 0.9, .spacing_m = 0.5};
  const auto grid = work_plane_grid(attic, plane, k_place);
  REQUIRE(grid);
  CHECK(grid->points_m.size() == 64 - 8);
  CHECK(grid->point_of_cell[0] == -1);
  CHECK(grid->point_of_cell[1] == 0);
  attic.slopes[0].height_m = 0.65;  // points at x = 0.25 m are on the ceiling
  CHECK(work_plane_grid(attic, plane, k_place)->points_m.size() == 64 - 8);
}

TEST_CASE("a grid all of whose points are above the ceiling is refused", "[room]") {
  Shape attic = rectangle(4, 4);
  attic.slopes = {{"west", 0.1, 0.1}};
  const auto grid = work_plane_grid(attic, {.height_m = 0.49, .spacing_m = 4.0}, k_place);
  REQUIRE_FALSE(grid);
  CHECK(grid.error() == Problems{{k_place, "no grid point is left inside the work plane's margin and below the ceiling",
                                  "choose a smaller margin or a closer spacing"}});
}
