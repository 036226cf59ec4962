#include "evenlit/moods/room_moods.hpp"

#include <algorithm>
#include <cmath>

#include "controlled_job.hpp"
#include "evenlit/moods/circuits.hpp"

using namespace evenlit;

namespace {

/// 4 m x 3 m. Two dimmed circuits of two warm cans each, west and east; a switched one of a cool can in the middle.
/// The seat looks north, where a screen hangs high.
const std::string k_room =
    "[room]\nname = \"Den\"\nwidth = \"4 m\"\ndepth = \"3 m\"\nceiling = \"2.4 m\"\n"
    "[dimmers.knob]\nlow_end = \"2 %\"\n"
    "[circuits.west]\ndimmer = \"knob\"\n[circuits.east]\ndimmer = \"knob\"\n[circuits.middle]\nswitch = true\n"
    "[can_types.warm]\nbeam = { lumens = 800, angle = 60 }\nwatts = 10\ncct = 2700\n"
    "[can_types.cool]\nbeam = { lumens = 600, angle = 80 }\nwatts = 8\ncct = 4000\n"
    "[energy]\nprice = 0.2\n"
    "[[task_areas]]\nname = \"desk\"\nfrom = { west = \"0.4 m\", south = \"0.4 m\" }\nwidth = \"1 m\"\n"
    "depth = \"0.6 m\"\nheight = \"0.75 m\"\n"
    "[[task_areas]]\nname = \"table\"\nfrom = { east = \"0.4 m\", north = \"0.4 m\" }\nwidth = \"1 m\"\n"
    "depth = \"0.6 m\"\nheight = \"0.75 m\"\n"
    "[[seats]]\nname = \"chair\"\nfrom = { west = \"2 m\", south = \"0.5 m\" }\nheight = \"1.2 m\"\n"
    "looking = { toward = 90 }\n"
    "[[screens]]\nname = \"picture glass\"\nwall = \"north\"\nfrom = { west = \"1.5 m\" }\nwidth = \"1 m\"\n"
    "bottom = \"1.7 m\"\ntop = \"2.2 m\"\n";

std::string can(const std::string& type, double west_m, double south_m, const std::string& more) {
  return "[[cans]]\ntype = \"" + type + "\"\nfrom = { west = \"" + std::to_string(west_m) + " m\", south = \"" +
         std::to_string(south_m) + " m\" }\n" + more + "\n";
}

const std::string k_cans = can("warm", 1, 0.8, "circuit = \"west\"") + can("warm", 1, 2.2, "circuit = \"west\"") +
                           can("warm", 3, 0.8, "circuit = \"east\"") + can("warm", 3, 2.2, "circuit = \"east\"") +
                           can("cool", 2, 1.5, "circuit = \"middle\"");

Job job_of(const std::string& moods, const std::string& cans = k_cans) {
  const auto job = read_job(k_room + cans + moods, "den.toml");
  INFO((job ? std::string() : text_of(job.error())));
  REQUIRE(job);
  return *job;
}

std::vector<PhotometricFile> photometry_of(const Job& job) {
  std::vector<PhotometricFile> files;
  for (const CanType& type : job.can_types) files.push_back(synthetic_file(*type.beam).value());
  return files;
}

Grid grid_of(const Job& job) { return work_plane_grid(job.room, job.work_plane, {}).value(); }

RoomMoods moods_of(const Job& job) {
  const auto moods = room_moods(job, photometry_of(job), grid_of(job));
  INFO((moods ? std::string() : text_of(moods.error())));
  REQUIRE(moods);
  return *moods;
}

MoodLight mood_of(const Job& job) { return moods_of(job).moods.at(0); }

/// The job as if its cans had no circuits but these levels.
Job at_levels(Job job, const std::vector<double>& levels) {
  job.moods.clear();
  for (std::size_t i = 0; i < job.cans.size(); ++i) {
    job.cans[i].circuit.reset();
    job.cans[i].level = levels[i];
  }
  return job;
}

const std::string k_three_moods =
    "[moods.full]\nsettings = { west = 1, east = 1, middle = 1 }\n"
    "[moods.dim]\nlevels = { west = \"10 %\", east = \"35 %\" }\n"
    "[moods.wished]\noff = [\"middle\"]\n"
    "[[moods.wished.wish]]\narea = \"desk\"\nabout = \"150 lx\"\n"
    "[[moods.wished.wish]]\narea = \"table\"\nratio = 0.5\nto = \"desk\"\n"
    "[[moods.wished.wish]]\nat_most = \"90 lx\"\n";

double average_lx(const MoodLight& mood, std::size_t area) {
  return mood.light.readings.task_areas[area].average_lx.value;
}

}  // namespace

