#pragma once

#include <string>
#include <vector>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// Where a cable goes through a piece of framing.
struct Crossing {
  Eigen::Vector2d at_m;  ///< on the plan
  std::string member;    ///< "joist 3", counted from the first of its series, or a member's name
};

/// How a cable lies over the ceiling between two places.
struct Route {
  std::vector<Eigen::Vector2d> points_m;  ///< on the plan, two or three
  std::vector<Crossing> crossings;        ///< from its start on; none where it lies on top of the joists
  double length_m = 0;                    ///< with what the ceiling rises between its ends
};

/// Ways for cables over a job's ceiling.
///
/// `open`: straight over the joists, as an attic that stands open allows. `bays`: along the joists and square through
/// them, one turn, in the direction of the joists at either end, or of the first wall where there are none: the way
/// with fewer holes, then the shorter. Framing goes on for its own thickness beyond its ends, where it bears.
class CeilingRoutes {
 public:
  /// @param job that `read_job` would accept, with [wiring]
  explicit CeilingRoutes(const Job& job);

  /// Either way round the same length and the same holes.
  [[nodiscard]] Route between(const Eigen::Vector2d& from_m, const Eigen::Vector2d& to_m) const;

 private:
  /// The middle line of a piece of framing.
  struct Beam {
    std::string name;
    Eigen::Vector2d start_m;
    Eigen::Vector2d along;  ///< unit
    double length_m = 0;
  };

  /// Where joists run one way.
  struct Bays {
    Eigen::Vector2d along;
    Polygon area_m;  ///< no corners: everywhere
  };

  [[nodiscard]] std::vector<Eigen::Vector2d> frames_at(const Eigen::Vector2d& from_m,
                                                       const Eigen::Vector2d& to_m) const;
  [[nodiscard]] Route along(std::vector<Eigen::Vector2d> points_m) const;

  Shape room_;
  Wiring::Path path_ = Wiring::Path::open;
  std::vector<Beam> beams_;
  std::vector<Bays> bays_;
};

}  // namespace evenlit
