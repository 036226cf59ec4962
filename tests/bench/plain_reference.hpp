#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit::bench {

/// What `response` computes, by the plainest method that works: small triangles of constant exitance, factors by
/// adaptive subdivision, Gauss-Seidel. Shares types with the engine, but no code, mesh, kernel or solver. Receivers x
/// luminaires at full level, lx.
struct PlainLight {
  Eigen::MatrixXd direct_lx;
  Eigen::MatrixXd indirect_lx;

  [[nodiscard]] Eigen::VectorXd total_lx() const { return (direct_lx + indirect_lx).rowwise().sum(); }
};

/// @param scene no wall corner lies in the middle of a straight stretch; openings are points or discs
/// @param patch_size_m triangles have at most the area of a square with this side
PlainLight plain_light(const Scene& scene, const std::vector<Receiver>& receivers, double patch_size_m);

/// The light of all luminaires at full level. The error stated is the same share of the light at every receiver: the
/// largest that twice the patch size changes anywhere. The error falls too unevenly from one patch size to the next to
/// be told point by point, or to be extrapolated.
Field plain_field(const Scene& scene, const std::vector<Receiver>& receivers, double patch_size_m);

/// Illuminance straight from a luminaire: I cos / d^2 averaged over a square raster of `side` x `side` points of its
/// opening.
double plain_illuminance(const Scene& scene, const Luminaire& luminaire, int side, const Eigen::Vector3d& point,
                         const Eigen::Vector3d& normal);

}  // namespace evenlit::bench
