#include "evenlit/moods/power.hpp"

#include <algorithm>

#include "evenlit/job/wire.hpp"
#include "evenlit/moods/circuits.hpp"
#include "evenlit/moods/dimming.hpp"

namespace evenlit {
namespace {

void add(std::optional<double>& sum, const std::optional<double>& part) {
  sum = sum && part ? std::optional(*sum + *part) : std::nullopt;
}

struct FullLoad {
  std::optional<double> watts = 0;
  std::optional<double> va = 0;
};

/// Of the cans for which `counts`.
template <class Counts>
FullLoad full_load(const Job& job, const Scene& scene, const Counts& counts) {
  FullLoad load;
  for (std::size_t i = 0; i < job.cans.size(); ++i) {
    if (!counts(job.cans[i])) continue;
    const auto& watts = scene.luminaires[i].watts;
    add(load.watts, watts);
    add(load.va, full_va(type_of(job, job.cans[i]), watts));
  }
  return load;
}

std::optional<double> derated(const std::optional<double>& rated, double ganged) {
  return rated ? std::optional(*rated * ganged) : std::nullopt;
}

}  // namespace

std::optional<double> full_va(const CanType& type, const std::optional<double>& watts) {
  if (type.va || !type.power_factor || !watts) return type.va;
  return *watts / *type.power_factor;
}

std::optional<double> drawn_watts(const Job& job, const Scene& scene, std::span<const double> can_levels) {
  double sum = 0;
  for (std::size_t i = 0; i < job.cans.size(); ++i) {
    const double share = power_share(type_of(job, job.cans[i]).dimming, can_levels[i]);
    const auto& watts = scene.luminaires[i].watts;
    if (share == 0) continue;
    if (!watts) return std::nullopt;
    sum += *watts * share;
  }
  return sum;
}

YearlyEnergy yearly_energy(double watts, double hours_a_day, std::optional<double> price) {
  constexpr double k_days = 365;
  YearlyEnergy energy{.kwh = watts * hours_a_day * k_days / 1000};
  if (price) energy.cost = energy.kwh * *price;
  return energy;
}

std::vector<DimmerLoad> dimmer_loads(const Job& job, const Scene& scene) {
  std::vector<DimmerLoad> loads;
  for (std::size_t i = 0; i < job.circuits.size(); ++i) {
    const Circuit& circuit = job.circuits[i];
    if (!circuit.dimmer) continue;
    const Dimmer& dimmer = *std::ranges::find(job.dimmers, *circuit.dimmer, &Dimmer::name);
    const auto [watts, va] = full_load(job, scene, [&](const Can& can) { return can.circuit == circuit.name; });
    loads.push_back({.circuit = static_cast<int>(i),
                     .watts = watts,
                     .va = va,
                     .most_w = derated(dimmer.rated_w, dimmer.ganged),
                     .most_va = derated(dimmer.rated_va, dimmer.ganged),
                     .least_w = dimmer.minimum_load_w});
  }
  return loads;
}

BranchLoad branch_load(const Job& job, const Scene& scene, const Supply& supply) {
  constexpr double k_continuous_share = 1 / 1.25;
  BranchLoad load{.va = full_load(job, scene, [](const Can&) { return true; }).va,
                  .most_va = k_continuous_share * supply.breaker_a * supply.volts};
  if (load.va && supply.run_m) {
    const double amperes = *load.va / supply.volts;
    load.drop_share = voltage_drop_v(wire_of(supply.wire_awg).value(), amperes, *supply.run_m) / supply.volts;
  }
  return load;
}

}  // namespace evenlit
