#include "evenlit/drawing/floor_sketch.hpp"

#include <catch2/catch.hpp>

#include "drawing/sample_distributions.hpp"
#include "drawing/sheet_checks.hpp"
#include "evenlit/base/light_units.hpp"

using namespace evenlit;

namespace {

constexpr double k_height_m = 2.4;
const Eigen::Vector2d k_centre(620, 666);
constexpr double k_side = 900;

FloorSketch metric(double height_m = k_height_m) { return {{"Title", "line"}, height_m, Units::metric}; }

// Metres to a unit of the sheet, from the field that is painted.
double metres_per_unit(const Drawing& drawing, double side_m) {
  const FalseColour picture = sample::all_of_kind<FalseColour>(drawing).at(0);
  CHECK(picture.field.spacing.x() * (picture.field.columns - 1) == Approx(k_side).epsilon(1e-12));
  return side_m / k_side;
}

// Width of the square in heights, from the light at its left edge's middle, where a cosine has I0 cos^4 / h^2.
double side_of_cosine_m(const Drawing& drawing, double straight_below_lx) {
  const SampledField field = sample::all_of_kind<FalseColour>(drawing).at(0).field;
  const double edge_lx = field.at(0, field.rows / 2);
  return 2 * k_height_m * std::sqrt(std::sqrt(straight_below_lx / edge_lx) - 1);
}

}  // namespace

TEST_CASE("the isolux rings of a cosine have the radius of the closed form", "[drawing][formula]") {
  const double below_lx = 100;
  const Drawing drawing = floor_sketch(sample::cosine(below_lx * k_height_m * k_height_m), metric());
  const double side_m = side_of_cosine_m(drawing, below_lx);
  // E = I0 cos^4 / h^2 is a twentieth at tan^2 = sqrt(20) - 1; found on rays in steps of h / 200, both sides
  CHECK(side_m == Approx(2 * k_height_m * std::sqrt(std::sqrt(20.0) - 1)).epsilon(0).margin(k_height_m / 100));

  std::vector<double> radii_m;  // of the lines, not of their rims
  for (const Stroke& stroke : sample::all_of_kind<Stroke>(drawing)) {
    if (stroke.width != 1.4 || stroke.points.size() < 40) continue;
    const double radius = (stroke.points[stroke.points.size() / 2] - k_centre).norm();
    for (const Eigen::Vector2d& p : stroke.points) {
      // linear interpolation over a cell of side / 320 = 2.8 units: 2.8^2 / 8 by the curvature over the slope of E,
      // less than 1 / 90 units here, and a half more for the diagonal; label gaps end within a chord
      CHECK((p - k_centre).norm() == Approx(radius).epsilon(0).margin(0.15));
    }
    radii_m.push_back(radius * metres_per_unit(drawing, side_m));
  }
  std::sort(radii_m.begin(), radii_m.end());
  radii_m.erase(std::unique(radii_m.begin(), radii_m.end(), [](double a, double b) { return b - a < 0.02; }),
                radii_m.end());
  REQUIRE(radii_m.size() >= 4);
  const std::vector<double> levels_lx{50, 20, 10, 5};
  for (std::size_t i = 0; i < levels_lx.size(); ++i) {
    const double radius_m = k_height_m * std::sqrt(std::sqrt(below_lx / levels_lx[i]) - 1);
    // 0.15 units of 0.01 m and the reading of the side
    CHECK(radii_m[i] == Approx(radius_m).epsilon(0).margin(0.005));
  }
}

TEST_CASE("the light straight below is intensity over the height squared", "[drawing][formula]") {
  const double foot = k_metres_per_foot;
  const IntensityDistribution beam = sample::cosine(1280);
  const Drawing imperial = floor_sketch(beam, {{}, 8 * foot, Units::imperial});
  CHECK(sample::says(imperial, "20.0 fc (215 lx)"));
  CHECK(sample::says(imperial, "straight below"));
  CHECK(sample::says(imperial, "8' 0\""));
  CHECK(sample::says(imperial, "feet from straight below"));
  const FalseColour picture = sample::all_of_kind<FalseColour>(imperial).at(0);
  const double centre_lx = picture.field.at(picture.field.columns / 2, picture.field.rows / 2);
  CHECK(centre_lx == Approx(20 * k_lux_per_footcandle).epsilon(1e-9));  // rounding of the middle's place
}

TEST_CASE("the square is between 1.5 and 6 heights wide", "[drawing][exact]") {
  // E is constant times cos^3, so its fall to the edge tells the width.
  const IntensityDistribution flat = sample::constant(90, 1000);
  const SampledField wide = sample::all_of_kind<FalseColour>(floor_sketch(flat, metric())).at(0).field;
  const double cos3 = wide.at(0, wide.rows / 2) / wide.at(wide.columns / 2, wide.rows / 2);
  // cos^3 is a twentieth at tan = 2.52, within 3; steps of 1/200 on both sides
  CHECK(2 * std::sqrt(std::pow(cos3, -2.0 / 3) - 1) ==
        Approx(2 * std::sqrt(std::pow(20, 2.0 / 3) - 1)).epsilon(0).margin(0.01));

  SyntheticBeam spot{600, 5};
  const Drawing narrow = floor_sketch(synthetic_beam(spot).value(), {{}, 1, Units::metric});
  CHECK(sample::says(narrow, "0.6"));  // of 0.75 m on either side
  CHECK_FALSE(sample::says(narrow, "0.8"));
}

TEST_CASE("light thrown to C 0 lies on the right of the sketch, to C 90 above", "[drawing][exact]") {
  const auto centroid = [](const IntensityDistribution& distribution) {
    const SampledField field = sample::all_of_kind<FalseColour>(floor_sketch(distribution, metric())).at(0).field;
    Eigen::Vector2d sum(0, 0);
    double weight = 0;
    for (int row = 0; row < field.rows; ++row) {
      for (int column = 0; column < field.columns; ++column) {
        sum += field.at(column, row) * (field.first + field.spacing.cwiseProduct(Eigen::Vector2d(column, row)));
        weight += field.at(column, row);
      }
    }
    return Eigen::Vector2d(sum / weight - k_centre);
  };
  const Eigen::Vector2d to_c90 = centroid(sample::thrown_to_c90());
  CHECK(to_c90.y() < -50);  // y runs down on the sheet
  CHECK(std::abs(to_c90.x()) < 1e-6);
  const Eigen::Vector2d to_c0 = centroid(turned(sample::thrown_to_c90(), 3));
  CHECK(to_c0.x() > 50);
  CHECK(std::abs(to_c0.y()) < 1e-6);
}

TEST_CASE("every floor sketch is legible and within its sheet", "[drawing][property]") {
  for (const auto& [name, distribution] : sample::distributions()) {
    INFO(name);
    for (const Units units : {Units::imperial, Units::metric}) {
      const DiagramText text{std::string(200, 'M'), std::string(300, 'W')};
      sample::check_sheet(floor_sketch(distribution, {text, 2.4, units}), 28);
    }
  }
}

TEST_CASE("a dark luminaire has a sketch without lines", "[drawing][exact]") {
  const Drawing drawing = floor_sketch(sample::constant(90, 0), metric());
  CHECK(sample::says(drawing, "0 lx (0 fc)"));
  CHECK(sample::says(drawing, "no light"));
}
