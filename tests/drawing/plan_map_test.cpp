#include "evenlit/drawing/plan_map.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <catch2/catch.hpp>
#include <numbers>

#include "drawing/sample_light.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/drawing/png.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/drawing/text.hpp"
#include "free_space.hpp"
#include "plan_ceiling.hpp"
#include "plan_light.hpp"

using namespace evenlit;

namespace {

std::vector<Text> texts(const Drawing& drawing) {
  std::vector<Text> found;
  for (const DrawingItem& item : drawing.items) {
    if (const Text* text = std::get_if<Text>(&item)) found.push_back(*text);
  }
  return found;
}

bool says(const Drawing& drawing, const std::string& wanted) {
  for (const Text& text : texts(drawing)) {
    if (text.text == wanted) return true;
  }
  return false;
}

/// A vent, a pipe with a bend, a smoke detector, a fan around its box; from the walls of a rectangular room.
void add_what_is_in_the_ceiling(Job& job) {
  KeepOut vent{.name = "vent", .shape = TapedRectangle{}, .clearance_m = 0.1};
  auto& rectangle = std::get<TapedRectangle>(vent.shape);
  rectangle = {.from = {{"west", 0.5}, {"south", 0.6}}, .width_m = 0.4, .depth_m = 0.2};
  const KeepOut pipe{.name = "pipe", .shape = Polygon{{2, 0}, {2.1, 0}, {2.1, 2}, {3, 2}, {3, 2.1}, {2, 2.1}}};
  const KeepOut detector{.name = "smoke detector", .shape = TapedCircle{{{"west", 3.4}, {"south", 1}}, 0.15}};
  job.keep_outs = {vent, pipe, detector};
  job.fans = {{.name = "fan", .from = {{"west", 3.4}, {"south", 2.4}}, .diameter_m = 1.3, .drop_m = 0.3}};
}

std::vector<sample::Lit> rooms() {
  std::vector<sample::Lit> all;
  all.push_back(sample::living_room());
  all.push_back(sample::l_shaped_room());
  all.push_back(sample::rectangular_room("Closet", 5, 5, 1, 1, 0.2));
  all.push_back(sample::rectangular_room("Community hall", 60, 20, 10, 4, 0.4));
  all.push_back(sample::rectangular_room("Corridor", 4, 40, 1, 8, 0.3));
  all.push_back(sample::rectangular_room("Workshop", 24, 24, 6, 6, 0.3));
  add_what_is_in_the_ceiling(all.front().job);
  for (sample::Lit& lit : all) lit.job.joists = {Joists{"south", 0.4, 0.4064, 0.0381}};
  all.back().job.units = Units::metric;
  return all;
}

Drawing map_of(const sample::Lit& lit) { return plan_map(lit.job, lit.scene, lit.light, {}); }

}  // namespace

TEST_CASE("the same job makes the same bytes", "[drawing][property]") {
  const sample::Lit lit = sample::l_shaped_room();
  CHECK(map_of(lit) == map_of(lit));
  CHECK(png(rasterise(map_of(lit), 600)) == png(rasterise(map_of(lit), 600)));
}

TEST_CASE("no text lies over another, none is small, none leaves the sheet", "[drawing][property]") {
  for (const sample::Lit& lit : rooms()) {
    const Drawing drawing = map_of(lit);
    const Polygon sheet{{0, 0}, {drawing.width, 0}, {drawing.width, drawing.height}, {0, drawing.height}};
    FreeSpace space(sheet);
    for (const Text& text : texts(drawing)) {
      INFO(lit.job.room.name << ": " << text.text);
      CHECK(text.size >= 18);
      CHECK(space.is_free(discs_of(text)));
      space.take(discs_of(text));
    }
  }
}

