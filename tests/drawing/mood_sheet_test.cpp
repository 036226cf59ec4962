#include "evenlit/drawing/mood_sheet.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <set>

#include "drawing/sample_light.hpp"
#include "drawing/sheet_checks.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/drawing/text.hpp"
#include "evenlit/moods/dimming.hpp"
#include "free_space.hpp"

using namespace evenlit;

namespace {

/// A room whose cans are, by turns, on circuits "a" and "b", and its moods.
struct Moody {
  sample::Lit lit;
  RoomMoods moods;
};

/// Made-up light: what all cans give, times the mean level.
MoodLight mood_of(const sample::Lit& lit, const std::string& name, double a, double b) {
  MoodLight mood{.name = name, .settings = {a, b}, .circuit_light = {a, b}};
  for (std::size_t can = 0; can < lit.job.cans.size(); ++can) mood.can_levels.push_back(can % 2 == 0 ? a : b);
  const double share = (a + b) / 2;
  WorkPlaneLight& light = mood.light.work_plane;
  light = lit.light;
  light.field.total_lx *= share;
  light.field.direct_lx *= share;
  light.field.error_lx *= share;
  light.statistics.average_lx *= share;
  light.statistics.minimum_lx *= share;
  light.statistics.maximum_lx *= share;
  light.average_error_lx *= share;
  mood.watts = 9.5 * share * static_cast<double>(lit.job.cans.size());
  mood.colour = MixedLight{.lumens = 100, .chromaticity = {}, .tone = WhiteTone{2412, 0}};
  return mood;
}

Moody moody(sample::Lit lit, int moods) {
  lit.job.circuits = {{.name = "a"}, {.name = "b"}};
  for (std::size_t can = 0; can < lit.job.cans.size(); ++can) lit.job.cans[can].circuit = can % 2 == 0 ? "a" : "b";
  Moody moody{std::move(lit), {}};
  for (int i = 0; i < moods; ++i) {
    moody.moods.moods.push_back(
        mood_of(moody.lit, "mood " + std::to_string(i + 1), std::pow(0.5, i % 6), i % 2 == 0 ? 0 : 0.3));
  }
  return moody;
}

Drawing sheet_of(const Moody& moody) { return mood_sheet(moody.lit.job, {}, moody.lit.light.grid, moody.moods); }

Eigen::AlignedBox2d box_of(const FalseColour& picture) { return bounds_of(picture.clip.at(0)); }

/// The pictures of the panels; the last one of a sheet is the colour scale.
std::vector<FalseColour> panels_of(const Drawing& sheet) {
  std::vector<FalseColour> pictures = sample::all_of_kind<FalseColour>(sheet);
  pictures.pop_back();
  return pictures;
}

double white_area(const Drawing& sheet, const Eigen::AlignedBox2d& within) {
  double area = 0;
  for (const Fill& fill : sample::all_of_kind<Fill>(sheet)) {
    if (fill.ink != Ink{{255, 255, 255}}) continue;
    for (const Polyline& outline : fill.outlines) {
      if (within.contains(outline.front())) area += std::abs(signed_area(outline));
    }
  }
  return area;
}

}  // namespace

TEST_CASE("mood sheet: all panels have one colour scale and one drawing scale", "[drawing][property]") {
  const Drawing sheet = sheet_of(moody(sample::living_room(), 7));
  const std::vector<FalseColour> pictures = sample::all_of_kind<FalseColour>(sheet);
  REQUIRE(pictures.size() == 8);
  for (const FalseColour& picture : pictures) {
    CHECK(picture.top == pictures.front().top);
    CHECK(picture.bottom == 0);
    CHECK(picture.colours == ColourMap::light);
  }
  const std::vector<FalseColour> panels = panels_of(sheet);
  for (std::size_t i = 0; i < panels.size(); ++i) {
    // Sizes are differences of numbers up to some thousands.
    CHECK((box_of(panels[i]).sizes() - box_of(panels[0]).sizes()).norm() < 1e-9);
    for (std::size_t k = 0; k < i; ++k) CHECK_FALSE(box_of(panels[i]).intersects(box_of(panels[k])));
  }
}

