#include "evenlit/drawing/floor_light.hpp"

#include <catch2/catch.hpp>

#include "sample_light.hpp"

using namespace evenlit;

TEST_CASE("a map's scale runs from 0 to its end in the map's colours", "[drawing][exact]") {
  const sample::Lit lit = sample::living_room();
  const double top_lx = map_top_lx(lit.job, lit.light, {});
  CHECK(top_lx >= lit.light.statistics.maximum_lx);
  const std::vector<ScaleColour> scale = map_scale(lit.job, top_lx);
  REQUIRE(scale.size() > 2);
  CHECK(scale.front() == ScaleColour{0, k_cividis.front()});
  CHECK(scale.back().lx == Approx(top_lx));
  CHECK(scale.back().colour == k_cividis.back());
  CHECK(map_top_lx(lit.job, lit.light, {.top_lx = 123}) == 123);
}

TEST_CASE("the light of a floor fills a rectangle to its edges", "[drawing][exact]") {
  const sample::Lit lit = sample::living_room();
  const MaskedImage floor = floor_light(lit.job, lit.light, {}, 120);
  const Eigen::Vector2d size = bounds_of(lit.job.room.corners_m).sizes();
  CHECK(floor.image.width == 120);
  CHECK(std::abs(floor.image.height - 120 * size.y() / size.x()) <= 1);
  REQUIRE(floor.opacity.size() == floor.image.pixels.size());
  CHECK(floor.opacity.front() == 255);
  CHECK(floor.opacity[60] == 255);
}

TEST_CASE("the light of a floor is transparent outside of the walls", "[drawing][exact]") {
  sample::Lit lit = sample::living_room();
  const Eigen::Vector2d size = bounds_of(lit.job.room.corners_m).sizes();
  // The northeast half of the rectangle is cut off.
  lit.job.room.corners_m = {{0, 0}, {size.x(), 0}, {0, size.y()}};
  const MaskedImage floor = floor_light(lit.job, lit.light, {}, 120);
  const auto opacity_at = [&](int x, int y) {
    return floor.opacity[static_cast<std::size_t>(y) * 120 + static_cast<std::size_t>(x)];
  };
  CHECK(opacity_at(118, 1) == 0);
  CHECK(opacity_at(1, floor.image.height / 2) == 255);
  CHECK(opacity_at(1, floor.image.height - 2) == 255);
}

TEST_CASE("two floors with one end of the scale compare colour by colour", "[drawing][property]") {
  const sample::Lit lit = sample::living_room();
  const MaskedImage low = floor_light(lit.job, lit.light, {.top_lx = 200}, 64);
  const MaskedImage high = floor_light(lit.job, lit.light, {.top_lx = 2000}, 64);
  // Green rises all the way from dark blue to yellow, so that a scale that ends higher paints no pixel greener.
  std::size_t greener = 0;
  for (std::size_t i = 0; i < low.image.pixels.size(); ++i) {
    greener += high.image.pixels[i].green > low.image.pixels[i].green ? 1 : 0;
  }
  CHECK(greener == 0);
}
