#include "evenlit/moods/colour_warm_dim.hpp"

#include <gsl/gsl_spline.h>

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <memory>
#include <random>
#include <vector>

using namespace evenlit;

namespace {

/// Invented, in the manner of a lamp that goes from 2700 K to 1800 K.
constexpr std::array<WarmDimPoint, 5> k_lamp{{{0.01, 1800}, {0.1, 1950}, {0.25, 2200}, {0.6, 2600}, {1, 2700}}};

std::vector<WarmDimPoint> random_points(std::mt19937_64& random, bool is_rising) {
  std::uniform_real_distribution<double> unit(0, 1);
  std::vector<WarmDimPoint> points{{0.3 * unit(random), 1800}};
  for (int i = 0; i < 6; ++i) {
    const double step = is_rising || unit(random) < 0.5 ? 400 * unit(random) : -200 * unit(random);
    points.push_back({points.back().level + 0.01 + 0.1 * unit(random), points.back().kelvin + step});
  }
  return points;
}

}  // namespace

TEST_CASE("warm dimming goes through its points and is held beyond", "[moods][exact]") {
  for (const WarmDimPoint& point : k_lamp) CHECK(warm_dim_kelvin(k_lamp, point.level) == Approx(point.kelvin));
  CHECK(warm_dim_kelvin(k_lamp, 0) == 1800);
  CHECK(warm_dim_kelvin(k_lamp, 1.5) == 2700);
}

TEST_CASE("one point is one colour, two are a straight line", "[moods][exact]") {
  CHECK(warm_dim_kelvin(std::array<WarmDimPoint, 1>{{{0.5, 2700}}}, 0.1) == 2700);
  CHECK(warm_dim_kelvin(std::array<WarmDimPoint, 1>{{{0.5, 2700}}}, 0.9) == 2700);
  CHECK(warm_dim_kelvin(std::array<WarmDimPoint, 2>{{{0, 1800}, {1, 2800}}}, 0.25) == Approx(2050));
}

TEST_CASE("points on a straight line keep it", "[moods][exact]") {
  const std::array<WarmDimPoint, 4> points{{{0.1, 1900}, {0.2, 2000}, {0.7, 2500}, {1, 2800}}};
  for (double level = 0.1; level < 1; level += 0.03) {
    CHECK(warm_dim_kelvin(points, level) == Approx(1800 + 1000 * level).epsilon(1e-12));
  }
}

TEST_CASE("warm dimming never turns back between its points", "[moods][property]") {
  std::mt19937_64 random(6);
  for (int i = 0; i < 100; ++i) {
    const std::vector<WarmDimPoint> points = random_points(random, false);
    for (std::size_t k = 0; k + 1 < points.size(); ++k) {
      const double direction = points[k + 1].kelvin > points[k].kelvin ? 1 : -1;
      double before = points[k].kelvin;
      for (int step = 1; step <= 20; ++step) {
        const double level = points[k].level + step / 20.0 * (points[k + 1].level - points[k].level);
        const double kelvin = warm_dim_kelvin(points, level);
        CHECK(direction * (kelvin - before) >= -1e-9);  // rounding of some 2000 K
        before = kelvin;
      }
    }
  }
}

// The GNU Scientific Library's interpolation of the same author; both in doubles.
TEST_CASE("warm dimming by another program", "[moods][reference]") {
  std::mt19937_64 random(7);
  for (int i = 0; i < 50; ++i) {
    const std::vector<WarmDimPoint> points = random_points(random, i % 2 == 0);
    std::vector<double> levels, kelvins;
    for (const WarmDimPoint& point : points) {
      levels.push_back(point.level);
      kelvins.push_back(point.kelvin);
    }
    const std::unique_ptr<gsl_spline, decltype(&gsl_spline_free)> curve(
        gsl_spline_alloc(gsl_interp_steffen, levels.size()), gsl_spline_free);
    gsl_spline_init(curve.get(), levels.data(), kelvins.data(), levels.size());
    for (int step = 0; step <= 100; ++step) {
      const double level =
          std::clamp(levels.front() + step / 100.0 * (levels.back() - levels.front()), levels.front(), levels.back());
      CHECK(warm_dim_kelvin(points, level) == Approx(gsl_spline_eval(curve.get(), level, nullptr)).epsilon(1e-12));
    }
  }
}
