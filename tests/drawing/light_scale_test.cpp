#include "light_scale.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "drawing/sample_distributions.hpp"

using namespace evenlit;

TEST_CASE("light scale: lines of all sizes are round, rise and leave out what is hardly lit", "[drawing][property]") {
  CHECK(levels_of_all_sizes(80) == std::vector<double>{1, 2, 5, 10, 20, 50});
  for (double top = 0.03; top < 5e5; top *= 1.37) {
    const std::vector<double> levels = levels_of_all_sizes(top);
    INFO(top);
    CHECK(levels.size() >= 5);  // three a decade of two decades, less what the ends cut off
    CHECK(levels.size() <= 7);
    CHECK(std::ranges::is_sorted(levels));
    for (const double level : levels) {
      CHECK(level < top);
      CHECK(level >= top / 100 * (1 - 1e-9));
      const double digit = level / std::pow(10, std::floor(std::log10(level * (1 + 1e-9))));
      // Powers of ten are rounded.
      CHECK((digit == Approx(1).epsilon(1e-12) || digit == Approx(2).epsilon(1e-12) ||
             digit == Approx(5).epsilon(1e-12)));
    }
  }
}

TEST_CASE("light scale: by the square root a quarter of the light stands in the middle of the bar",
          "[drawing][exact]") {
  const LightScale scale{.units = Units::metric, .top_lx = 400, .mark_lx = 100, .is_root = true};
  const ScalePlace place{.names_x = 0, .left = 100, .right = 500, .top = 50, .text_size = 20};
  Sheet sheet;
  add_light_scale(sheet, scale, place);
  const Drawing drawing{600, 200, {255, 255, 255}, sheet.items};
  for (const Stroke& stroke : sample::all_of_kind<Stroke>(drawing)) {
    if (stroke.width == 3.2) CHECK(stroke.points.front().x() == Approx(300));
  }
  const auto texts = sample::all_of_kind<Text>(drawing);
  const auto label = std::ranges::find(texts, "100", &Text::text);
  REQUIRE(label != texts.end());
  CHECK(label->at.x() == Approx(300));
  const auto ramps = sample::all_of_kind<FalseColour>(drawing);
  REQUIRE(ramps.size() == 1);
  // Even along the bar, as what is painted on the plan is even in the root of the light.
  CHECK(ramps[0].field.values == std::vector<double>{0, 20});
  CHECK(ramps[0].top == scale.painted(400));
}
