#pragma once

#include <Eigen/Core>
#include <vector>

namespace evenlit {

/// Far-field luminous intensity, type C (IES LM-63, CIE 121): vertical angle gamma from straight down, horizontal
/// angle C counter-clockwise seen from above. In the luminaire's frame C 0 is +x, C 90 is +y, up is +z.
///
/// Bilinear in the two angles between the tabulated directions; zero beyond the first and last gamma.
struct IntensityDistribution {
  std::vector<double> gamma_deg;  ///< ascending, within 0...180, at least two
  std::vector<double> c_deg;      ///< ascending; {0} alone: rotationally symmetric; else from 0 to 360, both stored
  Eigen::ArrayXXd candela;        ///< gamma x C, >= 0, finite; all columns agree at gamma 0 and 180

  friend bool operator==(const IntensityDistribution& a, const IntensityDistribution& b) {
    return a.gamma_deg == b.gamma_deg && a.c_deg == b.c_deg && a.candela.rows() == b.candela.rows() &&
           a.candela.cols() == b.candela.cols() && (a.candela == b.candela).all();
  }
};

bool is_rotational(const IntensityDistribution& distribution);

/// Intensity at a vertical and a horizontal angle (any value; wrapped), cd.
double intensity_at(const IntensityDistribution& distribution, double gamma_deg, double c_deg);

/// Intensity toward a direction (need not be of length 1, not zero) in the luminaire's frame, cd.
double intensity_toward(const IntensityDistribution& distribution, const Eigen::Vector3d& direction);

/// Luminous flux, lm: the exact integral of the bilinear interpolant over the sphere.
double lumens(const IntensityDistribution& distribution);

/// The part of the flux that leaves between two vertical angles, lm: zonal lumens.
double zonal_lumens(const IntensityDistribution& distribution, double from_deg, double to_deg);

/// The distribution with every intensity multiplied by `factor` (>= 0).
IntensityDistribution scaled(IntensityDistribution distribution, double factor);

}  // namespace evenlit