TEST_CASE("the map says what the room is and how it is lit", "[drawing][exact]") {
  const sample::Lit lit = sample::l_shaped_room();
  const Drawing drawing = map_of(lit);
  CHECK(says(drawing, "Kitchen with eating nook"));
  CHECK(says(drawing, "8 cans  ·  target 30 fc (323 lx)  ·  work plane 2' 6\" above the floor"));
  for (const char* wall : {"south", "east", "nook north", "nook east", "north", "west"}) CHECK(says(drawing, wall));
  for (const char* length : {"20' 0\"", "8' 0\"", "9' 0\"", "11' 0\"", "16' 0\""}) CHECK(says(drawing, length));
  for (const char* number : {"1", "2", "3", "4", "5", "6", "7", "8"}) CHECK(says(drawing, number));
  CHECK(says(drawing, "target 30"));
  CHECK(says(drawing, "darkest 14.6 fc"));
  const std::string points = std::to_string(lit.light.grid.points_m.size());
  CHECK(says(drawing,
             "Calculated at " + points + " points of the work plane. Numerical error ≤ 0.5 % of the average at each."));
}

// The line is followed on a lattice of 3 units of the sheet, so it may cut a corner by 3 units.
TEST_CASE("a dotted line keeps the margin from the walls, around every corner", "[drawing][exact]") {
  const Polygon plan_m = sample::l_shaped_room().job.room.corners_m;
  const PlanView view{100, {0, 0}};
  const std::vector<DrawingItem> items = margin_line(plan_m, 0.5, view);
  REQUIRE(items.size() == 2);
  const Stroke& line = std::get<Stroke>(items.back());
  CHECK_FALSE(line.dash.empty());
  CHECK(line.points.front() == line.points.back());
  Polygon enclosed_m;
  for (const Eigen::Vector2d& point : line.points) enclosed_m.emplace_back(point.x() / 100, -point.y() / 100);
  for (const Eigen::Vector2d& point : enclosed_m) {
    CHECK(is_inside(plan_m, point));
    CHECK(distance_to_outline(plan_m, point) == Approx(0.5).margin(0.03).epsilon(0));
  }
  // Left out are strips along the edges, which overlap in the five outer corners, and a quarter of a disc around the
  // inner one. Five corners cut by 3 units are 0.002 m2.
  const double left_out_m2 = 0.5 * perimeter(plan_m) - 5 * 0.25 + std::numbers::pi / 4 * 0.25;
  CHECK(std::abs(signed_area(enclosed_m)) == Approx(signed_area(plan_m) - left_out_m2).margin(0.003).epsilon(0));
  CHECK(margin_line(plan_m, 0, view).empty());
}

TEST_CASE("the map says when its figures leave out a margin", "[drawing][exact]") {
  sample::Lit lit = sample::living_room();
  const std::string points = "Calculated at " + std::to_string(lit.light.grid.points_m.size()) + " points ";
  const std::string error =
      " Numerical error ≤ " + error_percent_text(worst_error_share(lit.light)) + " of the average at each.";
  CHECK(says(map_of(lit), points + "of the work plane." + error));
  lit.job.work_plane.margin_m = 0.3;
  CHECK(says(map_of(lit), points + "inside the dotted line." + error));
}

TEST_CASE("the automatic top is round in the unit shown and not below the maximum", "[drawing][exact]") {
  CHECK(automatic_top_lx(432, Units::metric) == Approx(450).epsilon(1e-12));
  CHECK(automatic_top_lx(450, Units::metric) == Approx(450).epsilon(1e-12));
  CHECK(automatic_top_lx(951, Units::metric) == Approx(1000).epsilon(1e-12));
  CHECK(automatic_top_lx(47 * k_lux_per_footcandle, Units::imperial) ==
        Approx(50 * k_lux_per_footcandle).epsilon(1e-12));
  CHECK(automatic_top_lx(0, Units::metric) == 1);
  for (double lx = 0.01; lx < 1e6; lx *= 1.07) {
    CHECK(automatic_top_lx(lx, Units::metric) >= lx * (1 - 1e-9));
    CHECK(automatic_top_lx(lx, Units::metric) <= lx * 1.35);
  }
}

