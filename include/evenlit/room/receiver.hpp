#pragma once

#include <Eigen/Core>

namespace evenlit {

/// A point of a surface, real or imagined, that collects light from its upper half-space.
struct Receiver {
  Eigen::Vector3d position_m;
  Eigen::Vector3d normal;  ///< unit
};

}  // namespace evenlit
