#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/base/progress.hpp"
#include "evenlit/room/receiver.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// The light that each luminaire at full level throws on each receiver; light adds up, so everything else is arithmetic
/// on these tables. Receivers x luminaires, lx.
struct Response {
  Eigen::MatrixXd direct_lx;    ///< straight from the luminaire
  Eigen::MatrixXd indirect_lx;  ///< by way of the room's surfaces, all bounces
  Eigen::MatrixXd change_lx;    ///< what halving the mesh size changed in `indirect_lx`
};

/// Side of the patches into which the room is cut unless told otherwise, m: small against the height of a room, yet
/// enough patches in a closet and no more than fit in memory in a hall.
double usual_patch_size_m(const Scene& scene);

/// @param scene luminaires' `output` is part of the response, their `level` is not
/// @param patch_size_m smaller is more accurate; work grows with its inverse to the fourth power
Response response(const Scene& scene, const std::vector<Receiver>& receivers, double patch_size_m,
                  const Progress& progress = {});

/// With patches of the usual size.
Response response(const Scene& scene, const std::vector<Receiver>& receivers, const Progress& progress = {});

/// Illuminance at a set of dimmer levels.
struct Field {
  Eigen::VectorXd total_lx;
  Eigen::VectorXd direct_lx;
  Eigen::VectorXd error_lx;  ///< the engine's estimate of its own numerical error at each receiver
};

/// @param levels one a luminaire, fractions of full output
Field field_at(const Response& response, const Eigen::VectorXd& levels);

}  // namespace evenlit