// Two solves that state their errors are apart by no more than both errors together.
TEST_CASE("room moods: each mood is the light of the job with its cans at these levels", "[moods][property]") {
  const Job job = job_of(k_three_moods, k_cans + can("warm", 3.6, 1.5, "level = 0.3"));
  const Grid grid = grid_of(job);
  for (const MoodLight& mood : moods_of(job).moods) {
    const Job changed = at_levels(job, mood.can_levels);
    const Scene scene = build_scene(changed, photometry_of(changed));
    const RoomLight alone = room_light(scene, grid, job.target_lx, readings_of(changed, scene).value());
    INFO(mood.name);
    CHECK(mood.can_levels.back() == 0.3);
    const Field& of_mood = mood.light.work_plane.field;
    const Field& of_job = alone.work_plane.field;
    for (Eigen::Index i = 0; i < of_job.total_lx.size(); ++i) {
      CHECK(std::abs(of_mood.total_lx[i] - of_job.total_lx[i]) <= of_mood.error_lx[i] + of_job.error_lx[i]);
    }
    for (std::size_t i = 0; i < job.task_areas.size(); ++i) {
      const Estimate& one = mood.light.readings.task_areas[i].average_lx;
      const Estimate& other = alone.readings.task_areas[i].average_lx;
      CHECK(std::abs(one.value - other.value) <= one.error + other.error);
    }
  }
}

TEST_CASE("room moods: circuits that are off give nothing", "[moods][exact]") {
  const MoodLight dark = mood_of(job_of("[moods.night]\nsettings = { west = 0 }\nhours = 8\n"));
  CHECK(dark.can_levels == std::vector<double>(5, 0.0));
  CHECK(dark.light.work_plane.field.total_lx.maxCoeff() == 0);
  CHECK(dark.light.work_plane.statistics.average_lx == 0);
  CHECK(dark.watts == 0.0);
  REQUIRE(dark.energy);
  CHECK(dark.energy->kwh == 0);
  CHECK_FALSE(dark.colour);
  REQUIRE(dark.seats.size() == 1);
  CHECK(dark.seats[0].seen_cd_m2.value == 0);
  CHECK_FALSE(dark.seats[0].glare.worst);
  CHECK(dark.seats[0].screens.empty());
}

TEST_CASE("room moods: levels asked for are reached by the settings", "[moods][exact]") {
  const Job job = job_of(k_three_moods);
  const MoodLight dim = moods_of(job).moods[1];
  CHECK(dim.circuit_light[0] == Approx(0.1).margin(1e-9));  // as `setting_for` says
  CHECK(dim.circuit_light[1] == Approx(0.35).margin(1e-9));
  CHECK(dim.circuit_light[2] == 0);
  CHECK(dim.settings[2] == 0);
  CHECK(dim.can_levels == can_levels(job, dim.settings));
  // 2 % + 98 % of the setting, of a linear curve.
  CHECK(dim.settings[0] == Approx((0.1 - 0.02) / 0.98).margin(1e-8));
}

TEST_CASE("room moods: what wishes have is what the areas have", "[moods][exact]") {
  const MoodLight mood = moods_of(job_of(k_three_moods)).moods[2];
  REQUIRE(mood.wishes.size() == 3);
  CHECK(mood.wishes[0].area == "desk");
  CHECK(mood.wishes[0].value == 150);
  CHECK(mood.wishes[0].result.has == average_lx(mood, 0));
  CHECK(mood.wishes[1].area == "table");
  CHECK(mood.wishes[1].other == "desk");
  CHECK(mood.wishes[1].result.has == average_lx(mood, 1) / average_lx(mood, 0));
  CHECK(mood.wishes[2].area.empty());
  CHECK(mood.wishes[2].result.has == mood.light.work_plane.statistics.average_lx);
  for (const WishLight& wish : mood.wishes) {
    const double share = wish.result.has / wish.value - 1;
    CHECK(wish.result.off_by == (wish.kind == LevelWish::Kind::at_most ? std::max(share, 0.0) : share));
  }
  CHECK(mood.can_levels[4] == 0);
}

