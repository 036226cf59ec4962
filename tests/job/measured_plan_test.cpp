#include "measured_plan.hpp"

#include <catch2/catch.hpp>
#include <numbers>
#include <random>

#include "evenlit/job/write_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;
using Diagonal = MeasuredRoom::Diagonal;

namespace {

constexpr double k_rounding_m = 1e-9;  // of square roots of lengths below 100 m

std::string measured(std::string_view lines) { return sample_with("width = \"18ft 2in\"\ndepth = \"13ft\"\n", lines); }

std::string message(std::string_view lines) {
  const auto job = read_job(measured(lines), "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

}  // namespace

TEST_CASE("measured plan: 3-4-5 triangles make square corners, from either corner", "[job][exact]") {
  // 12 ft and 16 ft walls: 12^2 + 16^2 = 144 + 256 = 400 = 20^2.
  for (const Diagonal diagonal : {Diagonal::southwest_northeast, Diagonal::southeast_northwest}) {
    const Polygon plan = measured_plan({16, 12, 16, 12, diagonal, 20});
    const Polygon square{{0, 0}, {16, 0}, {16, 12}, {0, 12}};
    for (std::size_t i = 0; i < 4; ++i) CHECK((plan[i] - square[i]).norm() < k_rounding_m);
  }
}

TEST_CASE("measured plan: a trapezium by hand", "[job][exact]") {
  // Corners (0, 0), (14, 0), (9, 12), (0, 12): the east wall is 5-12-13, the diagonal to (9, 12) is 3-4-5: 15.
  const Polygon plan = measured_plan({14, 13, 9, 12, Diagonal::southwest_northeast, 15});
  CHECK((plan[2] - Eigen::Vector2d(9, 12)).norm() < k_rounding_m);
  CHECK((plan[3] - Eigen::Vector2d(0, 12)).norm() < k_rounding_m);
  // Mirrored: (0, 0), (14, 0), (14, 12), (5, 12); from the southeast to (5, 12) it is 15 again.
  const Polygon mirrored = measured_plan({14, 12, 9, 13, Diagonal::southeast_northwest, 15});
  CHECK((mirrored[2] - Eigen::Vector2d(14, 12)).norm() < k_rounding_m);
  CHECK((mirrored[3] - Eigen::Vector2d(5, 12)).norm() < k_rounding_m);
}

TEST_CASE("measured plan: the range of the diagonal by hand", "[job][exact]") {
  // 16 x 12: no longer than 16 + 12 = 28, where two corners are flat. As a parallelogram it may close to 16 - 12 = 4.
  const auto range = diagonal_range_m({16, 12, 16, 12, Diagonal::southwest_northeast, 0});
  REQUIRE(range);
  CHECK((*range)[0] == Approx(4).margin(k_rounding_m));
  CHECK((*range)[1] == Approx(28).margin(k_rounding_m));
  // South 3 and west 3 in line under north 5 and east 5: the height of an isosceles triangle, 5^2 - 3^2 = 4^2.
  const auto flat = diagonal_range_m({3, 5, 5, 3, Diagonal::southwest_northeast, 0});
  REQUIRE(flat);
  CHECK((*flat)[0] == Approx(4).margin(k_rounding_m));
  CHECK((*flat)[1] == Approx(8).margin(k_rounding_m));
  CHECK_FALSE(diagonal_range_m({10, 3, 3, 4, Diagonal::southwest_northeast, 5}));
}

TEST_CASE("measured plan: random rooms are found again by their tapes", "[job][property]") {
  std::mt19937 random(7);
  const auto off = [&] { return std::uniform_real_distribution(-0.8, 0.8)(random); };
  for (int i = 0; i < 500; ++i) {
    // South wall along +x, the other corners anywhere near those of a 6 m x 4 m room: always convex.
    const Polygon room{{0, 0}, {6 + off(), 0}, {6 + off(), 4 + off()}, {off(), 4 + off()}};
    const auto side = [&](std::size_t a, std::size_t b) { return (room[a] - room[b]).norm(); };
    for (const Diagonal diagonal : {Diagonal::southwest_northeast, Diagonal::southeast_northwest}) {
      const double length = diagonal == Diagonal::southwest_northeast ? side(0, 2) : side(1, 3);
      const MeasuredRoom measured{side(0, 1), side(1, 2), side(2, 3), side(3, 0), diagonal, length};
      const auto range = diagonal_range_m(measured);
      REQUIRE(range);
      CHECK((*range)[0] < length);
      CHECK(length < (*range)[1]);
      const Polygon plan = measured_plan(measured);
      for (std::size_t k = 0; k < 4; ++k) CHECK((plan[k] - room[k]).norm() < 1e-9);
    }
  }
}

TEST_CASE("measured plan: just inside of the range no corner opens inward, just outside one does", "[job][property]") {
  std::mt19937 random(8);
  const auto side = [&] { return std::uniform_real_distribution(2.0, 6.0)(random); };
  const auto turn = [](const Polygon& plan, std::size_t i) {
    const Eigen::Vector2d a = plan[i] - plan[(i + 3) % 4];
    const Eigen::Vector2d b = plan[(i + 1) % 4] - plan[i];
    return a.x() * b.y() - a.y() * b.x();
  };
  const auto is_convex = [&](const Polygon& plan) {
    return turn(plan, 0) > 0 && turn(plan, 1) > 0 && turn(plan, 2) > 0 && turn(plan, 3) > 0;
  };
  for (int i = 0; i < 300; ++i) {
    MeasuredRoom room{side(), side(), side(), side(), Diagonal::southwest_northeast, 0};
    const auto range = diagonal_range_m(room);
    if (!range) continue;
    CAPTURE(room.south_m, room.east_m, room.north_m, room.west_m);
    room.diagonal_m = (*range)[0] + 1e-4;
    CHECK(is_convex(measured_plan(room)));
    room.diagonal_m = (*range)[1] - 1e-4;
    CHECK(is_convex(measured_plan(room)));
    room.diagonal_m = (*range)[0] - 1e-4;
    CHECK_FALSE(is_convex(measured_plan(room)));
  }
}

TEST_CASE("measured plan: read from a job, written as corners", "[job][exact]") {
  const auto job =
      read_job(measured("sides = { south = \"16ft\", east = \"12ft\", north = \"16ft\", west = \"12ft\" }\n"
                        "diagonal = { from = \"northwest\", length = \"20ft\" }\n"),
               "den.toml");
  REQUIRE(job);
  CHECK(job->room.wall_names == std::vector<std::string>{"south", "east", "north", "west"});
  CHECK((job->room.corners_m[2] - Eigen::Vector2d(16, 12) * k_metres_per_foot).norm() < k_rounding_m);
  const std::string written = write_job(*job);
  CHECK(written.find("corners = [") != std::string::npos);
  CHECK(written.find("sides") == std::string::npos);
  const auto again = read_job(written, "again.toml");
  REQUIRE(again);
  CHECK(again->room == job->room);
}

TEST_CASE("measured plan: what does not close is told once, with the range", "[job][exact]") {
  const std::string sides = "sides = { south = \"16ft\", east = \"12ft\", north = \"16ft\", west = \"12ft\" }\n";
  CHECK(message(sides + "diagonal = { from = \"southwest\", length = \"30ft\" }\n") ==
        "den.toml:7:12: the diagonal of 30' 0\" does not close with these sides: they reach from 4' 0-1/16\" to 27' "
        "11-15/16\"\n"
        "hint: measure it again, level and tight from corner to corner, and check which corner it starts from\n");
  CHECK(message("sides = { south = \"40ft\", east = \"12ft\", north = \"16ft\", west = \"10ft\" }\n"
                "diagonal = { from = \"southwest\", length = \"20ft\" }\n") ==
        "den.toml:6:9: the sides do not close: the south wall is 40' 0\" and the other three together reach 38' 0\"\n"
        "hint: measure the walls again, each along its foot from corner to corner\n");
  CHECK(message(sides) ==
        "den.toml:6:9: [room] has sides and no diagonal\n"
        "hint: add a line like diagonal = { from = \"southwest\", length = \"18ft 6in\" }\n");
  CHECK(message(sides + "diagonal = { from = \"sowthwest\", length = \"20ft\" }\n") ==
        "den.toml:7:21: diagonal from \"sowthwest\" is unknown\nhint: did you mean \"southwest\"?\n");
  CHECK(message(sides + "diagonal = { from = \"southwest\", length = \"20ft\" }\nwidth = \"3ft\"\n")
            .starts_with("den.toml:8:9: [room] has both sides and width\n"));
  CHECK(message("width = \"9ft\"\ndepth = \"9ft\"\ndiagonal = { from = \"southwest\", length = \"20ft\" }\n")
            .starts_with("den.toml:8:12: [room] has a diagonal and no sides\n"));
  CHECK(message("sides = { south = \"16ft\", east = \"12ft\", north = \"16ft\" }\n"
                "diagonal = { from = \"southwest\", length = \"20ft\" }\n")
            .starts_with("den.toml:6:9: sides has no west\n"));
}
