#include "evenlit/job/meter_readings.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "evenlit/base/light_units.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

/// 18' 2" by 13' under 8 ft, with points that face up, around and look.
const Job& den() {
  static const Job job = [] {
    const auto read = read_job(std::string(k_sample_job) + std::string(k_sample_readings) +
                                   "[[points]]\nname = \"chair\"\nfrom = { west = \"1 m\", south = \"2 m\" }\n"
                                   "height = \"1.2 m\"\n",
                               "den.toml");
    REQUIRE(read);
    return *read;
  }();
  return job;
}

constexpr std::string_view k_header = "point,wall,distance,wall,distance,height,facing,reading\n";

std::vector<MeterReading> readings_in(std::string_view bytes) {
  const auto readings = read_meter_readings(bytes, "night.csv", den());
  INFO((readings ? std::string() : text_of(readings.error())));
  REQUIRE(readings);
  return *readings;
}

MeterReading reading_in(std::string_view row) {
  const auto readings = readings_in(std::string(k_header) + std::string(row));
  REQUIRE(readings.size() == 1);
  return readings.front();
}

std::string message_of(std::string_view bytes) {
  const auto readings = read_meter_readings(bytes, "night.csv", den());
  REQUIRE_FALSE(readings);
  return text_of(readings.error());
}

std::string message_of_row(std::string_view row) { return message_of(std::string(k_header) + std::string(row)); }

constexpr std::string_view k_place_hint =
    "hint: write two walls with distances and a height, like west,5ft,south,4ft 6in,30in\n";

}  // namespace

TEST_CASE("meter readings: a point of the job, and a place by tape", "[job][exact]") {
  const auto readings =
      readings_in(std::string(k_header) + "chair,,,,,,,300 lx\ncorner,West,2ft,south,0.9 m,30in,down,28 fc\n");
  REQUIRE(readings.size() == 2);
  CHECK(readings[0].point == den().points.back());
  CHECK(readings[0].point.origin.place == Place{"night.csv", 2, 1, 5});
  CHECK(readings[0].lx == 300);
  CHECK(readings[0].origin.place == Place{"night.csv", 2, 13, 6});
  CHECK(readings[1].point.name == "corner");
  CHECK(readings[1].point.from[0] == Taped{"west", 0.6096});
  CHECK(readings[1].point.from[1] == Taped{"south", 0.9});
  CHECK(readings[1].point.height_m == 0.762);
  CHECK(std::get<Facing>(readings[1].point.reads) == Facing{180, 0});
  CHECK(readings[1].lx == 28 * k_lux_per_footcandle);
}

TEST_CASE("meter readings: a place without a name is called by its line and faces up", "[job][exact]") {
  const MeterReading reading = reading_in("\n,east,1 m,north,1 m,0,,5 fc\n");
  CHECK(reading.point.name == "line 3");
  CHECK(std::get<Facing>(reading.point.reads) == Facing{0, 0});
  CHECK(std::get<Facing>(reading_in(",east,1 m,north,1 m,0,-90,5 fc").point.reads) == Facing{90, -90});
}

TEST_CASE("meter readings: columns in any order, with units of bare numbers, and notes", "[job][exact]") {
  const auto readings = readings_in(
      "Reading (fc);NOTE;Height [in];wall;Distance ft;wall;distance (m)\n"
      "12,5;by the door;30;west;2;south;0,9\n"
      "130 lx;;76,2 cm;west;2ft 6in;south;0.9 m\n");
  REQUIRE(readings.size() == 2);
  CHECK(readings[0].lx == 12.5 * k_lux_per_footcandle);
  CHECK(readings[0].point.height_m == 0.762);
  CHECK(readings[0].point.from[0] == Taped{"west", 0.6096});
  CHECK(readings[0].point.from[1] == Taped{"south", 0.9});
  CHECK(readings[1].lx == 130);
  CHECK(readings[1].point.height_m == Approx(0.762).epsilon(1e-15));
  CHECK(readings_in("point;reading\nchair;300 lx\n").size() == 1);
}

TEST_CASE("meter readings: a comma between digits is taken where it means one thing", "[job][exact]") {
  CHECK(reading_in("chair,,,,,,,\"312,5 lx\"").lx == 312.5);
  CHECK(reading_in("chair,,,,,,,\"0,125 fc\"").lx == 0.125 * k_lux_per_footcandle);
  CHECK(reading_in("chair,,,,,,,\"1234,567 lx\"").lx == 1234.567);
  CHECK(message_of_row("chair,,,,,,,\"1,250 lx\"") ==
        "night.csv:2:13: the comma in \"1,250 lx\" may stand for decimals or thousands\n"
        "hint: write decimals after a point and thousands without a comma\n");
  CHECK(message_of_row("chair,,,,,,,\"1,250.5 lx\"").find("is not an illuminance") != std::string::npos);
  CHECK(message_of_row("chair,,,,,,,312,5 lx") ==
        "night.csv:2:13: \"312\" has no unit\nhint: write lux like 300 lx, or foot-candles like 30 fc\n"
        "night.csv:2:17: \"5 lx\" stands in a column without a name\n"
        "hint: a comma in a cell parts it: put the cell between quotes, or write a point\n");
  CHECK(message_of("point,reading (fc),note\nchair,31,5\n") ==
        "night.csv:2:10: the note \"5\" is a number alone\n"
        "hint: a comma in a cell parts it: put the cell between quotes, or write a point\n");
}

