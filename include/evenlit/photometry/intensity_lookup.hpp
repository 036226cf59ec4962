#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "evenlit/photometry/distribution.hpp"
#include "evenlit/photometry/rotational_lookup.hpp"

namespace evenlit {

/// Directions as the lookup takes them, one array a coordinate so that loops over them become vector instructions.
struct Directions {
  std::vector<float> x;
  std::vector<float> y;
  std::vector<float> z;

  void resize(std::size_t count) {
    for (auto* coordinate : {&x, &y, &z}) coordinate->resize(count);
  }
  void set(std::size_t i, const Eigen::Vector3d& direction) {
    x[i] = static_cast<float>(direction.x());
    y[i] = static_cast<float>(direction.y());
    z[i] = static_cast<float>(direction.z());
  }
};

/// A point of light in a room.
struct PointLight {
  Eigen::Matrix<float, 3, 3, Eigen::RowMajor> table_from_room;  ///< a rotation
  Eigen::Vector3f at_m;
  float output;  ///< what intensities are multiplied by
};

/// `intensity_toward` and the inverse-square law, prepared for many directions at once.
///
/// A table of one plane is looked up by `RotationalLookup` where that is exact enough. Any other is copied onto a
/// lattice of equal steps that has a line through every angle of the file; the usual files have such angles, and the
/// copy is then exact. Where they do not, the lattice is made so fine that it leaves the distribution by no more than
/// `k_most_deviation` of the peak; a table too wild for that (a step within a thousandth of a degree) is looked up as
/// it is, slowly. Arithmetic is in single precision: 1e-5 degrees of the angles.
class IntensityLookup {
 public:
  static constexpr double k_most_deviation = 5e-4;

  explicit IntensityLookup(const IntensityDistribution& distribution);

  /// Illuminances by the inverse-square law, lx, of facets at the ends of the first `count` rays from a point: the
  /// intensity along the ray times `facing_m` / length^3. Of rays 1 m long that meet their facets squarely these are
  /// the intensities, cd.
  ///
  /// @param rays_m   in the frame of the table (`table_from_luminaire`); one without length counts as 1 nm long
  /// @param facing_m length times cosine of the incidence, m
  void illuminances(const Directions& rays_m, const float* facing_m, std::size_t count, float* lx) const;

  /// Illuminances of facets by a point of light of this distribution, lx; 0 behind them.
  void illuminances(const PointLight& light, const FacetArrays& facets, int count, float* lx) const;

  /// What turns the luminaire's frame into the table's.
  [[nodiscard]] const Eigen::Matrix3d& table_from_luminaire() const { return table_from_luminaire_; }

  /// How far what is looked up may be from the distribution, as a fraction of the peak.
  [[nodiscard]] double deviation() const { return deviation_; }

 private:
  /// One of the two angles: where the lattice begins, and how many equal steps it has.
  struct Axis {
    float first_deg = 0;
    float span_deg = 0;
    float steps_per_deg = 0;
    int steps = 0;
  };
  struct Block;
  struct Kernels;

  [[nodiscard]] static Axis lattice_axis(const std::vector<double>& knots_deg, int otherwise_steps);
  void sample(const IntensityDistribution& distribution, int otherwise_steps);
  [[nodiscard]] double deviation_of(const IntensityDistribution& distribution) const;
  void illuminances(const RayArrays& rays, int count, float* lx) const;
  void lattice_illuminances(const RayArrays& rays, int count, float* lx) const;
  void plain_illuminances(const RayArrays& rays, int count, float* lx) const;

  Eigen::Matrix3d table_from_luminaire_;
  std::optional<RotationalLookup> rotational_;  ///< where it has a value it serves all
  Axis gamma_;
  Axis c_;
  int rows_ = 0;  ///< gamma steps + 2
  /// Gamma runs fastest; `rows_` x (C steps + 2), the last in each angle once more so that it has a next one too, and
  /// then a plane and two of darkness for what is outside the table.
  std::vector<float> candela_;
  double deviation_ = 0;
  IntensityDistribution plain_;  ///< kept where no lattice is good enough
};

}  // namespace evenlit
