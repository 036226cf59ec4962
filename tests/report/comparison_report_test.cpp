#include "evenlit/report/comparison_report.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "evenlit/base/light_units.hpp"
#include "evenlit/base/utf8.hpp"

using namespace evenlit;

namespace {

/// Rows with made-up figures, such as a job of 4 m by 3 m could have.
Comparison sample() {
  ComparedLayout own{
      .layout = {.name = "as in the job", .type = "round", .wall_offset_m = {0.9, 0.6}, .positions_m = {{0.9, 0.6}}},
      .statistics = {.average_lx = 120, .minimum_lx = 30, .p10_lx = 40, .uniformity_min_avg = 0.25},
      .average_error_lx = 0.2,
      .minimum_error_lx = 0.1,
      .wants = {{.kind = Want::Kind::average, .wanted = 200, .has = {120, 0.2}}}};
  ComparedLayout even{.layout = {.name = "row of 2, even",
                                 .type = "round",
                                 .rows = 1,
                                 .columns = 2,
                                 .spacing_m = {2, 3},
                                 .wall_offset_m = {1, 1.5},
                                 .positions_m = {{1, 1.5}, {3, 1.5}}},
                      .statistics = {.average_lx = 240,
                                     .minimum_lx = 120,
                                     .p10_lx = 144.4,
                                     .uniformity_min_avg = 0.5,
                                     .share_at_target = 0.75},
                      .average_error_lx = 0.2,
                      .minimum_error_lx = 0.1,
                      .floor_area_m2 = 12,
                      .watts = 24,
                      .wants = {{.kind = Want::Kind::average, .wanted = 200, .has = {240, 0.2}}},
                      .misfits = 1};
  return {.type = "round", .others = 1, .rows = {own, even}, .fewest = 2, .left_out = {"ring"}};
}

Job sample_job(Units units) {
  return {.units = units, .room = {.name = "Study", .corners_m = {{0, 0}, {4, 0}, {4, 3}, {0, 3}}}, .target_lx = 200};
}

/// No layout of seven was found.
WishedLayouts without_seven() { return {.choice = {.without_layout = {7}}}; }

/// With the lines of paragraphs joined.
std::string unbroken(const std::string& text) {
  std::string joined;
  for (std::size_t at = 0; at < text.size();) {
    const bool goes_on = text.compare(at, 3, "\n  ") == 0;
    joined += goes_on ? ' ' : text[at];
    at += goes_on ? 3 : 1;
  }
  return joined;
}

std::string line_with(const std::string& text, const std::string& start) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(start)) return line;
  }
  return {};
}

}  // namespace

TEST_CASE("the report of layouts shows rows in the job's units and marks the fewest cans", "[report][exact]") {
  const std::string text = comparison_text(sample_job(Units::metric), sample(), without_seven(), {});
  CHECK(text.starts_with("Study: layouts of \"round\" side by side.\n"));
  CHECK(line_with(text, "  1  as in the job") ==
        "  1  as in the job               1   120  30.0    0.25  40.0       -      -    -");
  CHECK(line_with(text, "  2* row of 2, even") ==
        "  2* row of 2, even              2   240   120    0.50   144    75 %   2.00    1");
  CHECK(text.find("  2 row of 2, even                 2.00 m            -       1.00 m       1.50 m\n") !=
        std::string::npos);
  CHECK(text.find("reach 200 lx (18.6 fc) on average: 2, in the layouts\n") != std::string::npos);
  CHECK(text.find("1 more of the job stays in") != std::string::npos);
  CHECK(text.find("No layout by these rules has 7 cans in this plan.\n") != std::string::npos);
  CHECK(text.find("inside of an obstruction: ring.\n") != std::string::npos);
  CHECK(text.find("evenlit holes") != std::string::npos);
  CHECK(text.find("licensed") != std::string::npos);

  // 240 lx / 10.7639 = 22.30 fc; 2 W/m2 = 0.1858 W/ft2.
  const std::string imperial = comparison_text(sample_job(Units::imperial), sample(), {}, {});
  CHECK(line_with(imperial, "  2* row of 2, even") ==
        "  2* row of 2, even              2  22.3  11.1    0.50  13.4    75 %  0.186    1");
  for (const std::string& report : {text, imperial}) {
    std::istringstream lines(report);
    for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);
  }
}

