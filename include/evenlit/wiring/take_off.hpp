#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/moods/power.hpp"
#include "evenlit/wiring/cable_route.hpp"
#include "evenlit/wiring/cable_rules.hpp"

namespace evenlit {

/// A box that cables end in.
struct Stop {
  enum class Kind { feed, switch_box, second_box, can };

  Kind kind = Kind::can;
  int index = 0;           ///< of the switch or can in the job; 0 for the feed in the ceiling
  Eigen::Vector2d plan_m;  ///< where its cable reaches the ceiling
  double below_m = 0;      ///< of the box below the ceiling, down a wall
};

/// A cable from box to box.
struct Leg {
  CableKind cable;
  Stop from;
  Stop to;
  std::optional<int> circuit;  ///< of the job; empty where it carries all that lies beyond
  Route route;
  double length_m = 0;            ///< to cut: over the ceiling, down the walls, slack at both ends
  std::optional<double> amperes;  ///< with all cans beyond at full light; empty where their volt-amperes are not known
  std::optional<double> drop_v;   ///< lost in it, there and back
};

/// The cans of a circuit as the cable visits them.
struct CircuitRun {
  int circuit = 0;        ///< of the job
  int box = 0;            ///< its switch in the job
  std::vector<int> cans;  ///< of the job, in order
  bool is_exact = true;   ///< whether no order has fewer holes, or as many and less cable
  std::optional<double> va;
  std::optional<double> drop_share;  ///< of the voltage, lost from the panel to the last can
};

/// A switch box and what enters it.
struct FilledBox {
  int box = 0;             ///< of the job
  bool is_second = false;  ///< the place that is written as `also`
  int devices = 0;
  int cables = 0;
  BoxFill fill;
};

/// All cable of a job, and what it asks of boxes, joists, breaker and dimmers.
struct TakeOff {
  std::vector<Leg> legs;             ///< the feed and between switches first, then circuit by circuit in their order
  std::vector<CircuitRun> circuits;  ///< of the switches, in their order, those with cans
  std::vector<FilledBox> boxes;
  std::vector<int> left_out;             ///< cans whose circuit no switch has, or on no circuit
  std::optional<JoistHole> hole;         ///< empty where the depth of solid joists is not told
  std::optional<double> run_drop_v;      ///< from the panel to the feed
  std::optional<BranchLoad> branch;      ///< where the job has [supply]
  std::vector<DimmerLoad> loads;         ///< of the dimmers
  std::optional<double> most_breaker_a;  ///< where the job's breaker is more than the cable may have: that limit
};

/// What a cable is cut to, of all legs that have it.
struct CableLength {
  CableKind cable;
  double length_m = 0;  ///< with waste
};

/// By kind of cable, ascending; none that no leg has.
std::vector<CableLength> cable_lengths(const Wiring& wiring, const TakeOff& take_off);

/// Holes through framing, of all cables.
int crossings(const TakeOff& take_off);

/// How a job's cans are cabled. The feed goes to the switch boxes one after the other, from each of them a cable to the
/// cans of each of its circuits, can to can, both in the best order (`best_order`). Where a circuit is switched from
/// two places a cable of three wires runs between them and the cans hang on the second place, so that each box has its
/// neutral (NEC 404.2(C)); that and two wires elsewhere are common practice, no source. A cable drops straight down a
/// wall from the ceiling; a pendant's box is in the ceiling.
///
/// Voltage: each leg carries what lies beyond it; the cable from the panel to the feed is of [supply]'s wire.
///
/// @param job with [wiring]
/// @param scene of the job
TakeOff take_off(const Job& job, const Scene& scene);

}  // namespace evenlit
