#include "evenlit/report/handout.hpp"

#include <catch2/catch.hpp>
#include <regex>

#include "drawing/sample_comparison.hpp"
#include "evenlit/base/markup.hpp"
#include "evenlit/report/cautions.hpp"
#include "evenlit/report/light_words.hpp"

using namespace evenlit;

namespace {

const std::string k_png = "\x89PNG made up";

/// An invented room with made-up light, and what a handout tells of it.
struct Told {
  Job job;
  RoomLight light;
  RoomMoods moods;
  Comparison comparison;

  [[nodiscard]] Handout handout() const { return {.job = job, .light = light, .map_png = k_png}; }
  [[nodiscard]] std::string html() const { return handout_html(handout()); }
};

AreaLight area_light(double average_lx) {
  return {.average_lx = {average_lx, 0.1}, .minimum_lx = {average_lx / 2, 0.1}, .maximum_lx = {2 * average_lx, 0.1}};
}

Told told() {
  const sample::Lit lit = sample::living_room();
  Told told{.job = lit.job, .light = {.work_plane = lit.light}};
  told.job.work_plane.height_m = 0.762;
  told.job.task_areas = {{.name = "desk", .shape = LevelRectangle{}}, {.name = "picture", .shape = PlaneCorners(4)}};
  told.light.readings.task_areas = {area_light(520), area_light(100)};
  told.comparison = sample::comparison_of({lit, sample::rectangular_room("Living room", 18, 13, 2, 2, 0.1),
                                           sample::rectangular_room("Living room", 18, 13, 3, 2, 0.1)});
  return told;
}

/// With two circuits and two moods.
Told moody() {
  Told told = ::told();
  told.job.circuits = {{.name = "general", .dimmer = "wall"}, {.name = "shelf"}};
  for (const double level : {1.0, 0.1}) {
    MoodLight mood{.name = level == 1 ? "cleaning" : "evening",
                   .settings = {level, level == 1 ? 1.0 : 0.0},
                   .circuit_light = {level, 0},
                   .light = told.light};
    mood.light.work_plane.statistics.average_lx = 310 * level;
    mood.light.readings.task_areas = {area_light(400 * level), area_light(620 * level)};
    mood.watts = 76 * level;
    mood.energy = YearlyEnergy{.kwh = 80 * level, .cost = 14 * level};
    mood.seats = {{.seat = "sofa", .glare = {.unified_rating = 25}, .screens = {{.screen = "window"}}}};
    told.moods.moods.push_back(mood);
  }
  return told;
}

std::vector<std::string> all_of(const std::string& html, const std::string& pattern) {
  const std::regex expression(pattern);
  std::vector<std::string> found;
  for (std::sregex_iterator match(html.begin(), html.end(), expression), end; match != end; ++match) {
    found.push_back((*match)[1]);
  }
  return found;
}

/// What the page says, with one blank between words.
std::string words_of(const std::string& html) {
  std::string text = std::regex_replace(html.substr(html.find("<body>")), std::regex("<[^>]*>"), " ");
  return std::regex_replace(text, std::regex("(\\s|\u00a0)+"), " ");
}

bool says(const std::string& html, const std::string& words) {
  UNSCOPED_INFO(words);
  return words_of(html).find(words) != std::string::npos;
}

std::string with_both(const Told& told, double lx) { return markup_text(plain_illuminance(lx, told.job.units)); }

}  // namespace

TEST_CASE("the handout has the light's own numbers", "[report][exact]") {
  const Told told = ::told();
  const std::string html = told.html();
  const Statistics& light = told.light.work_plane.statistics;
  CHECK(says(html,
             "Light, on average " + with_both(told, light.average_lx) + " " + std::string(good_for(light.average_lx))));
  CHECK(says(html, "The room, on average " + with_both(told, light.average_lx)));
  CHECK(says(html, "wall " + with_both(told, light.maximum_lx) + " " + std::string(good_for(light.maximum_lx))));
  CHECK(says(html, "wall " + with_both(told, light.minimum_lx) + " " + std::string(good_for(light.minimum_lx))));
  CHECK(says(html, "Desk " + with_both(told, 520) + " bright enough to read small print"));
  CHECK(says(html, "Picture " + with_both(told, 100) + " " + std::string(share_words(100 / light.average_lx)) +
                       " the room\u2019s average"));
  CHECK(says(html,
             "Light, on average " + with_both(told, *told.job.target_lx) + " " + with_both(told, light.average_lx)));
  CHECK(says(html, "Power 76 W about as much as one and a half of the old 60 W bulbs"));
  CHECK(says(html, "The room measures 18' 0&quot; by 13' 0&quot;, the ceiling is 8' 0&quot; high."));
}

