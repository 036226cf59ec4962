#include "evenlit/placing/set_out.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <numeric>
#include <random>

#include "evenlit/job/read_job.hpp"
#include "plans.hpp"

using namespace evenlit;

namespace {

constexpr double k_rounding_m = 1e-9;  // of sums and products of lengths below 100 m
constexpr double k_half_mark_m = k_metres_per_inch / 32;
const Place k_place = whole_file("test");

double inches(double inches) { return inches * k_metres_per_inch; }

/// A job with cans of one type at points of a plan; each is taped from its room's first two walls that meet there.
Job job_at(Shape room, const std::vector<Eigen::Vector2d>& points_m) {
  Job job;
  job.room = std::move(room);
  job.can_types.push_back({.name = "six_inch", .hole_m = inches(6.375)});
  for (const Eigen::Vector2d& point : points_m) {
    Can can{.type = "six_inch"};
    for (int wall = 0; wall < 2; ++wall) {
      const Eigen::Vector2d along = along_wall(job.room, wall);
      const Eigen::Vector2d offset = point - job.room.corners_m[static_cast<std::size_t>(wall)];
      can.from[wall] = {job.room.wall_names[static_cast<std::size_t>(wall)],
                        along.x() * offset.y() - along.y() * offset.x()};
    }
    job.cans.push_back(std::move(can));
  }
  return job;
}

Shape room_of(Polygon corners_m, std::vector<std::string> names) {
  return {"Room", std::move(corners_m), std::move(names), 2.5};
}

Job scene(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  const auto job = read_job(bytes, path.string());
  REQUIRE(job);
  return *job;
}

SetOut laid_out(const Job& job, const SetOutWish& wish = {}) {
  auto found = set_out(job, wish, k_place);
  REQUIRE(found);
  return std::move(*found);
}

std::string message(const Job& job, const SetOutWish& wish) {
  const auto found = set_out(job, wish, k_place);
  REQUIRE_FALSE(found);
  return text_of(found.error());
}

/// What holds of every set-out.
void check_set_out(const Job& job, const SetOut& sheet) {
  REQUIRE(sheet.cans.size() == job.cans.size());
  std::vector<int> seen;
  for (const MarkedCan& can : sheet.cans) {
    seen.push_back(can.can);
    // The two tapes lead back to the can: read to the nearest mark they are no farther off than half of one.
    for (const Taped& from : can.from) {
      const int wall = *wall_index(job.room, from.wall);
      const Eigen::Vector2d along = along_wall(job.room, wall);
      const Eigen::Vector2d offset = can.centre_m - job.room.corners_m[static_cast<std::size_t>(wall)];
      const double square_m = along.x() * offset.y() - along.y() * offset.x();
      CHECK(std::abs(*metres_from_text(feet_inches(from.distance_m)) - square_m) <= k_half_mark_m + k_rounding_m);
    }
    const Taped from[2]{can.from[0], can.from[1]};
    CHECK((plan_position(job.room, from).value() - can.centre_m).norm() < 1e-6);
  }
  std::ranges::sort(seen);
  for (std::size_t i = 0; i < seen.size(); ++i) CHECK(seen[i] == static_cast<int>(i));
  std::size_t number = 0;
  for (const MarkedRow& row : sheet.rows) {
    REQUIRE(row.cans.size() == row.stations_m.size());
    CHECK(std::ranges::is_sorted(row.stations_m));
    const Eigen::Vector2d along = (row.end_m - row.start_m).normalized();
    for (std::size_t k = 0; k < row.cans.size(); ++k) {
      CHECK(row.cans[k] == number++);
      // A can is off the snapped line by half a mark at most.
      const Eigen::Vector2d marked = row.start_m + row.stations_m[k] * along;
      CHECK((marked - sheet.cans[row.cans[k]].centre_m).norm() <= k_half_mark_m + 1e-6);
    }
    CHECK(distance_to_outline(job.room.corners_m, row.start_m) < 1e-6);
    CHECK(distance_to_outline(job.room.corners_m, row.end_m) < 1e-6);
  }
  CHECK(number == job.cans.size());
}

}  // namespace