TEST_CASE("mood sheet: no text lies over another, none is small, none leaves the sheet", "[drawing][property]") {
  std::vector<Moody> all;
  for (const int moods : {1, 2, 3, 4, 5, 24}) all.push_back(moody(sample::living_room(), moods));
  all.push_back(moody(sample::rectangular_room("Hall", 4, 40, 1, 5, 0.4), 3));
  all.push_back(moody(sample::rectangular_room("Hall", 40, 4, 5, 1, 0.4), 3));
  all.push_back(moody(sample::l_shaped_room(), 2));
  for (Moody& one : all) {
    one.lit.job.circuits[0].name = std::string(200, 'm');
    one.moods.moods.back().name = std::string(200, 'W');
    const Drawing sheet = sheet_of(one);
    sample::check_sheet(sheet, 18);
    FreeSpace space({{0, 0}, {sheet.width, 0}, {sheet.width, sheet.height}, {0, sheet.height}});
    for (const Text& text : sample::all_of_kind<Text>(sheet)) {
      INFO(one.moods.moods.size() << " moods: " << text.text);
      CHECK(space.is_free(discs_of(text)));
      space.take(discs_of(text));
    }
    for (const FalseColour& panel : panels_of(sheet)) {
      CHECK(Eigen::AlignedBox2d(Eigen::Vector2d(0, 0), Eigen::Vector2d(sheet.width, sheet.height))
                .contains(box_of(panel)));
    }
  }
}

// A phone shows some 400 px across; capitals of 6 px and more can be read there (common practice, no source).
TEST_CASE("mood sheet: what a panel says of up to four moods reads on a phone", "[drawing][property]") {
  constexpr double k_phone_px = 400;
  for (int moods = 1; moods <= 4; ++moods) {
    const Moody one = moody(sample::living_room(), moods);
    const Drawing sheet = sheet_of(one);
    double bottom = 0;
    for (const FalseColour& panel : panels_of(sheet)) bottom = std::max(bottom, box_of(panel).max().y());
    for (const Text& text : sample::all_of_kind<Text>(sheet)) {
      INFO(text.text);
      const bool is_of_panel = text.at.y() > 160 && text.at.y() < bottom + 150;
      if (is_of_panel) CHECK(text.size * k_cap_height * k_phone_px / sheet.width >= 6);
    }
  }
}

TEST_CASE("mood sheet: each panel has its name and figures", "[drawing][exact]") {
  Moody one = moody(sample::living_room(), 3);
  one.moods.moods[1].circuit_light = {0.004, 0.46};
  one.moods.moods[2].watts.reset();
  one.moods.moods[2].colour.reset();
  const Drawing sheet = sheet_of(one);
  CHECK(sample::says(sheet, "Living room"));
  CHECK(sample::says(sheet, "3 moods"));
  CHECK(sample::says(sheet, "Light on the work plane 2' 6\" above the floor, circuits in percent of their full light"));
  for (const MoodLight& mood : one.moods.moods) {
    const WorkPlaneLight& light = mood.light.work_plane;
    const double minimum_error_lx = light.field.error_lx[light.statistics.minimum_at];
    CHECK(sample::says(sheet, mood.name));
    CHECK(sample::says(sheet, rounded_text(light.statistics.average_lx / k_lux_per_footcandle,
                                           light.average_error_lx / k_lux_per_footcandle)));
    CHECK(sample::says(sheet, rounded_text(light.statistics.minimum_lx / k_lux_per_footcandle,
                                           minimum_error_lx / k_lux_per_footcandle)));
  }
  CHECK(sample::says(sheet, rounded_text(*one.moods.moods[0].watts)));
  CHECK(sample::says(sheet, "2410"));
  for (const std::string text : {"100 %", "off", "< 1 %", "46 %"}) CHECK(sample::says(sheet, text));
  const auto texts = sample::all_of_kind<Text>(sheet);
  CHECK(std::ranges::count(texts, "–", &Text::text) == 2);
}