TEST_CASE("the report of layouts tells when the target is not reached, or not set", "[report][exact]") {
  Comparison comparison = sample();
  comparison.fewest.reset();
  comparison.rows[1].wants.front().wanted = 300;
  Job job = sample_job(Units::metric);
  const std::string missed = comparison_text(job, comparison, {}, {});
  CHECK(missed.find("None of these reaches 200 lx (18.6 fc) on average.\n") != std::string::npos);
  CHECK(missed.find("2* ") == std::string::npos);
  comparison.rows[0].wants.push_back({.kind = Want::Kind::minimum, .wanted = 50, .has = {30, 0.1}});
  CHECK(comparison_text(job, comparison, {}, {}).find("None of these gives all that is wanted.\n") !=
        std::string::npos);
  job.target_lx.reset();
  for (ComparedLayout& row : comparison.rows) row.wants.clear();
  CHECK(comparison_text(job, comparison, {}, {}).find("No target is set.\n") != std::string::npos);
}

TEST_CASE("the report of layouts tells how the moved ones move", "[report][exact]") {
  Comparison comparison = sample();
  CHECK(comparison_text(sample_job(Units::metric), comparison, {}, {}).find("Moves") == std::string::npos);
  ComparedLayout all = comparison.rows[1];
  all.layout.name = "row of 2, even, moved";
  all.moves = {{.part = PartMove::Part::all, .by_m = {-6 * 0.0254, 0}}};
  ComparedLayout parts = all;
  parts.layout.name = "two rows, moved";
  parts.moves = {{PartMove::Part::row, 1, {0, -1.5 * 0.0254}}, {PartMove::Part::column, 3, {0.0254, 2 * 0.0254}}};
  parts.layout.spacing_m.x() = 0;
  parts.is_spacing_even = false;
  parts.symmetry = MovedLayout::Symmetry::lost;
  comparison.rows = {comparison.rows[1], all, parts};
  comparison.stuck = {"round the walls, 3 x 4"};
  const std::string text = comparison_text(sample_job(Units::imperial), comparison, {}, {});
  CHECK(line_with(text, "  2*   moved") ==
        "  2*   moved                     2  22.3  11.1    0.50  13.4    75 %  0.186    1");
  CHECK(text.find("  3   moved                        uneven            -") != std::string::npos);
  CHECK(text.find("\nMoves\n") != std::string::npos);
  CHECK(
      text.find("row of 2, even, moved: all 6\" W; keeps its spacing. Average 22.3 -> 22.3 fc,\n  minimum 11.1 -> 11.1 "
                "fc, min/avg 0.50 -> 0.50.\n") != std::string::npos);
  CHECK(text.find(
            "two rows, moved: row 1 by 1-1/2\" S, column 3 by 1\" E and 2\" N; spacing becomes\n  uneven, no longer "
            "symmetric. Average") != std::string::npos);
  CHECK(text.find("round the walls, 3 x 4: moving all, its rows or its columns by up to 1' 0\"") != std::string::npos);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);

  const auto json = nlohmann::json::parse(comparison_json(sample_job(Units::imperial), comparison, {}, {}));
  CHECK(json["layouts"][0]["moves"].empty());
  CHECK(json["layouts"][2]["columns"] == 2);
  CHECK(json["layouts"][2]["spacing_x_m"].is_null());
  CHECK(json["layouts"][1]["moves"][0]["part"] == "all");
  CHECK(json["layouts"][1]["moves"][0]["number"].is_null());
  CHECK(json["layouts"][1]["moves"][0]["east_m"] == -0.1524);
  CHECK(json["layouts"][0]["moved"].is_null());
  CHECK(json["layouts"][1]["moved"]["is_as_symmetric"].is_null());
  CHECK(json["layouts"][2]["moved"]["is_as_straight"] == true);
  CHECK(json["layouts"][2]["moved"]["is_spacing_as_even"] == false);
  CHECK(json["layouts"][2]["moved"]["is_as_symmetric"] == false);
  CHECK(json["layouts"][2]["moves"][1]["part"] == "column");
  CHECK(json["layouts"][2]["moves"][1]["number"] == 3);
  CHECK(json["layouts"][2]["moves"][1]["north_m"] == 0.0508);
  CHECK(json["not_cleared"] == nlohmann::json{"round the walls, 3 x 4"});
}

