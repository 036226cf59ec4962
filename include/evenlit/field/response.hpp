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
  Eigen::MatrixXd direct_lx;         ///< straight from the luminaire
  Eigen::MatrixXd indirect_lx;       ///< by way of the room's surfaces, all bounces
  Eigen::MatrixXd direct_change_lx;  ///< what it changed in `direct_lx` to divide openings twice as finely
  Eigen::MatrixXd first_change_lx;  ///< what it changed in `indirect_lx` to resolve the first reflection within patches
  Eigen::MatrixXd second_change_lx;  ///< what it changed to resolve the second
  Eigen::MatrixXd uncertain_lx;      ///< what in it sampled lines of sight leave open
  Eigen::VectorXd missed;            ///< share of what each receiver sees that sampling lost, or counted twice
  int patches = 0;                   ///< into which the room was cut
};

/// Some of the receivers.
Response rows_of(const Response& response, Eigen::Index first, Eigen::Index count);

/// Some of the luminaires, in the order named.
Response columns_of(const Response& response, const std::vector<int>& luminaires);

/// How accurate the light is to be at all receivers but one in twenty: within `share` of its value, or `floor_lx`.
struct Accuracy {
  double share = 0.005;
  double floor_lx = 0.1;
};

inline constexpr Accuracy k_fine{.share = 0.001, .floor_lx = 0.02};

/// How finely a room is cut into patches, and how closely receivers look at those that they may see in part.
struct MeshDetail {
  double patch_size_m = 0.7;  ///< no side of a patch is longer (but for slanting sides)
  double unevenness =
      0.02;                 ///< a patch is cut into four where what it reflects of a luminaire's light, in its standard
                            ///< deviation over the patch, is more than this share of all that luminaire's light
  int most_patches = 2000;  ///< where these are reached patches are cut no further
  int lines_of_sight = 3;   ///< along each side of a ninth of a patch; to near patches two more
};

/// Cut as finely as the accuracy asks, which is found by trying: coarsely, then finer until the engine's own estimate
/// of its error is small enough, or the room has as many patches as fit (`MeshDetail::most_patches`).
///
/// @param scene luminaires' `output` is part of the response, their `level` is not
Response response(const Scene& scene, const std::vector<Receiver>& receivers, const Accuracy& accuracy = {},
                  const Progress& progress = {});

/// Cut as told.
Response response(const Scene& scene, const std::vector<Receiver>& receivers, const MeshDetail& detail,
                  const Progress& progress = {});

/// How finely a room is cut at first: few patches, small against the height of a room.
MeshDetail coarse_mesh(const Scene& scene);

/// Illuminance at a set of dimmer levels.
struct Field {
  Eigen::VectorXd total_lx;
  Eigen::VectorXd direct_lx;
  Eigen::VectorXd error_lx;  ///< the engine's estimate of its own numerical error at each receiver
};

/// @param levels one a luminaire, fractions of full output
Field field_at(const Response& response, const Eigen::VectorXd& levels);

}  // namespace evenlit
