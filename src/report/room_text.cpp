#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/job/ceiling.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/room_report.hpp"
#include "room_words.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

/// `1 can`, `2 cans`
std::string counted(std::size_t count, std::string_view thing) {
  return fmt::format("{} {}{}", count, thing, count == 1 ? "" : "s");
}

/// `Can 3`, `Cans 1, 2 and 5`
std::string numbers_text(const std::vector<std::string>& numbers) {
  return (numbers.size() == 1 ? "Can " : "Cans ") + listed(numbers);
}

template <class IsWanted>
std::vector<std::string> can_numbers(const Job& job, const IsWanted& is_wanted) {
  std::vector<std::string> numbers;
  for (std::size_t i = 0; i < job.cans.size(); ++i) {
    if (is_wanted(job.cans[i])) numbers.push_back(std::to_string(i + 1));
  }
  return numbers;
}

template <class Things>
std::vector<std::string> names_of(const Things& things) {
  std::vector<std::string> names;
  for (const auto& thing : things) names.push_back(printable(thing.name));
  return names;
}

std::string size_sentence(const Job& job) {
  const auto length = [&](double metres) { return length_text(metres, job.units); };
  const Eigen::Vector2d size_m = bounds_of(job.room.corners_m).sizes();
  const Ceiling ceiling = ceiling_of(job.room);
  return fmt::format(
      "{}: {} x {}{}, {}, ceiling {}{}.", printable(job.room.name), length(size_m.x()), length(size_m.y()),
      is_upright_rectangle(job.room) ? std::string() : fmt::format(" overall, {} walls", job.room.corners_m.size()),
      area_text(signed_area(job.room.corners_m), job.units),
      ceiling.is_level() ? std::string() : length(ceiling.lowest_m) + " to ", length(ceiling.highest_m));
}

std::string light_sentence(const Job& job) {
  const std::string target =
      job.target_lx ? illuminance_both_text(*job.target_lx, 0, job.units) + " wanted on it" : "no target for it";
  return fmt::format("Work plane {} above the floor, {}.", length_text(job.work_plane.height_m, job.units), target);
}

std::string finishes_sentence(const Finishes& finishes) {
  std::string text = fmt::format("Floor {}, ceiling {}, walls {}", reflectance_text(finishes.floor),
                                 reflectance_text(finishes.ceiling), reflectance_text(finishes.walls));
  for (const auto& [wall, reflectance] : finishes.wall) {
    text += fmt::format(", {} wall {}", printable(wall), reflectance_text(reflectance));
  }
  return text + ".";
}

std::string type_sentence(const RoomFacts& facts, std::size_t index) {
  const CanType& type = facts.job.can_types[index];
  const PhotometricFile& file = facts.photometry[index];
  const auto numbers = can_numbers(facts.job, [&](const Can& can) { return can.type == type.name; });
  std::string text = fmt::format("{} of type \"{}\": {}, {} lm", numbers.empty() ? "No can" : numbers_text(numbers),
                                 printable(type.name), printable(light_source_text(type, file)),
                                 rounded_text(lumens(file.distribution)));
  if (const auto watts = watts_of(type, file)) text += fmt::format(", {} W", rounded_text(*watts));
  if (type.hole_m) text += fmt::format(", hole {}", length_text(*type.hole_m, facts.job.units));
  return text + ".";
}

std::string circuits_text(const Job& job) {
  std::string text;
  for (const Circuit& circuit : job.circuits) {
    const auto numbers = can_numbers(job, [&](const Can& can) { return can.circuit == circuit.name; });
    text += paragraph(fmt::format("Circuit \"{}\", {}: {}.", printable(circuit.name),
                                  circuit.dimmer ? "dimmed" : "switched",
                                  numbers.empty() ? "no can" : numbers_text(numbers)));
  }
  const auto others = can_numbers(job, [](const Can& can) { return !can.circuit; });
  if (!job.circuits.empty() && !others.empty()) text += paragraph(numbers_text(others) + " on no circuit.");
  return text;
}

std::string cans_section(const RoomFacts& facts) {
  const Job& job = facts.job;
  std::string text = heading(counted(job.cans.size(), "can"));
  for (std::size_t i = 0; i < job.can_types.size(); ++i) text += paragraph(type_sentence(facts, i));
  if (const auto hanging = can_numbers(job, hangs); !hanging.empty()) {
    text += paragraph(numbers_text(hanging) + " below the ceiling.");
  }
  text += circuits_text(job);
  for (const auto& [can, hits] : facts.holes) {
    if (hits.empty()) continue;
    text += paragraph(fmt::format("Can {} does not fit: {}.", can + 1, printable(hit_text(hits.front(), job.units))));
  }
  return text;
}

std::string joists_sentence(const Job& job, const Joists& joists) {
  const auto length = [&](double metres) { return length_text(metres, job.units); };
  return fmt::format("Joists parallel to the {} wall{}, the first {} from it, then every {}.",
                     printable(joists.parallel_to), joists.area ? " in a part of the room" : "", length(joists.first_m),
                     length(joists.spacing_m));
}

std::string ceiling_section(const Job& job) {
  std::string text = heading("In the ceiling and above it");
  if (!is_ceiling_known(job) && job.fans.empty()) return text + paragraph("The job tells nothing of it.");
  for (const Joists& joists : job.joists) text += paragraph(joists_sentence(job, joists));
  const auto add = [&](std::string_view thing, const std::vector<std::string>& names) {
    if (!names.empty()) text += paragraph(fmt::format("{}: {}.", thing, listed(names)));
  };
  add("Framing besides", names_of(job.members));
  add("To keep clear of", names_of(job.keep_outs));
  add("Fans", names_of(job.fans));
  return text;
}

std::string contents_section(const Job& job) {
  std::string text;
  const auto add = [&](std::string_view thing, const std::vector<std::string>& names) {
    if (!names.empty()) text += paragraph(fmt::format("{}: {}.", thing, listed(names)));
  };
  add("Stands or hangs there", names_of(job.obstructions));
  add("On the walls", names_of(job.wall_areas));
  add("Mirrors", names_of(job.screens));
  add("Task areas", names_of(job.task_areas));
  add("Points", names_of(job.points));
  add("Seats", names_of(job.seats));
  add("Views", names_of(job.views));
  add("Moods", names_of(job.moods));
  return text.empty() ? text : heading("In the room") + text;
}

}  // namespace

std::string room_text(const RoomFacts& facts, const Problems& warnings) {
  const Job& job = facts.job;
  return filled(size_sentence(job), k_columns, 2) + paragraph(light_sentence(job)) +
         paragraph(finishes_sentence(job.finishes)) + cans_section(facts) + ceiling_section(job) +
         contents_section(job) + warning_section(warnings);
}

}  // namespace evenlit
