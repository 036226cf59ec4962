#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit::reference {

/// How much work a receiver gets. The standard error falls with the square root of `replicates` and nearly with the
/// number of `paths`.
struct Sampling {
  int paths = 2048;     ///< of one replicate, best a power of 2
  int replicates = 32;  ///< independent random shifts of the same points, from whose spread the error is told
  std::uint32_t seed = 1;
};

/// Light of all luminaires at full level, receiver by receiver, lx.
struct TracedLight {
  Eigen::ArrayXd total_lx;
  Eigen::ArrayXd direct_lx;
  Eigen::ArrayXd standard_error_lx;  ///< of the total
  std::int64_t rays = 0;             ///< traced in all: the work done
  std::int64_t escaped = 0;          ///< of these, out through a seam between two faces; such a path is cut short
};

/// What `response` computes, by following light backwards along random paths: unbiased, no mesh, no factors, no solver.
/// It shares the scene's types with the engine and no code; all it knows of a room are its `surfaces`.
///
/// A path begins in a random direction of the receiver (in proportion to the cosine). At every face that it meets, a
/// point is chosen on each opening, and the light that these points would send unhindered is counted if the one of them
/// that is drawn in proportion to its part is in sight. The path goes on with the face's reflectance as weight; faint
/// ones end by Russian roulette. The numbers behind the first bounces are Sobol points, shifted at random. Every
/// receiver has numbers of its own, so that results depend on the seed but not on the number of threads.
///
/// @source J. T. Kajiya, "The rendering equation", SIGGRAPH '86; J. Arvo, D. Kirk, "Particle transport and image
///         synthesis", SIGGRAPH '90 (Russian roulette); R. Cranley, T. N. L. Patterson, SIAM J. Numer. Anal. 13 (1976)
///         (random shifts); S. Joe, F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008) (Sobol points)
TracedLight traced_light(const Scene& scene, const std::vector<Receiver>& receivers, const Sampling& sampling = {});

}  // namespace evenlit::reference
