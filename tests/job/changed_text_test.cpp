#include "evenlit/job/changed_text.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "evenlit/job/read_job.hpp"
#include "evenlit/job/walls.hpp"
#include "evenlit/job/write_job.hpp"
#include "random_jobs.hpp"
#include "sample_job.hpp"

using namespace evenlit;
using nlohmann::ordered_json;

namespace {

std::string changed(const std::string& text, const ordered_json& changes) {
  const std::string list = changes.dump();
  const auto result = changed_text({text, "den.toml"}, {list, "changes.json"});
  INFO(list << "\n" << (result ? std::string{} : text_of(result.error().problems, result.error().changed)));
  REQUIRE(result);
  CHECK(result->done.size() == changes.size());
  return result->bytes;
}

Job job_of(const std::string& text) {
  const auto job = read_job(text, "den.toml");
  REQUIRE(job);
  return *job;
}

/// The one problem of changes to the sample job.
Problem refusal(const std::string& list) {
  const auto result = changed_text({k_sample_job, "den.toml"}, {list, "changes.json"});
  INFO(list);
  REQUIRE_FALSE(result);
  CHECK(result.error().problems.size() == 1);
  return result.error().problems.front();
}

std::string with(std::string text, const std::string& old, const std::string& now) {
  const auto at = text.find(old);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), now);
}

/// Half of a tape's step, both ways, and rounding.
double tape_error_m(Units units) { return (units == Units::metric ? 0.001 : 0.0254 / 16) / std::sqrt(2.0) + 1e-9; }

const std::string k_small = R"(units = "imperial"

[room]
name = "Den"          # the old one
width = "12ft"
depth = "10ft"
ceiling = "8ft"

# What the can is.
[can_types.spot]
beam = { lumens = 900, angle = 60 }

# Over the desk.
[[cans]]
type = "spot"
from = { west = "4ft",   south = "3ft" }   # taped twice

# Over the door,
# where it is dark.
[[cans]]
type = "spot"
from = { north = "4ft", east = "3ft" }

# The last words.
)";

}  // namespace

TEST_CASE("changed text: values, keys and tables come where a person would write them", "[job][exact]") {
  CHECK(changed(k_small, {{{"set", {"room", "width"}}, {"value", "13ft"}}}) == with(k_small, "12ft", "13ft"));
  CHECK(changed(k_small, {{{"set", {"target"}}, {"value", "20 fc"}}}) ==
        with(k_small, "\"imperial\"\n", "\"imperial\"\ntarget = \"20 fc\"\n"));
  CHECK(changed(k_small, {{{"set", {"can_types", "spot", "watts"}}, {"value", 10.5}}}) ==
        with(k_small, "angle = 60 }\n", "angle = 60 }\nwatts = 10.5\n"));
  CHECK(changed(k_small, {{{"set", {"can_types", "spot", "beam", "cut_off"}}, {"value", 100}}}) ==
        with(k_small, "angle = 60 }", "angle = 60, cut_off = 100 }"));
  CHECK(changed(k_small, {{{"set", {"finishes", "walls"}}, {"value", "LRV 60"}}}) ==
        k_small + "\n[finishes]\nwalls = \"LRV 60\"\n");
  CHECK(changed(k_small, {{{"set", {"can_types", "big"}}, {"value", {{"beam", {{"lumens", 1}, {"angle", 9}}}}}}}) ==
        with(k_small, "angle = 60 }\n", "angle = 60 }\n\n[can_types.big]\nbeam = { lumens = 1, angle = 9 }\n"));
}

TEST_CASE("changed text: cans are added behind the last, taken away with their comments, moved by their tapes",
          "[job][exact]") {
  const ordered_json can{{"type", "spot"}, {"from", {{"west", "1ft"}, {"south", "2ft"}}}};
  CHECK(changed(k_small, {{{"add", {"cans"}}, {"value", can}}}) ==
        with(k_small, "east = \"3ft\" }\n",
             "east = \"3ft\" }\n\n[[cans]]\ntype = \"spot\"\nfrom = { west = \"1ft\", south = \"2ft\" }\n"));
  CHECK(changed(k_small, {{{"remove", {"cans", 0}}}}) == with(k_small, R"(# Over the desk.
[[cans]]
type = "spot"
from = { west = "4ft",   south = "3ft" }   # taped twice

)",
                                                              ""));
  // 4 ft 1/32 in and 3 ft: the first is read to the nearest 1/16 in, the second stays as it is written.
  const double x_m = (4 * 12 + 3.0 / 64) * 0.0254;
  CHECK(changed(k_small, {{{"move", {"cans", 0}}, {"to_m", {x_m, 0.9144}}}}) ==
        with(k_small, "west = \"4ft\"", "west = \"4ft 0-1/16in\""));
  CHECK(changed(k_small, {{{"move", {"cans", 0}}, {"to_m", {1.2192, 0.9144}}}}) == k_small);
  const std::string replaced = changed(
      k_small,
      {{{"cans",
         {{{"type", "spot"}, {"x_m", 1}, {"y_m", 1}, {"level", 0.5}}, {{"type", "spot"}, {"x_m", 3}, {"y_m", 2.5}}}}}});
  const Job job = job_of(replaced);
  REQUIRE(job.cans.size() == 2);
  CHECK(job.cans[0].level == 0.5);
  CHECK(job.cans[1].from[0].wall == "east");
  CHECK(job.cans[1].from[1].wall == "north");
  CHECK((*plan_position(job.room, job.cans[1]) - Eigen::Vector2d(3, 2.5)).norm() <= tape_error_m(job.units));
  CHECK_THAT(replaced, Catch::EndsWith("# The last words.\n"));
}

