#include "evenlit/moods/comfort_ratios.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("a page, the desk around it and the wall behind", "[moods][exact]") {
  const LuminanceBalance balance = luminance_balance(90, 30, 9);
  CHECK(balance.to_surround.task_over_other == 3);
  CHECK(balance.to_surround.is_within);
  CHECK(balance.to_background.task_over_other == 10);
  CHECK(balance.to_background.is_within);
}

TEST_CASE("a limit holds either way", "[moods][exact]") {
  CHECK_FALSE(luminance_ratio(91, 30, 3).is_within);
  CHECK(luminance_ratio(30, 90, 3).is_within);
  CHECK_FALSE(luminance_ratio(30, 91, 3).is_within);
  CHECK(luminance_ratio(50, 50, 1).is_within);
}

TEST_CASE("against the dark there is no ratio", "[moods][exact]") {
  CHECK_FALSE(luminance_ratio(90, 0, 10).task_over_other);
  CHECK_FALSE(luminance_ratio(90, 0, 10).is_within);
  CHECK(luminance_ratio(0, 90, 10).task_over_other == 0);
  CHECK_FALSE(luminance_ratio(0, 90, 10).is_within);
  CHECK(luminance_ratio(0, 0, 10).is_within);
}
