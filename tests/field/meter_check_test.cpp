#include "evenlit/field/meter_check.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "evenlit/field/response.hpp"
#include "evenlit/job/read_job.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "evenlit/room/scene.hpp"

using namespace evenlit;

namespace {

/// 5 m x 4 m, 2.5 m high, six cans, a block in a corner.
std::string den_text(const std::string& finishes) {
  std::string text =
      "[room]\nname = \"Den\"\nwidth = \"5 m\"\ndepth = \"4 m\"\nceiling = \"2.5 m\"\n"
      "[can_types.flood]\nbeam = { lumens = 900, angle = 60 }\nlight_loss = 0.8\n"
      "[[obstructions]]\nname = \"block\"\nfrom = { east = \"0 m\", north = \"0 m\" }\nwidth = \"0.5 m\"\n"
      "depth = \"0.5 m\"\ntop = \"1 m\"\n" +
      finishes;
  for (const char* west : {"1 m", "2.5 m", "4 m"}) {
    for (const char* south : {"1 m", "3 m"}) {
      text +=
          "[[cans]]\ntype = \"flood\"\nfrom = { west = \"" + std::string(west) + "\", south = \"" + south + "\" }\n";
    }
  }
  return text;
}

Job den(const std::string& finishes = "[finishes]\nfloor = 0.2\nceiling = 0.8\nwalls = 0.5\n") {
  const auto job = read_job(den_text(finishes), "den.toml");
  INFO((job ? std::string() : text_of(job.error())));
  REQUIRE(job);
  return *job;
}

std::vector<PhotometricFile> photometry_of(const Job& job) {
  return {synthetic_file(*job.can_types.front().beam).value()};
}

std::vector<double> full(const Job& job) { return std::vector<double>(job.cans.size(), 1.0); }

constexpr std::string_view k_places =
    "wall,distance,wall,distance,height,facing,reading\n"
    "west,1 m,south,1 m,0.75 m,up,1 lx\n"
    "west,2.5 m,south,2 m,0.75 m,up,1 lx\n"
    "west,4 m,south,1 m,0.75 m,up,1 lx\n"
    "west,0.5 m,south,0.4 m,0.75 m,up,1 lx\n"
    "west,1.2 m,south,3 m,0.75 m,up,1 lx\n"
    "west,3.8 m,south,3.1 m,0.75 m,up,1 lx\n"
    "west,1.5 m,south,2 m,1.8 m,down,1 lx\n"
    "west,3.5 m,south,1.5 m,1.8 m,down,1 lx\n"
    "west,2.5 m,south,2 m,1.2 m,0,1 lx\n"
    "west,2.5 m,south,2 m,1.2 m,180,1 lx\n"
    "west,2.5 m,south,0.4 m,1.2 m,-90,1 lx\n"
    "west,2.5 m,south,2 m,2.4 m,up,1 lx\n";

std::vector<MeterReading> readings_in(std::string_view table, const Job& job) {
  const auto readings = read_meter_readings(table, "night.csv", job);
  INFO((readings ? std::string() : text_of(readings.error())));
  REQUIRE(readings);
  return *readings;
}

/// Readings as a perfect meter takes them in a room.
std::vector<MeterReading> read_in(const Job& room, const std::vector<double>& levels) {
  std::vector<MeterReading> readings = readings_in(k_places, room);
  const auto check = meter_check(room, photometry_of(room), readings, levels, 0.1);
  REQUIRE(check);
  for (std::size_t i = 0; i < readings.size(); ++i) readings[i].lx = check->value.fit.readings[i].predicted_lx;
  return readings;
}

MeterCheck checked(const Job& job, std::vector<MeterReading> readings, const std::vector<double>& levels) {
  const auto check = meter_check(job, photometry_of(job), std::move(readings), levels, 0.1);
  INFO((check ? std::string() : text_of(check.error())));
  REQUIRE(check);
  return check->value;
}

}  // namespace

TEST_CASE("meter check: the prediction is the response table's at the levels", "[field][exact]") {
  const Job job = den();
  const std::vector<double> levels{1, 0.5, 0, 1, 0.25, 1};
  const MeterCheck check = checked(job, readings_in(k_places, job), levels);
  const Scene scene = build_scene(job, photometry_of(job));
  const std::vector<Receiver> receivers{{{1, 1, 0.75}, {0, 0, 1}}, {{1.5, 2, 1.8}, {0, 0, -1}}};
  const Field field = field_at(response(scene, receivers), Eigen::VectorXd::Map(levels.data(), 6));
  // Two tables cut for other receivers, each within its stated error of 0.5 %.
  CHECK(check.fit.readings[0].predicted_lx == Approx(field.total_lx[0]).epsilon(0.01));
  CHECK(check.fit.readings[6].predicted_lx == Approx(field.total_lx[1]).epsilon(0.01));
  CHECK(check.new_over_maintained == Approx(1 / 0.8));
  CHECK(check.reflectance[0] == Approx(0.2));
  CHECK(check.reflectance[1] == Approx(0.8));
  CHECK(check.reflectance[2] == Approx(0.5));
}

TEST_CASE("meter check: a room as the job has it fits as it is", "[field][exact]") {
  const Job job = den();
  const MeterCheck check = checked(job, read_in(job, full(job)), full(job));
  CHECK(check.fit.factor->value.value == Approx(1).epsilon(1e-9));
  for (const FittedShift& shift : check.fit.surfaces->shifts) CHECK(shift.value.value == Approx(0).margin(1e-6));
}

