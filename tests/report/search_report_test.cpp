#include "evenlit/report/search_report.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "evenlit/base/utf8.hpp"
#include "lines.hpp"

using namespace evenlit;

namespace {

using Kind = SearchedLayout::Kind;

SearchedLayout layout(Kind kind, const std::string& name, int count, double average_lx, double minimum_lx) {
  SearchedLayout made{.kind = kind};
  made.figures.layout = {
      .name = name, .type = "round", .rows = 1, .columns = count, .spacing_m = {1, 3}, .wall_offset_m = {0.5, 1.5}};
  for (int i = 0; i < count; ++i) made.figures.layout.positions_m.emplace_back(0.5 + i, 1.5);
  made.figures.statistics = {
      .average_lx = average_lx, .minimum_lx = minimum_lx, .uniformity_min_avg = minimum_lx / average_lx};
  made.figures.watts = 9.0 * count;
  made.figures.cost = 24.5 * count;
  made.figures.wants = {
      {.kind = Want::Kind::average, .wanted = 200, .has = {average_lx, 0.5}},
      {.kind = Want::Kind::task_area, .task_area = "writing desk", .wanted = 300, .has = {1.5 * average_lx, 0.5}}};
  made.figures.misfits = 0;
  return made;
}

/// Made-up figures, such as a job of 4 m by 3 m could have.
SearchResult sample() {
  SearchResult result{.cheapest = 2, .are_prices_known = true, .step_m = 0.05, .places = 812, .looked_at = 40123};
  result.layouts = {layout(Kind::own, "as in the job", 4, 260, 90), layout(Kind::brightest, "row of 2", 2, 140, 61),
                    layout(Kind::brightest, "row of 3", 3, 210, 80), layout(Kind::free, "3 placed freely", 3, 205, 95)};
  result.layouts[1].is_choice = true;
  result.layouts[2].is_choice = true;
  result.layouts[3].bound_lx = 120;
  return result;
}

Job sample_job(Units units) {
  Job job{.units = units, .room = {.name = "Study", .corners_m = {{0, 0}, {4, 0}, {4, 3}, {0, 3}}}, .target_lx = 200};
  job.room.wall_names = {"south", "east", "north", "west"};
  return job;
}

}  // namespace

TEST_CASE("the report of a search: rows, the marked one, why not the cheaper one", "[report][exact]") {
  const std::string text = search_text(sample_job(Units::metric), sample(), {});
  CHECK(text.starts_with("Study: the best layouts found.\n"));
  CHECK(line_with(text, "  3 * row of 3") ==
        "   3 * row of 3              3    210   80.0    0.38  27.0  $73.50  nothing");
  CHECK(line_with(text, "  2 + row of 2") ==
        "   2 + row of 2              2    140   61.0    0.44  18.0     $49  avg 30 %");
  CHECK(text.find("gives all that is wanted: no 3, 3 cans, $73.50.\n") != std::string::npos);
  CHECK(text.find("Why not no 2, 2 cans: average 140 lx of 200 lx; writing desk 210 lx of 300 lx.\n") !=
        std::string::npos);
  CHECK(text.find("    0.50 m west, 1.50 m south\n") != std::string::npos);
  CHECK(line_with(text, "  no 4, 3 cans").ends_with("   95.0          120"));
  CHECK(text.find("812 places of a 0.05 m raster") != std::string::npos);
  CHECK(text.find("which are all there are") != std::string::npos);
  CHECK(text.find("licensed") != std::string::npos);
  for (const Units units : {Units::metric, Units::imperial}) {
    std::istringstream lines(search_text(sample_job(units), sample(), {}));
    for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);
  }
}

TEST_CASE("the report of a search: nothing found that will do, nothing wanted, stopped", "[report][exact]") {
  SearchResult result = sample();
  result.cheapest.reset();
  for (SearchedLayout& each : result.layouts) each.figures.wants[0].wanted = 270;
  CHECK(search_text(sample_job(Units::metric), result, {})
            .find("Nothing found gives all that is wanted. Nearest is no 1, 4 cans: average 260") != std::string::npos);
  result.is_whole = false;
  CHECK(search_text(sample_job(Units::metric), result, {}).find("then it was stopped") != std::string::npos);
  for (SearchedLayout& each : result.layouts) each.figures.wants.clear();
  CHECK(search_text(sample_job(Units::metric), result, {}).find("Nothing is wanted: set target") != std::string::npos);
}

TEST_CASE("the report of a search: a can without a hole was held against nothing", "[report][exact]") {
  SearchResult result = sample();
  CHECK(search_text(sample_job(Units::metric), result, {}).find("has no hole") == std::string::npos);
  result.without_hole = {"round"};
  CHECK(search_text(sample_job(Units::metric), result, {}).find("\"round\" has no hole in the job") !=
        std::string::npos);
}

TEST_CASE("the report of a search: types have a column where there are several", "[report][exact]") {
  SearchResult result = sample();
  CHECK(search_text(sample_job(Units::metric), result, {}).find("Type") == std::string::npos);
  result.layouts[1].figures.layout.type = "a very long name of a can";
  const std::string text = search_text(sample_job(Units::metric), result, {});
  CHECK(line_with(text, "row of 2").find("a very l…") != std::string::npos);
}

TEST_CASE("what is wanted, and money, in words", "[report][exact]") {
  const Job job = sample_job(Units::imperial);
  CHECK(want_text({.kind = Want::Kind::minimum, .wanted = 53.82, .has = {21.528, 0.01}}, job) ==
        "minimum 2.00 fc of 5.00 fc");
  CHECK(want_text({.kind = Want::Kind::uniformity, .wanted = 0.4, .has = {0.25, 0.01}}, job) ==
        "minimum / average 0.25 of 0.40");
  CHECK(want_text({.kind = Want::Kind::watts, .wanted = 60, .has = {72, 0}}, job) == "72.0 W, 60.0 W at most");
  CHECK(want_text({.kind = Want::Kind::cost, .wanted = 100, .has = {122.5, 0}}, job) == "$122.50, $100 at most");
  CHECK(money_text(147, "EUR ") == "EUR 147");
  CHECK(money_text(0.999, "$") == "$1");
}

TEST_CASE("a search as JSON", "[report][exact]") {
  const auto json = nlohmann::json::parse(search_json(sample_job(Units::metric), sample(), {}));
  CHECK(json["format"] == "evenlit search");
  CHECK(json["version"] == 1);
  CHECK(json["cheapest_layout"] == 3);
  REQUIRE(json["layouts"].size() == 4);
  CHECK(json["layouts"][0]["kind"] == "own");
  CHECK(json["layouts"][1]["minimum_bound_lx"].is_null());
  CHECK(json["layouts"][3]["minimum_bound_lx"] == 120);
  CHECK(json["layouts"][2]["cost"] == 73.5);
  CHECK(json["layouts"][1]["wants"][1]["task_area"] == "writing desk");
  CHECK(json["layouts"][1]["wants"][1]["is_met"] == false);
  CHECK(json["layouts"][2]["gives_all_wanted"] == true);
  CHECK(json["layouts"][2]["positions"][1]["x_m"] == 1.5);
}