TEST_CASE("changed text: line ends and a byte order mark are kept", "[job][exact]") {
  std::string returns;
  for (const char c : k_small) returns += c == '\n' ? "\r\n" : std::string(1, c);
  const auto list =
      ordered_json{{{"set", {"target"}}, {"value", "20 fc"}},
                   {{"set", {"wanted", "watts"}}, {"value", 60}},
                   {{"add", {"cans"}}, {"value", {{"type", "spot"}, {"from", {{"west", 0}, {"south", 0}}}}}}};
  const std::string by_returns = changed(returns, list);
  CHECK(std::ranges::count(by_returns, '\n') == std::ranges::count(by_returns, '\r'));
  CHECK(std::ranges::count(by_returns, '\n') == std::ranges::count(k_small, '\n') + 8);
  const std::string marked = "\xef\xbb\xbf" + k_small;
  CHECK(changed(marked, list) == "\xef\xbb\xbf" + changed(k_small, list));
  const std::string cut = k_small.substr(0, k_small.size() - 1);
  CHECK(changed(cut, {{{"set", {"wanted", "watts"}}, {"value", 60}}}) == k_small + "\n[wanted]\nwatts = 60\n");
}

TEST_CASE("changed text: the job that is read has the one field changed", "[job][property]") {
  RandomJobs jobs(11);
  for (int i = 0; i < 60; ++i) {
    Job job = jobs.next();
    const std::string text = write_job(job);
    const std::size_t can = static_cast<std::size_t>(i) % job.cans.size();
    ordered_json changes{{{"set", {"cans", can, "level"}}, {"value", 0.25}},
                         {{"set", {"finishes", "walls"}}, {"value", 0.125}},
                         {{"set", {"room", "name"}}, {"value", "a \"name\"\n"}}};
    job.cans[can].level = 0.25;
    job.finishes.walls = 0.125;
    job.room.name = "a \"name\"\n";
    if (!job.points.empty()) {
      changes.push_back({{"remove", {"points", job.points.size() - 1}}});
      job.points.pop_back();
    }
    Can added;
    added.type = job.can_types.front().name;
    added.from[0] = {job.room.wall_names.front(), 0.3048};
    added.from[1] = {job.room.wall_names.back(), 0.5};
    job.cans.push_back(added);
    changes.push_back(
        {{"add", {"cans"}},
         {"value", {{"type", added.type}, {"from", {{added.from[0].wall, "1ft"}, {added.from[1].wall, "0.5 m"}}}}}});
    INFO(text);
    CHECK(job_of(changed(text, changes)) == job);
  }
}

TEST_CASE("changed text: what is moved stands at the place, to what a tape shows, from the same walls",
          "[job][property]") {
  RandomJobs jobs(13);
  std::mt19937_64 random(17);
  std::uniform_real_distribution any(0.6, 0.9);
  int moved = 0;
  for (int i = 0; i < 60; ++i) {
    const Job job = jobs.next();
    const std::string text = write_job(job);
    const Eigen::Vector2d to = job.room.corners_m.front() + Eigen::Vector2d(any(random), any(random));
    const auto is_there = [&](const std::optional<Eigen::Vector2d>& place) {
      return place && (*place - to).norm() <= tape_error_m(job.units);
    };
    const auto after = [&](const char* list) {
      ++moved;
      return job_of(changed(text, {{{"move", {list, 0}}, {"to_m", {to.x(), to.y()}}}}));
    };
    INFO(text);
    const Job cans = after("cans");
    CHECK(is_there(plan_position(job.room, cans.cans[0])));
    CHECK(cans.cans[0].from[0].wall == job.cans[0].from[0].wall);
    if (!job.points.empty()) CHECK(is_there(plan_position(job.room, after("points").points[0])));
    if (!job.seats.empty()) CHECK(is_there(plan_position(job.room, after("seats").seats[0].from)));
    if (!job.views.empty()) CHECK(is_there(plan_position(job.room, after("views").views[0].from)));
    if (!job.fans.empty()) CHECK(is_there(plan_position(job.room, after("fans").fans[0].from)));
    if (!job.obstructions.empty()) CHECK(is_there(plan_centre(job.room, after("obstructions").obstructions[0])));
    if (job.keep_outs.empty()) continue;
    const Job keep_outs = after("keep_outs");
    if (const auto* rectangle = std::get_if<TapedRectangle>(&keep_outs.keep_outs[0].shape)) {
      CHECK(is_there(plan_centre(job.room, *rectangle)));
    } else if (const auto* circle = std::get_if<TapedCircle>(&keep_outs.keep_outs[0].shape)) {
      CHECK(is_there(plan_position(job.room, circle->from)));
    } else {
      const auto& corners = std::get<Polygon>(keep_outs.keep_outs[0].shape);
      const auto& before = std::get<Polygon>(job.keep_outs[0].shape);
      CHECK(is_there(Eigen::Vector2d(bounds_of(corners).center())));
      // Lengths are written to some 1e-7 m where a tape shows them.
      for (std::size_t k = 0; k < corners.size(); ++k) {
        CHECK((corners[k] - corners[0] - before[k] + before[0]).norm() < 1e-6);
      }
    }
  }
  CHECK(moved > 200);
}

