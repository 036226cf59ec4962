#include "evenlit/placing/comparison.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "ceilings.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "evenlit/placing/hole_check.hpp"

using namespace evenlit;

namespace {

/// 240 in by 160 in with joists; four cans like each other, one dimmed, one that hangs.
const std::string k_room =
    "target = \"15 fc\"\n" +
    bay_job("rating = \"IC\"\nwatts = 9",
            "[can_types.globe]\nbeam = { lumens = 500, angle = 100 }\n" + can_at(64, 40) + can_at(160, 40) +
                can_at(64, 120) + can_at(160, 120) + can_at(32, 80) + "level = \"50 %\"\n" +
                "\n[[cans]]\ntype = \"globe\"\ndrop = \"2ft\"\nfrom = { west = \"120in\", south = \"80in\" }\n");

std::vector<PhotometricFile> files_of(const Job& job) {
  std::vector<PhotometricFile> files;
  for (const CanType& type : job.can_types) files.push_back(synthetic_file(*type.beam).value());
  return files;
}

Grid grid_of(const Job& job) { return work_plane_grid(job.room, job.work_plane, {}).value(); }

Comparison comparison_of(const Job& job, const std::vector<Layout>& layouts) {
  return compared(job, files_of(job), grid_of(job), layouts, {}).value();
}

/// The job with its first four cans elsewhere.
Job laid_out(Job job, const Layout& layout) {
  const Can pattern = job.cans.front();
  job.cans.erase(job.cans.begin(), job.cans.begin() + 4);
  for (const Eigen::Vector2d& place : layout.positions_m) {
    job.cans.push_back(pattern);
    job.cans.back().from[0] = {"west", place.x()};
    job.cans.back().from[1] = {"south", place.y()};
  }
  return job;
}

}  // namespace

TEST_CASE("comparison: each layout has the light that it has alone", "[placing][property]") {
  // Points of the grid fewer than all the layouts' cans, and more: the response is computed either way round.
  Job job = job_from(k_room);
  job.work_plane.spacing_m = GENERATE(0.5, 1.5);
  const std::array counts{4, 6, 9};
  const LayoutChoice choice = layouts_to_compare(job.room.corners_m, 8 * 12 * k_inch, counts);
  const Comparison comparison = comparison_of(job, choice.layouts);
  const auto moved = std::ranges::count_if(comparison.rows, [](const auto& row) { return !row.moves.empty(); });
  CHECK(moved > 0);
  REQUIRE(std::ssize(comparison.rows) == std::ssize(choice.layouts) + 1 + moved);
  CHECK(comparison.type == "six");
  CHECK(comparison.others == 2);
  for (const ComparedLayout& row : comparison.rows) {
    INFO(row.layout.name);
    const Job alone = laid_out(job, row.layout);
    const WorkPlaneLight light = work_plane_light(build_scene(alone, files_of(alone)), grid_of(job), job.target_lx);
    // The two cut the room differently: they may differ by what both state as their error.
    CHECK(std::abs(row.statistics.average_lx - light.statistics.average_lx) <=
          row.average_error_lx + light.average_error_lx);
    CHECK(std::abs(row.statistics.minimum_lx - light.statistics.minimum_lx) <=
          row.minimum_error_lx + light.field.error_lx[light.statistics.minimum_at]);
    REQUIRE(row.field.total_lx.size() == std::ssize(light.grid.points_m));
    // Of places that differ by rounding alone the first is the darkest.
    CHECK(row.field.total_lx[row.statistics.minimum_at] == Approx(row.statistics.minimum_lx).epsilon(1e-6));
    CHECK((row.field.total_lx - light.field.total_lx).cwiseAbs().mean() <=
          (row.field.error_lx + light.field.error_lx).mean());
    REQUIRE(row.cans.size() == alone.cans.size());
    REQUIRE(row.luminaires.size() == alone.cans.size());
    for (std::size_t can = 0; can < row.cans.size(); ++can) {
      // Tapes are added and subtracted on the way: some 1e-15 m.
      const Eigen::Vector2d place_m = *plan_position(job.room, row.cans[can]);
      CHECK((place_m - *plan_position(job.room, alone.cans[can])).norm() < 1e-9);
      CHECK((place_m - row.luminaires[can].position_m.head<2>()).norm() < 1e-9);
    }
    CHECK(row.average_error_lx < 0.005 * row.statistics.average_lx);
    const std::vector<CanHole> holes = hole_check(alone).holes;
    CHECK(row.misfits == std::ranges::count_if(holes, [](const CanHole& hole) { return !hole.hits.empty(); }));
    CHECK_FALSE(row.watts);  // the globe's are not known
  }
}

