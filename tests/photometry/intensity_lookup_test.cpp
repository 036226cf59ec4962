#include "evenlit/photometry/intensity_lookup.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "direction_angles.hpp"
#include "evenlit/photometry/synthetic.hpp"

using namespace evenlit;

namespace {

IntensityDistribution table_of(std::vector<double> gamma_deg, std::vector<double> c_deg) {
  IntensityDistribution table{std::move(gamma_deg), std::move(c_deg), {}};
  table.candela.resize(std::ssize(table.gamma_deg), std::ssize(table.c_deg));
  for (int j = 0; j < table.candela.cols(); ++j) {
    for (int i = 0; i < table.candela.rows(); ++i) {
      const double around = (table.c_deg.size() > 1 && table.c_deg[j] == 360) ? 0 : j % 4;
      table.candela(i, j) = 900 - 500.0 * i / table.candela.rows() + (table.gamma_deg[i] > 0 ? 7 * around : 0);
    }
  }
  return table;
}

Directions random_directions(int count) {
  std::mt19937 random(20260101);
  std::normal_distribution<double> normal;
  Directions directions;
  directions.resize(count);
  for (int i = 0; i < count; ++i) directions.set(i, {normal(random), normal(random), normal(random)});
  return directions;
}

/// What the lookup gives for rays of 1 m that meet their facets squarely.
std::vector<float> intensities(const IntensityLookup& lookup, const Directions& directions) {
  Directions rays_m = directions;
  for (std::size_t i = 0; i < directions.x.size(); ++i) {
    rays_m.set(i, Eigen::Vector3d(directions.x[i], directions.y[i], directions.z[i]).normalized());
  }
  std::vector<float> candela(directions.x.size());
  lookup.illuminances(rays_m, std::vector<float>(candela.size(), 1.0F).data(), candela.size(), candela.data());
  return candela;
}

/// The largest distance between the lookup and the distribution over many directions, as a fraction of the peak.
double worst_difference(const IntensityDistribution& table) {
  constexpr int k_count = 20000;
  const Directions directions = random_directions(k_count);
  const Eigen::Matrix3d luminaire_from_table = table_from_luminaire(table.axis).transpose();
  const std::vector<float> candela = intensities(IntensityLookup(table), directions);
  double worst = 0;
  for (int i = 0; i < k_count; ++i) {
    const Eigen::Vector3d direction(directions.x[i], directions.y[i], directions.z[i]);
    worst = std::max(worst, std::abs(candela[i] - intensity_toward(table, luminaire_from_table * direction)));
  }
  return worst / table.candela.maxCoeff();
}

}  // namespace

TEST_CASE("angles of directions are those of the arc tangent", "[photometry][formula]") {
  constexpr int k_count = 20000;
  const Directions d = random_directions(k_count);
  for (int i = 0; i < k_count; ++i) {
    const float x = d.x[i];
    const float y = std::abs(d.y[i]);
    const auto [axis_deg, beside_deg] = upper_angle(x, y, smaller(std::abs(x), y) / larger(std::abs(x), y));
    const double angle_deg = std::atan2(y, static_cast<double>(x)) * 180 / std::numbers::pi;
    CHECK(std::abs(beside_deg) <= 45.00001);
    // The declared bound: the polynomial's 2.2e-6 degrees, and 6e-8 of 45 degrees for the quotient and for the result.
    CHECK(static_cast<double>(axis_deg) + beside_deg == Approx(angle_deg).margin(1e-5).epsilon(0));
  }
}

TEST_CASE("the lookup is exact for tables on a lattice of angles", "[photometry][property]") {
  // Slopes here are below 2 % of the peak a degree, angles single precision.
  const auto knots = GENERATE(std::vector<double>{0, 5, 10, 30, 90}, std::vector<double>{0, 2.5, 7.5, 90, 180},
                              std::vector<double>{90, 91, 180}, std::vector<double>{0, 0.1, 60.3, 135});
  const IntensityDistribution one_plane = table_of(knots, {0});
  CHECK(IntensityLookup(one_plane).deviation() < 1e-6);
  CHECK(worst_difference(one_plane) < 1e-5);
  const IntensityDistribution planes = table_of(knots, {0, 10, 11, 200, 360});
  CHECK(IntensityLookup(planes).deviation() < 1e-6);
  CHECK(worst_difference(planes) < 1e-5);
}

TEST_CASE("the lookup keeps to types A and B and to the range that they cover", "[photometry][property]") {
  IntensityDistribution table = table_of({0, 30, 90, 150, 180}, {-90, -45, 0, 45, 90});
  CHECK(worst_difference(table) < 1e-4);
  table.axis = IntensityDistribution::Axis::along_c0;
  CHECK(worst_difference(table) < 1e-4);
  CHECK(worst_difference(turned(table, 1)) < 1e-4);
  CHECK(worst_difference(turned(table, 2)) < 1e-4);
}

