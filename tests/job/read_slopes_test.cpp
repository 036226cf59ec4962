#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/job/ceiling.hpp"
#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

/// The sample job, its ceiling replaced.
std::string with_ceiling(std::string_view lines) { return sample_with("ceiling = \"8ft\"", lines); }

Job job_with(std::string_view lines) {
  const auto text = with_ceiling(lines);
  const auto job = read_job(text, "den.toml");
  INFO((job ? std::string{} : text_of(job.error(), text)));
  REQUIRE(job);
  return *job;
}

std::string message_for(std::string_view lines) { return message_with("ceiling = \"8ft\"", lines); }

/// The rise of a slope whose pitch is written so.
double rise_of(const std::string& pitch) {
  return job_with("slopes = [{ wall = \"west\", height = \"8ft\", pitch = " + pitch + " }]").room.slopes.at(0).rise;
}

}  // namespace

TEST_CASE("read slopes: a ceiling may have slopes instead of a height, or besides", "[job][exact]") {
  const auto shed = job_with("slopes = [{ wall = \"west\", height = \"6ft\", pitch = \"8/12\" }]");
  CHECK_FALSE(shed.room.ceiling_m);
  CHECK(shed.room.slopes == std::vector<Slope>{{"west", 1.8288, 8.0 / 12}});
  const auto gable = job_with(
      "ceiling = \"9ft\"\nslopes = [{ wall = \"west\", height = \"6ft\", pitch = \"8/12\" },\n"
      "{ wall = \"east\", height = \"6ft\", pitch = \"8/12\" }]");
  CHECK(gable.room.ceiling_m == 2.7432);
  CHECK(ceiling_of(gable.room).highest_m == 2.7432);
}

TEST_CASE("read slopes: a pitch is rise over run or degrees", "[job][exact]") {
  CHECK(rise_of("\"8/12\"") == 8.0 / 12);
  CHECK(rise_of("\"8:12\"") == 8.0 / 12);
  CHECK(rise_of("\"8 in 12\"") == 8.0 / 12);
  CHECK(rise_of("\" 4.5 / 12 \"") == 4.5 / 12);
  CHECK(rise_of("30") == std::tan(30 * (std::numbers::pi / 180)));
}

TEST_CASE("read slopes: a tall box may stand where the ceiling is low, and the work plane may meet the ceiling",
          "[job][exact]") {
  const auto job = job_with("slopes = [{ wall = \"west\", height = \"2ft\", pitch = \"12/12\" }]");
  CHECK(job.work_plane.height_m > ceiling_of(job.room).lowest_m);
}

TEST_CASE("slope mistakes: pitches", "[job][exact]") {
  const std::string hint = "hint: write rise over run like \"8/12\", or degrees above level like 33.7\n";
  const auto message = [](const std::string& pitch) {
    return message_for("slopes = [{ wall = \"west\", height = \"8ft\", pitch = " + pitch + " }]");
  };
  CHECK(message("\"8\"") == "den.toml:8:52: slope pitch \"8\" is not a pitch\n" + hint);
  CHECK(message("\"/12\"") == "den.toml:8:52: slope pitch \"/12\" is not a pitch\n" + hint);
  CHECK(message("\"8/0\"") == "den.toml:8:52: slope pitch \"8/0\" is not a pitch\n" + hint);
  CHECK(message("\"-8/12\"") == "den.toml:8:52: slope pitch \"-8/12\" is not between 0.1 and 89 degrees\n" + hint);
  CHECK(message("\"0/12\"") == "den.toml:8:52: slope pitch \"0/12\" is not between 0.1 and 89 degrees\n" + hint);
  CHECK(message("\"900/12\"") == "den.toml:8:52: slope pitch \"900/12\" is not between 0.1 and 89 degrees\n" + hint);
  CHECK(message("0") ==
        "den.toml:8:52: slope pitch 0 is below 0.1 degrees\n"
        "hint: allowed: at least 0.1 degrees, at most 89 degrees\n");
  CHECK(message("90") ==
        "den.toml:8:52: slope pitch 90 is above 89 degrees\n"
        "hint: allowed: at least 0.1 degrees, at most 89 degrees\n");
  CHECK(message("true") ==
        "den.toml:8:52: slope pitch is true or false, not a number\nhint: write the number without quotes\n");
}