TEST_CASE("set out: two rows of three by hand", "[placing][exact]") {
  // 14' 2" x 11': 170" x 132". Columns at 28-3/8", 85", 141-5/8" from the west: steps of 85 - 28-3/8 = 56-5/8 and
  // 141-5/8 - 85 = 56-5/8, the rest 170 - 141-5/8 = 28-3/8. Rows at 33" and 99" from the south.
  const Shape room = room_of({{0, 0}, {inches(170), 0}, {inches(170), inches(132)}, {0, inches(132)}},
                             {"south", "east", "north", "west"});
  std::vector<Eigen::Vector2d> points;
  for (const double x : {141.625, 28.375, 85.0}) {
    for (const double y : {99.0, 33.0}) points.emplace_back(inches(x), inches(y));
  }
  const SetOut sheet = laid_out(job_at(room, points), {.walls = {{"south", "west"}}, .corner = "southwest"});
  check_set_out(job_at(room, points), sheet);
  CHECK(sheet.walls == std::array<std::string, 2>{"south", "west"});
  REQUIRE(sheet.rows.size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    const MarkedRow& row = sheet.rows[i];
    CHECK(row.wall.wall == "south");
    CHECK(row.start_wall == "west");
    CHECK(row.end_wall == "east");
    CHECK(row.wall.distance_m == Approx(inches(i == 0 ? 33 : 99)).margin(k_rounding_m));
    CHECK(row.stations_m[0] == Approx(inches(28.375)).margin(k_rounding_m));
    CHECK(row.stations_m[1] == Approx(inches(85)).margin(k_rounding_m));
    CHECK(row.stations_m[2] == Approx(inches(141.625)).margin(k_rounding_m));
  }
  // The second can of the file is the first to be marked.
  CHECK(sheet.cans[0].can == 3);
  // 170^2 + 132^2 = 28900 + 17424 = 46324; (141-5/8 - 28-3/8)^2 + 66^2 = 113.25^2 + 66^2 = 17181.5625.
  REQUIRE(sheet.room.size() == 2);
  CHECK(sheet.room[0].length_m == Approx(inches(std::sqrt(46324.0))).margin(k_rounding_m));
  CHECK(sheet.room[1].length_m == Approx(sheet.room[0].length_m).margin(k_rounding_m));
  REQUIRE(sheet.outermost.size() == 2);
  CHECK(sheet.outermost[0].ends == std::array<std::size_t, 2>{0, 5});
  CHECK(sheet.outermost[1].ends == std::array<std::size_t, 2>{2, 3});
  for (const Diagonal& diagonal : sheet.outermost) {
    CHECK(diagonal.length_m == Approx(inches(std::sqrt(17181.5625))).margin(k_rounding_m));
  }
  REQUIRE(sheet.line);
  CHECK(sheet.line->wall == "south");
  CHECK((sheet.line->offsets_m[5] - Eigen::Vector2d(inches(141.625), inches(99))).norm() < k_rounding_m);
}

TEST_CASE("set out: roundings of thirds do not add up", "[placing][exact]") {
  // Seven cans 40/7" apart from 40/7" on: the fifth is at 200/7" = 28.571" and reads 28-9/16" (28.5625); five roundings
  // of 40/7" = 5.714" to 5-11/16" (5.6875) would add up to 28-7/16".
  const Shape room =
      room_of({{0, 0}, {inches(60), 0}, {inches(60), inches(60)}, {0, inches(60)}}, {"south", "east", "north", "west"});
  std::vector<Eigen::Vector2d> points;
  for (int i = 1; i <= 7; ++i) points.emplace_back(inches(40.0 * i / 7), inches(30));
  const SetOut sheet = laid_out(job_at(room, points), {.walls = {{"west", "south"}}, .corner = {}});
  REQUIRE(sheet.rows.size() == 1);
  CHECK(tape_reading(sheet.rows[0].stations_m[4], Units::imperial) == "2' 4-9/16\" (28-9/16\")");
}

TEST_CASE("set out: a room out of square says which wall each row follows", "[placing][exact]") {
  // The north wall is 3-4-5 off: it rises 3 in 4. A row 12" off it goes along (4, 3) / 5; along the south wall goes one
  // at 10". The corner (100, 75) of the north wall is the south wall's end (100, 0) raised by 75 over a rise of 0 at x
  // 0.
  const Shape room = room_of({{0, 0}, {inches(100), 0}, {inches(100), inches(175)}, {0, inches(100)}},
                             {"south", "east", "north", "west"});
  const auto beside_north = [](double along) {  // from the northwest corner, 12" off
    return Eigen::Vector2d(inches(0.8 * along + 0.6 * 12), inches(100 + 0.6 * along - 0.8 * 12));
  };
  std::vector<Eigen::Vector2d> points{beside_north(30), beside_north(60), beside_north(90)};
  for (const double x : {20.0, 47.0, 81.0}) points.emplace_back(inches(x), inches(10));
  const Job job = job_at(room, points);
  const SetOut sheet = laid_out(job, {.walls = {{"south", "west"}}, .corner = {}});
  check_set_out(job, sheet);
  REQUIRE(sheet.rows.size() == 2);
  CHECK(sheet.rows[0].wall.wall == "south");
  CHECK(sheet.rows[1].wall.wall == "north");
  CHECK(sheet.rows[1].wall.distance_m == Approx(inches(12)).margin(k_rounding_m));
  CHECK(sheet.rows[1].start_wall == "west");
  // The line meets the west wall where 0.8 along + 7.2 = 0: 9" before the corner's foot. So the first can is 30 + 9 =
  // 39".
  CHECK(sheet.rows[1].stations_m[0] == Approx(inches(39)).margin(k_rounding_m));
  CHECK(sheet.rows[1].stations_m[2] == Approx(inches(99)).margin(k_rounding_m));
  REQUIRE(sheet.room.size() == 2);
  // (0, 0) to (100, 175): 10000 + 30625; (100, 0) to (0, 100): 20000.
  CHECK(sheet.room[0].length_m == Approx(inches(std::sqrt(40625.0))).margin(k_rounding_m));
  CHECK(sheet.room[1].length_m == Approx(inches(std::sqrt(20000.0))).margin(k_rounding_m));
}

