#include <catch2/catch.hpp>

#include "evenlit/base/light_units.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

/// What is wrong with the job of all controls when the last `old` in it is replaced.
std::vector<std::string> complaints(std::string_view old, std::string_view replacement) {
  std::string text = controls_job();
  const auto at = text.rfind(old);
  REQUIRE(at != std::string::npos);
  const auto job = read_job(text.replace(at, old.size(), replacement), "den.toml");
  REQUIRE_FALSE(job);
  std::vector<std::string> whats;
  for (const Problem& problem : job.error()) {
    CHECK(problem.place.line > 0);
    CHECK_FALSE(problem.hint.empty());
    whats.push_back(problem.what);
  }
  return whats;
}

using Whats = std::vector<std::string>;

}  // namespace

TEST_CASE("read circuits: dimmers, circuits, drivers and supply are read as written", "[job][exact]") {
  const auto job = read_job(controls_job(), "den.toml");
  REQUIRE(job);
  REQUIRE(job->dimmers.size() == 1);
  const Dimmer expected{.name = "wall_box",
                        .curve = RisingTable{{0, 0}, {0.5, 0.2}, {1, 1}},
                        .low_end = 0.01,
                        .high_end = 0.9,
                        .cut_off = 0.02,
                        .rated_w = 150,
                        .rated_va = 200,
                        .ganged = 0.8,
                        .minimum_load_w = 10};
  CHECK(job->dimmers[0] == expected);
  REQUIRE(job->circuits.size() == 2);
  CHECK(job->circuits[0] == Circuit{.name = "ceiling", .dimmer = "wall_box"});
  CHECK(job->circuits[1] == Circuit{.name = "entry"});
  CHECK(job->cans[0].circuit == "ceiling");
  CHECK_FALSE(job->cans[1].circuit);
  CHECK(job->can_types[0].dimming == Driver{0.05, CurveLaw::square, {{0, 0.02}, {0.5, 0.55}, {1, 1}}});
  CHECK(job->can_types[0].warm_dim_k == RisingTable{{0.05, 1800}, {1, 2700}});
  CHECK(job->can_types[0].power_factor == 0.9);
  CHECK(job->can_types[1].dimming == Driver{});
  CHECK(job->energy == Energy{0.17, 4});
  CHECK(job->supply == Supply{15, 120});
}

TEST_CASE("read moods: levels, settings and wishes are read as written", "[job][exact]") {
  const auto job = read_job(controls_job(), "den.toml");
  REQUIRE(job);
  REQUIRE(job->moods.size() == 3);
  CHECK(job->moods[0] == Mood{"television", CircuitLevels{{{"ceiling", 0.08}}}, 2, {}});
  CHECK(job->moods[1] == Mood{"cleaning", CircuitSettings{{{"ceiling", 1}, {"entry", 1}}}, {}, {}});
  const auto& wishes = std::get<Wishes>(job->moods[2].asks);
  CHECK(wishes.off == Whats{"entry"});
  CHECK(wishes.equal == std::vector<Whats>{{"ceiling", "entry"}});
  REQUIRE(wishes.wishes.size() == 3);
  CHECK_FALSE(wishes.wishes[0].area);
  // The foot-candle is defined by the foot; equal up to the last bit.
  CHECK(wishes.wishes[0].at_least_lx.value() == Approx(5 * k_lux_per_footcandle).epsilon(1e-15));
  CHECK(wishes.wishes[0].at_most_lx.value() == Approx(10 * k_lux_per_footcandle).epsilon(1e-15));
  CHECK(wishes.wishes[1] == Wish{.area = "desk", .ratio = 3, .weight = 2});
  CHECK(wishes.wishes[2].about_lx.value() == Approx(30 * k_lux_per_footcandle).epsilon(1e-15));
}

TEST_CASE("read seats and screens: eyes look, screens are on a wall or anywhere", "[job][exact]") {
  const auto job = read_job(controls_job(), "den.toml");
  REQUIRE(job);
  REQUIRE(job->seats.size() == 1);
  CHECK(job->seats[0].looking == Looking{0, -5});
  CHECK(job->seats[0].height_m == 44 * 0.0254);
  REQUIRE(job->screens.size() == 2);
  CHECK(std::get<WallRectangle>(job->screens[0].shape).wall == "east");
  CHECK(std::get<PlaneCorners>(job->screens[1].shape).size() == 4);
}