TEST_CASE("meter readings: no readings", "[job][exact]") {
  CHECK(message_of("# nothing yet\n") ==
        "night.csv:1:1: there are no readings\n"
        "hint: write a first line like point,wall,distance,wall,distance,height,reading\n");
  CHECK(message_of(k_header) ==
        "night.csv:1:1: there are no readings below the column names\nhint: add a line for each reading\n");
  std::string many(k_header);
  for (std::size_t i = 0; i <= k_most_meter_readings; ++i) many += "chair,,,,,,,300 lx\n";
  CHECK(message_of(many) == "night.csv:1002:1: the table has 1001 readings\nhint: at most 1000 are compared at once\n");
}

TEST_CASE("meter readings: mistakes in the columns' names", "[job][exact]") {
  CHECK(message_of("point,wall\nchair,west\n") ==
        "night.csv:1:1: the table has no column named reading\n"
        "hint: write a first line like point,wall,distance,wall,distance,height,reading\n");
  CHECK(message_of("reading\n300 lx\n") ==
        "night.csv:1:1: no column says where the readings were taken\n"
        "hint: write a first line like point,wall,distance,wall,distance,height,reading\n");
  CHECK(message_of("point,heigth,colour,reading\n") ==
        "night.csv:1:7: column \"heigth\" is unknown\nhint: did you mean \"height\"?\n"
        "night.csv:1:14: column \"colour\" is unknown\n"
        "hint: columns are point, wall, distance, height, facing, reading, note\n");
  CHECK(message_of("point,reading,reading\n") ==
        "night.csv:1:15: column \"reading\" is there once too often\nhint: name a column that does not count note\n");
  CHECK(message_of("point,height (lx),reading (cd)\n") ==
        "night.csv:1:7: \"lx\" is no unit of the column \"height (lx)\"\nhint: write a unit like (in), (ft) or (m)\n"
        "night.csv:1:19: \"cd\" is no unit of the column \"reading (cd)\"\n"
        "hint: write reading (lx) or reading (fc)\n");
}

TEST_CASE("meter readings: mistakes in the place", "[job][exact]") {
  CHECK(message_of_row(",,,,,,,300 lx") ==
        "night.csv:2:8: the row names no point and gives no place\n" + std::string(k_place_hint));
  CHECK(message_of_row("chiar,,,,,,,300 lx") ==
        "night.csv:2:1: the job has no point \"chiar\"\nhint: did you mean \"chair\"?\n");
  CHECK(message_of_row("over there,,,,,,,300 lx") ==
        "night.csv:2:1: the job has no point \"over there\"\n" + std::string(k_place_hint));
  for (const char* name : {"faces", "view"}) {
    CHECK(message_of_row(std::string(name) + ",,,,,,,300 lx") ==
          "night.csv:2:1: point \"" + std::string(name) +
              "\" is not what a lux meter reads\n"
              "hint: a meter faces one way: give the point facing = \"up\" in the job, or the place by tape\n");
  }
  CHECK(message_of_row("chair,,,,,,down,300 lx") ==
        "night.csv:2:12: the job says where point \"chair\" faces\nhint: leave facing empty\n");
  CHECK(message_of_row("chair,west,1 m,south,1 m,0,,300 lx") ==
        "night.csv:2:1: point \"chair\" has its place in the job\n"
        "hint: leave walls, distances and height empty, or give this place another name\n");
  CHECK(message_of_row("a,west,1 m,,,30in,,300 lx") ==
        "night.csv:2:1: the row does not name two walls\n" + std::string(k_place_hint));
  CHECK(message_of_row("a,west,,south,1 m,30in,,300 lx") ==
        "night.csv:2:1: the distance from wall \"west\" is missing\n" + std::string(k_place_hint));
  CHECK(message_of_row("a,west,1 m,south,1 m,,,300 lx") ==
        "night.csv:2:1: the height above the floor is missing\n" + std::string(k_place_hint));
  CHECK(message_of_row("a,wset,1 m,south,1 m,1 m,,300 lx") ==
        "night.csv:2:3: the room has no wall \"wset\"\nhint: did you mean \"west\"?\n");
  CHECK(message_of_row("a,left,1 m,south,1 m,1 m,,300 lx") ==
        "night.csv:2:3: the room has no wall \"left\"\nhint: its walls are south, east, north, west\n");
  CHECK(message_of_row("a,west,1 m,east,1 m,1 m,,300 lx") ==
        "night.csv:2:12: walls \"west\" and \"east\" are parallel\n"
        "hint: measure from two walls that meet at an angle\n");
  CHECK(message_of_row("a,west,20ft 2in,south,1 m,1 m,,300 lx") ==
        "night.csv:2:8: the reading was taken 2' 0\" outside the room\n"
        "hint: each distance is square to its wall, from the wall into the room\n");
  CHECK(message_of_row("a,west,-2ft,south,1 m,1 m,,300 lx") ==
        "night.csv:2:8: the distance from wall \"west\" is -2' 0\": below 0\n"
        "hint: measure from the wall into the room, and up from the floor\n");
  CHECK(message_of_row("a,west,5,south,1 m,1 m,,300 lx") ==
        "night.csv:2:8: distance from wall \"west\": \"5\" has no unit\n"
        "hint: write feet and inches like 12ft 6-3/8in, or metres like 3.81 m\n");
  CHECK(message_of_row("a,west,1 m,south,1 m,9ft,,300 lx") ==
        "night.csv:2:22: the height 9' 0\" is above the ceiling at 8' 0\"\nhint: heights are above the floor\n");
  CHECK(message_of_row("a,west,1 m,south,1 m,1 m,sideways,300 lx") ==
        "night.csv:2:26: facing \"sideways\" is unknown\n"
        "hint: write up, down, or a direction on the plan in degrees: 0 east, 90 north\n");
}

