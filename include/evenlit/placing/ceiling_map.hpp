#pragma once

#include <optional>
#include <vector>

#include "evenlit/placing/line.hpp"
#include "evenlit/placing/obstacles.hpp"

namespace evenlit {

/// From wood to the recessed parts of a can that is not Type IC, but for what holds it and its trim: 1/2 in.
///
/// @source NEC (NFPA 70) 410.116(A)(1) and (2), from memory: check the locally adopted edition
inline constexpr double k_wood_clearance_m = 0.0127;

/// From thermal insulation to a recessed can that is not Type IC, none above it: 3 in.
///
/// @source NEC (NFPA 70) 410.116(B), from memory: check the locally adopted edition
inline constexpr double k_insulation_clearance_m = 0.0762;

/// Less than a tape shows: what overlaps by no more than this only touches, and touching fits.
inline constexpr double k_touch_m = 1e-6;

/// The nearest station to `station` that is well inside of a window, so that rounding does not lose it.
double nearest_in(const Span& window, double station);

/// Why a can does not fit.
struct Hit {
  enum class Part { hole, housing, bars };  ///< `bars`: the bay's width is none that the housing's bars can use

  Part part = Part::hole;  ///< of hole and housing the one that hits it harder
  Obstacle::Kind kind = Obstacle::Kind::framing;
  std::string name;
  double overlap_m = 0;  ///< how far the can must at least move to be clear of it; of `bars` how far the bay is off
};

/// Where the cans of one type fit in a ceiling.
///
/// A can takes its hole, a circle, and above the ceiling its housing, a rectangle about the hole's centre; without a
/// housing what is recessed is as wide as the hole. What is recessed keeps 1/2 in from framing and walls unless the
/// type is rated IC; all keep a keep-out's clearance. Each obstacle forbids the can's centre a convex region: the sum
/// of the obstacle, the part turned about its centre, and a disc of the clearance. So every answer is exact to
/// `k_touch_m` for the given figures, but for two: an overlap with a keep-out that is not convex counts its nearest
/// convex piece, and the width of a bay between members that are not parallel counts where it is asked for.
///
/// Positions are on the plan; under a slope, holes and housings count as if it were level.
class CeilingMap {
 public:
  /// @param job, framing that outlive this object
  /// @param type with a hole
  CeilingMap(const Job& job, const Framing& framing, const CanType& type, const std::vector<Obstacle>& obstacles);

  /// One more obstacle.
  void add(const Obstacle& obstacle);

  /// Whether a can fits with its centre there: in the room, clear of everything.
  [[nodiscard]] bool fits(const Eigen::Vector2d& centre_m) const;

  /// The distance by which it is clear of everything, m; negative where it is not.
  [[nodiscard]] double clearance_m(const Eigen::Vector2d& centre_m) const;

  /// Everything that it hits, the worst first; of equal names one. Empty where it fits.
  [[nodiscard]] std::vector<Hit> hits(const Eigen::Vector2d& centre_m) const;

  /// The parts of a line on which its centre may be, ascending.
  [[nodiscard]] std::vector<Span> windows(const Line& line) const;

  /// The nearest place where it fits, itself included; empty where there is none in the room.
  [[nodiscard]] std::optional<Eigen::Vector2d> nearest(const Eigen::Vector2d& centre_m) const;

  /// Where the housing's length points at a place, unit: as it fits, or else as it fits best.
  [[nodiscard]] Eigen::Vector2d lie_at(const Eigen::Vector2d& centre_m) const;

  /// The direction of the joists at a place, unit; along the first wall where no joists are known.
  [[nodiscard]] Eigen::Vector2d joists_at(const Eigen::Vector2d& centre_m) const;

  /// Clear width of the bay that a place is in, across the joists, m: between framing or walls. 0 in framing.
  [[nodiscard]] double bay_m(const Eigen::Vector2d& centre_m) const;

  /// The width that the can takes in a direction (unit) between framing or walls, clearances included, m: the least of
  /// the ways in which it may lie.
  [[nodiscard]] double needed_m(const Eigen::Vector2d& centre_m, const Eigen::Vector2d& direction) const;

 private:
  struct Region {
    RoundedHull hull;  ///< where the centre may not be
    std::size_t obstacle;
  };

  /// A way in which the housing may lie.
  struct Lay {
    Eigen::Vector2d along;
    std::vector<int> runs;  ///< of joists, at which it may; none: everywhere
    std::vector<Region> regions;
  };

  /// Whether a centre may be there but for what is to be kept clear of.
  [[nodiscard]] bool is_place(const Eigen::Vector2d& centre_m) const;
  [[nodiscard]] bool may_lie(const Lay& lay, const Eigen::Vector2d& centre_m) const;
  [[nodiscard]] const Lay& best_lay(const Eigen::Vector2d& centre_m) const;
  [[nodiscard]] bool has_bay_limits() const;
  [[nodiscard]] double bay_misfit_m(const Eigen::Vector2d& centre_m) const;
  [[nodiscard]] std::vector<Span> free_spans(const Lay& lay, const Line& line, const std::vector<Span>& within) const;
  [[nodiscard]] std::vector<RoundedHull::Side> boundaries(const Lay& lay) const;
  /// The circles of the regions' round corners that come so near to a point, but those outside of the room or inside of
  /// a region.
  [[nodiscard]] std::vector<Circle> circles_near(const Lay& lay, const Eigen::Vector2d& point, double distance_m) const;

  const Job& job_;
  const Framing& framing_;
  const CanType& type_;
  double wood_clearance_m_ = 0;
  std::vector<Obstacle> obstacles_;
  std::vector<Region> hole_;
  std::vector<Lay> lays_;  ///< at least one
};

}  // namespace evenlit
