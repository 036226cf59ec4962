#include "evenlit/drawing/difference_map.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "drawing/sample_comparison.hpp"
#include "drawing/sheet_checks.hpp"
#include "evenlit/base/light_units.hpp"
#include "free_space.hpp"

using namespace evenlit;

namespace {

/// Cans in two rows and cans in the middle, in one room.
std::vector<sample::Lit> two_layouts() {
  return {sample::rectangular_room("Den", 18, 13, 4, 2, 0.3), sample::rectangular_room("Den", 18, 13, 3, 1, 0.3)};
}

Drawing map_of(const std::vector<sample::Lit>& lit, const Comparison& comparison, const LayoutPair& pair) {
  return difference_map(lit.front().job, {}, lit.front().light.grid, comparison, pair);
}

Drawing map_of(const std::vector<sample::Lit>& lit, const LayoutPair& pair) {
  return map_of(lit, sample::comparison_of(lit), pair);
}

FalseColour picture_of(const Drawing& drawing) { return sample::all_of_kind<FalseColour>(drawing).at(0); }

/// Lines of equal change: thin full ones and dashed ones, by their labels' signs.
std::vector<std::string> line_labels(const Drawing& drawing, const std::string& sign) {
  std::vector<std::string> labels;
  for (const Text& text : sample::all_of_kind<Text>(drawing)) {
    if (text.halo_width > 0 && text.weight == Weight::regular && text.text.starts_with(sign)) {
      labels.push_back(text.text);
    }
  }
  return labels;
}

}  // namespace

TEST_CASE("difference map: a layout against itself is flat zero", "[drawing][exact]") {
  const std::vector<sample::Lit> lit = two_layouts();
  const Drawing drawing = map_of(lit, {1, 1});
  for (const double value : picture_of(drawing).field.values) CHECK(value == 0);
  CHECK(line_labels(drawing, "").empty());
  CHECK(sample::says(drawing, "0 fc"));
  CHECK(sample::says(drawing, "none"));
  CHECK(sample::says(drawing, "0 %"));
  CHECK_FALSE(sample::says(drawing, "largest gain"));
}

TEST_CASE("difference map: one way round it is the negative of the other", "[drawing][exact]") {
  const std::vector<sample::Lit> lit = two_layouts();
  const FalseColour there = picture_of(map_of(lit, {0, 1}));
  const FalseColour back = picture_of(map_of(lit, {1, 0}));
  CHECK(there.top == back.top);
  CHECK(there.bottom == -there.top);
  CHECK(there.colours == ColourMap::change);
  REQUIRE(there.field.values.size() == back.field.values.size());
  for (std::size_t i = 0; i < there.field.values.size(); ++i) CHECK(there.field.values[i] == -back.field.values[i]);
}

// The plan is 18 ft wide; a layout and its mirror image about the middle of the room.
TEST_CASE("difference map: of a layout and its mirror image it is antisymmetric", "[drawing][property]") {
  const double width_m = 18 * sample::k_foot;
  const double depth_m = 13 * sample::k_foot;
  std::vector<Eigen::Vector2d> cans{{1, 1}, {2, 3}, {1.5, 2}};
  const auto room = [&] {
    return sample::lit_room("Den", sample::rectangle(width_m, depth_m), {"south", "east", "north", "west"}, cans, 0.3);
  };
  std::vector<sample::Lit> lit{room()};
  for (Eigen::Vector2d& can : cans) can.x() = width_m - can.x();
  lit.push_back(room());
  const SampledField field = picture_of(map_of(lit, {0, 1})).field;
  const double largest = std::ranges::max(field.values);
  CHECK(largest > 10);
  for (int row = 0; row < field.rows; ++row) {
    for (int column = 0; column < field.columns; ++column) {
      // Places of the grid's points are rounded: some 1e-15 m, light changes by less than 1000 lx a metre.
      CHECK(field.at(column, row) == Approx(-field.at(field.columns - 1 - column, row)).margin(1e-9).epsilon(0));
    }
  }
}

