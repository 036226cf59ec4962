#include <catch2/catch.hpp>

#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

// The sample's second can, from line 43 on, is 4 ft from the north and 5 ft from the east wall of a room of 18 ft 2 in
// by 13 ft under 8 ft.

namespace {

Job job_with(std::string_view lines) {
  const auto text = sample_with("rotation = 15", lines);
  const auto job = read_job(text, "den.toml");
  INFO((job ? std::string{} : text_of(job.error(), text)));
  REQUIRE(job);
  return *job;
}

std::string message_for(std::string_view lines) { return message_with("rotation = 15", lines); }

constexpr std::string_view k_box_hint =
    "hint: move it, or give its height above the floor: that of the box's underside or top\n";

}  // namespace

TEST_CASE("read mounting: flush, hanging, or at a height", "[job][exact]") {
  const auto flush = job_with("").cans[1];
  CHECK_FALSE(flush.drop_m);
  CHECK_FALSE(flush.height_m);
  CHECK(job_with("drop = \"2ft\"").cans[1].drop_m == 0.6096);
  CHECK(job_with("height = \"6ft\"").cans[1].height_m == 1.8288);
  CHECK(job_with("height = \"8ft\"").cans[1].height_m == 2.4384);
}

TEST_CASE("read mounting: an aim square to the ceiling", "[job][exact]") {
  const auto job = read_job(sample_with("{ tilt = 30, toward = 90 }", "\"square\""), "den.toml");
  REQUIRE(job);
  CHECK(job->cans[1].is_square);
  CHECK(job->cans[1].tilt_deg == 0);
  CHECK(message_with("{ tilt = 30, toward = 90 }", "\"sqare\"") ==
        "den.toml:46:7: aim \"sqare\" is unknown\n"
        "hint: write aim = \"square\" to the ceiling, or aim = { tilt = 30, toward = 90 }\n");
}

TEST_CASE("mounting mistakes: heights", "[job][exact]") {
  CHECK(message_for("drop = \"2ft\"\nheight = \"6ft\"") ==
        "den.toml:48:10: the can has both drop and height\n"
        "hint: drop is from the ceiling down to the opening, height from the floor up to it: give one of them\n");
  CHECK(message_for("height = 0") ==
        "den.toml:47:10: can height 0 is not above 0\nhint: allowed: above 0, at most 1 km\n");
  CHECK(message_for("drop = \"-1in\"") ==
        "den.toml:47:8: can drop \"-1in\" is below 0\nhint: allowed: at least 0, at most 1 km\n");
  CHECK(message_for("height = \"8ft 1/4in\"") ==
        "den.toml:43:1: the can's opening at 8' 0-1/4\" is above the ceiling, which is at 8' 0\" there\n"
        "hint: height is above the floor; leave it out for a can that is flush with the ceiling\n");
  CHECK(message_for("drop = \"8ft\"") ==
        "den.toml:43:1: the can hangs 8' 0\" below the ceiling, which is only 8' 0\" above the floor there\n"
        "hint: drop is from the ceiling down to the opening\n");
}

TEST_CASE("mounting mistakes: a can inside of an obstruction", "[job][exact]") {
  const std::string at_box = "den.toml:43:1: can is inside \"island\"\n" + std::string(k_box_hint);
  // The island is turned by 30 degrees about its centre, 9 ft 6 in from the west and 6 ft 6 in from the south wall.
  const auto message_at = [](std::string_view from, std::string_view lines) {
    auto text = sample_with("{ north = \"4ft\", east = \"5ft\" }", from);
    text.replace(text.find("rotation = 15"), 13, lines);
    const auto job = read_job(text, "den.toml");
    return job ? std::string{} : text_of(job.error());
  };
  const std::string middle = "{ west = \"9ft 6in\", south = \"6ft 6in\" }";
  CHECK(message_at(middle, "height = \"2ft\"") == at_box);
  CHECK(message_at(middle, "drop = \"6ft\"") == at_box);
  CHECK(message_at(middle, "height = \"3ft\"").empty());  // on top of it
  CHECK(message_at(middle, "height = \"4in\"").empty());  // under it
  CHECK(message_at(middle, "").empty());                  // over it
  CHECK(message_at("{ west = \"6ft 2in\", south = \"8ft\" }", "height = \"2ft\"")
            .empty());  // inside before it was turned
}

TEST_CASE("mounting mistakes: a flush can where a box fills the room up to the ceiling", "[job][exact]") {
  auto text = sample_with("top = \"36in\"\nturn = 30", "top = \"8ft\"");
  text.replace(text.find("{ north = \"4ft\", east = \"5ft\" }"), 31, "{ west = \"9ft 6in\", south = \"6ft 6in\" }");
  const auto job = read_job(text, "den.toml");
  REQUIRE_FALSE(job);
  CHECK(text_of(job.error()) == "den.toml:43:1: can is inside \"island\"\n" + std::string(k_box_hint));
}