TEST_CASE("comparison: each layout that hits something is followed by itself as moved to fit", "[placing][exact]") {
  const Job job = job_from(k_room);
  const Polygon& plan = job.room.corners_m;
  // Off the joists by 0, 5-1/3 and 10-2/3 of 16 in: the holes of 6-3/8 in between joists of 1-1/2 in have 8-1/8 in
  // each, and no shift has all three there. None of them is in a row or column with another.
  Layout aslant{.name = "aslant"};
  for (const int can : {0, 1, 2}) {
    aslant.positions_m.push_back(k_inch * Eigen::Vector2d(56 + can * (64 + 16 / 3.0), 40 + 40 * can));
  }
  const Comparison comparison =
      comparison_of(job, {even_layout(plan, 2, 2), even_layout(plan, 1, 1), five_layout(plan), aslant});
  std::vector<std::string> names;
  for (const ComparedLayout& row : comparison.rows) {
    names.push_back(row.layout.name);
    if (!row.moves.empty()) CHECK(row.misfits == 0);
  }
  // The hole's radius and half a joist are 3-15/16 in: at 60 in and 180 in the cans are just clear of joists at 56 in
  // and 184 in; the one in the middle, at 120 in, is on one.
  CHECK(names == std::vector<std::string>{"as in the job", "2 rows of 2, even", "one in the middle, even",
                                          "one in the middle, even, moved", "five on a die", "five on a die, moved",
                                          "aslant"});
  // 8 in bring the corners to 68 in and 188 in, as near to a joist on their other sides: 1/16 in less and more will do,
  // and their middle is taken.
  REQUIRE(comparison.rows[5].moves.size() == 1);
  CHECK(std::abs(comparison.rows[5].moves[0].by_m.x()) == Approx(8 * k_inch).margin(2 * k_touch_m));
  CHECK(comparison.stuck == std::vector<std::string>{"aslant"});
}

TEST_CASE("comparison: where columns move by themselves their spacing is uneven, that of the rows stays",
          "[placing][exact]") {
  // Columns at 30, 90, 150 and 210 in, joists at 8, 24 in ...: 6, 2, 14 and 10 in from the joist to their west, and
  // with 3/4 in of joist, 3-3/16 in of hole and 1/2 in of clearance 4-7/16 in ... 11-9/16 in are free. 2-7/16 in and
  // the play go up to whole eighths.
  const Job job = job_from(bay_job("", can_at(32, 40)));
  const Comparison comparison = comparison_of(job, {even_layout(job.room.corners_m, 2, 4)});
  const ComparedLayout& moved = comparison.rows.back();
  REQUIRE(moved.moves.size() == 2);
  CHECK(moved.moves[0].part == PartMove::Part::column);
  CHECK(moved.moves[0].number == 2);
  CHECK(moved.moves[0].by_m.x() == Approx(2.75 * k_inch).margin(2 * k_touch_m));
  CHECK(moved.moves[1].number == 3);
  CHECK(moved.moves[1].by_m.x() == Approx(-2.75 * k_inch).margin(2 * k_touch_m));
  CHECK(moved.layout.columns == 4);
  CHECK_FALSE(has_spacing(moved.layout, 0));
  CHECK(moved.layout.spacing_m.y() == comparison.rows[comparison.rows.size() - 2].layout.spacing_m.y());
}

