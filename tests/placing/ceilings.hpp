#pragma once

#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "evenlit/job/read_job.hpp"

namespace evenlit {

constexpr double k_inch = 0.0254;

inline Job job_from(const std::string& text) {
  const auto job = read_job(text, "room.toml");
  INFO((job ? std::string{} : text_of(job.error(), text)));
  REQUIRE(job);
  return *job;
}

/// A room of 240 in by 160 in with joists 16 in on centre parallel to the west wall, at 8 in, 24 in ... from it, and
/// one can type with a hole of 6-3/8 in (of a nominal 6 in can: common practice, no source). `more` is of the can type,
/// `rest` of the job.
inline std::string bay_job(const std::string& more, const std::string& rest, const std::string& spacing = "16in",
                           const std::string& first = "8in") {
  return "[room]\nwidth = \"240in\"\ndepth = \"160in\"\nceiling = \"8ft\"\n[joists]\nparallel_to = \"west\"\nfirst = "
         "\"" +
         first + "\"\nspacing = \"" + spacing +
         "\"\n[can_types.six]\nbeam = { lumens = 900, angle = 60 }\nhole = \"6-3/8in\"\n" + more + "\n" + rest;
}

inline std::string can_at(double west_in, double south_in) {
  return "\n[[cans]]\ntype = \"six\"\nfrom = { west = \"" + std::to_string(west_in) + "in\", south = \"" +
         std::to_string(south_in) + "in\" }\n";
}

}  // namespace evenlit
