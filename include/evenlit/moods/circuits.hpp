#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "evenlit/job/job.hpp"

// A job's circuits at work. What is given or returned by circuit is in the job's order, 0...1.

namespace evenlit {

/// The can type of a can of the job.
const CanType& type_of(const Job& job, const Can& can);

/// The cans of a circuit, in the job's order.
std::vector<const Can*> cans_on(const Job& job, const Circuit& circuit);

/// What a can of a circuit gives, as a part of its full light, where the circuit's dimmer is set so; a switch gives all
/// at any setting above 0.
double can_light(const Job& job, const Circuit& circuit, const Driver& driver, double setting);

/// Average over a circuit's cans of what they give at a setting, each counted alike; of a circuit without cans what an
/// ideal driver would give.
double circuit_light(const Job& job, const Circuit& circuit, double setting);

/// The highest setting at which a circuit gives so much light on average; empty when none does.
std::optional<double> circuit_setting(const Job& job, const Circuit& circuit, double light);

/// What is written by circuit's name, by circuit; 0 for those that are not named.
std::vector<double> in_circuit_order(const Job& job, const std::map<std::string, double>& by_name);

/// Where all circuits are to be set to give the levels that are wanted.
///
/// @param place where the levels are written
/// @errors one for every circuit that cannot give its level: driver and dimmer leap over it, or end below it
Result<std::vector<double>> settings_for(const Job& job, std::span<const double> levels, const Place& place);

/// Light of each can, as a part of its full light, with the circuits set so; a can on no circuit keeps its own level.
std::vector<double> can_levels(const Job& job, std::span<const double> settings);

}  // namespace evenlit
