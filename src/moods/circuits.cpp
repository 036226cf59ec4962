#include "evenlit/moods/circuits.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/moods/dimming.hpp"

namespace evenlit {
namespace {

/// Null for a switch.
const Dimmer* dimmer_of(const Job& job, const Circuit& circuit) {
  return circuit.dimmer ? &*std::ranges::find(job.dimmers, *circuit.dimmer, &Dimmer::name) : nullptr;
}

std::string share_text(double fraction) { return rounded_text(100 * fraction) + " %"; }

Problem unreachable_level(const Job& job, const Circuit& circuit, double level, const Place& place) {
  const auto light = [&](double setting) { return circuit_light(job, circuit, setting); };
  const auto [below, above] = setting_search(light, level);
  return {place, fmt::format("circuit {} cannot give {} light", quoted(circuit.name), share_text(level)),
          below < above ? fmt::format("the nearest that it gives are {} and {}", share_text(light(below)),
                                      share_text(light(above)))
                        : fmt::format("the most that it gives is {}", share_text(light(below)))};
}

}  // namespace

const CanType& type_of(const Job& job, const Can& can) {
  return *std::ranges::find(job.can_types, can.type, &CanType::name);
}

std::vector<const Can*> cans_on(const Job& job, const Circuit& circuit) {
  std::vector<const Can*> cans;
  for (const Can& can : job.cans) {
    if (can.circuit == circuit.name) cans.push_back(&can);
  }
  return cans;
}

double can_light(const Job& job, const Circuit& circuit, const Driver& driver, double setting) {
  const Dimmer* dimmer = dimmer_of(job, circuit);
  if (dimmer == nullptr) return driver_light(driver, setting > 0 ? 1 : 0);
  return dimmed_light(*dimmer, driver, setting);
}

double circuit_light(const Job& job, const Circuit& circuit, double setting) {
  const auto cans = cans_on(job, circuit);
  if (cans.empty()) return can_light(job, circuit, Driver{}, setting);
  double sum = 0;
  for (const Can* can : cans) sum += can_light(job, circuit, type_of(job, *can).dimming, setting);
  return sum / static_cast<double>(cans.size());
}

std::optional<double> circuit_setting(const Job& job, const Circuit& circuit, double light) {
  return setting_for([&](double setting) { return circuit_light(job, circuit, setting); }, light);
}

std::vector<double> in_circuit_order(const Job& job, const std::map<std::string, double>& by_name) {
  std::vector<double> by_circuit;
  for (const Circuit& circuit : job.circuits) {
    const auto found = by_name.find(circuit.name);
    by_circuit.push_back(found != by_name.end() ? found->second : 0);
  }
  return by_circuit;
}

Result<std::vector<double>> settings_for(const Job& job, std::span<const double> levels, const Place& place) {
  std::vector<double> settings;
  Problems problems;
  for (std::size_t i = 0; i < job.circuits.size(); ++i) {
    const auto setting = circuit_setting(job, job.circuits[i], levels[i]);
    settings.push_back(setting.value_or(0));
    if (!setting) problems.push_back(unreachable_level(job, job.circuits[i], levels[i], place));
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return settings;
}

std::vector<double> can_levels(const Job& job, std::span<const double> settings) {
  std::vector<double> levels;
  for (const Can& can : job.cans) {
    if (!can.circuit) {
      levels.push_back(can.level);
      continue;
    }
    const auto circuit = std::ranges::find(job.circuits, *can.circuit, &Circuit::name);
    const double setting = settings[static_cast<std::size_t>(circuit - job.circuits.begin())];
    levels.push_back(can_light(job, *circuit, type_of(job, can).dimming, setting));
  }
  return levels;
}

}  // namespace evenlit
