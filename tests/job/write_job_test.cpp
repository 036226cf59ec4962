#include "evenlit/job/write_job.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "evenlit/job/read_job.hpp"
#include "random_jobs.hpp"
#include "sample_job.hpp"

using namespace evenlit;

TEST_CASE("write job: reading what was written gives an equal job", "[job][property]") {
  RandomJobs jobs(20240503);
  for (int i = 0; i < 400; ++i) {
    const auto job = jobs.next();
    const auto text = write_job(job);
    const auto read = read_job(text, "written.toml");
    INFO(text);
    INFO((read ? std::string{} : text_of(read.error(), text)));
    REQUIRE(read);
    CHECK(*read == job);
  }
}

TEST_CASE("write job: what a person wrote comes back in the trade's own forms", "[job][exact]") {
  const auto job = read_job(k_sample_job, "den.toml");
  REQUIRE(job);
  CHECK(write_job(*job) == R"(units = "imperial"
target = "30 fc"

[room]
name = "Den"
width = "18ft 2in"
depth = "13ft 0in"
ceiling = "8ft 0in"

[finishes]
floor = 0.2
ceiling = 0.8
walls = 0.5

[finishes.wall]
south = 0.3

[work_plane]
height = "2ft 6in"
spacing = "0.25 m"
margin = "6in"

[joists]
parallel_to = "south"
first = "8in"
spacing = "1ft 4in"
thickness = "1-1/2in"

[[obstructions]]
name = "island"
from = { west = "6ft 0in", south = "5ft 0in" }
width = "7ft 0in"
depth = "3ft 0in"
bottom = "4in"
top = "3ft 0in"
turn = 30
reflectance = 0.4

[can_types.six_inch]
file = "../photometry/six-inch-medium.ies"
light_loss = 0.9
watts = 10.5
hole = "6-3/8in"
opening = { diameter = "5in" }

[can_types.spot]
beam = { lumens = 900, angle = 60 }
light_loss = 1
opening = { width = "2in", length = "3in" }

[[cans]]
type = "six_inch"
from = { west = "3ft 3in", south = "3ft 3in" }
level = 0.8

[[cans]]
type = "spot"
from = { north = "4ft 0in", east = "5ft 0in" }
aim = { tilt = 30, toward = 90 }
rotation = 15
)");
}

