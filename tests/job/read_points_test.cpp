#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

constexpr std::string_view k_chair =
    "[[points]]\nname = \"chair\"\nfrom = { west = \"1 m\", south = \"2 m\" }\nheight = \"1.2 m\"\n";

/// The point of these lines after a chair's four, the first of them line 62.
NamedPoint chair_with(std::string_view lines) {
  const auto job = read_job(std::string(k_sample_job) + std::string(k_chair) + std::string(lines), "den.toml");
  INFO((job ? std::string{} : text_of(job.error())));
  REQUIRE(job);
  return job->points.at(0);
}

std::string message_after(std::string_view text) {
  const auto job = read_job(std::string(k_sample_job) + std::string(text), "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

std::string message_of_chair_with(std::string_view lines) {
  return message_after(std::string(k_chair) + std::string(lines));
}

}  // namespace

TEST_CASE("read points: one faces up unless it says otherwise", "[job][exact]") {
  const NamedPoint chair = chair_with("");
  CHECK(chair.name == "chair");
  CHECK(chair.from[0] == Taped{"west", 1});
  CHECK(chair.from[1] == Taped{"south", 2});
  CHECK(chair.height_m == 1.2);
  CHECK(std::get<Facing>(chair.reads) == Facing{0, 0});
  CHECK(chair.origin.place == Place{"den.toml", 58, 1, 10});
}

TEST_CASE("read points: what is read", "[job][exact]") {
  CHECK(std::get<Facing>(chair_with("facing = \"up\"").reads) == Facing{0, 0});
  CHECK(std::get<Facing>(chair_with("facing = \"down\"").reads) == Facing{180, 0});
  CHECK(std::get<Facing>(chair_with("facing = -45").reads) == Facing{90, -45});
  CHECK(std::get<Facing>(chair_with("facing = { tilt = 30, toward = 200 }").reads) == Facing{30, 200});
  CHECK(std::get<Facing>(chair_with("facing = { tilt = 30 }").reads) == Facing{30, 0});
  CHECK(std::holds_alternative<Around>(chair_with("facing = \"around\"").reads));
  CHECK(std::get<Looking>(chair_with("looking = { toward = 90, tilt = -10 }").reads) == Looking{90, -10});
  CHECK(std::get<Looking>(chair_with("looking = { toward = 90 }").reads) == Looking{90, 0});
}

TEST_CASE("point mistakes: keys that are missing or unknown, and names", "[job][exact]") {
  CHECK(
      message_after("[[points]]\n") ==
      "den.toml:58:1: a point in [[points]] has no name\nhint: add a line like name = \"reading chair\"\n"
      "den.toml:58:1: a point in [[points]] has no from\n"
      "hint: write from = { west = \"3ft 3in\", south = \"3ft 3in\" }\n"
      "den.toml:58:1: a point in [[points]] has no height\nhint: add a line like height = \"4ft\": above the floor\n");
  CHECK(message_of_chair_with("faicng = 90") ==
        "den.toml:62:1: a point in [[points]] knows no key \"faicng\"\nhint: did you mean \"facing\"?\n");
  CHECK(message_of_chair_with(k_chair) ==
        "den.toml:63:8: two points are named \"chair\"\nhint: give each point its own name\n");
  CHECK(message_after("[points]\n") ==
        "den.toml:58:1: points is a table, not a list\nhint: write its header in double brackets: [[points]]\n");
}

TEST_CASE("point mistakes: places outside the room", "[job][exact]") {
  CHECK(message_after("[[points]]\nname = \"a\"\nfrom = { west = \"20ft\", south = 0 }\nheight = \"9ft\"\n") ==
        "den.toml:60:8: the point's centre is 1' 10\" outside the room\n"
        "hint: each distance is square to its wall, from the wall into the room\n"
        "den.toml:61:10: the point's height at 9' 0\" is above the ceiling at 8' 0\"\n"
        "hint: heights are above the floor\n");
}

TEST_CASE("point mistakes: directions", "[job][exact]") {
  const std::string hint =
      "hint: write \"up\", \"down\", \"around\", a direction on the plan like 90, or { tilt = 30, toward = 90 }\n";
  CHECK(message_of_chair_with("facing = \"north\"") == "den.toml:62:10: facing \"north\" is unknown\n" + hint);
  CHECK(message_of_chair_with("facing = true") == "den.toml:62:10: facing is no direction\n" + hint);
  CHECK(message_of_chair_with("facing = 400") ==
        "den.toml:62:10: facing 400 is above 360\nhint: allowed: at least -360, at most 360\n");
  CHECK(message_of_chair_with("facing = { toward = 4 }") ==
        "den.toml:62:10: facing has no tilt\nhint: write facing = { tilt = 30, toward = 90 }\n");
  CHECK(message_of_chair_with("facing = { tilt = 181 }") ==
        "den.toml:62:19: facing tilt 181 is above 180\nhint: allowed: at least 0, at most 180\n");
  CHECK(message_of_chair_with("looking = 90") ==
        "den.toml:62:11: looking is a number, not a table\n"
        "hint: write its keys and values in braces, or under its header\n");
  CHECK(message_of_chair_with("looking = { tilt = -91 }") ==
        "den.toml:62:11: looking has no toward\nhint: write looking = { toward = 90, tilt = -10 }\n"
        "den.toml:62:20: looking tilt -91 is below -90\nhint: allowed: at least -90, at most 90\n");
  CHECK(message_of_chair_with("facing = \"up\"\nlooking = { toward = 90 }") ==
        "den.toml:63:11: the point has both facing and looking\n"
        "hint: facing reads the light that arrives, looking the luminance that is seen; make two points\n");
}

TEST_CASE("read points: a job has none to 1000", "[job][exact]") {
  std::string points;
  for (int i = 0; i < 1001; ++i) {
    points += fmt::format("[[points]]\nname = \"{}\"\nfrom = {{ west = 0, south = 0 }}\nheight = 0\n", i);
  }
  CHECK(message_after(points) == "den.toml:58:1: the job has 1001 points\nhint: a job has at most 1000 points\n");
}