TEST_CASE("slope mistakes: keys, walls and heights", "[job][exact]") {
  const std::string hint = "hint: write { wall = \"west\", height = \"6ft 6in\", pitch = \"8/12\" }\n";
  CHECK(message_for("slopes = [{}]") == "den.toml:8:11: a slope has no wall\n" + hint +
                                            "den.toml:8:11: a slope has no height\n" + hint +
                                            "den.toml:8:11: a slope has no pitch\n" + hint);
  CHECK(message_for("slopes = [{ wall = \"wets\", height = \"8ft\", pitch = 30 }]") ==
        "den.toml:8:20: the room has no wall \"wets\"\nhint: did you mean \"west\"?\n");
  CHECK(message_for("slopes = [{ wall = \"west\", hight = \"8ft\", pitch = 30 }]") ==
        "den.toml:8:11: a slope has no height\n" + hint +
            "den.toml:8:28: a slope knows no key \"hight\"\nhint: did you mean \"height\"?\n");
  CHECK(message_for("slopes = [{ wall = \"west\", height = 0, pitch = 30 }]") ==
        "den.toml:8:37: slope height 0 is below 1 cm\nhint: allowed: at least 1 cm, at most 1 km\n");
  CHECK(message_for("slopes = 30") ==
        "den.toml:8:10: slopes is a number, not a list\n"
        "hint: write a list: slopes = [{ wall = ..., height = ..., pitch = ... }]\n");
  CHECK(message_for("slopes = []") ==
        "den.toml:8:10: a ceiling of 0 slopes\n"
        "hint: a ceiling has 1 to 20 slopes; leave the key out for a level one\n");
}

TEST_CASE("slope mistakes: a ceiling that meets the floor or the sky", "[job][exact]") {
  const std::string l_shape =
      "[room]\ncorners = [[0, 0], [\"6 m\", 0], [\"6 m\", \"4 m\"], [\"3 m\", \"4 m\"], [\"3 m\", \"2 m\"], [0, \"2 "
      "m\"]]\n";
  const auto message = [&](const std::string& lines) {
    const auto job = read_job(l_shape + lines +
                                  "[can_types.a]\nfile = \"a.ies\"\n[[cans]]\ntype = \"a\"\n"
                                  "from = { \"wall 1\" = \"1 m\", \"wall 2\" = \"1 m\" }\n",
                              "den.toml");
    REQUIRE_FALSE(job);
    return text_of(job.error());
  };
  // Wall 5 runs along y = 2 m; the plane rises from there toward y = 0 and falls to nothing at y = 4 m.
  CHECK(message("slopes = [{ wall = \"wall 5\", height = \"2 m\", pitch = \"12/12\" }]\n") ==
        "den.toml:3:10: the ceiling comes down to less than 1 cm above the floor\n"
        "hint: raise the slopes; a plane goes on beyond the line of its wall, where the plan does\n");
  CHECK(message("slopes = [{ wall = \"wall 2\", height = \"990 m\", pitch = 80 }]\n") ==
        "den.toml:3:10: the ceiling rises to more than 1 km above the floor\n"
        "hint: flatten the slopes, or add a level part like ceiling = \"10ft\"\n");
}

TEST_CASE("slope mistakes: a work plane or a box above all of the ceiling", "[job][exact]") {
  CHECK(message_for("slopes = [{ wall = \"south\", height = \"1ft\", pitch = \"1/13\" }]") ==
        "den.toml:17:10: the work plane at 2' 6\" is not below the ceiling at 2' 0\"\n"
        "hint: give [work_plane] a height between the floor and the ceiling\n"
        "den.toml:55:7: the obstruction's top at 3' 0\" is above the ceiling at 2' 0\"\n"
        "hint: what reaches the ceiling has its height as top\n");
}