TEST_CASE("angles off every lattice cost no more than the deviation that is told", "[photometry][property]") {
  const auto beam = synthetic_beam({.lumens = 700, .beam_angle_deg = 57.29577951, .field_angle_deg = 93.1}).value();
  const IntensityLookup lookup(beam);
  CHECK(lookup.deviation() > 0);
  CHECK(lookup.deviation() <= IntensityLookup::k_most_deviation);
  CHECK(worst_difference(beam) <= lookup.deviation() + 1e-6);
  const IntensityDistribution planes =
      table_of({0, 1.0 / 3, 17.77777777, 60, 90}, {0, 10.11111111, 101.01010101, 300, 360});
  CHECK(IntensityLookup(planes).deviation() <= IntensityLookup::k_most_deviation);
  CHECK(worst_difference(planes) <= 2 * IntensityLookup::k_most_deviation);
}

TEST_CASE("a table too steep for a lattice is looked up as it is", "[photometry][property]") {
  const IntensityDistribution table{.gamma_deg = {0, 40, 40.000123456789, 90},
                                    .c_deg = {0},
                                    .candela = (Eigen::ArrayXXd(4, 1) << 1000, 1000, 0, 0).finished()};
  CHECK(IntensityLookup(table).deviation() == 0);
  CHECK(worst_difference(table) == Approx(0).margin(1e-6));
}

TEST_CASE("a dark table gives no light", "[photometry][exact]") {
  IntensityDistribution table = table_of({0, 45, 90}, {0});
  table.candela.setZero();
  CHECK(intensities(IntensityLookup(table), random_directions(3)) == std::vector<float>{0, 0, 0});
}

TEST_CASE("straight down belongs to every plane, whatever range they cover", "[photometry][exact]") {
  const IntensityDistribution turned_twice = turned(table_of({0, 30, 90, 150, 180}, {-90, -45, 0, 45, 90}), 2);
  Directions down;
  down.resize(1);
  down.set(0, {0, 0, -1});
  CHECK(intensities(IntensityLookup(turned_twice), down)[0] == Approx(turned_twice.candela(0, 0)));
  CHECK(intensity_at(turned_twice, 0, 0) == turned_twice.candela(0, 0));
  CHECK(intensity_toward(turned_twice, {0, 0, -1}) == turned_twice.candela(0, 0));
}

TEST_CASE("the lookup knows the poles, the seam and the rim", "[photometry][exact]") {
  const IntensityDistribution table = table_of({0, 30, 90}, {0, 90, 180, 270, 360});
  const IntensityLookup lookup(table);
  Directions directions;
  directions.resize(4);
  directions.set(0, {0, 0, -1});
  directions.set(1, {1, 0, 0});       // on the rim, C 0
  directions.set(2, {1, -1e-9, -1});  // a hair before C 360
  directions.set(3, {0, 0, 1});       // above the table
  const std::vector<float> candela = intensities(lookup, directions);
  CHECK(candela[0] == Approx(table.candela(0, 0)));
  CHECK(candela[1] == Approx(table.candela(2, 0)));
  CHECK(candela[2] == Approx(intensity_at(table, 45, 0)).epsilon(1e-6));
  CHECK(candela[3] == 0);
}

TEST_CASE("a facet gets the intensity times its cosine over the distance squared", "[photometry][exact]") {
  // The second table is too steep for a lattice.
  const auto dark_deg = GENERATE(50.0, 40.000123456789);
  const IntensityDistribution table{.gamma_deg = {0, 30, 40, dark_deg, 90},
                                    .c_deg = {0},
                                    .candela = (Eigen::ArrayXXd(5, 1) << 1000, 800, 800, 0, 0).finished()};
  const IntensityLookup lookup(table);
  Directions rays_m;
  rays_m.resize(3);
  rays_m.set(0, {0, 0, -2});
  rays_m.set(1, {2.5, 0, -2.5 * std::sqrt(3.0)});  // 30 degrees off, 5 m long
  rays_m.set(2, {0, 0, 0});                        // the facet is where the light is
  const std::vector<float> facing_m{1, 4, 0};
  std::vector<float> lx(3, -1);
  lookup.illuminances(rays_m, facing_m.data(), 3, lx.data());
  // A few roundings to single precision, and 1e-5 degrees at 2 % a degree.
  CHECK(lx[0] == Approx(1000 * 1 / 8.0).epsilon(1e-6));
  CHECK(lx[1] == Approx(800 * 4 / 125.0).epsilon(1e-6));
  CHECK(lx[2] == 0);
}
