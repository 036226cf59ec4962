#include "coverage.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace evenlit;

namespace {

constexpr int k_width = 40;
constexpr int k_height = 37;

std::vector<Eigen::Vector2d> random_outline(std::mt19937& random) {
  std::uniform_real_distribution<double> place(-10, 50);
  std::vector<Eigen::Vector2d> outline;
  for (int i = 0; i < 7; ++i) outline.emplace_back(place(random), place(random));
  return outline;
}

std::vector<float> covered(const std::vector<Eigen::Vector2d>& outline, int rows_a_band) {
  std::vector<float> pixels(k_width * k_height, 0.0F);
  for (int first = 0; first < k_height; first += rows_a_band) {
    Coverage band(k_width, first, std::min(first + rows_a_band, k_height));
    band.add(outline);
    band.sweep([&](int y, int x_begin, int x_end, float coverage) {
      for (int x = x_begin; x < x_end; ++x) pixels[y * k_width + x] = coverage;
    });
  }
  return pixels;
}

}  // namespace

TEST_CASE("how an image is cut into bands does not show", "[drawing][property]") {
  std::mt19937 random(1);
  for (int run = 0; run < 50; ++run) {
    const std::vector<Eigen::Vector2d> outline = random_outline(random);
    const std::vector<float> whole = covered(outline, k_height);
    for (const int rows : {1, 8, 32}) {
      const std::vector<float> bands = covered(outline, rows);
      for (std::size_t i = 0; i < whole.size(); ++i) {
        // Edges are cut at the bands' borders, which rounds; coverage is single precision and skipped below 1e-6.
        CHECK(bands[i] == Approx(whole[i]).margin(2e-6));
      }
    }
  }
}

TEST_CASE("a sweep leaves nothing behind", "[drawing][exact]") {
  Coverage coverage(8, 0, 8);
  const std::vector<Eigen::Vector2d> box{{1.25, 1.5}, {6, 1.5}, {6, 7}, {1.25, 7}};
  coverage.add(box);
  int runs = 0;
  coverage.sweep([&](int, int, int, float) { ++runs; });
  CHECK(runs == 12);  // six rows: a pixel covered by three quarters, then four whole ones
  coverage.sweep([&](int, int, int, float) { FAIL("painted twice"); });
}