TEST_CASE("the handout tells moods by their own light", "[report][exact]") {
  const Told told = moody();
  Handout handout = told.handout();
  handout.moods = &told.moods;
  const std::string html = handout_html(handout);
  CHECK(says(html, "Evening " + with_both(told, 31) + " on average: enough to relax and talk."));
  CHECK(says(html, "desk: " + with_both(told, 40) + " , enough to relax and talk"));
  CHECK(says(html, "picture: " + with_both(told, 62) + " , twice the room\u2019s average"));
  CHECK(says(html, "at the seat \u201csofa\u201d glare: disturbs and lights mirror in: window"));
  CHECK(says(html, "Set: general at 10 %. Off: shelf."));
  CHECK(says(html, "Set: general full on and shelf on."));
  CHECK(says(html, "Power 8 W, about $1 a year."));
  CHECK(says(html, "the electricity comes to about $15 a year"));
  CHECK(told.html().find("moods</h2>") == std::string::npos);
}

TEST_CASE("the handout shows the room as it will look, and none leaves an empty box", "[report][exact]") {
  const Told told = moody();
  Handout handout = told.handout();
  handout.moods = &told.moods;
  const auto images = [](const Handout& each) { return all_of(handout_html(each), "<img alt=\"([^\"]*)\"").size(); };
  CHECK(images(handout) == 1);  // map of the light
  handout.mood_pictures = {mood_picture(told.job, told.moods.moods.front(), k_png), {}};
  CHECK(images(handout) == 2);
  handout.room_picture = room_picture(told.job, handout.light, k_png);
  CHECK(images(handout) == 3);
  CHECK(says(handout_html(handout), "The room as it will look. A picture made from the calculated light"));
}

TEST_CASE("the handout says how many lights it takes", "[report][exact]") {
  const Told told = ::told();
  Handout handout = told.handout();
  handout.comparison = &told.comparison;
  const std::string html = handout_html(handout);
  const auto row = [&](int index) {
    const Statistics& light = told.comparison.rows[static_cast<std::size_t>(index)].statistics;
    return with_both(told, light.average_lx) + " " + with_both(told, light.minimum_lx);
  };
  CHECK(says(html, "This plan 8 lights " + row(0)));
  CHECK(says(html, "4 lights layout 2 " + row(1) + " no, misses by"));
  CHECK(says(html, "6 lights layout 3 " + row(2)));

  Comparison comparison = told.comparison;
  const auto conclusion = [&](std::optional<int> fewest) {
    comparison.fewest = fewest;
    handout.comparison = &comparison;
    return handout_html(handout);
  };
  CHECK(says(conclusion(6), "6 lights would be enough for what is wanted; this plan has 2 more."));
  CHECK(says(conclusion({}), "None of the layouts tried gives all that is wanted."));
}

TEST_CASE("the best layout of a count is one that fits and lacks least", "[report][exact]") {
  Told told = ::told();
  Comparison& comparison = told.comparison;
  comparison.rows.push_back(comparison.rows[2]);
  comparison.rows[2].layout.name = "hits wood";
  comparison.rows[2].misfits = 2;
  comparison.rows[3].layout.name = "clears wood, moved";
  comparison.rows[3].statistics.minimum_lx /= 2;
  Handout handout = told.handout();
  handout.comparison = &comparison;
  CHECK(says(handout_html(handout), "6 lights clears wood "));
  CHECK_FALSE(says(handout_html(handout), "hits wood"));
  comparison.rows.pop_back();
  CHECK(says(handout_html(handout), "6 lights hits wood, 2 holes would hit framing"));
}

TEST_CASE("the handout owns up to places that cannot be cut", "[report][exact]") {
  const Told told = ::told();
  Handout handout = told.handout();
  CHECK_FALSE(says(handout_html(handout), "Not yet as it can be built"));
  handout.misfits = 2;
  CHECK(says(handout_html(handout), "places hit something above the ceiling and have to move before anybody cuts"));
  handout.misfits = 1;
  CHECK(says(handout_html(handout), "places hits something above the ceiling and has to move before anybody cuts"));
}

TEST_CASE("whatever the job's names hold stays text", "[report][property]") {
  for (const std::string& name :
       {std::string("<script>alert(1)</script>"), std::string("\"><img src=x onerror=alert(1)>"),
        std::string("]]></style></title><b>"), std::string("&lt;&amp;&#60;"), std::string("a\0b\x1b[2J", 7),
        std::string("\xff\xfe"), std::string("\U0001f6cb\ufe0f sofa"), std::string("\u202eevil"),
        std::string(5000, 'W')}) {
    INFO(name);
    const auto html_of = [](const std::string& each) {
      Told told = moody();
      told.job.room.name = each;
      told.job.currency = each;
      for (TaskArea& area : told.job.task_areas) area.name = each;
      told.job.task_areas.front().target_lx = 100;
      told.job.obstructions = {{}};
      told.job.obstructions.front().name = each;
      told.job.can_types.front().name = each;
      for (Can& can : told.job.cans) can.type = each;
      for (Circuit& circuit : told.job.circuits) circuit.name = each;
      told.job.finishes.wall[each] = 0.5;
      for (MoodLight& mood : told.moods.moods) {
        mood.name = each;
        mood.seats.front().seat = each;
        mood.seats.front().screens.front().screen = each;
        mood.wishes = {{.area = each, .result = {1, -0.5}}};
      }
      for (ComparedLayout& row : told.comparison.rows) row.layout.name = each;
      Handout handout = told.handout();
      handout.moods = &told.moods;
      handout.comparison = &told.comparison;
      handout.mood_pictures = {{each, each, each, k_png}, {each, each, each, k_png}};
      return handout_html(handout);
    };
    const std::string html = html_of(name);
    // The same tags as of a plain name: no text has become markup.
    const std::string tag = "<(/?[a-z0-9]*)";
    CHECK(all_of(html, tag) == all_of(html_of("name"), tag));
    CHECK(all_of(html, "&(?!(amp|lt|gt|quot);)(.)").empty());
    CHECK(html.find('\0') == std::string::npos);
    CHECK(html.find('\x1b') == std::string::npos);
    CHECK(html.find("\u202e") == std::string::npos);
  }
}

