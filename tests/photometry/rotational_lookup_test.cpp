#include "evenlit/photometry/rotational_lookup.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "evenlit/photometry/intensity_lookup.hpp"

using namespace evenlit;

namespace {

constexpr double k_rad = std::numbers::pi / 180;

IntensityDistribution plane_of(std::vector<double> gamma_deg, const std::vector<double>& candela) {
  IntensityDistribution table{std::move(gamma_deg), {0}, {}};
  table.candela = Eigen::Map<const Eigen::ArrayXd>(candela.data(), std::ssize(candela));
  return table;
}

/// Uneven steps from `first_deg` to `last_deg` of at most `most_step_deg`, any intensities, one cut-off within half a
/// degree.
IntensityDistribution random_table(std::mt19937& random, double first_deg, double last_deg, double most_step_deg) {
  std::uniform_real_distribution<double> share(0, 1);
  std::vector<double> gamma_deg{first_deg};
  std::vector<double> candela{share(random)};
  const double cut_off_deg = std::lerp(first_deg, last_deg, share(random));
  bool is_cut = false;
  while (gamma_deg.back() < last_deg) {
    const bool cuts = !is_cut && gamma_deg.back() > cut_off_deg;
    is_cut = is_cut || cuts;
    gamma_deg.push_back(std::min(last_deg, gamma_deg.back() + (cuts ? 0.5 : 0.5 + most_step_deg * share(random))));
    candela.push_back(cuts ? 0 : share(random));
  }
  if (const double rest_deg = last_deg - gamma_deg[gamma_deg.size() - 2]; rest_deg < 0.3) {
    gamma_deg.erase(gamma_deg.end() - 2);
    candela.erase(candela.end() - 2);
  }
  return plane_of(std::move(gamma_deg), candela);
}

double steepest_cd_per_deg(const IntensityDistribution& table) {
  double steepest = 0;
  for (std::size_t i = 0; i + 1 < table.gamma_deg.size(); ++i) {
    const double change = table.candela(i + 1, 0) - table.candela(i, 0);
    steepest = std::max(steepest, std::abs(change) / (table.gamma_deg[i + 1] - table.gamma_deg[i]));
  }
  return steepest;
}

/// The candela of one direction, as the light that a facet 1 m away gets squarely.
double looked_up(const RotationalLookup& lookup, const Eigen::Vector3f& direction) {
  const float squarely = 1;
  float lx = -1;
  lookup.illuminances({&direction[0], &direction[1], &direction[2], &squarely}, 1, &lx);
  return lx * std::pow(direction.cast<double>().norm(), 3);
}

Eigen::Vector3f direction_at(double gamma_deg, double c_deg) {
  const double sine = std::sin(gamma_deg * k_rad);
  return Eigen::Vector3d(sine * std::cos(c_deg * k_rad), sine * std::sin(c_deg * k_rad), -std::cos(gamma_deg * k_rad))
      .cast<float>();
}

struct RandomFacets {
  std::vector<float> x, y, z, nx, ny, nz;

  explicit RandomFacets(int count) {
    std::mt19937 random(7);
    std::normal_distribution<double> normal;
    for (int i = 0; i < count; ++i) {
      add({2 * normal(random), 2 * normal(random), -3 + normal(random)},
          Eigen::Vector3d(normal(random), normal(random), 2 + normal(random)).normalized());
    }
  }
  void add(const Eigen::Vector3d& point, const Eigen::Vector3d& facing) {
    const Eigen::Vector3f at = point.cast<float>();
    const Eigen::Vector3f to = facing.cast<float>();
    x.push_back(at.x()), y.push_back(at.y()), z.push_back(at.z());
    nx.push_back(to.x()), ny.push_back(to.y()), nz.push_back(to.z());
  }
  [[nodiscard]] FacetArrays arrays(int first = 0) const {
    return {&x[first], &y[first], &z[first], &nx[first], &ny[first], &nz[first]};
  }
};

}  // namespace

