#include "evenlit/drawing/isolux.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

using namespace evenlit;

namespace {

SampledField sampled(int columns, int rows, double spacing, const std::function<double(double, double)>& f) {
  SampledField field{{0, 0}, {spacing, spacing}, columns, rows, {}};
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) field.values.push_back(f(column * spacing, row * spacing));
  }
  return field;
}

}  // namespace

TEST_CASE("the isolux line of a linear field is straight and in the right place", "[drawing][exact]") {
  const SampledField field = sampled(9, 6, 0.5, [](double x, double y) { return 3 * x + 4 * y; });
  const std::vector<Polyline> lines = contours(field, 11.1);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].size() > 8);
  // linear interpolation of a linear function: rounding only
  for (const Eigen::Vector2d& point : lines[0]) CHECK(3 * point.x() + 4 * point.y() == Approx(11.1).epsilon(1e-12));
  // greater values on the left: the line runs so that its left is towards +x, +y
  const Eigen::Vector2d along = lines[0].back() - lines[0].front();
  CHECK(along.x() * 4 - along.y() * 3 > 0);
  CHECK(lines[0].front().y() == Approx(2.5).epsilon(1e-12));
  CHECK(lines[0].back().y() == Approx(0).margin(1e-12));
}

TEST_CASE("the isolux line of a radial field is a closed circle", "[drawing][exact]") {
  const double h = 0.05;
  const SampledField field = sampled(81, 81, h, [](double x, double y) { return std::hypot(x - 2.013, y - 1.987); });
  const std::vector<Polyline> lines = contours(field, 1.4);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].front() == lines[0].back());
  for (const Eigen::Vector2d& point : lines[0]) {
    // Linear interpolation over h of a function whose second derivative is at most 1/r errs by h^2 / (8 r).
    CHECK(std::hypot(point.x() - 2.013, point.y() - 1.987) == Approx(1.4).margin(h * h / (8 * 1.4) * 1.01));
  }
}

TEST_CASE("a saddle is joined as the bilinear function has it", "[drawing][exact]") {
  // f = x y over [-1, 1]^2 ; its value at the saddle is 0.
  const SampledField field{{-1, -1}, {2, 2}, 2, 2, {1, -1, -1, 1}};
  for (const double value : {0.2, -0.2}) {
    const std::vector<Polyline> lines = contours(field, value);
    REQUIRE(lines.size() == 2);
    for (const Polyline& line : lines) {
      REQUIRE(line.size() == 2);
      // the branches of x y = 0.2 lie in the first and third quadrant, those of -0.2 in the second and fourth
      const Eigen::Vector2d middle = (line[0] + line[1]) / 2;
      CHECK(middle.x() * middle.y() * value > 0);
    }
  }
}

TEST_CASE("a level that no value crosses has no line", "[drawing][exact]") {
  const SampledField flat = sampled(5, 5, 1, [](double, double) { return 3.0; });
  CHECK(contours(flat, 3).empty());
  CHECK(contours(flat, 4).empty());
  CHECK(contours({{0, 0}, {1, 1}, 1, 1, {2}}, 1).empty());
}

TEST_CASE("lines are cut at the outline of the plan", "[drawing][exact]") {
  const Polygon l_shape{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 4}, {0, 4}};
  const std::vector<Polyline> pieces = clipped({{{-1, 0.5}, {2, 0.5}, {2, 2}, {0.5, 2}}}, l_shape);
  REQUIRE(pieces.size() == 2);
  CHECK(pieces[0] == Polyline{{0, 0.5}, {2, 0.5}, {2, 1}});
  CHECK(pieces[1] == Polyline{{1, 2}, {0.5, 2}});
  CHECK(clipped({{{5, 5}, {6, 6}}}, l_shape).empty());
}

TEST_CASE("levels are round and at most ten", "[drawing][exact]") {
  CHECK(round_levels(50) == std::vector<double>{5, 10, 15, 20, 25, 30, 35, 40, 45});
  CHECK(round_levels(10) == std::vector<double>{1, 2, 3, 4, 5, 6, 7, 8, 9});
  CHECK(round_levels(120) == std::vector<double>{20, 40, 60, 80, 100});
  CHECK(round_levels(600).front() == 100);
  for (double top = 0.01; top < 1e5; top *= 1.37) {
    const auto count = round_levels(top).size();
    CHECK(count >= 3);
    CHECK(count <= 10);
  }
}
