#include "evenlit/drawing/plan_map.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "drawing/sample_light.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/drawing/png.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/drawing/text.hpp"
#include "free_space.hpp"

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

std::vector<sample::Lit> rooms() {
  std::vector<sample::Lit> all;
  all.push_back(sample::living_room());
  all.push_back(sample::l_shaped_room());
  all.push_back(sample::rectangular_room("Closet", 5, 5, 1, 1, 0.2));
  all.push_back(sample::rectangular_room("Community hall", 60, 20, 10, 4, 0.4));
  all.push_back(sample::rectangular_room("Corridor", 4, 40, 1, 8, 0.3));
  all.push_back(sample::rectangular_room("Workshop", 24, 24, 6, 6, 0.3));
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

TEST_CASE("names of very many task areas and points lie over nothing", "[drawing][property]") {
  sample::Lit lit = sample::living_room();
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
