#include "evenlit/moods/colour_display.hpp"

#include <Eigen/LU>

namespace evenlit {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

/// Tristimulus values of full red, green and blue: columns.
Matrix3d xyz_from_rgb() {
  Matrix3d primaries;
  primaries << tristimulus({0.64, 0.33}, 1), tristimulus({0.30, 0.60}, 1), tristimulus({0.15, 0.06}, 1);
  const Vector3d luminances = primaries.inverse() * tristimulus(k_d65, 1);
  return primaries * luminances.asDiagonal();
}

/// Sharpened responses of the eye from tristimulus values.
Matrix3d response_from_xyz() {
  Matrix3d matrix;
  matrix << 0.8951, 0.2664, -0.1614,  //
      -0.7502, 1.7135, 0.0367,        //
      0.0389, -0.0685, 1.0296;
  return matrix;
}

}  // namespace

Vector3d linear_rgb(const Vector3d& tristimulus) {
  static const Matrix3d k_rgb_from_xyz = xyz_from_rgb().inverse();
  return k_rgb_from_xyz * tristimulus;
}

Vector3d adapted(const Vector3d& tristimulus, const Chromaticity& from_white, const Chromaticity& to_white) {
  static const Matrix3d k_response = response_from_xyz();
  static const Matrix3d k_back = k_response.inverse();
  const Vector3d from = k_response * evenlit::tristimulus(from_white, 1);
  const Vector3d to = k_response * evenlit::tristimulus(to_white, 1);
  const Vector3d seen = (k_response * tristimulus).cwiseProduct(to).cwiseQuotient(from);
  return k_back * seen;
}

Vector3d tint(const Chromaticity& light, const Chromaticity& white) {
  const Vector3d xyz = adapted(tristimulus(light, 1), white, k_d65);
  Vector3d rgb = linear_rgb(xyz / xyz.y());
  const double least = rgb.minCoeff();
  if (least >= 0) return rgb;
  return Vector3d::Ones() + (rgb - Vector3d::Ones()) / (1 - least);
}

}  // namespace evenlit
