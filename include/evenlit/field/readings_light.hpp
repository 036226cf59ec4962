#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/room/readings.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// A calculated value with the engine's estimate of its numerical error.
struct Estimate {
  double value = 0;
  double error = 0;

  friend bool operator==(const Estimate&, const Estimate&) = default;
};

/// The light on a plane area, or on all faces of an obstruction together, counted at the reading's receivers.
struct AreaLight {
  Estimate average_lx;
  Estimate minimum_lx;
  Estimate maximum_lx;
  double worst_error_lx = 0;                ///< at any receiver
  int minimum_at = 0;                       ///< receiver
  double uniformity_min_avg = 0;            ///< U0 of EN 12464-1; 0 in the dark
  std::optional<Estimate> luminance_cd_m2;  ///< average, of an area that reflects
};

/// What is read of a room beside the work plane, at the luminaires' levels.
struct ReadingsLight {
  Readings readings;
  Response response;                  ///< rows are the readings' receivers
  std::vector<AreaLight> task_areas;  ///< in the readings' order, as are the others
  std::vector<Estimate> points;       ///< lx or cd/m2
  std::vector<AreaLight> surfaces;
};

struct RoomLight {
  WorkPlaneLight work_plane;
  ReadingsLight readings;
};

/// Adds every surface of the room: the floor, the ceiling, each wall, each obstruction as a whole, counted at the
/// centres of the patches, half as large as the coarsest mesh has them, into which what is free of it is cut, weighted
/// by their areas. What is wholly covered is left out.
void add_surfaces(Readings& readings, const Scene& scene);

/// The receivers of a grid, then those of readings: the rows of a response table for both.
std::vector<Receiver> receivers_of(const Grid& grid, const Readings& readings);

/// Averages of the grid, in the first row, and of each task area of readings.
///
/// @param light_lx of `receivers_of`, in rows, of whatever there is a column for
/// @param points   of the grid
Eigen::MatrixXd area_averages_lx(const Eigen::MatrixXd& light_lx, Eigen::Index points, const Readings& readings);

/// Work plane and readings from one response table, of `receivers_of`.
RoomLight room_light(const Scene& scene, const Grid& grid, std::optional<double> target_lx, Readings readings,
                     const Response& response);

RoomLight room_light(const Scene& scene, const Grid& grid, std::optional<double> target_lx, Readings readings,
                     const Accuracy& accuracy = {}, const Progress& progress = {});

}  // namespace evenlit