TEST_CASE("meter check: finishes other than the job's are found from readings that see them", "[field][reference]") {
  const Job job = den();
  const Job room = den("[finishes]\nfloor = 0.32\nceiling = 0.7\nwalls = 0.4\n");
  std::vector<MeterReading> readings = read_in(room, full(room));
  for (MeterReading& reading : readings) reading.lx *= 1.1;
  const MeterCheck check = checked(job, readings, full(job));
  const std::array<double, 3> truth{0.12, -0.1, -0.1};
  for (std::size_t i = 0; i < 3; ++i) {
    const FittedShift& shift = check.fit.surfaces->shifts[i];
    CAPTURE(i, shift.value.value, shift.value.least, shift.value.most);
    CHECK(shift.value.contains(truth[i]));
    // Readings without noise that are taken to scatter by 1 %, and what the doubt keeps at the job's.
    CHECK(shift.value.value == Approx(truth[i]).margin(0.04));
  }
  CHECK(check.fit.surfaces->shifts[0].is_told);
  CHECK(check.fit.surfaces->factor.value == Approx(1.1).margin(0.05));
  for (const ComparedReading& reading : check.fit.readings) CHECK(std::abs(reading.residual) < 0.02);
}

TEST_CASE("meter check: a can that is out is named", "[field][reference]") {
  const Job job = den();
  for (const std::size_t out : {0U, 4U}) {
    std::vector<double> levels = full(job);
    levels[out] = 0;
    const MeterCheck check = checked(job, read_in(job, levels), full(job));
    // Cans 1 and 5 are right over the first and the third reading.
    const ComparedReading& below = check.fit.readings[out == 0 ? 0 : 2];
    CAPTURE(out, below.residual);
    REQUIRE(below.is_outlier);
    REQUIRE(below.suspect);
    CHECK(below.suspect->can == static_cast<int>(out));
  }
}

TEST_CASE("meter check: walls of their own reflectance are shifted with the others, within what can be",
          "[field][exact]") {
  const Job job = den("[finishes]\nfloor = 0.05\nceiling = 0.9\nwalls = 0.5\nwall = { north = 0.1 }\n");
  std::vector<MeterReading> readings = read_in(job, full(job));
  for (std::size_t i = 6; i < readings.size(); ++i) readings[i].lx *= 0.5;
  const MeterCheck check = checked(job, readings, full(job));
  // 18 m of walls, 5 of them at 0.1.
  CHECK(check.reflectance[2] == Approx((13 * 0.5 + 5 * 0.1) / 18));
  CHECK(check.fit.surfaces->shifts[0].value.least >= -0.03 - 1e-12);
  CHECK(check.fit.surfaces->shifts[1].value.most <= 0.05 + 1e-12);
  CHECK(check.fit.surfaces->shifts[2].value.least >= -0.08 - 1e-12);
}

TEST_CASE("meter check: what cannot be is refused where it stands", "[field][exact]") {
  const Job job = den();
  const auto message = [&](std::string_view rows, const std::vector<double>& levels) {
    const auto readings = readings_in("point,wall,distance,wall,distance,height,reading\n" + std::string(rows), job);
    const auto check = meter_check(job, photometry_of(job), readings, levels, 0.1);
    REQUIRE_FALSE(check);
    return text_of(check.error());
  };
  CHECK(message("a,west,1 m,south,1 m,0.75 m,200 lx\nb,east,0.2 m,north,0.3 m,0.5 m,90 lx\n", full(job)) ==
        "night.csv:3:1: point \"b\" is inside obstruction \"block\"\n"
        "hint: light is read in the open; choose another place or height\n");
  CHECK(message("a,west,1 m,south,1 m,0.75 m,200 lx\n", std::vector<double>(6, 0.0)) ==
        "night.csv:2:29: less than 1 lx is predicted at every reading\n"
        "hint: give the cans' levels at which the readings were taken, in the job or as a mood\n");
}

TEST_CASE("meter check: few readings are compared with a remark", "[field][exact]") {
  const Job job = den();
  const auto remarks = [&](int count) {
    std::vector<MeterReading> readings = read_in(job, full(job));
    readings.resize(static_cast<std::size_t>(count));
    const auto check = meter_check(job, photometry_of(job), readings, full(job), 0.1);
    REQUIRE(check);
    return text_of(check->warnings);
  };
  CHECK(remarks(2) ==
        "night.csv:3:32: 2 of the readings can be compared together: too few to tell a factor\n"
        "hint: take 3 or more, well apart\n");
  CHECK(remarks(5) ==
        "night.csv:6:32: 5 of the readings can be compared: too few to tell reflectances\n"
        "hint: take 6 or more, some facing down or to a wall\n");
  CHECK(remarks(6).empty());
}

TEST_CASE("meter check: where too little is predicted a reading is passed over with a remark", "[field][exact]") {
  const Job job = den();
  std::vector<double> levels(6, 0.0);
  levels[0] = 0.02;
  std::vector<MeterReading> readings = read_in(job, full(job));
  std::swap(readings[5], readings.back());
  const auto check = meter_check(job, photometry_of(job), readings, levels, 0.1);
  REQUIRE(check);
  // The far corner of the room at 2 % of one can.
  const ComparedReading& far = check->value.fit.readings[11];
  CHECK(far.predicted_lx < k_least_compared_lx);
  CHECK_FALSE(far.deviation);
  CHECK(text_of(check->warnings)
            .find("night.csv:7:34: at \"line 7\" less than 1 lx is predicted\n"
                  "hint: too little for a meter to compare\n") != std::string::npos);
}