TEST_CASE("meter readings: mistakes in the value", "[job][exact]") {
  const std::string forms = "hint: write lux like 300 lx, or foot-candles like 30 fc\n";
  CHECK(message_of_row("chair") ==
        "night.csv:2:1: the row has no reading\n"
        "hint: write it like 300 lx or 28 fc, or begin the row with #\n");
  CHECK(message_of_row("chair,,,,,,,300") == "night.csv:2:13: \"300\" has no unit\n" + forms);
  CHECK(message_of_row("chair,,,,,,,-3 lx") == "night.csv:2:13: \"-3 lx\" is below 0\n" + forms);
  CHECK(message_of_row("chair,,,,,,,bright") == "night.csv:2:13: \"bright\" is not an illuminance\n" + forms);
  CHECK(message_of_row("chair,,,,,,,nan lx") == "night.csv:2:13: \"nan lx\" is not an illuminance\n" + forms);
  CHECK(message_of_row("chair,,,,,,,1e400 lx") == "night.csv:2:13: \"1e400 lx\" is not an illuminance\n" + forms);
  CHECK(message_of_row("chair,,,,,,,300000 lx") ==
        "night.csv:2:13: a reading of \"300000 lx\" is brighter than full sun\n"
        "hint: check the decimal point and the unit\n");
}

TEST_CASE("meter readings: every mistake is told at once, of very many the first hundred", "[job][exact]") {
  std::string rows(k_header);
  for (int i = 0; i < 300; ++i) rows += "nowhere,,,,,,,-3 lx\n";
  const auto readings = read_meter_readings(rows, "night.csv", den());
  REQUIRE_FALSE(readings);
  CHECK(readings.error().size() == 100);
}

TEST_CASE("meter readings: whatever is done to a table, it is read or refused with a place", "[job][property]") {
  const std::string table = std::string(k_header) +
                            "chair,,,,,,,300 lx\n\"corner\",west,2ft,south,\"0,9 m\",30in,down,28 fc\n"
                            "# remark\n,east,1 m,north,1 m,5' 6\",90,5 fc\n";
  const std::string pieces = ",;\t\"'#\n\r0123456789.-eE \xef\xbb\xbf\xff\xe2\x80\xb2()[]%" + std::string(1, '\0');
  std::mt19937 random(20);
  const auto below = [&](std::size_t most) { return random() % most; };
  int accepted = 0;
  for (int trial = 0; trial < 20'000; ++trial) {
    std::string bytes = table;
    for (std::size_t change = 0; change <= below(4); ++change) {
      const std::size_t at = below(bytes.size());
      if (below(3) == 0) {
        bytes.erase(at, 1 + below(20));
      } else if (below(2) == 0) {
        bytes[at] = pieces[below(pieces.size())];
      } else {
        bytes.insert(at, 1 + below(3), pieces[below(pieces.size())]);
      }
      if (bytes.empty()) break;
    }
    const auto readings = read_meter_readings(bytes, "night.csv", den());
    bool is_sound = true;
    if (readings) {
      ++accepted;
      for (const MeterReading& reading : *readings) {
        is_sound = is_sound && std::isfinite(reading.lx) && reading.lx >= 0 && std::isfinite(reading.point.height_m) &&
                   plan_position(den().room, reading.point).has_value();
      }
      is_sound = is_sound && !readings->empty();
    } else {
      is_sound = !readings.error().empty();
      for (const Problem& problem : readings.error()) {
        is_sound = is_sound && problem.place.line > 0 && problem.place.column > 0 && !problem.what.empty();
      }
      is_sound = is_sound && !text_of(readings.error(), bytes).empty();
    }
    if (!is_sound) FAIL("not sound: " << bytes);
  }
  // Both ways out were taken.
  CHECK(accepted > 100);
  CHECK(accepted < 19'900);
}