TEST_CASE("the report of layouts tells what moves look like, in a turned room along its rows", "[report][exact]") {
  Comparison comparison = sample();
  ComparedLayout moved = comparison.rows[1];
  moved.layout.name = "moved";
  const auto told = [&](const PartMove& move, bool is_even, bool is_straight, MovedLayout::Symmetry symmetry) {
    moved.moves = {move};
    moved.is_spacing_even = is_even;
    moved.is_straight = is_straight;
    moved.symmetry = symmetry;
    comparison.rows = {comparison.rows[0], moved};
    const std::string text = comparison_text(sample_job(Units::imperial), comparison, {}, {});
    const std::size_t begin = text.find("  moved: ") + 9;
    return text.substr(begin, text.find(". Average") - begin);
  };
  using Part = PartMove::Part;
  using Symmetry = MovedLayout::Symmetry;
  const Eigen::Vector2d inch{0.0254, 0};
  CHECK(told({Part::all, 0, inch}, true, true, Symmetry::lost) == "all 1\" E; keeps its spacing, no longer centred");
  CHECK(told({Part::column, 1, inch}, true, true, Symmetry::kept) ==
        "column 1 by 1\" E; keeps equal spacing and symmetry");
  CHECK(told({Part::column, 2, inch}, false, true, Symmetry::kept) ==
        "column 2 by 1\" E; spacing becomes uneven, still symmetric");
  CHECK(told({Part::row, 2, inch}, false, false, Symmetry::absent) ==
        "row 2 by 1\" E; spacing becomes uneven, no longer straight");
  CHECK(told({Part::can, 5, inch}, false, false, Symmetry::lost) == "can 5 by 1\" E; single cans leave their rows");
  // Three inches along rows that run 3 : 4, and four square to them.
  moved.layout.along = {0.8, 0.6};
  CHECK(told({Part::all, 0, 0.0254 * Eigen::Vector2d(3 * 0.8 - 4 * 0.6, 3 * 0.6 + 4 * 0.8)}, true, true,
             Symmetry::absent) == "all 3\" NE and 4\" NW; keeps its spacing");
}

TEST_CASE("the report of layouts tells the parts of a plan and what rules of thumb choose", "[report][exact]") {
  Comparison comparison = sample();
  ComparedLayout& in_parts = comparison.rows[1];
  in_parts.layout.parts = {{{1, 1.5}, 1, 2, {1, 3}}, {{3, 1.5}, 3, 1, {2, 1}}};
  const RuleOfThumb by_row{.name = "row", .reckoning = "Two in a row.", .count = 2, .layout = in_parts.layout};
  const RuleOfThumb silent{.name = "silent", .reckoning = "By the stars.", .lacks = "It is cloudy."};
  const std::string text = comparison_text(sample_job(Units::metric), comparison, {.rules = {by_row, silent}}, {});
  CHECK(text.find("      W: 1 row of 2              1.00 m            -\n") != std::string::npos);
  CHECK(text.find("      E: column of 3                  -       1.00 m\n") != std::string::npos);
  // 240 lx are a fifth more than 200 lx.
  CHECK(line_with(text, "  row  ") == "  row                   2        2    240    120     +20 %  as few as any");
  CHECK(line_with(text, "  silent  ") == "  silent                -        -      -      -         -  -");
  CHECK(text.find("  silent: By the stars. It is cloudy.\n") != std::string::npos);

  const auto json =
      nlohmann::json::parse(comparison_json(sample_job(Units::metric), comparison, {.rules = {by_row, silent}}, {}));
  CHECK(json["rules_of_thumb"][0]["layout"] == "row of 2, even");
  CHECK(json["rules_of_thumb"][0]["average_above_target_fraction"] == 0.2);
  CHECK(json["rules_of_thumb"][0]["cans_more_than_fewest"] == 0);
  CHECK(json["rules_of_thumb"][1]["cans"].is_null());
  CHECK(json["rules_of_thumb"][1]["lacks"] == "It is cloudy.");
  CHECK(json["layouts"][1]["parts"][0]["spacing_x_m"] == 1);
  CHECK(json["layouts"][1]["parts"][0]["spacing_y_m"].is_null());
}

TEST_CASE("layouts as JSON", "[report][exact]") {
  const auto json = nlohmann::json::parse(comparison_json(sample_job(Units::metric), sample(), without_seven(), {}));
  CHECK(json["format"] == "evenlit compare");
  CHECK(json["fewest_cans_at_target"] == 2);
  CHECK(json["counts_without_layout"] == nlohmann::json{7});
  CHECK(json["left_out"] == nlohmann::json{"ring"});
  REQUIRE(json["layouts"].size() == 2);
  const auto& own = json["layouts"][0];
  CHECK(own["rows"].is_null());
  CHECK(own["spacing_x_m"].is_null());
  CHECK(own["power_w"].is_null());
  CHECK(own["misfits"].is_null());
  const auto& even = json["layouts"][1];
  CHECK(even["average_lx"] == 240);
  CHECK(even["power_density_w_m2"] == 2);
  CHECK(even["spacing_x_m"] == 2);
  CHECK(even["spacing_y_m"].is_null());
  CHECK(even["positions"][1]["x_m"] == 3);
  CHECK(even["gives_all_wanted"] == true);
}

