#pragma once

#include <Eigen/Core>
#include <string>

#include "cases.hpp"

namespace evenlit::bench {

/// Light of all luminaires at full level, with the engine's stated error.
Field full_field(const Response& response);

/// What counts as true: the light of a room that the engine has cut far more finely than it would, its openings
/// divided as finely as they can be.
Eigen::VectorXd true_light(const Case& room, const MeshDetail& detail);

/// ...so finely that the rest is a tenth, or less, of what the usual accuracy leaves.
inline constexpr MeshDetail k_true_mesh{.patch_size_m = 0.2, .unevenness = 0.001, .most_patches = 6000};

/// How a field differs from the true one, as shares of the light.
struct Difference {
  double usual = 0;    ///< nineteen receivers in twenty differ by no more
  double largest = 0;  ///< of all receivers
  double rms = 0;
  double stated = 0;   ///< the mean of what the field itself states
  double covered = 0;  ///< share of the receivers that differ by no more than the field states
};

Difference difference(const Field& field, const Eigen::VectorXd& true_lx);

std::string percent(double share);
std::string milliseconds(double seconds);

}  // namespace evenlit::bench
