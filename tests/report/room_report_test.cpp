#include "evenlit/report/room_report.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "evenlit/base/utf8.hpp"
#include "evenlit/job/read_job.hpp"
#include "evenlit/photometry/synthetic.hpp"

using namespace evenlit;
using Json = nlohmann::json;

namespace {

/// A study of 240 in by 160 in with a door, a desk, a switch and a circuit of two of its three cans.
const std::string k_study = R"([room]
name = "Study"
width = "240in"
depth = "160in"
ceiling = "8ft"
[finishes]
walls = "LRV 55"
wall = { north = 0.305 }
[joists]
parallel_to = "west"
first = "239in"
spacing = "16in"
thickness = "4in"
[can_types.six]
beam = { lumens = 900, angle = 60 }
watts = 10.5
hole = "6in"
rating = "IC"
[circuits.ceiling]
dimmer = "box"
[dimmers.box]
curve = "square"
[[cans]]
type = "six"
from = { east = "40in", south = "30in" }
circuit = "ceiling"
aim = { tilt = 30, toward = 90 }
[[cans]]
type = "six"
from = { west = "10in", south = "1in" }
circuit = "ceiling"
level = "50 %"
[[cans]]
type = "six"
from = { west = "80in", north = "40in" }
drop = "12in"
[[keep_outs]]
name = "detector"
from = { west = "60in", south = "60in" }
diameter = "6in"
clearance = "3in"
[[obstructions]]
name = "desk"
from = { west = 0, south = "100in" }
width = "30in"
depth = "60in"
top = "29in"
reflectance = "40 %"
[[wall_areas]]
name = "door"
kind = "door"
wall = "south"
from = { west = "20in" }
width = "32in"
bottom = 0
top = "80in"
reflectance = "50 %"
[[views]]
name = "from the desk"
from = { west = "20in", south = "120in" }
looking_at = { from = { west = "20in", south = "20in" }, height = "5ft" }
[moods.film]
settings = { ceiling = "50 %" }
[moods.dim]
levels = { ceiling = "25 %" }
[moods.bright]
[[moods.bright.wish]]
about = "30 fc"
)";

struct Told {
  explicit Told(const std::string& text) {
    auto read = read_job(text, "study.toml");
    INFO((read ? std::string{} : text_of(read.error(), text)));
    REQUIRE(read);
    job = std::move(*read);
    photometry.push_back(synthetic_file(*job.can_types[0].beam).value());
    holes = hole_hits(job);
  }

  [[nodiscard]] Json json() const { return Json::parse(room_json({job, photometry, holes}, {})); }
  [[nodiscard]] std::string text() const { return room_text({job, photometry, holes}, {}); }

  Job job;
  std::vector<PhotometricFile> photometry;
  std::vector<CanHits> holes;
};

}  // namespace

