#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

/// The sample job with task areas after it, from line 58 on. The room is 18 ft 2 in by 13 ft, 8 ft high.
std::string sample_and(std::string_view areas) { return std::string(k_sample_job) + std::string(areas); }

TaskArea area_from(std::string_view lines) {
  const auto job = read_job(sample_and("[[task_areas]]\n" + std::string(lines)), "den.toml");
  INFO((job ? std::string{} : text_of(job.error())));
  REQUIRE(job);
  return job->task_areas.at(0);
}

/// What is wrong with a task area of these lines, the first of which is line 59.
std::string message(std::string_view lines) {
  const auto job = read_job(sample_and("[[task_areas]]\n" + std::string(lines)), "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

std::string message_of_corners(std::string_view corners) {
  return message(fmt::format("name = \"a\"\ncorners = {}\n", corners));
}

constexpr std::string_view k_desk =
    "name = \"desk\"\nfrom = { west = \"1 m\", south = \"0.5 m\" }\nwidth = \"1.6 m\"\ndepth = \"0.8 m\"\n";

std::string desk_and(std::string_view lines) { return fmt::format("{}{}", k_desk, lines); }

}  // namespace

TEST_CASE("read task areas: a rectangle lies in the work plane unless it says where", "[job][exact]") {
  const TaskArea desk = area_from(k_desk);
  CHECK(desk.name == "desk");
  const auto& rectangle = std::get<LevelRectangle>(desk.shape);
  CHECK(rectangle.from[0] == Taped{"west", 1});
  CHECK(rectangle.from[1] == Taped{"south", 0.5});
  CHECK(rectangle.width_m == 1.6);
  CHECK(rectangle.depth_m == 0.8);
  CHECK(rectangle.turn_deg == 0);
  CHECK(rectangle.height_m == 0.762);
  CHECK_FALSE(desk.spacing_m);
  CHECK(desk.origin.place == Place{"den.toml", 58, 1, 14});

  const TaskArea table = area_from(desk_and("turn = 45\nheight = \"50 cm\"\nspacing = \"10 cm\"\n"));
  CHECK(std::get<LevelRectangle>(table.shape).turn_deg == 45);
  CHECK(std::get<LevelRectangle>(table.shape).height_m == 0.5);
  CHECK(table.spacing_m == 0.1);
}

TEST_CASE("read task areas: corners without a height are counted from above, either way round", "[job][exact]") {
  const PlaneCorners from_above{{1, 1, 0.762}, {2, 1, 0.762}, {1, 3, 0.762}};
  CHECK(
      std::get<PlaneCorners>(
          area_from("name = \"a\"\ncorners = [[\"1 m\", \"1 m\"], [\"2 m\", \"1 m\"], [\"1 m\", \"3 m\"]]\n").shape) ==
      from_above);
  CHECK(
      std::get<PlaneCorners>(
          area_from("name = \"a\"\ncorners = [[\"1 m\", \"1 m\"], [\"1 m\", \"3 m\"], [\"2 m\", \"1 m\"]]\n").shape) ==
      from_above);
}

TEST_CASE("read task areas: corners with heights keep their order, whichever side it shows", "[job][exact]") {
  const auto area =
      area_from("name = \"a\"\ncorners = [[\"1 m\", 0, \"1 m\"], [\"1 m\", 0, \"2 m\"], [\"2 m\", 0, \"1 m\"]]\n");
  CHECK(std::get<PlaneCorners>(area.shape) == PlaneCorners{{1, 0, 1}, {1, 0, 2}, {2, 0, 1}});
}

TEST_CASE("task areas: a turned rectangle's corners run counter-clockwise about its centre", "[job][exact]") {
  const auto job = read_job(sample_and("[[task_areas]]\n" + desk_and("turn = 90\n")), "den.toml");
  REQUIRE(job);
  const PlaneCorners corners = corners_of(job->room, job->task_areas[0]);
  const PlaneCorners expected{{2.2, 0.1, 0.762}, {2.2, 1.7, 0.762}, {1.4, 1.7, 0.762}, {1.4, 0.1, 0.762}};
  REQUIRE(corners.size() == 4);
  // Sums of a few lengths of some metres.
  for (int i = 0; i < 4; ++i) CHECK((corners[i] - expected[i]).norm() < 1e-12);
}

TEST_CASE("task area mistakes: keys that are missing, unknown or too many", "[job][exact]") {
  CHECK(message("") ==
        "den.toml:58:1: a task area in [[task_areas]] has no name\nhint: add a line like name = \"desk\"\n"
        "den.toml:58:1: a task area in [[task_areas]] has no from\n"
        "hint: write from = { west = \"3ft 3in\", south = \"3ft 3in\" }\n"
        "den.toml:58:1: a task area in [[task_areas]] has no width\nhint: add a line like width = \"7ft\"\n"
        "den.toml:58:1: a task area in [[task_areas]] has no depth\nhint: add a line like depth = \"3ft\"\n");
  CHECK(message(desk_and("top = 0\n")) ==
        "den.toml:63:1: a task area in [[task_areas]] knows no key \"top\"\n"
        "hint: known are name, height, spacing, target, corners, from, width, depth, turn\n");
  CHECK(message("name = \"a\"\nturn = 4\nwidth = \"1 m\"\ncorners = [[0, 0], [\"1 m\", 0], [0, \"1 m\"]]\n") ==
        "den.toml:60:8: the task area has both corners and turn\n"
        "hint: give from, width and depth for a level rectangle, corners for any other plane area\n"
        "den.toml:61:9: the task area has both corners and width\n"
        "hint: give from, width and depth for a level rectangle, corners for any other plane area\n");
  CHECK(message(desk_and(std::string("[[task_areas]]\n").append(k_desk))) ==
        "den.toml:64:8: two task areas are named \"desk\"\nhint: give each task area its own name\n");
  const auto job = read_job(sample_and("[task_areas]\n"), "den.toml");
  REQUIRE_FALSE(job);
  CHECK(text_of(job.error()) ==
        "den.toml:58:1: task_areas is a table, not a list\n"
        "hint: write its header in double brackets: [[task_areas]]\n");
}

TEST_CASE("task area mistakes: no part may be outside the room", "[job][exact]") {
  CHECK(message("name = \"a\"\nfrom = { east = \"20ft\", south = 0 }\nwidth = \"1ft\"\ndepth = \"1ft\"\n") ==
        "den.toml:60:8: the task area's centre is 2' 4\" outside the room\n"
        "hint: each distance is square to its wall, from the wall into the room\n");
  // 12 ft from the west wall, 7 ft wide, in a room of 18 ft 2 in.
  CHECK(message("name = \"a\"\nfrom = { west = \"12ft\", south = 0 }\nwidth = \"7ft\"\ndepth = \"1ft\"\n") ==
        "den.toml:58:1: the task area reaches 10\" outside the room\nhint: all of it is inside of the walls\n");
  CHECK(message(desk_and("height = \"9ft\"\n")) ==
        "den.toml:58:1: the task area's height at 9' 0\" is above the ceiling at 8' 0\"\n"
        "hint: heights are above the floor\n");
}

TEST_CASE("task area mistakes: corners", "[job][exact]") {
  CHECK(message_of_corners("4") ==
        "den.toml:60:11: corners is a number, not a list\n"
        "hint: write a list of corners like [[0, 0], [\"4ft\", 0], [0, \"2ft\"]]\n");
  CHECK(message_of_corners("[[0, 0], [\"1ft\", 0]]") ==
        "den.toml:60:11: a task area of 2 corners\nhint: a task area has 3 to 500 corners\n");
  const std::string corner =
      "hint: write how far east and how far north it is, like [\"12ft\", \"3ft 6in\"], or how far east, north and up\n";
  CHECK(message_of_corners("[[0, 0], [\"1ft\", 0], [0]]") ==
        "den.toml:60:32: a corner of 1 lengths, not of 2 or 3\n" + corner);
  CHECK(message_of_corners("[[0, 0], [\"1ft\", 0], 0]") ==
        "den.toml:60:32: a corner is a number, not a list\n" + corner);
  CHECK(message_of_corners("[[0, 0, 0], [\"1ft\", 0, 0], [0, \"1ft\", \"-1ft\"]]") ==
        "den.toml:60:49: corner \"-1ft\" is below 0\nhint: allowed: at least 0, at most 1 km\n");
  CHECK(message_of_corners("[[0, 0, 0], [\"1ft\", 0], [0, \"1ft\"]]") ==
        "den.toml:60:11: some corners of the task area have a height, some have none\n"
        "hint: write all of them as [east, north], or all as [east, north, up]\n");
  CHECK(message_of_corners("[[0, 0, 0], [\"1ft\", 0, 0], [0, \"1ft\", 0]]\nheight = 0") ==
        "den.toml:61:10: the task area has a height, and so have its corners\nhint: leave one of them out\n");
  CHECK(message_of_corners("[[0, 0], [\"1ft\", 0], [\"2ft\", 0]]") ==
        "den.toml:60:11: the task area's corners enclose nothing\n"
        "hint: list them in the order in which you pass them going round its edge\n");
  CHECK(
      message_of_corners("[[0, 0], [\"2ft\", 0], [0, \"1ft\"], [\"1ft\", \"2ft\"]]") ==
      "den.toml:60:11: edges 2 and 4 of the task area cross or touch\n"
      "hint: list the corners in the order in which you pass them going round its edge; edge 1 runs from the first to "
      "the second\n");
}

TEST_CASE("task area mistakes: a bent area is refused beyond 1 mm", "[job][exact]") {
  // Of four corners over a square, lifting one by d puts each d / 4 off the mean plane.
  const auto corners = [](std::string_view lift) {
    return fmt::format("[[0, 0, 0], [\"1 m\", 0, 0], [\"1 m\", \"1 m\", \"{}\"], [0, \"1 m\", 0]]", lift);
  };
  CHECK(std::get<PlaneCorners>(area_from("name = \"a\"\ncorners = " + corners("3.9 mm") + "\n").shape)[2].z() ==
        0.0039);
  CHECK(message_of_corners(corners("40 mm")) ==
        "den.toml:60:11: a corner of the task area is 13/32\" off the plane of the others\n"
        "hint: all corners lie in one plane, within 1 mm; divide a bent area into plane ones\n");
}

TEST_CASE("read task areas: a job has none to 500", "[job][exact]") {
  std::string areas;
  for (int i = 0; i < 501; ++i) {
    areas += fmt::format("[[task_areas]]\nname = \"{}\"\ncorners = [[0, 0], [\"1ft\", 0], [0, \"1ft\"]]\n", i);
  }
  const auto job = read_job(sample_and(areas), "den.toml");
  REQUIRE_FALSE(job);
  CHECK(text_of(job.error()) == "den.toml:58:1: the job has 501 task areas\nhint: a job has at most 500 task areas\n");
}