TEST_CASE("comparison: the job's own layout comes first, cans that several layouts share count once in each",
          "[placing][exact]") {
  const Job job = job_from(k_room);
  Layout same{.name = "same"};
  for (int can = 0; can < 4; ++can) same.positions_m.push_back(*plan_position(job.room, job.cans[can]));
  const Comparison comparison = comparison_of(job, {same});
  const ComparedLayout& own = comparison.rows[0];
  CHECK(own.layout.name == "as in the job");
  CHECK(own.layout.positions_m == same.positions_m);
  CHECK((own.layout.wall_offset_m - k_inch * Eigen::Vector2d(80, 40)).norm() < 1e-12);
  CHECK(own.statistics.average_lx == comparison.rows[1].statistics.average_lx);
  CHECK(own.misfits == comparison.rows[1].misfits);
}

TEST_CASE("comparison: the fewest cans that reach the target", "[placing][exact]") {
  Job job = job_from(k_room);
  const std::array counts{4, 6, 8, 9};
  const auto layouts = layouts_to_compare(job.room.corners_m, 8 * 12 * k_inch, counts).layouts;
  const Comparison comparison = comparison_of(job, layouts);
  REQUIRE(comparison.fewest);
  bool is_reached = false;
  for (const ComparedLayout& row : comparison.rows) {
    CHECK(row.gives_all() == (row.statistics.average_lx - row.average_error_lx >= *job.target_lx));
    if (row.gives_all()) CHECK(row.count() >= *comparison.fewest);
    is_reached = is_reached || (row.gives_all() && row.count() == *comparison.fewest);
  }
  CHECK(is_reached);
  job.target_lx = 1e6;
  CHECK_FALSE(comparison_of(job, layouts).fewest);
  job.target_lx.reset();
  CHECK_FALSE(comparison_of(job, layouts).fewest);
}

TEST_CASE("comparison: a layout with a can inside of a box is left out", "[placing][exact]") {
  const std::string soffit =
      "[[obstructions]]\nname = \"soffit\"\nfrom = { west = \"100in\", south = \"60in\" }\nwidth = \"40in\"\n"
      "depth = \"40in\"\nbottom = \"80in\"\ntop = \"96in\"\n";
  const Job job = job_from(bay_job("", soffit + can_at(32, 40)));
  const Comparison comparison =
      comparison_of(job, {even_layout(job.room.corners_m, 1, 1), even_layout(job.room.corners_m, 2, 2)});
  REQUIRE(comparison.rows.size() == 3);
  CHECK(comparison.rows[1].layout.name == "2 rows of 2, even");
  CHECK(comparison.rows[2].layout.name == "2 rows of 2, even, moved");
  CHECK(comparison.left_out == std::vector<std::string>{"one in the middle, even"});
}

TEST_CASE("comparison: more points and cans than fit in memory are refused before any light is computed",
          "[placing][exact]") {
  Job job = job_from(k_room);
  job.work_plane.spacing_m = 0.025;
  // Some 40,000 points, 1251 places.
  const Polygon& plan = job.room.corners_m;
  const auto refused = compared(job, files_of(job), grid_of(job),
                                {even_layout(plan, 20, 30), even_layout(plan, 21, 31)}, whole_file("room.toml"));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().at(0).place == whole_file("room.toml"));
  CHECK(refused.error().at(0).what.ends_with("are more than can be compared at once"));
}

TEST_CASE("comparison: a job whose cans all hang keeps them", "[placing][exact]") {
  const Job job = job_from(bay_job("watts = 9", can_at(32, 40) + "drop = \"1ft\"\n"));
  const Comparison comparison = comparison_of(job, {even_layout(job.room.corners_m, 2, 2)});
  CHECK(comparison.others == 1);
  CHECK(comparison.rows[0].count() == 0);
  CHECK(comparison.rows[0].statistics.average_lx > 0);
  CHECK(*comparison.rows[0].watts == 9);
  CHECK(*comparison.rows[1].watts == 45);
  // At 60 in and 180 in the holes, with 1/2 in of clearance, reach to 56-5/16 in and 183-11/16 in: joists are at 56 in
  // and 184 in, 1-1/2 in thick.
  CHECK(comparison.rows[1].misfits == 4);
}