TEST_CASE("layouts as comma-separated values", "[report][exact]") {
  CHECK(comparison_csv(sample()) ==
        "layout,cans,rows,columns,spacing_x_m,spacing_y_m,wall_offset_x_m,wall_offset_y_m,average_lx,average_fc,"
        "average_error_lx,minimum_lx,minimum_fc,uniformity,p10_lx,p10_fc,share_at_target,watts,watts_per_m2,"
        "watts_per_ft2,misfits,type,cost\n"
        "\"as in the job\",1,,,,,0.900,0.600,120.0,11.15,0.20,30.00,2.787,0.2500,40.00,3.716,,,,,,\"round\",\n"
        "\"row of 2, even\",2,1,2,2.000,,1.000,1.500,240.0,22.30,0.20,120.0,11.15,0.5000,144.4,13.42,0.7500,24.00,"
        "2.000,0.1858,1,\"round\",\n");
}

TEST_CASE("the report of layouts of several types names types and costs", "[report][exact]") {
  Comparison comparison = sample();
  comparison.rows[0].cost = 24.5;
  comparison.rows[1].layout.type = "square_and_long";
  comparison.rows[1].cost = 38;
  const std::string text = comparison_text(sample_job(Units::metric), comparison, {}, {});
  CHECK(text.starts_with("Study: layouts of several can types side by side.\n"));
  CHECK(line_with(text, "  1  as in the job") ==
        "  1  as in the job                   round    1   120  30.0    0.25  $24.50    -");
  CHECK(line_with(text, "  2* row of 2, even") ==
        "  2* row of 2, even           square_and_…    2   240   120    0.50     $38    1");
  CHECK(text.find("The cheapest") == std::string::npos);
  comparison.rows[1].misfits = 0;
  CHECK(unbroken(comparison_text(sample_job(Units::metric), comparison, {}, {}))
            .find("The cheapest that hits nothing: no 2, 2 \"square_and_long\", $38 in all.") != std::string::npos);
  comparison.rows[1].misfits = 1;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);
  const std::string csv = comparison_csv(comparison);
  CHECK(csv.find(",\"round\",24.50\n") != std::string::npos);
  CHECK(csv.find(",1,\"square_and_long\",38.00\n") != std::string::npos);
  comparison.rows[1].layout.name = "2\" more";
  CHECK(comparison_csv(comparison).find("\n\"2\"\" more\",") != std::string::npos);
}

namespace {

/// Average and minimum in every case, and what is given of an average of 200 lx.
LayoutDoubts doubts_with(const std::array<double, 5>& average_lx, double minimum_lx) {
  LayoutDoubts doubts;
  for (std::size_t i = 0; i < doubts.size(); ++i) {
    doubts[i] = {.doubt = k_doubts[i],
                 .average_lx = {average_lx[i], 0.2},
                 .minimum_lx = {minimum_lx, 0.1},
                 .wants = {{.kind = Want::Kind::average, .wanted = 200, .has = {average_lx[i], 0.2}}}};
  }
  return doubts;
}

/// A third layout of three cans beside those of one and two, each in doubt.
Comparison doubted_sample(const std::array<double, 5>& of_two_lx, const std::array<double, 5>& of_three_lx) {
  Comparison comparison = sample();
  ComparedLayout three = comparison.rows[1];
  three.layout.name = "row of 3, even";
  three.layout.positions_m.push_back({2, 1.5});
  three.statistics.average_lx = 360;
  three.wants.front().has = {360, 0.2};
  comparison.rows.push_back(three);
  comparison.rows[0].doubts = doubts_with({100, 96, 119, 0, 80}, 10);
  comparison.rows[1].doubts = doubts_with(of_two_lx, 50);
  comparison.rows[2].doubts = doubts_with(of_three_lx, 60);
  return comparison;
}

}  // namespace