TEST_CASE("room moods: two areas and two circuits get what is wished of them", "[moods][property]") {
  const MoodLight mood =
      mood_of(job_of("[moods.work]\noff = [\"middle\"]\n[[moods.work.wish]]\narea = \"desk\"\nabout = \"160 lx\"\n"
                     "[[moods.work.wish]]\narea = \"table\"\nabout = \"90 lx\"\n"));
  // The preference for less power costs 1e-6 of a wish's square: 1e-3 of the wish.
  CHECK(average_lx(mood, 0) == Approx(160).epsilon(1e-3));
  CHECK(average_lx(mood, 1) == Approx(90).epsilon(1e-3));
  CHECK_FALSE(mood.split);
}

// A driver without a table takes a tenth of its watts whenever it is on: 0.1 + 0.9 x light.
TEST_CASE("room moods: watts and what they cost in a year", "[moods][exact]") {
  const Job job = job_of(
      "[moods.dim]\nlevels = { west = \"50 %\", middle = 1 }\nhours = 3\n[moods.now]\nsettings = { "
      "east = 1 }\n");
  const auto moods = moods_of(job).moods;
  const double watts = 2 * 10 * (0.1 + 0.9 * 0.5) + 8;
  CHECK(*moods[0].watts == Approx(watts).epsilon(1e-8));
  REQUIRE(moods[0].energy);
  CHECK(moods[0].energy->kwh == Approx(1e-3 * watts * 3 * 365).epsilon(1e-8));
  CHECK(*moods[0].energy->cost == Approx(0.2e-3 * watts * 3 * 365).epsilon(1e-8));
  CHECK_FALSE(moods[1].energy);  // nobody says how long it is on
}

TEST_CASE("room moods: cans of two colours mix by their light", "[moods][exact]") {
  const auto moods = moods_of(job_of("[moods.warm]\nlevels = { west = \"50 %\" }\n[moods.cool]\nsettings = { middle = "
                                     "1 }\n[moods.mixed]\nlevels = { west = \"30 %\", middle = 1 }\n"))
                         .moods;
  for (const MoodLight& mood : moods) REQUIRE((mood.colour && mood.colour->tone));
  // Black bodies are found again to a hundredth of a kelvin.
  CHECK(moods[0].colour->tone->kelvin == Approx(2700).margin(0.01));
  CHECK(moods[1].colour->tone->kelvin == Approx(4000).margin(0.01));
  // Beams are made to their lumens within the step of their tables.
  CHECK(moods[2].colour->lumens == Approx(2 * 800 * 0.3 + 600).epsilon(1e-3));
  const std::vector<ColouredLight> parts{{2 * 800 * 0.3, black_body(2700)}, {600, black_body(4000)}};
  CHECK(moods[2].colour->tone->kelvin == Approx(mixed_light(parts)->tone->kelvin).epsilon(1e-3));
  CHECK(moods[2].colour->tone->kelvin > 2700);
  CHECK(moods[2].colour->tone->kelvin < 4000);
}

TEST_CASE("room moods: a can of unknown colour or watts leaves these open only while it is on", "[moods][exact]") {
  Job job = job_of("[moods.all]\nsettings = { west = 1, middle = 1 }\n[moods.west]\nsettings = { west = 1 }\n");
  job.can_types[1].cct_k.reset();
  job.can_types[1].watts.reset();
  const auto moods = moods_of(job).moods;
  CHECK_FALSE(moods[0].colour);
  CHECK_FALSE(moods[0].watts);
  CHECK(moods[1].colour);
  CHECK(*moods[1].watts == Approx(20).epsilon(1e-12));
}

