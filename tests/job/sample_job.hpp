#pragma once

#include <catch2/catch.hpp>
#include <string>
#include <string_view>

#include "evenlit/job/read_job.hpp"

namespace evenlit {

/// A job that uses every table but those of readings.
inline constexpr std::string_view k_sample_job = R"(units = "imperial"
target = "30 fc"

[room]
name = "Den"
width = "18ft 2in"
depth = "13ft"
ceiling = "8ft"

[finishes]
floor = "20 %"
ceiling = 0.8
walls = "LRV 50"
wall = { south = 0.3 }

[work_plane]
height = "30in"
spacing = "0.25 m"
margin = "6in"

[joists]
parallel_to = "south"
first = "8in"
spacing = "16in"
thickness = "1-1/2in"

[can_types.six_inch]
file = "../photometry/six-inch-medium.ies"
light_loss = 0.9
watts = 10.5
hole = "6-3/8in"
opening = { diameter = "5in" }

[can_types.spot]
beam = { lumens = 900, angle = 60 }
opening = { width = "2in", length = "3in" }

[[cans]]
type = "six_inch"
from = { west = "3ft 3in", south = "3ft 3in" }
level = "80 %"

[[cans]]
type = "spot"
from = { north = "4ft", east = "5ft" }
aim = { tilt = 30, toward = 90 }
rotation = 15

[[obstructions]]
name = "island"
from = { west = "6ft", south = "5ft" }
width = "7ft"
depth = "3ft"
bottom = "4in"
top = "36in"
turn = 30
reflectance = "40 %"
)";

/// What may follow the sample job.
inline constexpr std::string_view k_sample_readings = R"([[task_areas]]
name = "desk"
from = { west = "1ft", south = "5ft" }
width = "30in"
depth = "5ft"
turn = 5
height = "29in"
spacing = "6in"

[[task_areas]]
name = "picture"
corners = [["4ft", "13ft", "4ft"], ["3ft", "13ft", "4ft"], ["3ft", "13ft", "6ft"]]

[[points]]
name = "under the table"
from = { east = "4ft", south = "5ft" }
height = "28in"
facing = "down"

[[points]]
name = "easel"
from = { east = "4ft", south = "6ft" }
height = "5ft"
facing = { tilt = 75, toward = 180 }

[[points]]
name = "screen"
from = { east = "4ft", south = "6ft" }
height = "4ft"
facing = 180

[[points]]
name = "faces"
from = { east = "4ft", south = "7ft" }
height = "4ft"
facing = "around"

[[points]]
name = "view"
from = { east = "4ft", south = "8ft" }
height = "4ft"
looking = { toward = 90 }
)";

/// What else may follow the sample job, whose last line is 57.
inline constexpr std::string_view k_sample_framing = R"([[members]]
name = "doubled joist"
from = { west = "8ft" }
thickness = "3in"

[[members]]
name = "blocking"
start = { west = "11in", south = "4ft" }
end = { west = "27in", south = "4ft" }
thickness = "1-1/2in"

[[keep_outs]]
name = "supply vent"
from = { west = "3ft", south = 0 }
width = "14in"
depth = "6in"
turn = 10

[[keep_outs]]
name = "smoke detector"
from = { west = "9ft", south = "6ft" }
diameter = "6in"
clearance = "3in"

[[keep_outs]]
name = "duct"
corners = [["1ft", 0], ["1ft", "9ft"], ["2ft", "9ft"], ["2ft", 0]]

[[fans]]
name = "fan"
from = { west = "9ft", south = "6ft" }
diameter = "52in"
drop = "12in"
)";

/// What may follow the sample job and its readings.
inline constexpr std::string_view k_sample_controls = R"([[seats]]
name = "sofa"
from = { west = "8ft", south = "4ft" }
height = "44in"
looking = { toward = 0, tilt = -5 }

[[screens]]
name = "television"
wall = "east"
from = { south = "5ft" }
width = "48in"
bottom = "36in"
top = "63in"

[[screens]]
name = "glass table"
corners = [["1ft", "1ft", "2ft"], ["3ft", "1ft", "2ft"], ["3ft", "2ft", "2ft"], ["1ft", "2ft", "2ft"]]

[dimmers.wall_box]
curve = [[0, 0], ["50 %", "20 %"], [1, 1]]
low_end = "1 %"
high_end = "90 %"
cut_off = "2 %"
rated = 150
rated_va = 200
ganged = "80 %"
minimum_load = 10

[circuits.ceiling]
dimmer = "wall_box"

[circuits.entry]
switch = true

[moods.television]
levels = { ceiling = "8 %" }
hours = 2

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
)";

/// The sample job with the first `old` in it replaced.
inline std::string sample_with(std::string_view old, std::string_view replacement) {
  std::string text(k_sample_job);
  return text.replace(text.find(old), old.size(), replacement);
}

/// The sample job with readings and controls, a driver in its first can type, and its first can on a circuit.
inline std::string controls_job() {
  std::string text = sample_with("level = \"80 %\"", "level = \"80 %\"\ncircuit = \"ceiling\"");
  constexpr std::string_view k_watts = "watts = 10.5\n";
  constexpr std::string_view k_driver =
      "dimming = { least = \"5 %\", curve = \"square\", power = [[0, 0.02], [0.5, 0.55], [1, 1]] }\n"
      "warm_dim = [[0.05, 1800], [1, 2700]]\npower_factor = 0.9\n";
  text.insert(text.find(k_watts), k_driver);
  return text + std::string(k_sample_readings) + std::string(k_sample_controls);
}

/// What a person sees for the sample job with the first `old` in it replaced, without the source lines.
inline std::string message_with(std::string_view old, std::string_view replacement) {
  const auto job = read_job(sample_with(old, replacement), "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

}  // namespace evenlit
