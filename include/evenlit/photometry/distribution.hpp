#pragma once

#include <Eigen/Core>
#include <vector>

namespace evenlit {

/// Far-field luminous intensity by direction. In the luminaire's frame C 0 is +x, C 90 is +y, up is +z; the vertical
/// angle gamma counts from straight down, the horizontal angle C counter-clockwise seen from above.
///
/// The table has the angles of the file, so that nothing is resampled: planes that share an axis, `gamma_deg` from one
/// end of the axis, `c_deg` around it. Bilinear in the two between the tabulated directions, zero beyond the first and
/// the last of either.
///
/// @source ANSI/IESNA LM-63-2002 (photometric types, read at second hand); CIE 121-1996 (not read); the direction
///         vectors follow from the definitions of the angles
struct IntensityDistribution {
  /// What the planes of the table share. `vertical`: gamma and C are those of the luminaire (types C and A; type A
  /// counts V = gamma - 90 and H = -C). `along_c0`: the table's gamma counts from -x and its C around x, from straight
  /// down toward +y (type B: V = gamma - 90 and H = -C). `along_c90`: the same turned about the vertical, gamma from -y
  /// and C from straight down toward -x.
  enum class Axis { vertical, along_c0, along_c90 };

  std::vector<double> gamma_deg;  ///< ascending, within 0...180, at least two
  std::vector<double> c_deg;      ///< ascending; {0} alone: the same all around; else a range of up to 360, of which
                                  ///< a full circle runs from 0 to 360, both stored
  Eigen::ArrayXXd candela;        ///< gamma x C, >= 0, finite; all columns agree at gamma 0 and 180
  Axis axis = Axis::vertical;

  friend bool operator==(const IntensityDistribution& a, const IntensityDistribution& b) {
    return a.axis == b.axis && a.gamma_deg == b.gamma_deg && a.c_deg == b.c_deg &&
           a.candela.rows() == b.candela.rows() && a.candela.cols() == b.candela.cols() &&
           (a.candela == b.candela).all();
  }
};

/// Whether the light is the same all around the vertical.
bool is_rotational(const IntensityDistribution& distribution);

/// Whether the table is of type C as files have it: planes around the vertical, one for all or a full circle.
bool is_type_c(const IntensityDistribution& distribution);

/// Intensity at a vertical and a horizontal angle of the luminaire (any value; wrapped), cd.
double intensity_at(const IntensityDistribution& distribution, double gamma_deg, double c_deg);

/// Intensity toward a direction (need not be of length 1, not zero) in the luminaire's frame, cd.
double intensity_toward(const IntensityDistribution& distribution, const Eigen::Vector3d& direction);

/// What turns the luminaire's frame into the frame of the table, in which gamma counts from -z and C from +x toward +y.
Eigen::Matrix3d table_from_luminaire(IntensityDistribution::Axis axis);

/// The distribution turned about the vertical, counter-clockwise seen from above, by `quarters` x 90 degrees.
IntensityDistribution turned(const IntensityDistribution& distribution, int quarters);

/// The distribution in planes around the vertical: itself where it has them, else tabulated anew every `step_deg` in
/// both angles.
IntensityDistribution as_type_c(const IntensityDistribution& distribution, double step_deg = 1);

/// Luminous flux, lm: the exact integral of the bilinear interpolant over the sphere.
double lumens(const IntensityDistribution& distribution);

/// The part of the flux that leaves between two vertical angles, lm: zonal lumens. Exact for planes around the
/// vertical, within 1e-4 of the flux otherwise.
double zonal_lumens(const IntensityDistribution& distribution, double from_deg, double to_deg);

/// The distribution with every intensity multiplied by `factor` (>= 0).
IntensityDistribution scaled(IntensityDistribution distribution, double factor);

}  // namespace evenlit