TEST_CASE("write job: task areas and points come back in the forms in which they are thought of", "[job][exact]") {
  const auto job = read_job(std::string(k_sample_job) + std::string(k_sample_readings), "den.toml");
  REQUIRE(job);
  CHECK_THAT(write_job(*job), Catch::Contains(R"([[task_areas]]
name = "desk"
from = { west = "1ft 0in", south = "5ft 0in" }
width = "2ft 6in"
depth = "5ft 0in"
turn = 5
height = "2ft 5in"
spacing = "6in"

[[task_areas]]
name = "picture"
corners = [
  ["4ft 0in", "13ft 0in", "4ft 0in"],
  ["3ft 0in", "13ft 0in", "4ft 0in"],
  ["3ft 0in", "13ft 0in", "6ft 0in"],
]

[[points]]
name = "under the table"
from = { east = "4ft 0in", south = "5ft 0in" }
height = "2ft 4in"
facing = "down"

[[points]]
name = "easel"
from = { east = "4ft 0in", south = "6ft 0in" }
height = "5ft 0in"
facing = { tilt = 75, toward = 180 }

[[points]]
name = "screen"
from = { east = "4ft 0in", south = "6ft 0in" }
height = "4ft 0in"
facing = 180

[[points]]
name = "faces"
from = { east = "4ft 0in", south = "7ft 0in" }
height = "4ft 0in"
facing = "around"

[[points]]
name = "view"
from = { east = "4ft 0in", south = "8ft 0in" }
height = "4ft 0in"
looking = { toward = 90, tilt = 0 }
)"));
}

TEST_CASE("write job: slopes, wall areas and mountings come back as a person would write them", "[job][exact]") {
  auto job = read_job(k_sample_job, "den.toml");
  REQUIRE(job);
  job->room.slopes = {{"west", 2.4384, 8.0 / 12},
                      {"east", 2.4384, std::tan(30 * (std::numbers::pi / 180))},
                      {"north", 2.4384, 0.123456789}};
  const WallRectangle door{.wall = "north", .from = {"east", 0.9144}, .width_m = 0.9144, .top_m = 2};
  job->wall_areas.push_back({door, "door", WallArea::Kind::plain, 0.5, {}});
  job->cans[0].drop_m = 0.3048;
  job->cans[0].is_square = true;
  job->cans[1].height_m = 1.8288;
  const auto text = write_job(*job);
  CHECK_THAT(text, Catch::Contains(R"(slopes = [
  { wall = "west", height = "8ft 0in", pitch = "8/12" },
  { wall = "east", height = "8ft 0in", pitch = 30 },
  { wall = "north", height = "8ft 0in", pitch = "0.123456789/1" },
]
)"));
  CHECK_THAT(text, Catch::Contains(R"([[wall_areas]]
name = "door"
wall = "north"
from = { east = "3ft 0in" }
width = "3ft 0in"
top = "2 m"
reflectance = 0.5
)"));
  CHECK_THAT(text, Catch::Contains("level = 0.8\ndrop = \"1ft 0in\"\naim = \"square\"\n"));
  CHECK_THAT(text, Catch::Contains("height = \"6ft 0in\"\naim = { tilt = 30, toward = 90 }\n"));
}

TEST_CASE("write job: a rectangle whose walls have other names is written by its corners", "[job][exact]") {
  auto job = read_job(k_sample_job, "den.toml");
  REQUIRE(job);
  job->room.wall_names = {"street", "stairs", "garden", "kitchen"};
  const auto text = write_job(*job);
  CHECK(text.find(R"(corners = [
  ["0in", "0in"],
  ["18ft 2in", "0in"],
  ["18ft 2in", "13ft 0in"],
  ["0in", "13ft 0in"],
]
walls = [
  "street",
  "stairs",
  "garden",
  "kitchen",
]
)") != std::string::npos);
}

TEST_CASE("write job: circuits, dimmers and moods come back as a person would write them", "[job][exact]") {
  const auto job = read_job(controls_job(), "den.toml");
  REQUIRE(job);
  const auto text = write_job(*job);
  CHECK_THAT(text, Catch::Contains(R"(
dimming = { least = 0.05, curve = "square", power = [[0, 0.02], [0.5, 0.55], [1, 1]] }
warm_dim = [[0.05, 1800], [1, 2700]]
power_factor = 0.9
)"));
  CHECK_THAT(text, Catch::Contains("level = 0.8\ncircuit = \"ceiling\"\n"));
  CHECK_THAT(text, Catch::EndsWith(R"(
[dimmers.wall_box]
curve = [[0, 0], [0.5, 0.2], [1, 1]]
low_end = 0.01
high_end = 0.9
cut_off = 0.02
rated = 150
rated_va = 200
ganged = 0.8
minimum_load = 10

[circuits.ceiling]
dimmer = "wall_box"

[circuits.entry]
switch = true

[moods.television]
hours = 2
levels = { ceiling = 0.08 }

[moods.cleaning]
settings = { ceiling = 1, entry = 1 }

[moods.dinner]
off = ["entry"]
equal = [["ceiling", "entry"]]

[[moods.dinner.wish]]
at_least = "5 fc"
at_most = "10 fc"

[[moods.dinner.wish]]
area = "desk"
ratio = 3
weight = 2

[[moods.dinner.wish]]
area = "desk"
about = "30 fc"

[energy]
price = 0.17
hours = 4

[supply]
breaker = 15
volts = 120
)"));
}
