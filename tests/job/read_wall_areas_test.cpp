#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

constexpr std::string_view k_door =
    "[[wall_areas]]\nname = \"door\"\nwall = \"north\"\nfrom = { east = \"3ft\" }\n"
    "width = \"36in\"\ntop = \"80in\"\nreflectance = \"LRV 75\"\n";

/// The door with the first `old` in it replaced; it stands from line 58 on.
std::string job_text(std::string_view old, std::string_view replacement) {
  std::string door(k_door);
  return std::string(k_sample_job) + door.replace(door.find(old), old.size(), replacement);
}

std::string message(std::string_view old, std::string_view replacement) {
  const auto job = read_job(job_text(old, replacement), "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

}  // namespace

TEST_CASE("read wall areas: one is measured along its wall and starts at the floor", "[job][exact]") {
  const auto job = read_job(job_text("door", "door"), "den.toml");
  REQUIRE(job);
  REQUIRE(job->wall_areas.size() == 1);
  const WallRectangle rectangle{
      .wall = "north", .from = {"east", 0.9144}, .width_m = 0.9144, .bottom_m = 0, .top_m = 2.032};
  WallArea expected{rectangle};
  expected.name = "door";
  expected.reflectance = 0.75;
  CHECK(job->wall_areas[0] == expected);
  CHECK(job->wall_areas[0].origin.place == Place{"den.toml", 58, 1, 14});
}

TEST_CASE("read wall areas: one may reach beyond its wall", "[job][exact]") {
  CHECK(read_job(job_text("\"80in\"", "\"30ft\""), "den.toml"));
  CHECK(read_job(job_text("\"36in\"", "\"30ft\""), "den.toml"));
}

TEST_CASE("wall area mistakes: keys that are missing or unknown", "[job][exact]") {
  const auto job = read_job(std::string(k_sample_job) + "[[wall_areas]]\n", "den.toml");
  REQUIRE_FALSE(job);
  const std::string start = "den.toml:58:1: a wall area in [[wall_areas]] has no ";
  CHECK(text_of(job.error()) ==
        start + "name\nhint: add a line like name = \"window\"\n" + start +
            "wall\nhint: add a line like wall = \"south\"\n" + start +
            "from\nhint: write from = { west = \"3ft\" }: along the wall, from the corner that it makes with that "
            "neighbour\n" +
            start + "width\nhint: add a line like width = \"3ft\"\n" + start +
            "top\nhint: add a line like top = \"80in\": its height above the floor\n" + start +
            "reflectance\nhint: add a line like reflectance = 0.1: a window at night sends back little\n");
  CHECK(message("top =", "tpo =") ==
        "den.toml:58:1: a wall area in [[wall_areas]] has no top\n"
        "hint: add a line like top = \"80in\": its height above the floor\n"
        "den.toml:63:1: a wall area in [[wall_areas]] knows no key \"tpo\"\nhint: did you mean \"top\"?\n");
  CHECK(message("[[wall_areas]]", "[wall_areas]") ==
        "den.toml:58:1: wall_areas is a table, not a list\n"
        "hint: write its header in double brackets: [[wall_areas]]\n");
}

TEST_CASE("wall area mistakes: names and walls", "[job][exact]") {
  const auto twice = read_job(job_text("door", "door") + std::string(k_door), "den.toml");
  REQUIRE_FALSE(twice);
  CHECK(text_of(twice.error()) ==
        "den.toml:66:8: two wall areas are named \"door\"\nhint: give each wall area its own name\n");
  CHECK(message("\"north\"", "\"norht\"") ==
        "den.toml:60:8: the room has no wall \"norht\"\nhint: did you mean \"north\"?\n");
  CHECK(message("east", "eats") == "den.toml:61:10: the room has no wall \"eats\"\nhint: did you mean \"east\"?\n");
  CHECK(message("east", "south") ==
        "den.toml:61:10: wall \"south\" does not meet wall \"north\"\nhint: measure from \"west\" or \"east\"\n");
  CHECK(message("east = \"3ft\"", "east = \"3ft\", west = 0") ==
        "den.toml:61:8: the wall area is to be measured from 1 wall, not from 2\n"
        "hint: write from = { west = \"3ft\" }: along the wall, from the corner that it makes with that neighbour\n");
}

TEST_CASE("wall area mistakes: sizes", "[job][exact]") {
  CHECK(message("\"36in\"", "0") ==
        "den.toml:62:9: wall area width 0 is below 1 mm\nhint: allowed: at least 1 mm, at most 1 km\n");
  CHECK(message("top = \"80in\"", "bottom = \"80in\"\ntop = \"80in\"") ==
        "den.toml:64:7: the wall area's top is not at least 1 mm above its bottom\n"
        "hint: top and bottom are heights above the floor\n");
  CHECK(message("\"LRV 75\"", "75").starts_with("den.toml:64:15: wall area reflectance 75 is above 1\n"));
}

TEST_CASE("wall area mistakes: one that is off its wall", "[job][exact]") {
  const std::string hint =
      "hint: from is along the wall to the near edge, bottom and top are heights above the floor\n";
  // The north wall is 18 ft 2 in long, the ceiling 8 ft high.
  CHECK(message("\"3ft\"", "\"18ft 2in\"") == "den.toml:58:1: no part of \"door\" is on wall \"north\"\n" + hint);
  CHECK(message("top = \"80in\"", "bottom = \"8ft\"\ntop = \"9ft\"") ==
        "den.toml:58:1: no part of \"door\" is on wall \"north\"\n" + hint);
}

TEST_CASE("wall area mistakes: a job has up to 200", "[job][exact]") {
  std::string areas;
  for (int i = 0; i <= 200; ++i) {
    areas += fmt::format("[[wall_areas]]\nname = \"{}\"\nwall = \"north\"\nfrom = {{ east = 0 }}\n", i) +
             "width = \"1ft\"\ntop = \"1ft\"\nreflectance = 0.5\n";
  }
  const auto job = read_job(std::string(k_sample_job) + areas, "den.toml");
  REQUIRE_FALSE(job);
  CHECK(text_of(job.error()) == "den.toml:58:1: the job has 201 wall areas\nhint: a job has at most 200 wall areas\n");
}
