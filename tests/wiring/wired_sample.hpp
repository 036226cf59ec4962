#pragma once

#include <catch2/catch.hpp>
#include <string>

#include "evenlit/job/read_job.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/wiring/wired_job.hpp"

namespace evenlit::sample {

/// A room of 6 m by 4 m, 2.5 m high, with joists along its depth at 0.5 m, 1.5 m and so on; three cans of 12 VA on a
/// switch, 1.3 m below the ceiling.
inline const std::string k_wired_room = R"(units = "metric"
[room]
name = "Study"
width = "6 m"
depth = "4 m"
ceiling = "2.5 m"
[joists]
parallel_to = "west"
first = "0.5 m"
spacing = "1 m"
[circuits.general]
switch = true
[can_types.round]
beam = { lumens = 800, angle = 60 }
watts = 10
va = 12
price = 20
[[cans]]
type = "round"
circuit = "general"
from = { west = "3 m", south = "3 m" }
[[cans]]
type = "round"
circuit = "general"
from = { west = "1 m", south = "1 m" }
[[cans]]
type = "round"
circuit = "general"
from = { west = "3 m", south = "1 m" }
[wiring]
path = "bays"
joist_depth = "235 mm"
slack = "20 cm"
waste = 0
[[wiring.switches]]
name = "door"
wall = "west"
from = { south = "1 m" }
height = "1.2 m"
circuits = ["general"]
)";

inline std::string with(std::string text, const std::string& old, const std::string& replacement) {
  const auto at = text.find(old);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), replacement);
}

struct Wired {
  Scene scene;
  WiredJob job;
};

inline Wired wired(const std::string& text) {
  const auto job = read_job(text, "study.toml");
  INFO((job ? std::string() : text_of(job.error())));
  REQUIRE(job);
  std::vector<PhotometricFile> files;
  for (const CanType& type : job->can_types) files.push_back(synthetic_file(*type.beam).value());
  Scene scene = build_scene(*job, files);
  WiredJob with_cables = wired_job("study", *job, scene);
  return {std::move(scene), std::move(with_cables)};
}

}  // namespace evenlit::sample