TEST_CASE("the report of layouts in doubt shows what is still given and calls a toss-up one", "[report][exact]") {
  const Comparison comparison = doubted_sample({210, 192, 239, 150, 170}, {320, 288, 358, 250, 256});
  const Job job = sample_job(Units::metric);
  const std::string text = comparison_text(job, comparison, {}, {});
  const std::string part = text.substr(text.find("\nWhat if\n"));
  CHECK(line_with(part, "  1 as in") ==
        "  1 as in the job                 0-120  10.0-30.0  no   no   no   no   no   no");
  CHECK(line_with(part, "  2 row") ==
        "  2 row of 2, even              150-240   50.0-120 yes  yes   no  yes   no   no");
  CHECK(line_with(part, "  3 row") ==
        "  3 row of 3, even              250-360   60.0-120 yes  yes  yes  yes  yes  yes");
  const std::string words = unbroken(part);
  CHECK(
      words.find("A toss-up: 2 cans (no 2, row of 2, even): all that is wanted as drawn, but not with aged lamps or a "
                 "dead can. The fewest that give it in every case: 3 cans (no 3, row of 3, even). Next fewer, 1 can "
                 "(no 1, as in the job): not even as drawn, at best 40 % short.\n") != std::string::npos);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);

  const auto json = nlohmann::json::parse(comparison_json(job, comparison, {}, {}));
  const auto& what_if = json["layouts"][1]["what_if"];
  REQUIRE(what_if.size() == 5);
  CHECK(what_if[0]["case"] == "dark_finishes");
  CHECK(what_if[0]["gives_all_wanted"] == true);
  CHECK(what_if[3]["case"] == "dead_can");
  CHECK(what_if[3]["average_lx"] == 150);
  CHECK(what_if[3]["gives_all_wanted"] == false);
  const auto certain = nlohmann::json::parse(comparison_json(job, sample(), {}, {}));
  CHECK(certain["layouts"][0]["what_if"].is_null());
}

TEST_CASE("the report of layouts in doubt calls what holds in every case decided", "[report][exact]") {
  const Job job = sample_job(Units::metric);
  const auto told = [&](Comparison comparison) { return unbroken(comparison_text(job, comparison, {}, {})); };
  const Comparison sure = doubted_sample({230, 220, 239, 210, 205}, {320, 288, 358, 250, 256});
  CHECK(told(sure).find("Decided: 2 cans (no 2, row of 2, even): all that is wanted in every case. Next fewer, 1 can "
                        "(no 1, as in the job): not even as drawn, at best 40 % short.\n") != std::string::npos);
  const Comparison never = doubted_sample({100, 100, 100, 100, 100}, {320, 288, 358, 199, 256});
  CHECK(told(never).find("No layout here gives it in every case.") != std::string::npos);
  CHECK(told(never).find("Next more, 3 cans (no 3, row of 3, even): not with a dead can.") != std::string::npos);
  Comparison dark = never;
  for (ComparedLayout& row : dark.rows) row.wants.front().has.value = 10;
  CHECK(told(dark).find("No layout here gives all that is wanted, even as drawn.") != std::string::npos);
  for (ComparedLayout& row : dark.rows) row.wants.clear();
  CHECK(told(dark).find("Nothing is wanted: no layout can fall short of it.") != std::string::npos);
  CHECK(told(sample()).find("What if") == std::string::npos);
}

TEST_CASE("the report of jobs tells what each takes and gives of what it wants itself", "[report][exact]") {
  const Comparison comparison = sample();
  std::vector<ComparedJob> jobs;
  for (const ComparedLayout& row : comparison.rows) jobs.push_back({.job = sample_job(Units::metric), .row = row});
  jobs[0].row.floor_area_m2 = 12;
  jobs[1].row.cost = 49;
  const std::string text = jobs_text(jobs, {});
  CHECK(text.starts_with("2 jobs side by side.\n"));
  CHECK(line_with(text.substr(text.find("What each takes")), "  2  ") ==
        "  2  row of 2, even              24.0       $49   12.0 m2  all given");
  CHECK(line_with(text.substr(text.find("What each takes")), "  1  ") ==
        "  1  as in the job                  -         -   12.0 m2  1 of 1 not given");
  CHECK(text.find("  No 1, as in the job: not given: average 120 lx of 200 lx.\n") != std::string::npos);
  CHECK(text.find("  No 2, row of 2, even: given: average 240 lx of 200 lx.\n") != std::string::npos);
  CHECK(text.find("The floors differ") == std::string::npos);
  jobs[1].job.room.corners_m[2] = {5, 3};
  CHECK(jobs_text(jobs, {}).find("The floors differ") != std::string::npos);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);

  const auto json = nlohmann::json::parse(jobs_json(jobs, {}));
  CHECK(json["format"] == "evenlit compare jobs");
  REQUIRE(json["jobs"].size() == 2);
  CHECK(json["jobs"][0]["room"] == "Study");
  CHECK(json["jobs"][0]["floor_area_m2"] == 12);
  CHECK(json["jobs"][0]["wants"][0]["is_met"] == false);
  CHECK(json["jobs"][1]["name"] == "row of 2, even");
  CHECK(json["jobs"][1]["cost"] == 49);
}
