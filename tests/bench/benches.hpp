#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases.hpp"
#include "machine.hpp"
#include "timing.hpp"

namespace evenlit::bench {

/// A room and its true light.
struct Settled {
  Case room;
  Eigen::VectorXd true_lx;
};

/// The rooms that accuracy is told of: empty, L, L furnished, narrow beams, the demo job.
std::vector<Settled> settled_rooms();

// Each prints its tables. Those that answer say whether all results agree within what is promised of them.

bool photometry_bench();
bool direct_bench(const Limits& limits);

/// Time and accuracy of rooms as they are asked for.
void accuracy_bench(const std::vector<Settled>& rooms);

/// Time and accuracy by patch size.
void convergence_bench(const std::vector<Settled>& rooms);

/// Against the plain reference and against the path tracer.
bool reference_bench(const std::vector<Settled>& rooms);

/// How time grows with the size of the task.
void growth_bench();

/// The response of a room to very many luminaires. Call it before this process grows: it tells its peak memory.
void columns_bench();

/// The search for layouts: light of all places, layouts looked at.
void search_bench(const Limits& limits);

/// What follows when a dimmer moves, and the search for levels and for which cans share a dimmer.
void moods_bench(const Limits& limits);

/// A picture of what the eye sees: the veil over it, its way to the screen.
bool display_bench();

/// Pictures of rooms: where their time goes, against Embree's rays, and one more mix of levels.
void view_bench();

/// Where the time of one solve goes, and how near the machine's limits it is spent.
void stage_bench(const Limits& limits);

/// The built program on the first demo job: its light, with map, CSV and JSON, and a search.
struct CommandCost {
  Timing timing;
  Timing search;
  double peak_bytes = 0;
};

/// Runs the program 20 times. Call it before this process grows: a child's peak counts what its parent holds when it is
/// started. Ends the program when the command fails.
CommandCost command_cost();
void command_bench(const CommandCost& cost);

}  // namespace evenlit::bench