TEST_CASE("room JSON: the plan, its finishes and cans", "[report][exact]") {
  const Json json = Told(k_study).json();
  CHECK(json["format"] == "evenlit room");
  CHECK(json["version"] == 1);
  CHECK(json["units"] == "imperial");
  const Json& room = json["room"];
  CHECK(room["kind"] == "rectangle");
  CHECK(room["width"] == "20' 0\"");
  CHECK(room["ceiling_m"] == 2.4384);
  CHECK(room["floor_area"] == "267 ft2");  // 240 x 160 / 144
  CHECK(room["corners"][1] == Json::parse(R"({"x_m": 6.096, "y_m": 0.0, "wall_from_here": "east"})"));
  CHECK(json["target"].is_null());
  CHECK(json["work_plane"]["height"] == "2' 6\"");
  CHECK(json["finishes"][2]["text"] == "LRV 55");
  CHECK(json["finishes"][3] == Json::parse(R"({"name": "north", "reflectance": 0.305, "text": "LRV 30.5"})"));
  const Json& type = json["can_types"][0];
  CHECK(type["about"] == "a made beam of 60 degrees");
  CHECK(type["lumens"] == 900);
  CHECK(type["file"].is_null());
  CHECK(type["hole_m"] == 0.1524);
  const Json& can = json["cans"][0];
  CHECK(can["number"] == 1);
  CHECK(can["x_m"] == 5.08);  // 200 in
  CHECK(can["from"][0] == Json::parse(R"({"wall": "east", "text": "3' 4\"", "distance_m": 1.016})"));
  CHECK(can["aim"]["tilt_deg"] == 30);
  CHECK(can["fits"] == true);
  CHECK_FALSE(can["hangs"]);
  CHECK(json["cans"][1]["fits"] == false);
  CHECK(json["cans"][1]["hits"][0] == "its hole is 2\" too near to the south wall");
  CHECK(json["cans"][2]["hangs"] == true);
  CHECK(json["cans"][2]["fits"].is_null());
  CHECK(json["cans"][2]["height_m"] == 2.1336);
}

TEST_CASE("room JSON: what stands on the plan", "[report][exact]") {
  const Json json = Told(k_study).json();
  // The one joist is 237 to 241 in from the west wall; the room ends at 240.
  REQUIRE(json["framing"].size() == 1);
  double least_x = 1e9;
  double most_x = 0;
  for (const Json& corner : json["framing"][0]["outline"]) {
    least_x = std::min(least_x, corner[0].get<double>());
    most_x = std::max(most_x, corner[0].get<double>());
  }
  CHECK(least_x == Approx(6.0198).margin(1e-4));
  CHECK(most_x == Approx(6.096).margin(1e-4));
  CHECK(json["keep_outs"][0]["outline"].size() == 32);
  CHECK(json["keep_outs"][0]["clearance"] == "3\"");
  CHECK(json["obstructions"][0]["outline"][2] == Json::parse("[0.762, 4.064]"));
  CHECK(json["obstructions"][0]["top"] == "2' 5\"");
  CHECK(json["wall_areas"][0]["kind"] == "door");
  const Json& line = json["wall_areas"][0]["line"];
  CHECK(std::minmax({line[0][0].get<double>(), line[1][0].get<double>()}) == std::pair(0.508, 1.3208));
  CHECK(line[0][1] == 0);
  CHECK(json["views"][0]["toward_deg"] == Approx(-90));
  CHECK(json["seats"].empty());
}

TEST_CASE("room JSON: light by setting, and moods", "[report][exact]") {
  const Json json = Told(k_study).json();
  REQUIRE(json["circuits"].size() == 2);
  const Json& dimmed = json["circuits"][0];
  CHECK(dimmed["cans"] == Json::parse("[1, 2]"));
  CHECK(dimmed["dimmed"] == true);
  REQUIRE(dimmed["light_of_setting"].size() == 101);
  CHECK(dimmed["light_of_setting"][50] == 0.25);
  const Json& others = json["circuits"][1];
  CHECK(others["name"].is_null());
  CHECK(others["cans"] == Json::parse("[3]"));
  CHECK(others["light_of_setting"][37] == 0.37);
  std::map<std::string, Json> moods;
  for (const Json& mood : json["moods"]) moods[mood["name"]] = mood;
  CHECK(moods["film"]["levels"]["ceiling"] == 0.25);
  CHECK(moods["dim"]["settings"]["ceiling"].get<double>() == Approx(0.5).margin(1e-6));
  CHECK(moods["bright"]["levels"].is_null());
}

TEST_CASE("room JSON: a plan with slanted walls has no width, and joists end at its walls", "[report][exact]") {
  std::string text = k_study;
  const std::string size = "width = \"240in\"\ndepth = \"160in\"\n";
  text.replace(text.find(size), size.size(),
               "corners = [[0, 0], [\"240in\", 0], [\"240in\", \"160in\"], [\"60in\", \"160in\"], [0, \"150in\"]]\n"
               "walls = [\"south\", \"east\", \"north\", \"slant\", \"west\"]\n");
  const Json json = Told(text).json();
  CHECK(json["room"]["kind"] == "corners");
  CHECK(json["room"]["width"].is_null());
  CHECK(json["room"]["corners"][3]["wall_from_here"] == "slant");
}

TEST_CASE("room text: what a person checks, in lines of 80 columns", "[report][exact]") {
  const std::string text = Told(k_study).text();
  CHECK(text.find("Study: 20' 0\" x 13' 4\", 267 ft2, ceiling 8' 0\".\n") == 0);
  CHECK(text.find("Floor LRV 20, ceiling LRV 80, walls LRV 55, north wall LRV 30.5.") != std::string::npos);
  CHECK(text.find("\n3 cans\n") != std::string::npos);
  CHECK(text.find("Circuit \"ceiling\", dimmed: Cans 1 and 2.") != std::string::npos);
  CHECK(text.find("Can 3 below the ceiling.") != std::string::npos);
  CHECK(text.find("Can 2 does not fit: its hole is 2\" too near to the south wall.") != std::string::npos);
  CHECK(text.find("To keep clear of: detector.") != std::string::npos);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(code_points(line) <= 80);
}
