#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit::reference {

/// Points on faces, with the area that each stands for: a mean or a flux is a weighted sum.
struct FacePoints {
  std::vector<Receiver> receivers;
  Eigen::VectorXd area_m2;
  std::vector<int> surface;  ///< index
};

/// A Gauss rule of 10 x 10 points on the triangles of every whole face, each of which is cut into `parts` x `parts`.
/// For light without shadow edges on faces that no box stands on.
///
/// @source A. H. Stroud, Approximate Calculation of Multiple Integrals (1971): conical product rules
FacePoints face_points(const std::vector<Surface>& surfaces, int parts = 1);

/// Sum of value x area over the points of one surface, or of all when it is -1.
double sum_over(const FacePoints& points, const Eigen::VectorXd& values, int surface = -1);

/// Mean, in the same way.
double mean_over(const FacePoints& points, const Eigen::VectorXd& values, int surface = -1);

}  // namespace evenlit::reference
