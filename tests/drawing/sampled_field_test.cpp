#include "evenlit/drawing/sampled_field.hpp"

#include <catch2/catch.hpp>

#include "drawing/sample_light.hpp"

using namespace evenlit;

TEST_CASE("a field is bilinear between its points and constant beyond", "[drawing][exact]") {
  const SampledField field{{1, 1}, {2, 4}, 2, 2, {10, 20, 30, 60}};
  CHECK(value_at(field, {1, 1}) == 10);
  CHECK(value_at(field, {3, 5}) == 60);
  CHECK(value_at(field, {2, 1}) == 15);
  CHECK(value_at(field, {2, 3}) == 30);
  CHECK(value_at(field, {-7, 3}) == 20);
  CHECK(value_at(field, {99, 99}) == 60);
}

TEST_CASE("a field of one row or one point has no slope across", "[drawing][exact]") {
  CHECK(value_at({{0, 0}, {1, 1}, 1, 1, {7}}, {5, -5}) == 7);
  CHECK(value_at({{0, 0}, {1, 1}, 2, 1, {7, 9}}, {0.5, 3}) == 8);
}

TEST_CASE("cells without a point take their neighbours' values, ring by ring", "[drawing][exact]") {
  Grid grid;
  grid.first_m = {0, 0};
  grid.spacing_m = {1, 1};
  grid.columns = 3;
  grid.rows = 2;
  grid.point_of_cell = {0, -1, -1, 1, -1, -1};
  grid.points_m = {{0, 0}, {0, 1}};
  const SampledField field = sampled_field(grid, Eigen::Vector2d(4, 6));
  CHECK(field.values == std::vector<double>{4, 4, 4, 6, 6, 6});
}

TEST_CASE("a smoothed field keeps its points", "[drawing][exact]") {
  const sample::Lit lit = sample::l_shaped_room();
  const SampledField field = sampled_field(lit.light.grid, lit.light.field.total_lx);
  const int steps = 4;
  const SampledField fine = smoothed(field, steps);
  for (int row = 0; row < field.rows; ++row) {
    for (int column = 0; column < field.columns; ++column) {
      // values near 500 lx: rounding only
      CHECK(fine.at(column * steps + steps / 2, row * steps + steps / 2) == Approx(field.at(column, row)).margin(1e-9));
    }
  }
}

TEST_CASE("smoothing follows planes exactly, to half a spacing beyond the points", "[drawing][property]") {
  SampledField plane{{1, 2}, {0.5, 0.25}, 5, 4, {}};
  const auto height = [](double x, double y) { return 100 + 7 * x - 3 * y; };
  for (int row = 0; row < plane.rows; ++row) {
    for (int column = 0; column < plane.columns; ++column) {
      plane.values.push_back(height(1 + 0.5 * column, 2 + 0.25 * row));
    }
  }
  const SampledField fine = smoothed(plane, 2);
  CHECK(fine.columns == 11);
  CHECK(fine.rows == 9);
  for (int row = 0; row < fine.rows; ++row) {
    for (int column = 0; column < fine.columns; ++column) {
      const Eigen::Vector2d at = fine.first + fine.spacing.cwiseProduct(Eigen::Vector2d(column, row));
      CHECK(fine.at(column, row) == Approx(height(at.x(), at.y())).margin(1e-9));  // rounding
    }
  }
}

TEST_CASE("smoothing copes with a single row, two points and one, and never goes below darkness", "[drawing][exact]") {
  CHECK(smoothed({{0, 0}, {1, 1}, 1, 1, {7}}, 2).values == std::vector<double>(9, 7));
  CHECK(smoothed({{0, 0}, {1, 1}, 2, 1, {4, 8}}, 2).values ==
        std::vector<double>{2, 4, 6, 8, 10, 2, 4, 6, 8, 10, 2, 4, 6, 8, 10});
  CHECK(smoothed({{0, 0}, {1, 1}, 2, 1, {0, 8}}, 2).values[0] == 0);
}