TEST_CASE("difference map: what is more has a plus on full lines, what is less a minus on dashed ones",
          "[drawing][exact]") {
  std::vector<sample::Lit> lit = two_layouts();
  // 90 lx more at the west wall, 90 lx less at the east wall, straight between.
  const std::vector<Eigen::Vector2d>& points_m = lit[0].light.grid.points_m;
  const double width_m = 18 * sample::k_foot;
  Eigen::VectorXd slope(std::ssize(points_m));
  for (std::size_t i = 0; i < points_m.size(); ++i) {
    slope[static_cast<Eigen::Index>(i)] = 90 * (1 - 2 * points_m[i].x() / width_m);
  }
  lit[0].light.field.total_lx.setConstant(300);
  lit[1].light.field.total_lx = lit[0].light.field.total_lx + slope;
  for (sample::Lit& one : lit) one.job.units = Units::metric;
  const Drawing drawing = map_of(lit, {0, 1});
  CHECK(picture_of(drawing).top == Approx(90).epsilon(1e-12));
  for (const char* label : {"+20", "+40", "+60", "+80"}) CHECK_FALSE(line_labels(drawing, label).empty());
  for (const char* label : {"−20", "−40", "−60", "−80"}) CHECK_FALSE(line_labels(drawing, label).empty());
  const Eigen::AlignedBox2d plan = bounds_of(picture_of(drawing).clip.at(0));
  for (const Text& text : sample::all_of_kind<Text>(drawing)) {
    if (text.halo_width == 0 || text.weight == Weight::bold) continue;
    INFO(text.text);
    CHECK(text.text.starts_with("+") == (text.at.x() < plan.center().x()));
  }
  int dashed = 0;
  for (const Stroke& stroke : sample::all_of_kind<Stroke>(drawing)) {
    if (stroke.width != 1.4 || !plan.contains(stroke.points.front())) continue;
    CHECK(stroke.dash.empty() == (stroke.points.front().x() < plan.center().x()));
    dashed += stroke.dash.empty() ? 0 : 1;
  }
  CHECK(dashed >= 4);
}

TEST_CASE("difference map: tells where it gains and loses most", "[drawing][exact]") {
  std::vector<sample::Lit> lit = two_layouts();
  lit[1].light.field.total_lx = lit[0].light.field.total_lx;
  lit[1].light.field.total_lx[5] += 10 * k_lux_per_footcandle;
  lit[1].light.field.total_lx[50] -= 4 * k_lux_per_footcandle;
  lit[1].light.statistics.average_lx = lit[0].light.statistics.average_lx + 2 * k_lux_per_footcandle;
  for (sample::Lit& one : lit) {
    one.light.field.error_lx.setConstant(0.1);
    one.light.average_error_lx = 0.1;
  }
  const Drawing drawing = map_of(lit, {0, 1});
  for (const char* text : {"+10.0 fc", "−4.00 fc", "+2.00 fc"}) CHECK(sample::says(drawing, text));
  CHECK(sample::says(drawing, "Den: layout 2 against layout 1"));
  CHECK(sample::says(drawing, "1: layout 1, 8 cans"));
  CHECK(sample::says(drawing, "2: layout 2, 3 cans"));
}

TEST_CASE("difference map: of gains that are alike but for rounding the first is marked", "[drawing][exact]") {
  std::vector<sample::Lit> lit = two_layouts();
  lit[1].light = lit[0].light;
  const auto mark_with = [&](int larger) {
    std::vector<sample::Lit> changed = lit;
    for (const int point : {5, 200}) changed[1].light.field.total_lx[point] += point == larger ? 100 + 1e-9 : 100;
    for (const Fill& fill : sample::all_of_kind<Fill>(map_of(changed, {0, 1}))) {
      if (fill.outlines.at(0).size() == 3) return fill.outlines.at(0).front();
    }
    return Eigen::Vector2d(0, 0);
  };
  CHECK(mark_with(5) == mark_with(200));
  CHECK(mark_with(5) != Eigen::Vector2d(0, 0));
}

TEST_CASE("difference map: a small change is painted pale", "[drawing][exact]") {
  std::vector<sample::Lit> lit = two_layouts();
  lit[1].light = lit[0].light;
  lit[1].light.field.total_lx.array() += 0.01 * lit[0].light.statistics.average_lx;
  CHECK(picture_of(map_of(lit, {0, 1})).top >= 0.1 * lit[0].light.statistics.average_lx);
}

TEST_CASE("difference map: no text lies over another, none is small, none leaves the sheet", "[drawing][property]") {
  std::vector<std::vector<sample::Lit>> sets{two_layouts(), {sample::l_shaped_room(), sample::l_shaped_room()}};
  sets.push_back(
      {sample::rectangular_room("Corridor", 4, 40, 1, 8, 0.3), sample::rectangular_room("Corridor", 4, 40, 1, 3, 0.3)});
  sets.back().front().job.units = Units::metric;
  sets[1][1].light.field.total_lx *= 40;  // numbers of the scale with many digits
  for (const std::vector<sample::Lit>& lit : sets) {
    Comparison comparison = sample::comparison_of(lit);
    comparison.rows[1].layout.name = std::string(150, 'W');
    for (const LayoutPair& pair : {LayoutPair{0, 1}, LayoutPair{1, 0}, LayoutPair{1, 1}}) {
      const Drawing drawing = map_of(lit, comparison, pair);
      sample::check_sheet(drawing, 18);
      FreeSpace space({{0, 0}, {drawing.width, 0}, {drawing.width, drawing.height}, {0, drawing.height}});
      for (const Text& text : sample::all_of_kind<Text>(drawing)) {
        INFO(lit.front().job.room.name << ": " << text.text);
        CHECK(space.is_free(discs_of(text)));
        space.take(discs_of(text));
      }
    }
  }
}
