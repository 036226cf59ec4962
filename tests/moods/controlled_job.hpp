#pragma once

#include <catch2/catch.hpp>
#include <string>

#include "evenlit/job/read_job.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// A room with a dimmed circuit of three cans, two of them of a kind that goes down to 5 % only, a switched one of one
/// can, and a can on none.
inline Job controlled_job() {
  const auto can = [](const std::string& type, const std::string& more) {
    return "[[cans]]\ntype = \"" + type + "\"\nfrom = { west = \"1 m\", south = \"1 m\" }\n" + more;
  };
  const auto job = read_job(
      "[room]\nwidth = \"4 m\"\ndepth = \"3 m\"\nceiling = \"2.4 m\"\n"
      "[dimmers.knob]\nlow_end = \"2 %\"\nrated = 50\nrated_va = 40\nganged = 0.5\nminimum_load = 20\n"
      "[circuits.ceiling]\ndimmer = \"knob\"\n[circuits.entry]\nswitch = true\n"
      "[can_types.deep]\nbeam = { lumens = 800, angle = 60 }\nwatts = 10\npower_factor = 0.8\n"
      "[can_types.shallow]\nbeam = { lumens = 700, angle = 60 }\nwatts = 8\nva = 9\ndimming = { least = \"5 %\" }\n" +
          can("deep", "circuit = \"ceiling\"\n") + can("shallow", "circuit = \"ceiling\"\n") +
          can("shallow", "circuit = \"ceiling\"\n") + can("deep", "circuit = \"entry\"\n") +
          can("shallow", "level = 0.5\n"),
      "den.toml");
  INFO((job ? std::string() : text_of(job.error())));
  REQUIRE(job);
  return *job;
}

inline Scene scene_of(const Job& job) {
  std::vector<PhotometricFile> files;
  for (const CanType& type : job.can_types) files.push_back(synthetic_file(*type.beam).value());
  return build_scene(job, files);
}

}  // namespace evenlit