TEST_CASE("a top that is asked for sets the scale of the whole map", "[drawing][property]") {
  const sample::Lit lit = sample::living_room();
  const Drawing drawing = plan_map(lit.job, lit.scene, lit.light, {.top_lx = 1000, .picture_lx = {}});
  int painted = 0;
  for (const DrawingItem& item : drawing.items) {
    if (const FalseColour* picture = std::get_if<FalseColour>(&item)) {
      CHECK(picture->top == 1000);
      ++painted;
    }
  }
  CHECK(painted == 2);
}

TEST_CASE("a dark room has a map too", "[drawing][property]") {
  sample::Lit lit = sample::living_room();
  lit.light.field.total_lx.setZero();
  lit.light.field.error_lx.setZero();
  lit.light.statistics = {};
  lit.light.average_error_lx = 0;
  CHECK(says(map_of(lit), "darkest 0 fc"));
}

TEST_CASE("task areas are outlined and points marked, with their names", "[drawing][exact]") {
  sample::Lit lit = sample::living_room();
  LevelRectangle level;
  level.from[0] = {"west", 1};
  level.from[1] = {"south", 1};
  level.width_m = 1.5;
  level.depth_m = 0.7;
  TaskArea desk;
  desk.name = "desk";
  desk.shape = level;
  TaskArea picture;
  picture.name = "picture";
  picture.shape = PlaneCorners{{3, 0, 1}, {2, 0, 1}, {2, 0, 2}};
  NamedPoint chair;
  chair.name = "chair";
  chair.from[0] = {"west", 4};
  chair.from[1] = {"south", 2};
  lit.job.task_areas = {desk, picture};
  lit.job.points = {chair};
  const Drawing drawing = map_of(lit);
  for (const char* name : {"desk", "picture", "chair"}) CHECK(says(drawing, name));
  const auto thin_dashes = std::ranges::count_if(drawing.items, [](const DrawingItem& item) {
    const Stroke* stroke = std::get_if<Stroke>(&item);
    return stroke != nullptr && stroke->closed && !stroke->dash.empty();
  });
  CHECK(thin_dashes == 2);
}

TEST_CASE("what is in the ceiling is named", "[drawing][exact]") {
  sample::Lit lit = sample::living_room();
  add_what_is_in_the_ceiling(lit.job);
  const Drawing drawing = map_of(lit);
  for (const char* name : {"vent", "pipe", "smoke detector", "fan"}) CHECK(says(drawing, name));
}

// Hatching and outline lie within the keep-out; the line of its clearance is followed on a lattice of 2 units of the
// sheet, so it may cut a corner by 2 units. A circle is drawn within 1/20 unit.
TEST_CASE("keep-outs lie where they are, their clearance around them, fans' blades in a circle", "[drawing][exact]") {
  sample::Lit lit = sample::living_room();
  add_what_is_in_the_ceiling(lit.job);
  const PlanView view{100, {0, 0}};
  lit.job.keep_outs.resize(1);
  const Eigen::AlignedBox2d vent(Eigen::Vector2d(50, -80), Eigen::Vector2d(90, -60));
  int clearance_points = 0;
  int blade_points = 0;
  for (const DrawingItem& item : ceiling_marks(lit.job, view)) {
    const Stroke* stroke = std::get_if<Stroke>(&item);
    if (stroke == nullptr) continue;
    for (const Eigen::Vector2d& point : stroke->points) {
      const double from_vent = vent.exteriorDistance(point);
      const double from_hub = (point - Eigen::Vector2d(340, -240)).norm();
      if (stroke->dash.size() == 2) {
        ++clearance_points;
        CHECK(from_vent == Approx(10).margin(2).epsilon(0));
      } else if (stroke->dash.size() == 4) {
        ++blade_points;
        CHECK(from_hub == Approx(65).margin(0.05).epsilon(0));
      } else if (stroke->ink == k_dark) {
        CHECK(from_vent < 1e-9);
      }
    }
  }
  CHECK(clearance_points > 8);
  CHECK(blade_points > 8);

  // Against a wall the clearance ends there.
  std::get<TapedRectangle>(lit.job.keep_outs[0].shape).from[0].distance_m = 0;
  for (const DrawingItem& item : ceiling_marks(lit.job, view)) {
    const Stroke* stroke = std::get_if<Stroke>(&item);
    if (stroke == nullptr) continue;
    for (const Eigen::Vector2d& point : stroke->points) CHECK(point.x() >= -1e-9);
  }
}