TEST_CASE("the handout is a whole page that nothing is loaded into", "[report][exact]") {
  const Told told = moody();
  Handout handout = told.handout();
  handout.moods = &told.moods;
  handout.comparison = &told.comparison;
  handout.room_picture = room_picture(told.job, handout.light, k_png);
  for (const MoodLight& mood : told.moods.moods) handout.mood_pictures.push_back(mood_picture(told.job, mood, k_png));
  const std::string html = handout_html(handout);
  CHECK(html.starts_with("<!DOCTYPE html>\n<html lang=\"en\">\n"));
  CHECK(html.ends_with("</html>\n"));
  CHECK(html.find("<title>Plan of light: Living room</title>") != std::string::npos);
  CHECK(html.find("<script") == std::string::npos);
  CHECK(html.find("http:") == std::string::npos);
  CHECK(html.find("https:") == std::string::npos);
  CHECK(html.find("url(") == std::string::npos);
  for (const std::string& source : all_of(html, "src=\"([^\"]{0,40})")) {
    CHECK(source.starts_with("data:image/png;base64,iVBOR"));
  }
}

TEST_CASE("the handout can be read without seeing it", "[report][property]") {
  const Told told = moody();
  Handout handout = told.handout();
  handout.moods = &told.moods;
  handout.comparison = &told.comparison;
  handout.room_picture = room_picture(told.job, handout.light, k_png);
  for (const MoodLight& mood : told.moods.moods) handout.mood_pictures.push_back(mood_picture(told.job, mood, k_png));
  const std::string html = handout_html(handout);
  // WCAG 2.1: 1.1.1 (alternatives), 1.3.1 (headings, table headers).
  const auto alternatives = all_of(html, "<img alt=\"([^\"]*)\"");
  CHECK(alternatives.size() == all_of(html, "(<img)").size());
  for (const std::string& alternative : alternatives) CHECK(alternative.size() > 20);
  int depth = 0;
  for (const std::string& level : all_of(html, "<h([1-6])>")) {
    CHECK(std::stoi(level) <= depth + 1);
    depth = std::stoi(level);
  }
  CHECK(all_of(html, "(<h1)").size() == 1);
  CHECK(all_of(html, "<th ([a-z]*)=").size() == all_of(html, "(<th[ >])").size());
  for (const std::string& scope : all_of(html, "<th scope=\"([a-z]*)\"")) CHECK((scope == "col" || scope == "row"));
  CHECK(all_of(html, "(<table)").size() == all_of(html, "(<caption)").size());
}

TEST_CASE("the handout says who must do the work, and holds no number that is none", "[report][property]") {
  Told told = moody();
  MoodLight& dark = told.moods.moods.back();
  dark.light.work_plane.statistics.average_lx = 0;
  dark.light.readings.task_areas = {area_light(0), area_light(0)};
  for (MoodLight& mood : told.moods.moods) {
    mood.watts.reset();
    mood.energy.reset();
  }
  dark.wishes = {{.kind = LevelWish::Kind::ratio, .result = {INFINITY, INFINITY}}};
  told.light.work_plane.statistics.uniformity_min_avg = 0;
  told.light.work_plane.watts.reset();
  told.job.target_lx.reset();
  told.job.room.name.clear();
  Handout handout = told.handout();
  handout.moods = &told.moods;
  const std::string html = handout_html(handout);
  for (const auto& list : {cautions(), owner_cautions()}) {
    for (const std::string_view caution : list) CHECK(says(html, markup_text(caution)));
  }
  const std::string words = words_of(html);
  CHECK_FALSE(std::regex_search(words, std::regex("\\b(nan|inf)\\b")));
  CHECK(says(html, "Your room"));
  CHECK(says(html, "No amount of light was asked for."));
  CHECK(says(html, "Evening 0 fc (0 lx) on average: dark."));
  CHECK(says(html, "Not as wished: the room, too much."));
  CHECK_FALSE(says(html, " Power"));
}

TEST_CASE("the same handout has the same bytes, and its maker sees the warnings", "[report][exact]") {
  const Told told = ::told();
  CHECK(told.html() == told.html());
  const std::string text = handout_text(told.handout(), {{whole_file("room.toml"), "a hole does not fit", "move it"}});
  CHECK(text.starts_with("Living room: handout.\n"));
  CHECK(text.find("\nWarnings\n  room.toml: a hole does not fit (move it)\n") != std::string::npos);
}