TEST_CASE("room moods: a seat that looks at a can glares, one that turns its back does not", "[moods][exact]") {
  const std::string one = "[moods.middle]\nsettings = { middle = 1 }\n";
  const MoodLight facing = mood_of(job_of(one));
  REQUIRE(facing.seats.size() == 1);
  REQUIRE(facing.seats[0].glare.worst);
  CHECK(*facing.seats[0].glare.worst == 4);
  CHECK(facing.seats[0].glare.unified_rating);
  CHECK(facing.seats[0].glare.background_cd_m2 > 0);
  CHECK(facing.seats[0].surface == "north");
  Job turned = job_of(one);
  turned.seats[0].looking.toward_deg = -90;
  const MoodLight behind = mood_of(turned);
  CHECK_FALSE(behind.seats[0].glare.worst);
  CHECK_FALSE(behind.seats[0].glare.unified_rating);
  CHECK(behind.seats[0].surface == "south");
}

// Adaptation in a dimmed room: all luminances fall alike, so the rating falls with 8 lg of the level (from its
// formula).
TEST_CASE("room moods: dimmed tenfold a room glares by eight less", "[moods][exact]") {
  const auto moods = moods_of(job_of("[moods.full]\nlevels = { west = 1, east = 1 }\n[moods.tenth]\nlevels = { west = "
                                     "\"10 %\", east = \"10 %\" }\n"))
                         .moods;
  const double full = moods[0].seats[0].glare.unified_rating.value();
  const double tenth = moods[1].seats[0].glare.unified_rating.value();
  CHECK(full - tenth == Approx(8).epsilon(1e-7));  // settings to 1e-9
  CHECK(moods[1].seats[0].seen_cd_m2.value == Approx(moods[0].seats[0].seen_cd_m2.value / 10).epsilon(1e-7));
}

// Eye 2.5 m and can 1.5 m before the glass: the line to the mirrored can meets it 2.5/4 of the way up from 1.2 m to
// 2.4 m.
TEST_CASE("room moods: a screen mirrors a can that is on, where the law of reflection says", "[moods][exact]") {
  const auto moods =
      moods_of(job_of("[moods.on]\nsettings = { middle = 1 }\n[moods.off]\nsettings = { west = 0 }\n")).moods;
  const auto& screens = moods[0].seats[0].screens;
  REQUIRE(screens.size() == 1);
  CHECK(screens[0].screen == "picture glass");
  REQUIRE(screens[0].images.size() == 1);
  CHECK(screens[0].images[0].luminaire == 4);
  CHECK((screens[0].images[0].place_m - Eigen::Vector3d(2, 3, 1.2 + 1.2 * 2.5 / 4)).norm() < 0.01);  // flat to a disc
  CHECK(moods[1].seats[0].screens.empty());
}

TEST_CASE("room moods: a mood that cannot be set tells why, each one", "[moods][exact]") {
  const Job job =
      job_of("[moods.faint]\nlevels = { west = \"1 %\" }\n[moods.faint_east]\nlevels = { east = \"1.5 %\" }\n");
  const auto moods = room_moods(job, photometry_of(job), grid_of(job));
  REQUIRE_FALSE(moods);
  REQUIRE(moods.error().size() == 2);
  const std::string text = text_of(moods.error());
  CHECK(text.find("circuit \"west\" cannot give 1.00 % light\nhint: the nearest that it gives are 0 % and 2.00 %") !=
        std::string::npos);
  CHECK(text.find("circuit \"east\" cannot give 1.50 % light\nhint: the nearest that it gives are 0 % and 2.00 %") !=
        std::string::npos);
  CHECK(moods.error()[0].place.file == "den.toml");
  CHECK(moods.error()[0].place.line < moods.error()[1].place.line);
}

namespace {

/// One dimmed circuit, "west", of all cans.
const std::string k_cans_together =
    can("warm", 1, 0.8, "circuit = \"west\"") + can("warm", 1, 2.2, "circuit = \"west\"") +
    can("warm", 3, 0.8, "circuit = \"west\"") + can("warm", 3, 2.2, "circuit = \"west\"");

std::string wishes(const std::string& desk, const std::string& table) {
  return "[[moods.work.wish]]\narea = \"desk\"\nabout = \"" + desk + "\"\n[[moods.work.wish]]\narea = \"table\"\n" +
         "about = \"" + table + "\"\n";
}

}  // namespace

