#include "stroke_outline.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "evenlit/drawing/rasterise.hpp"

using namespace evenlit;

namespace {

constexpr int k_size = 64;
constexpr double k_half_diagonal = 0.7072;  // of a pixel: how far its corners are from its centre
constexpr double k_chord = 0.06;            // 0.05 px that a chord strays from its arc, and rounding

Image painted(const std::vector<Polyline>& outlines) {
  return rasterise({k_size, k_size, {255, 255, 255}, {Fill{outlines, {{0, 0, 0}}}}}, k_size);
}

double distance_to_segment(const Eigen::Vector2d& p, const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
  const double t = std::clamp((p - a).dot(b - a) / (b - a).squaredNorm(), 0.0, 1.0);
  return (a + t * (b - a) - p).norm();
}

double distance_to_line(const Eigen::Vector2d& p, const Polyline& line) {
  double nearest = 1e9;
  for (std::size_t i = 1; i < line.size(); ++i)
    nearest = std::min(nearest, distance_to_segment(p, line[i - 1], line[i]));
  return nearest;
}

Polyline random_line(std::mt19937& random, int corners) {
  std::uniform_real_distribution<double> place(8, k_size - 8);
  Polyline line;
  for (int i = 0; i < corners; ++i) line.emplace_back(place(random), place(random));
  return line;
}

}  // namespace

TEST_CASE("a stroke covers what is within half its width of its line, however that bends and crosses itself",
          "[drawing][property]") {
  std::mt19937 random(2);
  for (int run = 0; run < 60; ++run) {
    const double width = 1.6 + 0.1 * run;
    const Polyline corners = random_line(random, 6);
    const bool closed = run % 2 == 0;
    Polyline line = corners;
    if (closed) line.push_back(corners.front());
    const Image image = painted(stroke_outlines({corners, closed, width, {}, {}}));
    INFO("seed 2, run " << run);
    for (int y = 0; y < k_size; ++y) {
      for (int x = 0; x < k_size; ++x) {
        const Eigen::Vector2d centre(x + 0.5, y + 0.5);
        const double distance = distance_to_line(centre, line);
        const double from_ends =  // which are butt
            closed ? 1e9 : std::min((centre - line.front()).norm(), (centre - line.back()).norm());
        if (distance + k_half_diagonal + k_chord < width / 2 && from_ends > width / 2 + 1) {
          CHECK(image.at(x, y).red == 0);
        }
        if (distance - k_half_diagonal > width / 2) CHECK(image.at(x, y).red == 255);
      }
    }
  }
}

TEST_CASE("an area grows on all sides, whichever way round its outline runs, and its holes shrink",
          "[drawing][property]") {
  const Polyline square{{16, 16}, {48, 16}, {48, 48}, {16, 48}};
  const Polyline hole{{24, 24}, {24, 40}, {40, 40}, {40, 24}};
  std::vector<Polyline> frame{square, hole};
  const Image image = painted(grown(frame, 4));
  for (Polyline& outline : frame) std::reverse(outline.begin(), outline.end());
  CHECK(painted(grown(frame, 4)) == image);

  Polyline outer = square;
  outer.push_back(square.front());
  Polyline inner = hole;
  inner.push_back(hole.front());
  for (int y = 0; y < k_size; ++y) {
    for (int x = 0; x < k_size; ++x) {
      const Eigen::Vector2d centre(x + 0.5, y + 0.5);
      const bool in_hole = x >= 24 && x < 40 && y >= 24 && y < 40;
      const bool in_square = x >= 16 && x < 48 && y >= 16 && y < 48;
      const double distance = in_hole     ? distance_to_line(centre, inner)
                              : in_square ? 0
                                          : distance_to_line(centre, outer);
      if (distance + k_half_diagonal + k_chord < 4) CHECK(image.at(x, y).red == 0);
      if (distance - k_half_diagonal > 4) CHECK(image.at(x, y).red == 255);
    }
  }
}

TEST_CASE("a stroke of no length paints nothing", "[drawing][exact]") {
  CHECK(stroke_outlines({{{3, 3}}, false, 2, {}, {}}).empty());
  CHECK(stroke_outlines({{{3, 3}, {3, 3}}, true, 2, {}, {}}).empty());
}
