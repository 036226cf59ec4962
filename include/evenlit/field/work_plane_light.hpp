#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "evenlit/field/lumen_method.hpp"
#include "evenlit/field/response.hpp"
#include "evenlit/field/statistics.hpp"
#include "evenlit/room/grid.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// The light on a room's work plane at the luminaires' levels, and all that is said about it.
struct WorkPlaneLight {
  Grid grid;
  Response response;  ///< rows are the grid's points
  Field field;
  Statistics statistics;
  LumenMethod lumen_method;
  double floor_area_m2 = 0;
  std::optional<double> watts;  ///< drawn at the levels set, power taken as proportional to level; empty where the
                                ///< power of a luminaire that is on is not known
  double luminaire_lumens = 0;  ///< leaving the luminaires at the levels set
  double average_error_lx = 0;  ///< the engine's estimate of its own numerical error of the average
};

/// The largest numerical error at any grid point over the average; 0 in the dark.
double worst_error_share(const WorkPlaneLight& light);

/// One upward receiver at each point of a grid.
std::vector<Receiver> upward_receivers(const Grid& grid);

/// The luminaires' dimmer levels.
Eigen::VectorXd levels_of(const Scene& scene);

/// @param response of the grid's upward receivers
WorkPlaneLight work_plane_light(const Scene& scene, const Grid& grid, std::optional<double> target_lx,
                                Response response);

WorkPlaneLight work_plane_light(const Scene& scene, const Grid& grid, std::optional<double> target_lx,
                                const Progress& progress = {});

}  // namespace evenlit