TEST_CASE("changed text: things on a wall go along it as near to the place as they can", "[job][exact]") {
  const std::string text = k_small + R"(
[[wall_areas]]
name = "door"
wall = "south"
from = { east = "1ft" }
width = "3ft"
top = "7ft"
reflectance = 0.4
)";
  const auto along = [&](double x_m) {
    return job_of(changed(text, {{{"move", {"wall_areas", 0}}, {"to_m", {x_m, 1}}}})).wall_areas[0].from.distance_m;
  };
  // The south wall is 12 ft long: a door of 3 ft whose middle is at 4 ft leaves 6 ft 6 in to the east wall.
  CHECK(along(4 * 0.3048) == Approx(6.5 * 0.3048).margin(1e-12));
  CHECK(along(-5) == Approx(9 * 0.3048).margin(1e-12));
  CHECK(along(50) == 0);
}

TEST_CASE("changed text: what cannot be changed is told with its number and what to write", "[job][exact]") {
  const auto check = [](const std::string& list, const std::string& what, const std::string& hint) {
    const Problem problem = refusal(list);
    CHECK(problem.place.file == "changes.json");
    CHECK_THAT(problem.what, Catch::Contains(what));
    CHECK_THAT(problem.hint, Catch::Contains(hint));
  };
  check("[{\"remove\": [\"target\"]}, {\"remove\": [\"cans\", 9]}]", "change 2: there is no cans[9]",
        "from number 0 on");
  check(R"([{"set": ["cans", 9, "level"], "value": 1}])", "change 1: there is no cans[9]", "appends an element");
  check(R"([{"remove": ["finishs"]}])", "there is no finishs", "did you mean \"finishes\"?");
  check(R"([{"set": ["units", "x"], "value": 1}])", "there is no units.x", "has no parts");
  check(R"([{"set": ["target"], "value": null}])", "null is no value", "remove");
  check(R"([{"set": ["target"], "value": [[[[[[[[[1]]]]]]]]]}])", "nested too deeply", "");
  check(R"([{"set": ["target"]}])", "\"set\" has no \"value\"", "\"value\": V");
  check(R"([{"put": ["target"], "value": 1}])", "this is no change", "{\"set\": PATH");
  check(R"([{"remove": ["target"], "value": 1}])", "\"value\" stands beside \"remove\"", "PATH");
  check(R"([3])", "this is no change", "PATH");
  check(R"([{"remove": ["cans", -1]}])", "names no path", "from 0 on");
  check(R"([{"remove": []}])", "names no path", "from 0 on");
  check(R"([{"add": ["room"], "value": {}}])", "room is no list", "set");
  check(R"([{"add": ["cans"], "value": 1}])", "an element of cans is no table", "type");
  check(R"([{"move": ["cans", 0], "to_m": [1]}])", "is no place of the plan", "to_m");
  check(R"([{"move": ["cans", 9], "to_m": [1, 1]}])", "there is no cans[9]", "from number 0 on");
  check(R"([{"cans": []}])", "is no list of cans", "x_m");
  check(R"([{"cans": [{"type": "spot", "x_m": 1}]}])", "element 0 of \"cans\" is no can", "y_m");
  check(R"([{"cans": [{"type": "spot", "x_m": -900, "y_m": -900}]}])", "is outside the room", "east and north");
  check(R"({"remove": ["target"]})", "this is no array", "in brackets");
  check(R"([{"set": ["target"], "value": 1e999}])", "too large", "");
  check("[{\"add\": [\"cans\"], \"value\": " + std::string(300000, '[') + std::string(300000, ']') + "}]",
        "nested too deeply", "");
  CHECK(refusal("[\n {\"remove\" 3}]").place.line == 2);
  const Problem behind = refusal(R"([{"move": ["cans", 0], "to_m": [-1, 1]}])");
  CHECK(behind.place.file == "den.toml, changed");
  CHECK_THAT(behind.what,
             Catch::Contains("change 1: there cans[0] would reach") && Catch::Contains("behind wall \"west\""));
  CHECK_THAT(refusal(R"([{"move": ["room"], "to_m": [1, 1]}])").what,
             Catch::Contains("has no place that can be moved"));
  const Problem read = refusal(R"([{"set": ["room", "celing"], "value": "8ft"}])");
  CHECK(read.place.file == "den.toml, changed");
  CHECK(read.place.line > 0);
  CHECK_THAT(read.hint, Catch::Contains("did you mean \"ceiling\"?"));
}
