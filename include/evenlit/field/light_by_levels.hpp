#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/room/readings.hpp"

namespace evenlit {

/// What a hand on a dimmer changes.
struct LevelLight {
  Eigen::VectorXd total_lx;    ///< at every receiver of the table: the grid's, then the readings'
  Eigen::VectorXd average_lx;  ///< of the work plane, then of each task area, then of each surface
  Eigen::VectorXd minimum_lx;  ///< likewise
};

/// The light of a room whose levels change all the time: the same sums as those of `room_light`, without errors and
/// whatever else does not follow from the levels alone, so that they are done while a dimmer moves.
class LightByLevels {
 public:
  /// @param response    of `receivers_of` a grid and the readings
  /// @param grid_points of that grid, one or more
  LightByLevels(const Response& response, Eigen::Index grid_points, const Readings& readings);

  /// @param levels one a luminaire, fractions of full output
  [[nodiscard]] LevelLight at(const Eigen::VectorXd& levels) const;

 private:
  struct Rows {
    Eigen::Index first = 0;
    Eigen::Index count = 0;
  };

  Eigen::MatrixXd light_lx_;     ///< of each luminaire at full level, in columns, at each receiver
  std::vector<Rows> areas_;      ///< receivers of the work plane, each task area, each surface
  Eigen::MatrixXd averages_lx_;  ///< over these, of each luminaire
};

}  // namespace evenlit