TEST_CASE("set out: rows end where a wall stands between cans, and cans out of reach have walls of their own",
          "[placing][exact]") {
  // The U has a notch in the middle of its north side: cans in both arms are in line along the south wall, 4.5 m off.
  const Shape room =
      room_of(k_u, {"south", "east", "north east", "inner east", "notch", "inner west", "north west", "west"});
  const Job job = job_at(room, {{1, 4.5}, {2, 4.5}, {6, 4.5}, {7, 4.5}});
  const SetOut sheet = laid_out(job, {.walls = {{"south", "west"}}, .corner = {}});
  check_set_out(job, sheet);
  REQUIRE(sheet.rows.size() == 2);
  CHECK(sheet.rows[0].end_wall == "inner west");
  CHECK(sheet.rows[1].start_wall == "inner east");
  // A tape from the east arm to the west wall would go through the notch.
  for (const MarkedCan& can : sheet.cans) {
    CHECK(can.is_in_reach == std::array{true, true});
    const bool is_in_west_arm = can.centre_m.x() < 3;
    CHECK((can.from[0].wall == "west" || can.from[1].wall == "west") == is_in_west_arm);
  }
}

TEST_CASE("set out: walls are chosen so that tapes read whole sixteenths", "[placing][exact]") {
  // From the west and the south the cans are at whole inches; the room is 3.7 m x 2.9 m, so from the others they are
  // not.
  const Shape room = room_of({{0, 0}, {3.7, 0}, {3.7, 2.9}, {0, 2.9}}, {"south", "east", "north", "west"});
  const SetOut sheet = laid_out(job_at(room, {{inches(30), inches(40)}, {inches(90), inches(40)}}));
  CHECK(sheet.walls == std::array<std::string, 2>{"south", "west"});
}

TEST_CASE("set out: wishes that cannot be met are told with what can", "[placing][exact]") {
  const Shape room = room_of({{0, 0}, {4, 0}, {4, 3}, {0, 3}}, {"south", "east", "north", "west"});
  const Job job = job_at(room, {{1, 1}});
  CHECK(message(job, {.walls = {{"sotuh", "west"}}, .corner = {}}) ==
        "test: the room has no wall \"sotuh\"\nhint: did you mean \"south\"?\n");
  CHECK(message(job, {.walls = {{"south", "north"}}, .corner = {}}) ==
        "test: walls \"south\" and \"north\" run too much alike to tape from\n"
        "hint: name two walls that are more than 30 degrees off each other\n");
  CHECK(message(job, {.walls = {}, .corner = "soutwest"}) ==
        "test: the room has no corner \"soutwest\"\nhint: did you mean \"southwest\"?\n");
  CHECK(corner_names(room, 0) == std::vector<std::string>{"southwest", "west,south", "south,west"});
}

TEST_CASE("set out: every scene is laid out whole", "[placing][property]") {
  int scenes = 0;
  for (const auto& entry : std::filesystem::directory_iterator(EVENLIT_SOURCE_DIR "/scenes")) {
    if (entry.path().extension() != ".toml") continue;
    CAPTURE(entry.path().string());
    const Job job = scene(entry.path());
    check_set_out(job, laid_out(job));
    ++scenes;
  }
  CHECK(scenes >= 7);
}

TEST_CASE("set out: random rooms, turned and out of square, are laid out whole", "[placing][property]") {
  std::mt19937 random(11);
  const auto between = [&](double least, double most) { return std::uniform_real_distribution(least, most)(random); };
  for (int i = 0; i < 60; ++i) {
    Polygon plan = i % 3 == 0 ? k_l : i % 3 == 1 ? k_u : Polygon{{0, 0}, {6, 0}, {6, 4}, {0, 4}};
    for (Eigen::Vector2d& corner : plan) corner += Eigen::Vector2d(between(-0.1, 0.1), between(-0.1, 0.1));
    plan = turned(plan, i % 2 == 0 ? 0 : between(-180, 180));
    std::vector<std::string> names;
    for (std::size_t k = 0; k < plan.size(); ++k) names.push_back("wall " + std::to_string(k + 1));
    std::vector<Eigen::Vector2d> points;
    const Eigen::AlignedBox2d box = bounds_of(plan);
    while (points.size() < 9) {
      const Eigen::Vector2d point(between(box.min().x(), box.max().x()), between(box.min().y(), box.max().y()));
      if (is_inside(plan, point) && distance_to_outline(plan, point) > 0.1) points.push_back(point);
    }
    const Job job = job_at(room_of(plan, names), points);
    CAPTURE(i);
    check_set_out(job, laid_out(job, {.walls = {}, .corner = names[1] + "," + names[0]}));
  }
}
