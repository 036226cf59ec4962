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

/// The sample job with the first `old` in it replaced.
inline std::string sample_with(std::string_view old, std::string_view replacement) {
  std::string text(k_sample_job);
  return text.replace(text.find(old), old.size(), replacement);
}

/// What a person sees for the sample job with the first `old` in it replaced, without the source lines.
inline std::string message_with(std::string_view old, std::string_view replacement) {
  const auto job = read_job(sample_with(old, replacement), "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

}  // namespace evenlit