// A circle and clearances of the greatest lengths that a job may have, and a rectangle through the whole room.
TEST_CASE("what is in the ceiling is drawn within the room, however large it is", "[drawing][property]") {
  sample::Lit lit = sample::living_room();
  KeepOut shaft{.name = "shaft", .shape = TapedCircle{{{"west", 2}, {"south", 2}}, 1000}, .clearance_m = 100};
  KeepOut duct{.name = "duct", .shape = TapedRectangle{}, .clearance_m = 100};
  std::get<TapedRectangle>(duct.shape) = {
      .from = {{"west", -400}, {"south", 1}}, .width_m = 1000, .depth_m = 0.3, .turn_deg = 3};
  KeepOut vent{.name = "vent", .shape = TapedRectangle{}, .clearance_m = 0.5};
  std::get<TapedRectangle>(vent.shape) = {.from = {{"west", 0}, {"south", 0}}, .width_m = 0.3, .depth_m = 0.3};
  lit.job.keep_outs = {shaft, duct, vent};
  lit.job.fans = {{.name = "fan", .from = {{"west", 3}, {"south", 2}}, .diameter_m = 1000, .drop_m = 0.3}};
  const PlanView view{100, {0, 0}};
  const Eigen::AlignedBox2d room = bounds_of(view.at(lit.job.room.corners_m));
  const std::vector<DrawingItem> marks = ceiling_marks(lit.job, view);
  CHECK(marks.size() > 20);
  for (const DrawingItem& item : marks) {
    const Stroke* stroke = std::get_if<Stroke>(&item);
    if (stroke == nullptr) continue;
    for (const Eigen::Vector2d& point : stroke->points) CHECK(room.exteriorDistance(point) < 1e-6);
  }
  CHECK(ceiling_discs(lit.job, view).size() < 1000);
  CHECK(map_of(lit).items.size() > marks.size());
}

TEST_CASE("names of very many task areas and points lie over nothing", "[drawing][property]") {
  sample::Lit lit = sample::living_room();
  add_what_is_in_the_ceiling(lit.job);
  for (int i = 0; i < 40; ++i) {
    NamedPoint point;
    point.name = "point of some name " + std::to_string(i);
    point.from[0] = {"west", 0.1 * i};
    point.from[1] = {"south", 0.05 * i};
    lit.job.points.push_back(point);
    TaskArea area;
    area.name = "area of some name " + std::to_string(i);
    area.shape = PlaneCorners{{0.1 * i, 0, 1}, {0.1 * i + 0.5, 0, 1}, {0.1 * i, 0.5 + 0.05 * i, 1}};
    lit.job.task_areas.push_back(area);
  }
  const Drawing drawing = map_of(lit);
  FreeSpace space({{0, 0}, {drawing.width, 0}, {drawing.width, drawing.height}, {0, drawing.height}});
  for (const Text& text : texts(drawing)) {
    INFO(text.text);
    CHECK(space.is_free(discs_of(text)));
    space.take(discs_of(text));
  }
}

TEST_CASE("long names are cut to fit", "[drawing][property]") {
  sample::Lit lit = sample::rectangular_room(std::string(300, 'M'), 5, 5, 1, 1, 0.2);
  lit.job.room.wall_names[1] = std::string(200, 'W');
  for (const Text& text : texts(map_of(lit))) {
    CHECK(text_width(text.text, text.size, text.weight) <= 1200 - 2 * 44);
  }
}
