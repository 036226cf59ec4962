#include "evenlit/report/location.hpp"

#include <catch2/catch.hpp>

#include "drawing/sample_light.hpp"

using namespace evenlit;
using sample::k_foot;

TEST_CASE("a point is taped from the nearest wall and the nearest across", "[report][exact]") {
  const Shape room = sample::living_room().job.room;
  CHECK(location_text(room, {14 * k_foot / 12, 10 * k_foot / 12}, Units::imperial) ==
        "10\" from the south wall and 1' 2\" from the west wall");
  CHECK(location_text(room, {17 * k_foot, 7 * k_foot}, Units::imperial) ==
        "1' 0\" from the east wall and 6' 0\" from the north wall");
  CHECK(location_text(room, {5.1864, 3.0}, Units::metric) ==
        "0.30 m from the east wall and 0.96 m from the north wall");
}

TEST_CASE("a tape does not run past the end of a wall", "[report][exact]") {
  const Shape room = sample::l_shaped_room().job.room;
  // Beside the nook the nook's own walls are nearest; its north wall is in reach, the east wall of the upper part is
  // not.
  CHECK(location_text(room, {19 * k_foot, 7.5 * k_foot}, Units::imperial) ==
        "6\" from the nook north wall and 1' 0\" from the east wall");
  CHECK(location_text(room, {12 * k_foot, 4 * k_foot}, Units::imperial) ==
        "4' 0\" from the south wall and 8' 0\" from the east wall");
}

TEST_CASE("a mark is told to the nearest 1/16 in or millimetre", "[report][exact]") {
  const Shape room = sample::living_room().job.room;
  constexpr double k_inch = k_foot / 12;
  CHECK(mark_text(room, {14.1875 * k_inch, 10 * k_inch}, Units::imperial) == "10\" south, 1' 2-3/16\" west");
  CHECK(mark_text(room, {5.1864, 3.0}, Units::metric) == "0.30 m east, 0.962 m north");
}

TEST_CASE("the compass has eight points", "[report][exact]") {
  const auto point = [](double x, double y) { return std::string(compass_point({x, y}).name); };
  CHECK(point(1, 0) == "east");
  CHECK(point(1, 0.4) == "east");
  CHECK(point(1, 0.5) == "northeast");
  CHECK(point(0, 2) == "north");
  CHECK(point(-3, 3) == "northwest");
  CHECK(point(-1, 0.0) == "west");
  CHECK(point(-1, -0.0) == "west");
  CHECK(point(-1, -1) == "southwest");
  CHECK(point(0, -1) == "south");
  CHECK(point(1, -1) == "southeast");
  CHECK(std::string(compass_point({-1, -1}).initials) == "SW");
}