TEST_CASE("lines over cells are the table's own within a few millionths of its peak", "[photometry][property]") {
  std::mt19937 random(20260714);
  const auto [first_deg, last_deg] = GENERATE(std::pair(0.0, 90.0), std::pair(0.0, 180.0), std::pair(90.0, 180.0));
  const double most_step_deg = GENERATE(0.5, 3.0, 15.0);
  for (int run = 0; run < 3; ++run) {
    const IntensityDistribution table = random_table(random, first_deg, last_deg, most_step_deg);
    const auto lookup = RotationalLookup::of(table);
    REQUIRE(lookup);
    const double peak = table.candela.maxCoeff();
    CHECK(lookup->deviation() <= RotationalLookup::k_most_deviation);
    // What the lines miss, 1e-5 degrees of single precision where the table is steepest, a few roundings of the result.
    const double may = lookup->deviation() * peak + 1e-5 * steepest_cd_per_deg(table) + 1e-6 * peak;
    std::uniform_real_distribution<double> share(0, 1);
    double worst = 0;
    for (int i = 0; i < 4000; ++i) {
      // A third close to the axis or the horizon, a third at bends of the table, where they are cut most sharply.
      const double bend_deg = table.gamma_deg[random() % table.gamma_deg.size()];
      const double close_deg = std::pow(10, -5 * share(random)) * (i % 2 == 0 ? 1 : -1);
      const double gammas_deg[] = {180 * share(random), 90 * (random() % 3) + close_deg, bend_deg + close_deg / 10};
      const Eigen::Vector3f direction = direction_at(gammas_deg[i % 3], 360 * share(random));
      // Within 1e-4 degrees of a rim that ends in light both sides are right.
      const double above_deg = std::asin(direction.cast<double>().normalized().z()) / k_rad;
      if (std::abs(above_deg) < 1.1e-4) continue;
      worst =
          std::max(worst, std::abs(looked_up(*lookup, direction) - intensity_toward(table, direction.cast<double>())));
    }
    CHECK(worst <= may);
  }
}

TEST_CASE("what the lookup by squares says of a smooth table is within 1e-5 of each value", "[photometry][property]") {
  // A beam of 38 degrees in steps of 2.5, down to a thousandth of its peak. The lines miss 1.4e-6 of the peak at most
  // and less where it is dim; 1e-5 degrees are 2.7e-6 of a value at 60 degrees.
  const double power = std::log(0.5) / std::log(std::cos(19 * k_rad));
  IntensityDistribution table{{}, {0}, {}};
  for (double gamma = 0; gamma <= 90; gamma += 2.5) table.gamma_deg.push_back(gamma);
  table.candela.resize(std::ssize(table.gamma_deg), 1);
  for (Eigen::Index i = 0; i < table.candela.rows(); ++i) {
    table.candela(i, 0) = 1000 * std::pow(std::max(0.0, std::cos(table.gamma_deg[i] * k_rad)), power);
  }
  const auto lookup = RotationalLookup::of(table);
  REQUIRE(lookup);
  double worst = 0;
  for (double gamma = 0; gamma < 55; gamma += 0.0137) {
    const Eigen::Vector3f direction = direction_at(gamma, 11 * gamma);
    const double exact = intensity_toward(table, direction.cast<double>());
    worst = std::max(worst, std::abs(looked_up(*lookup, direction) - exact) / exact);
  }
  CHECK(worst < 1e-5);
}

TEST_CASE("a table that ends in light at the horizon keeps it there", "[photometry][exact]") {
  const auto down = RotationalLookup::of(plane_of({0, 60, 90}, {100, 80, 40}));
  const auto up = RotationalLookup::of(plane_of({90, 120, 180}, {40, 80, 100}));
  REQUIRE(down);
  REQUIRE(up);
  for (const auto& lookup : {down, up}) {
    CHECK(looked_up(*lookup, {1, 0, 0}) == Approx(40).epsilon(1e-6));
    CHECK(looked_up(*lookup, {0, 1, 1e-9F}) == Approx(40).epsilon(1e-6));
    CHECK(looked_up(*lookup, {0, 1, -1e-9F}) == Approx(40).epsilon(1e-6));
  }
  CHECK(looked_up(*down, {1, 0, 1e-5F}) == 0);
  CHECK(looked_up(*up, {1, 0, -1e-5F}) == 0);
  CHECK(looked_up(*down, {0, 0, 1}) == 0);
  CHECK(looked_up(*up, {0, 0, -1}) == 0);
  CHECK(looked_up(*up, {0, 0, 1}) == Approx(100).epsilon(1e-6));
}

