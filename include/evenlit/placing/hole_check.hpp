#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/placing/ceiling_map.hpp"

namespace evenlit {

/// What is on one side of a hole, straight across the joists.
struct SideGap {
  Eigen::Vector2d toward;  ///< unit
  double gap_m = 0;        ///< how far the hole may move that way before it touches; negative where it overlaps
  std::string name;        ///< of what it touches first: framing, a keep-out or a wall
};

/// Where a can fits when it is moved one way.
struct Move {
  Eigen::Vector2d toward;  ///< unit
  Span distance_m;         ///< from the nearest place that fits to the farthest in the same gap
};

/// A dimension of the ceiling that is too small for a can.
struct Shortfall {
  enum class What { bay, room };

  What what = What::bay;  ///< the widest bay on the line across the joists through the can, or the room along them
  double has_m = 0;
  double needs_m = 0;
};

/// What the framing says to a can's hole and housing.
struct CanHole {
  int can = 0;  ///< index into the job's cans
  Eigen::Vector2d centre_m;
  std::vector<Hit> hits;         ///< the worst first; none: it fits
  std::array<SideGap, 2> sides;  ///< across the joists
  double probe_clear_m = 0;      ///< from the hole's centre to the nearest edge of framing or of a keep-out;
                                 ///< infinite where the job has neither
  double probe_needed_m = 0;     ///< so long a wire, turned about the centre, finds nothing where the can fits
  std::vector<Move> moves;       ///< where it does not fit: both ways along the joists, both ways across
  std::optional<Eigen::Vector2d> nearest_m;  ///< where it does not fit: the nearest place in the room that does
  std::vector<Shortfall> shortfalls;         ///< where it fits nowhere: why, as far as a width tells it
};

struct HoleCheck {
  std::vector<CanHole> holes;
  std::vector<int> without_hole;  ///< cans that hang or whose type has no hole: indices into the job's cans
};

/// Checks every can that is flush with the ceiling against framing, keep-outs, walls, boxes that reach the ceiling and
/// the other cans. Distances are exact as `CeilingMap` tells. A can that may lie either way is turned where that makes
/// it fit among the others as they lie; no two are turned for each other.
///
/// The probe is the trade's own check: a bent wire turned through a pilot hole at the centre (common practice, no
/// source).
///
/// @param job one that `read_job` would accept
HoleCheck hole_check(const Job& job);

/// Whether a can is flush with the ceiling and of a type with a hole.
bool needs_hole(const Job& job, const Can& can);

/// What a can runs into.
struct CanHits {
  int can = 0;            ///< index into the job's cans
  std::vector<Hit> hits;  ///< the worst first; none: it fits
};

/// What each can that needs a hole hits, as `hole_check` finds it, without what else that tells.
std::vector<CanHits> hole_hits(const Job& job);

/// The cans that `hole_check` finds not to fit: indices into the job's cans.
std::vector<int> misfits(const Job& job);

/// Those of the job's cans that need a hole, as others find them, each as it lies alone.
///
/// @param fixed what stays where it is
/// @param cans  indices into the job's
std::vector<Obstacle> can_obstacles(const Job& job, const Framing& framing, const std::vector<Obstacle>& fixed,
                                    const std::vector<int>& cans);

/// Whether the job tells what is above its ceiling.
bool is_ceiling_known(const Job& job);

/// A warning for each can that does not fit, where the ceiling is known.
Problems hole_warnings(const Job& job);

/// What a can runs into, as in `its hole is 1-3/16" too near to the doubled joist`.
std::string hit_text(const Hit& hit, Units units);

}  // namespace evenlit