TEST_CASE("circuit mistakes: the place, and what to write instead", "[job][exact]") {
  CHECK(message_with("level = \"80 %\"", "circuit = \"cieling\"\n[circuits.ceiling]\nswitch = true") ==
        "den.toml:41:11: there is no circuit \"cieling\"\nhint: did you mean \"ceiling\"?\n");
  CHECK(message_with("[room]", "[circuits.cove]\n[room]") ==
        "den.toml:4:1: circuit \"cove\" has neither dimmer nor switch\n"
        "hint: write one of dimmer = \"the name of a dimmer\" and switch = true\n");
  CHECK(message_with("[room]", "[dimmers.a]\ncurve = [[0, 0], [0.5, 0.6], [0.7, 0.5], [1, 1]]\n[room]") ==
        "den.toml:5:30: curve of the dimmer: the output falls\n"
        "hint: list the pairs with rising setting; the output may stay, but not fall\n");
  CHECK(message_with("[room]", "[moods.dim]\nlevels = { cove = \"120 %\" }\n[circuits.cove]\nswitch = true\n[room]") ==
        "den.toml:5:19: level of circuit \"cove\" \"120 %\" is above 1\n"
        "hint: write a fraction from 0 to 1 like 0.8, a percentage like 80 %, or LRV 80\n");
}

TEST_CASE("circuit mistakes: circuits and dimmers", "[job][exact]") {
  CHECK(complaints("dimmer = \"wall_box\"", "dimmer = \"wall_bax\"") == Whats{"there is no dimmer \"wall_bax\""});
  CHECK(complaints("switch = true", "switch = true\ndimmer = \"wall_box\"") ==
        Whats{"circuit \"entry\" has both dimmer and switch"});
  CHECK(complaints("switch = true", "switch = false") == Whats{"circuit \"entry\" has neither dimmer nor switch"});
  CHECK(complaints("switch = true", "switch = 1") == Whats{"switch is a number, not true or false"});
  CHECK(complaints("high_end = \"90 %\"", "high_end = \"1 %\"") == Whats{"low_end is not below high_end"});
  CHECK(complaints("ganged = \"80 %\"", "ganged = 0") == Whats{"ganged 0 is not above 0"});
  CHECK(complaints("rated = 150", "rated = 0") == Whats{"rated load 0 is not above 0"});
  CHECK(complaints("[\"50 %\", \"20 %\"]", "[0, \"20 %\"]") == Whats{"curve of the dimmer: the setting does not rise"});
  CHECK(complaints("[\"50 %\", \"20 %\"]", "[0.5]") == Whats{"curve of the dimmer: a pair of 1 numbers, not of 2"});
  CHECK(complaints("[\"50 %\", \"20 %\"]", "[0.5, 20]") == Whats{"curve of the dimmer: output 20 is above 1"});
  CHECK(complaints("[\"50 %\", \"20 %\"]", "0.5") == Whats{"curve of the dimmer: a pair is a number, not a list"});
  CHECK(complaints("curve = [[0, 0], [\"50 %\", \"20 %\"], [1, 1]]", "curve = [[0, 0]]") ==
        Whats{"curve of the dimmer has 1 pairs, not 2 to 200"});
  CHECK(complaints("curve = [[0, 0], [\"50 %\", \"20 %\"], [1, 1]]", "curve = \"quadratic\"") ==
        Whats{"curve of the dimmer \"quadratic\" is unknown"});
  CHECK(complaints("breaker = 15", "volts = 120") == Whats{"[supply] has no breaker"});
  CHECK(complaints("hours = 4", "hours = 25") == Whats{"hours 25 is above 24"});
}

TEST_CASE("circuit mistakes: two circuits of one name are no TOML", "[job][exact]") {
  CHECK(complaints("[circuits.entry]", "[circuits.ceiling]") ==
        Whats{"this is not TOML: table header: cannot redefine existing table 'circuits.ceiling'"});
}

TEST_CASE("circuit mistakes: drivers, colours and volt-amperes", "[job][exact]") {
  CHECK(complaints("[0.5, 0.55], [1, 1]]", "[0.5, 0.55]]") ==
        Whats{"power of the driver does not end at full light and full watts"});
  CHECK(complaints("least = \"5 %\", ", "lowest = \"5 %\", ") == Whats{"dimming knows no key \"lowest\""});
  CHECK(complaints("warm_dim =", "cct = 2700\nwarm_dim =") == Whats{"the can type has both cct and warm_dim"});
  CHECK(complaints("[1, 2700]", "[1, 1700]") == Whats{"warm_dim: the colour temperature falls"});
  CHECK(complaints("power_factor =", "va = 12\npower_factor =") == Whats{"the can type has both va and power_factor"});
  CHECK(complaints("power_factor = 0.9", "va = 9") == Whats{"va is less than watts"});
}