TEST_CASE("what squares cannot tell apart is refused", "[photometry][exact]") {
  CHECK(!RotationalLookup::of(plane_of({0, 40, 40.0001, 90}, {100, 100, 0, 0})));            // too steep
  CHECK(!RotationalLookup::of(plane_of({0, 40, 40.001, 40.002, 90}, {9, 9, 9.001, 9, 9})));  // bends too close
  CHECK(!RotationalLookup::of(plane_of({0, 60}, {100, 50})));                                // ends in light at 60
  IntensityDistribution planes = plane_of({0, 90}, {100, 0});
  planes.c_deg = {0, 360};
  planes.candela = planes.candela.replicate(1, 2).eval();
  CHECK(!RotationalLookup::of(planes));
  CHECK(RotationalLookup::of(plane_of({0, 40, 40.25, 90}, {100, 100, 0, 0})));
  CHECK(RotationalLookup::of(plane_of({0, 60}, {100, 0})));
  CHECK(RotationalLookup::of(plane_of({0, 90}, {0, 0})));
}

TEST_CASE("a facet's light does not depend on which facets it is computed with", "[photometry][exact]") {
  constexpr int k_count = 600;
  const RandomFacets facets(k_count);
  const IntensityLookup lookup(plane_of({0, 20, 35, 90, 120}, {100, 90, 20, 5, 0}));
  const Eigen::Matrix3f turned = Eigen::AngleAxisf(0.4F, Eigen::Vector3f::UnitX()).toRotationMatrix();
  for (const Eigen::Matrix3f& frame : {Eigen::Matrix3f(Eigen::Matrix3f::Identity()), turned}) {
    const PointLight light{frame, {0.1F, 0.2F, 0}, 0.9F};
    std::vector<float> all(k_count);
    lookup.illuminances(light, facets.arrays(), k_count, all.data());
    for (int i = 0; i < k_count; ++i) {
      float alone = -1;
      lookup.illuminances(light, facets.arrays(i), 1, &alone);
      REQUIRE(alone == all[i]);
    }
  }
}

TEST_CASE("a light over facets is the same light when all is turned", "[photometry][property]") {
  constexpr int k_count = 600;
  const RandomFacets facets(k_count);
  const Eigen::Matrix3d turn = Eigen::AngleAxisd(1.1, Eigen::Vector3d(1, 2, -1).normalized()).toRotationMatrix();
  RandomFacets turned(0);
  for (int i = 0; i < k_count; ++i) {
    turned.add(turn * Eigen::Vector3d(facets.x[i], facets.y[i], facets.z[i]),
               turn * Eigen::Vector3d(facets.nx[i], facets.ny[i], facets.nz[i]));
  }
  const IntensityLookup lookup(plane_of({0, 20, 35, 90, 120}, {100, 90, 20, 5, 0}));
  std::vector<float> upright(k_count), aslant(k_count);
  lookup.illuminances({Eigen::Matrix3f::Identity(), {0, 0, 0}, 1}, facets.arrays(), k_count, upright.data());
  lookup.illuminances({turn.transpose().cast<float>(), {0, 0, 0}, 1}, turned.arrays(), k_count, aslant.data());
  const float most = *std::ranges::max_element(upright);
  REQUIRE(most > 0);
  // Coordinates of some metres are rounded to 2e-7 of them, which cosines near 0 and the slope of 5 cd a degree
  // multiply.
  for (int i = 0; i < k_count; ++i) CHECK(aslant[i] == Approx(upright[i]).epsilon(1e-5).margin(3e-6 * most));
}