TEST_CASE("room moods: a split is proposed where wishes miss by much and it mends that", "[moods][exact]") {
  const RoomMoods apart = moods_of(job_of(wishes("200 lx", "60 lx"), k_cans_together));
  CHECK(apart.dimmed == std::vector<int>{0, 1, 2, 3});
  const auto& split = apart.moods[0].split;
  REQUIRE(split);
  CHECK(split->dimmer == 0);
  // The desk is in the south-west: east of the middle the cans leave, or north of it.
  CHECK((split->leaving == std::vector<int>{2, 3} || split->leaving == std::vector<int>{1, 3}));
  CHECK(split->grouping.misfit < 0.5 * apart.moods[0].wishes[1].result.off_by * apart.moods[0].wishes[1].result.off_by);
  CHECK_FALSE(mood_of(job_of(wishes("100 lx", "100 lx"), k_cans_together)).split);    // met by one dimmer
  CHECK_FALSE(mood_of(job_of(wishes("9000 lx", "9000 lx"), k_cans_together)).split);  // by no number of dimmers
}

TEST_CASE("room moods: a split neither lights what is off nor dims a switch", "[moods][exact]") {
  const std::string cans = k_cans_together + can("cool", 2, 1.5, "circuit = \"middle\"");
  for (const std::string off : {"", "[moods.work]\noff = [\"middle\"]\n"}) {
    const MoodLight mood = mood_of(job_of(off + wishes("200 lx", "60 lx"), cans));
    INFO(off);
    REQUIRE(mood.split);
    const double level = mood.split->grouping.moods.at(0).levels[4];
    CHECK((level == 0 || (off.empty() && level == 1)));
  }
}

TEST_CASE("grouping of a job: its cans on as many dimmers as asked for", "[moods][exact]") {
  const Job job = job_of(wishes("200 lx", "60 lx"), k_cans_together);
  const auto moods = room_moods(job, photometry_of(job), grid_of(job), 2);
  REQUIRE(moods);
  const auto& grouping = moods->proposed;
  REQUIRE(grouping);
  CHECK(grouping->dimmer_of.size() == 4);
  CHECK(*std::ranges::max_element(grouping->dimmer_of) == 1);
  CHECK(grouping->misfit <= mood_of(job).split->grouping.misfit + 1e-6);  // as exact as levels are
}

TEST_CASE("grouping of a job: what it cannot do is told", "[moods][exact]") {
  const auto message = [](const Job& job, int dimmers) {
    const auto moods = room_moods(job, photometry_of(job), grid_of(job), dimmers);
    REQUIRE_FALSE(moods);
    return moods.error().at(0).what;
  };
  CHECK(message(job_of("[moods.full]\nsettings = { west = 1 }\n"), 2) ==
        "no mood states wishes that cans could be grouped for");
  CHECK(message(job_of(""), 2) == "no mood states wishes that cans could be grouped for");
  CHECK(message(job_of(wishes("200 lx", "60 lx"), k_cans_together), 5) == "5 dimmers for 4 cans on circuits");
}

TEST_CASE("moods of a job: eyes inside of a box are told as a seat's", "[moods][exact]") {
  const Job job = job_of(
      "[moods.full]\nsettings = { west = 1 }\n[[obstructions]]\nname = \"chest\"\n"
      "from = { west = \"1 m\", south = \"1 m\" }\nwidth = \"1 m\"\ndepth = \"1 m\"\ntop = \"1 m\"\n"
      "[[seats]]\nname = \"stool\"\nfrom = { west = \"1.5 m\", south = \"1.5 m\" }\nheight = \"0.9 m\"\n"
      "looking = { toward = 0 }\n");
  const auto moods = room_moods(job, photometry_of(job), grid_of(job));
  REQUIRE_FALSE(moods);
  CHECK(moods.error().at(0).what == "the eyes of seat \"stool\" are inside obstruction \"chest\"");
}