TEST_CASE("mood mistakes: names that nothing has, and keys that do not go together", "[job][exact]") {
  CHECK(complaints("{ ceiling = \"8 %\" }", "{ cieling = \"8 %\" }") == Whats{"there is no circuit \"cieling\""});
  CHECK(complaints("off = [\"entry\"]", "off = [\"enrty\"]") == Whats{"there is no circuit \"enrty\""});
  CHECK(complaints("off = [\"entry\"]", "off = [\"entry\", \"entry\"]") == Whats{"circuit \"entry\" is named twice"});
  CHECK(complaints("[\"ceiling\", \"entry\"]", "[\"ceiling\"]") == Whats{"a group of 1 that is to be equal"});
  CHECK(complaints("area = \"desk\"\nabout", "area = \"dask\"\nabout") == Whats{"there is no task area \"dask\""});
  CHECK(complaints("entry = 1 }", "entry = 0.5 }") == Whats{"circuit \"entry\" is switched, not dimmed"});
  CHECK(complaints("hours = 2\n", "hours = 2\nsettings = { ceiling = 1 }\n") ==
        Whats{"mood \"television\" needs one of levels, settings and wishes"});
  CHECK(complaints("levels = { ceiling = \"8 %\" }\n", "") ==
        Whats{"mood \"television\" needs one of levels, settings and wishes"});
  CHECK(complaints("hours = 2\n", "hours = 2\noff = [\"entry\"]\n") == Whats{"off goes with wishes only"});
}

TEST_CASE("mood mistakes: wishes that darkness meets", "[job][exact]") {
  const std::string mood = "[[moods.night.wish]]\nat_most = \"2 fc\"\n[room]";
  CHECK(message_with("[room]", mood) ==
        "den.toml:4:1: no light at all would meet every wish of the mood\n"
        "hint: add to one of them at_least or about, as in about = \"7 fc\"\n");
}

TEST_CASE("mood mistakes: wishes that say nothing or contradict each other", "[job][exact]") {
  CHECK(complaints("about = \"30 fc\"", "weight = 3") == Whats{"the wish does not say what is wanted"});
  CHECK(complaints("ratio = 3", "ratio = 3\nabout = \"2 fc\"") ==
        Whats{"the wish has both a ratio and an illuminance",
              "\"desk\" is wanted at 30.0 fc or more and at 2.00 fc or less"});
  CHECK(complaints("ratio = 3", "ratio = 3\nto = \"desk\"") == Whats{"the ratio is of an area to itself"});
  CHECK(complaints("area = \"desk\"\nratio", "ratio") == Whats{"the ratio is of an area to itself"});
  CHECK(complaints("about = \"30 fc\"", "about = \"30 fc\"\nto = \"picture\"") ==
        Whats{"the wish has to, but no ratio"});
  CHECK(complaints("at_most = \"10 fc\"", "at_most = \"4 fc\"") ==
        Whats{"the work plane is wanted at 5.00 fc or more and at 4.00 fc or less"});
  CHECK(complaints("area = \"desk\"\nabout = \"30 fc\"", "about = \"30 fc\"") ==
        Whats{"the work plane is wanted at 30.0 fc or more and at 10.0 fc or less"});
  CHECK(complaints("weight = 2", "weight = 0") == Whats{"weight 0 is not above 0"});
}

TEST_CASE("seat and screen mistakes", "[job][exact]") {
  CHECK(complaints("looking = { toward = 0, tilt = -5 }\n", "") == Whats{"a seat in [[seats]] has no looking"});
  CHECK(complaints("height = \"44in\"", "height = \"9ft\"") ==
        Whats{"the seat's height at 9' 0\" is above the ceiling at 8' 0\""});
  CHECK(complaints("name = \"glass table\"", "name = \"television\"") == Whats{"two screens are named \"television\""});
  CHECK(complaints("name = \"glass table\"", "name = \"glass table\"\nwall = \"east\"") ==
        Whats{"the screen has both corners and wall"});
  CHECK(complaints("[\"3ft\", \"2ft\", \"2ft\"], ", "") == Whats{"the screen's corners are not those of a rectangle"});
  CHECK(complaints("[\"3ft\", \"2ft\", \"2ft\"]", "[\"3ft\", \"2ft\", \"3ft\"]") ==
        Whats{"the screen's corners are not those of a rectangle"});
  CHECK(complaints("[\"1ft\", \"1ft\", \"2ft\"], [\"3ft\", \"1ft\", \"2ft\"], [\"3ft\", \"2ft\", \"2ft\"]",
                   "[\"1ft\", \"9ft\", \"9ft\"], [\"3ft\", \"9ft\", \"9ft\"], [\"3ft\", \"2ft\", \"2ft\"]") ==
        Whats{"the screen's height at 9' 0\" is above the ceiling at 8' 0\""});
  CHECK(complaints("from = { south = \"5ft\" }\nwidth = \"48in\"", "from = { south = \"14ft\" }\nwidth = \"48in\"") ==
        Whats{"no part of \"television\" is on wall \"east\""});
}
