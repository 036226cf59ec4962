#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

Job job_from(const std::string& text) {
  const auto job = read_job(text, "den.toml");
  INFO((job ? std::string{} : text_of(job.error(), text)));
  REQUIRE(job);
  return *job;
}

/// What is wrong with the sample job when obstructions follow it, from line 58 on.
std::string message_after_sample(std::string_view obstructions) {
  const auto job = read_job(std::string(k_sample_job) + std::string(obstructions), "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

/// An obstruction of six lines.
std::string small_box(std::string_view name) {
  return fmt::format(
      "[[obstructions]]\nname = \"{}\"\nfrom = {{ north = 0, east = \"1 m\" }}\n"
      "width = \"1 m\"\ndepth = \"20 cm\"\ntop = \"2 m\"\n",
      name);
}

/// So many posts that stand apart.
std::string posts(int count) {
  std::string text;
  for (int i = 0; i < count; ++i) {
    text += fmt::format(
        "[[obstructions]]\nname = \"post {}\"\nfrom = {{ north = \"{} cm\", east = \"{} cm\" }}\n"
        "width = \"10 cm\"\ndepth = \"10 cm\"\ntop = \"2 m\"\n",
        i, 10 * (i % 20), 10 * (i / 20));
  }
  return text;
}

constexpr std::string_view k_bottom_to_reflectance =
    "bottom = \"4in\"\ntop = \"36in\"\nturn = 30\nreflectance = \"40 %\"\n";

}  // namespace

TEST_CASE("read obstructions: left alone, one stands on the floor, unturned, and sends back half of the light",
          "[job][exact]") {
  const auto box = job_from(sample_with(k_bottom_to_reflectance, "top = \"36in\"\n")).obstructions[0];
  CHECK(box.bottom_m == 0);
  CHECK(box.turn_deg == 0);
  CHECK(box.reflectance == 0.5);
}

TEST_CASE("read obstructions: one may reach beyond a wall and up to the ceiling", "[job][exact]") {
  // 14 ft wide and 6 ft from the west wall of a room that is 18 ft 2 in wide.
  CHECK(job_from(sample_with("\"7ft\"", "\"14ft\"")).obstructions[0].width_m == 4.2672);
  const auto tall = job_from(sample_with("\"36in\"", "\"96in\""));
  CHECK(tall.obstructions[0].top_m == tall.room.ceiling_m);
}

TEST_CASE("read obstructions: they keep the order of the file", "[job][exact]") {
  const auto job = job_from(std::string(k_sample_job) + small_box("beam"));
  REQUIRE(job.obstructions.size() == 2);
  CHECK(job.obstructions[0].name == "island");
  CHECK(job.obstructions[1].name == "beam");
}

TEST_CASE("read obstructions: a job has none to 500", "[job][exact]") {
  CHECK(job_from("obstructions = []\n" + std::string(k_sample_job.substr(0, k_sample_job.find("\n[[obstructions]]"))))
            .obstructions.empty());
  CHECK(job_from(std::string(k_sample_job) + posts(499)).obstructions.size() == 500);
  CHECK(message_after_sample(posts(500)) ==
        "den.toml:49:1: the job has 501 obstructions\nhint: a job has at most 500 obstructions\n");
}

TEST_CASE("read obstructions: at most 500 pairs of them run into each other", "[job][exact]") {
  std::string boxes;
  for (int i = 0; i < 32; ++i) boxes += small_box(fmt::format("box {}", i));  // in one place: 496 pairs
  CHECK(job_from(std::string(k_sample_job) + boxes).obstructions.size() == 33);
  CHECK(message_after_sample(boxes + small_box("one more")) ==
        "den.toml:49:1: 528 pairs of obstructions run into each other\n"
        "hint: a job has at most 500 such pairs; draw what is built together as one obstruction\n");
}

TEST_CASE("obstruction mistakes: keys that are missing or unknown", "[job][exact]") {
  CHECK(message_after_sample("[[obstructions]]\n") ==
        "den.toml:58:1: an obstruction in [[obstructions]] has no name\nhint: add a line like name = \"island\"\n"
        "den.toml:58:1: an obstruction in [[obstructions]] has no from\n"
        "hint: write from = { west = \"3ft 3in\", south = \"3ft 3in\" }\n"
        "den.toml:58:1: an obstruction in [[obstructions]] has no width\nhint: add a line like width = \"7ft\"\n"
        "den.toml:58:1: an obstruction in [[obstructions]] has no depth\nhint: add a line like depth = \"3ft\"\n"
        "den.toml:58:1: an obstruction in [[obstructions]] has no top\n"
        "hint: add a line like top = \"36in\": its height above the floor\n");
  CHECK(message_with("turn = 30", "trun = 30") ==
        "den.toml:56:1: an obstruction in [[obstructions]] knows no key \"trun\"\nhint: did you mean \"turn\"?\n");
  CHECK(message_with("turn = 30", "glossiness = 30") ==
        "den.toml:56:1: an obstruction in [[obstructions]] knows no key \"glossiness\"\n"
        "hint: known are name, from, width, depth, bottom, top, turn, reflectance, colour\n");
  CHECK(message_with("[[obstructions]]", "[obstructions]") ==
        "den.toml:49:1: obstructions is a table, not a list\n"
        "hint: write its header in double brackets: [[obstructions]]\n");
}

TEST_CASE("obstruction mistakes: names", "[job][exact]") {
  CHECK(message_with("\"island\"", "\"\"") ==
        "den.toml:50:8: obstruction name is empty\nhint: write it between the quotes\n");
  CHECK(message_after_sample(small_box("island")) ==
        "den.toml:59:8: two obstructions are named \"island\"\nhint: give each obstruction its own name\n");
}

TEST_CASE("obstruction mistakes: places", "[job][exact]") {
  CHECK(message_with("{ west = \"6ft\", south = \"5ft\" }", "{ west = \"6ft\" }") ==
        "den.toml:51:8: the obstruction is to be measured from 2 walls, not from 1\n"
        "hint: write from = { west = \"3ft 3in\", south = \"3ft 3in\" }\n");
  CHECK(message_with("west = \"6ft\"", "wets = \"6ft\"") ==
        "den.toml:51:10: the room has no wall \"wets\"\nhint: did you mean \"west\"?\n");
  CHECK(
      message_with("west = \"6ft\", south", "west = \"6ft\", east") ==
      "den.toml:51:8: walls \"west\" and \"east\" are parallel\nhint: measure from two walls that meet at an angle\n");
  CHECK(message_with("west = \"6ft\"", "west = \"-6ft\"") ==
        "den.toml:51:17: distance from wall \"west\" \"-6ft\" is below 0\nhint: allowed: at least 0, at most 1 km\n");
  // 15 ft and half of 7 ft are 18 ft 6 in from the west wall; the room is 18 ft 2 in wide.
  CHECK(message_with("west = \"6ft\"", "west = \"15ft\"") ==
        "den.toml:51:8: the obstruction's centre is 4\" outside the room\n"
        "hint: each distance is square to its wall, from the wall into the room\n");
}

TEST_CASE("obstruction mistakes: a wall is checked although a distance and the size cannot be read", "[job][exact]") {
  CHECK(message_with("west = \"6ft\", south = \"5ft\" }\nwidth = \"7ft\"", "wets = 6, south = \"5ft\" }\nwidth = 7") ==
        "den.toml:51:10: the room has no wall \"wets\"\nhint: did you mean \"west\"?\n"
        "den.toml:51:17: distance from wall \"wets\" 6 has no unit\n"
        "hint: write the unit too, in quotes: \"6 in\", \"6 ft\" or \"6 m\"\n"
        "den.toml:52:9: obstruction width 7 has no unit\n"
        "hint: write the unit too, in quotes: \"7 in\", \"7 ft\" or \"7 m\"\n");
}

TEST_CASE("obstruction mistakes: sizes and heights", "[job][exact]") {
  CHECK(message_with("\"7ft\"", "0") ==
        "den.toml:52:9: obstruction width 0 is below 1 mm\nhint: allowed: at least 1 mm, at most 1 km\n");
  CHECK(message_with("\"3ft\"", "\"-3ft\"") ==
        "den.toml:53:9: obstruction depth \"-3ft\" is below 1 mm\nhint: allowed: at least 1 mm, at most 1 km\n");
  CHECK(message_with("\"4in\"", "\"-1in\"") ==
        "den.toml:54:10: obstruction bottom \"-1in\" is below 0\nhint: allowed: at least 0, at most 1 km\n");
  CHECK(message_with("\"36in\"", "\"2 km\"") ==
        "den.toml:55:7: obstruction top \"2 km\" is not a length\n"
        "hint: write feet and inches like 12ft 6-3/8in, or metres like 3.81 m\n");
  CHECK(message_with("\"36in\"", "\"3600ft\"") ==
        "den.toml:55:7: obstruction top \"3600ft\" is above 1 km\nhint: allowed: at least 0, at most 1 km\n");
  const std::string heights = "hint: top and bottom are heights above the floor\n";
  CHECK(message_with("\"36in\"", "\"4in\"") ==
        "den.toml:55:7: the obstruction's top at 4\" is not at least 1 mm above its bottom at 4\"\n" + heights);
  CHECK(message_with("\"36in\"", "\"3in\"") ==
        "den.toml:55:7: the obstruction's top at 3\" is not at least 1 mm above its bottom at 4\"\n" + heights);
  CHECK(message_with("\"36in\"", "\"8ft 1/2in\"") ==
        "den.toml:55:7: the obstruction's top at 8' 0-1/2\" is above the ceiling at 8' 0\"\n"
        "hint: what reaches the ceiling has its height as top\n");
}

TEST_CASE("obstruction mistakes: turn and reflectance", "[job][exact]") {
  CHECK(message_with("turn = 30", "turn = 361") ==
        "den.toml:56:8: obstruction turn 361 is above 360\nhint: allowed: at least -360, at most 360\n");
  CHECK(message_with("\"40 %\"", "\"LRV 100\"") ==
        "den.toml:57:15: obstruction reflectance \"LRV 100\" is not below 1\n"
        "hint: write the part of the light that comes back: 0 to below 1, a white ceiling about 0.8\n");
  CHECK(message_with("\"40 %\"", "40") ==
        "den.toml:57:15: obstruction reflectance 40 is above 1\n"
        "hint: a fraction is 0 to 1; for 40 percent write \"40 %\"\n");
}

TEST_CASE("obstruction mistakes: a metric job is answered in metres", "[job][exact]") {
  auto text = sample_with("\"36in\"", "\"3 m\"");
  text.replace(text.find("imperial"), 8, "metric");
  const auto job = read_job(text, "den.toml");
  REQUIRE_FALSE(job);
  // 8 ft = 2.4384 m
  CHECK(text_of(job.error()) ==
        "den.toml:55:7: the obstruction's top at 3.00 m is above the ceiling at 2.438 m\n"
        "hint: what reaches the ceiling has its height as top\n");
}
