#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/room/scene.hpp"

// What cans draw, what that costs, and what it asks of dimmers and of the branch circuit.

namespace evenlit {

/// Watts drawn with the cans at these levels, by `power_share`; empty where a can draws that has no watts.
///
/// @param scene of the job; its luminaires have the full watts
/// @param can_levels one a can, light as a part of full light
std::optional<double> drawn_watts(const Job& job, const Scene& scene, std::span<const double> can_levels);

/// Volt-amperes of a can at full light; empty where the job does not tell them.
///
/// @param watts of the can at full light
std::optional<double> full_va(const CanType& type, const std::optional<double>& watts);

struct YearlyEnergy {
  double kwh = 0;
  std::optional<double> cost;  ///< in the job's currency
};

/// A year of 365 days.
///
/// @param price of a kWh; absent: no cost
YearlyEnergy yearly_energy(double watts, double hours_a_day, std::optional<double> price);

/// A full load, and what it is held against. What is not known is absent.
struct DimmerLoad {
  int circuit = 0;                ///< index into the job's
  std::optional<double> watts;    ///< of all its cans at full light
  std::optional<double> va;       ///< likewise
  std::optional<double> most_w;   ///< the dimmer's rating, derated where it is ganged
  std::optional<double> most_va;  ///< likewise
  std::optional<double> least_w;  ///< its minimum load

  [[nodiscard]] bool is_too_much() const { return (most_w && watts > *most_w) || (most_va && va > *most_va); }
  [[nodiscard]] bool is_too_little() const { return watts && least_w && *watts < *least_w; }

  /// Whether a load is held against a limit but not known.
  [[nodiscard]] bool is_unknown() const { return ((most_w || least_w) && !watts) || (most_va && !va); }
};

/// Each circuit that has a dimmer, in the job's order.
std::vector<DimmerLoad> dimmer_loads(const Job& job, const Scene& scene);

/// To be shown with every `BranchLoad`.
inline constexpr std::string_view k_branch_caution =
    "Counted as one branch circuit that feeds these cans only; other loads on it add up. NEC 210.19(A)(1) and "
    "210.20(A): "
    "check the locally adopted edition, and leave the work to who is licensed for it.";

/// The voltage that a branch circuit should lose at most, as a share: advice, NEC 210.19(A), informational note.
inline constexpr double k_most_drop = 0.03;

/// All cans of the job on the branch circuit of [supply].
struct BranchLoad {
  std::optional<double> va;          ///< at full light; empty where a can's volt-amperes are not known
  double most_va = 0;                ///< continuous load
  std::optional<double> drop_share;  ///< of the voltage, lost on the way if all of the load were at the far end of the
                                     ///< cable; empty where load or cable are not known

  [[nodiscard]] bool is_too_much() const { return va && *va > most_va; }
  [[nodiscard]] bool loses_too_much() const { return drop_share && *drop_share > k_most_drop; }
};

/// Light of a home may burn three hours and more and so counts as continuous load, for which conductors and breaker
/// have 125 %: the load is at most 80 % of the breaker (NEC 210.19(A)(1), 210.20(A); the second from memory).
///
/// @param supply of the job
BranchLoad branch_load(const Job& job, const Scene& scene, const Supply& supply);

}  // namespace evenlit