// The legend's marks are left out: they are below the panels.
TEST_CASE("mood sheet: as much of a can is white as it gives of its light", "[drawing][exact]") {
  for (const double level : {0.0, 0.01, 0.08, 0.25, 0.5, 0.97, 1.0}) {
    Moody one = moody(sample::rectangular_room("Den", 18, 13, 1, 1, 0.4), 1);
    one.moods.moods = {mood_of(one.lit, "only", level, 0)};
    const Drawing sheet = sheet_of(one);
    // The rest that is white: the rim of the darkest point, whatever the level.
    one.moods.moods[0].can_levels = {0};
    const Drawing dark = sheet_of(one);
    const Eigen::AlignedBox2d panel = box_of(panels_of(sheet).front());
    constexpr double k_hole_m = 6 * 0.0254;
    const double radius = k_hole_m / 2 * panel.sizes().x() / (18 * sample::k_foot);
    const double disc = std::numbers::pi * radius * radius;
    INFO(level);
    // A disc of chords within 1/20 unit of it, at a radius above 13.
    REQUIRE(radius > 13);
    CHECK((white_area(sheet, panel) - white_area(dark, panel)) / disc == Approx(level).epsilon(0.01).margin(1e-9));
  }
}

// Half a foot-candle against one: the published table of colours rises in lightness all the way, and a step of sixteen
// in 256 of it is seen side by side (common practice, no source). On a scale in proportion these would be 3 steps.
TEST_CASE("mood sheet: dim moods are told apart beside a bright one", "[drawing][property]") {
  Moody one = moody(sample::living_room(), 1);
  const double top_lx = 40 * k_lux_per_footcandle;
  const double share = top_lx / one.lit.light.statistics.maximum_lx;
  one.moods.moods = {mood_of(one.lit, "bright", share, share), mood_of(one.lit, "dim", 2 * share / 40, 2 * share / 40),
                     mood_of(one.lit, "dimmer", share / 40, share / 40)};
  const std::vector<FalseColour> panels = panels_of(sheet_of(one));
  const auto brightest_step = [&](std::size_t panel) {
    return 255 * *std::ranges::max_element(panels[panel].field.values) / panels[panel].top;
  };
  CHECK(brightest_step(1) - brightest_step(2) > 16);
  // What is painted is what the eye makes of the light against the top of the scale.
  CHECK(brightest_step(2) == Approx(255 * perceived_brightness(1.0 / 40)).epsilon(0.01));  // smoothing between points
  const std::set<std::string> told = [&] {
    std::set<std::string> told;
    for (const Text& text : sample::all_of_kind<Text>(sheet_of(one))) told.insert(text.text);
    return told;
  }();
  for (const std::string level : {"0.5", "1", "2", "5", "10", "20"}) CHECK(told.contains(level));
}

TEST_CASE("mood sheet: of too many moods the first are shown", "[drawing][exact]") {
  const Drawing sheet = sheet_of(moody(sample::rectangular_room("Den", 18, 13, 2, 1, 0.4), k_most_panels + 2));
  CHECK(panels_of(sheet).size() == k_most_panels);
  CHECK(sample::says(sheet, "The first 24 of 26 moods"));
}

TEST_CASE("mood sheet: a dark mood, alone and among others", "[drawing][property]") {
  Moody one = moody(sample::living_room(), 1);
  one.moods.moods.push_back(mood_of(one.lit, "night", 0, 0));
  sample::check_sheet(sheet_of(one), 18);
  one.moods.moods.erase(one.moods.moods.begin());
  sample::check_sheet(sheet_of(one), 18);
}

TEST_CASE("mood sheet: the same moods make the same pixels", "[drawing][property]") {
  const Moody one = moody(sample::living_room(), 3);
  CHECK(sheet_of(one) == sheet_of(one));
  CHECK(rasterise(sheet_of(one), 500).pixels == rasterise(sheet_of(one), 500).pixels);
}
