#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/base/progress.hpp"
#include "evenlit/base/result.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "evenlit/placing/plan_frame.hpp"
#include "evenlit/room/grid.hpp"

namespace evenlit {

/// Places of a raster over the plan's bounding rectangle in its own directions (`frame_of`) in which both middle lines
/// lie, and in which of them a can of
/// one type fits, by itself, with `k_play_m` to spare where there is any such place, as the framing and all that stays
/// where it is allow, and as far from the walls as the job wants: 24 in where it does not say, or a quarter of the
/// plan's shorter side if that is less (common practice, no source).
struct Raster {
  static constexpr int k_outside = -1;  ///< of the plan
  static constexpr int k_taken = -2;    ///< in the plan, but no can fits there

  PlanFrame frame;          ///< rows run along it
  Eigen::Vector2d first_m;  ///< in row 0, column 0, the southwest, in the frame
  double step_m = 0;
  int columns = 0;  ///< odd, as are the rows: the middle ones lie on the room's middle lines
  int rows = 0;
  std::vector<int> place_of;  ///< row by row: index into `places_m`, or one of the above
  std::vector<Eigen::Vector2d> places_m;

  /// A place on the plan.
  [[nodiscard]] Eigen::Vector2d place_m(int column, int row) const {
    return frame.out(first_m + step_m * Eigen::Vector2d(column, row));
  }

  [[nodiscard]] int at(int column, int row) const { return place_of[static_cast<std::size_t>(row) * columns + column]; }
};

/// No raster has more places than this; where one of 2 in (5 cm in metric jobs) would, its step is doubled until it has
/// not.
inline constexpr int k_most_raster_places = 20'000;

/// What one can in each place of a raster does, and what the cans of the job do that stay.
struct Candidates {
  std::string type;
  Raster raster;
  int points = 0;               ///< of the work plane's grid
  Eigen::MatrixXf light_lx;     ///< illuminance at the points, in rows, of one can in each place, in columns
  Eigen::VectorXf base_lx;      ///< of the cans that stay, at the points
  Eigen::MatrixXd averages_lx;  ///< rows: the work plane, then each task area with a target; columns: places
  Eigen::VectorXd base_averages_lx;
  std::optional<double> watts;  ///< of one can
  std::optional<double> base_watts;
  std::optional<double> price;  ///< of one can
  std::optional<double> base_cost;
  double least_apart_m = 0;  ///< centres that are so far apart are clear of each other whichever way the cans lie
};

/// @param type of the job
Raster raster_of(const Job& job, const std::string& type);

/// The light of one can of a type, in everything else like those of the job that `compared` would lay out, in each
/// place of its raster. The room is cut coarsely, `coarse_mesh`: enough to choose by, some tenths of a percent.
///
/// @param photometry one a can type, in the job's order
/// @param grid       of the job's work plane
/// @errors a task area with a target that no receiver is left of
Result<Candidates> candidates(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                              const std::string& type, const Progress& progress = {});

}  // namespace evenlit
