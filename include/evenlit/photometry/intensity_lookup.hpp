#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/photometry/distribution.hpp"

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

/// `intensity_toward` prepared for many directions at once.
///
/// The table is copied onto a lattice of equal steps that has a line through every angle of the file; the usual files
/// have such angles, and the copy is then exact. Where they do not, the lattice is made so fine that it leaves the
/// distribution by no more than `k_most_deviation` of the peak; a table too wild for that (a step within a thousandth
/// of a degree) is looked up as it is, slowly. Arithmetic is in single precision: 1e-5 degrees of the angles.
class IntensityLookup {
 public:
  static constexpr double k_most_deviation = 5e-4;

  explicit IntensityLookup(const IntensityDistribution& distribution);

  /// Intensities toward the first `count` directions, cd.
  ///
  /// @param directions in the frame of the table (`table_from_luminaire`), of any length but 0
  void toward(const Directions& directions, std::size_t count, float* candela) const;

  /// What turns the luminaire's frame into the table's.
  [[nodiscard]] const Eigen::Matrix3d& table_from_luminaire() const { return table_from_luminaire_; }

  /// Largest distance between the lattice and the distribution, as a fraction of the peak.
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

  [[nodiscard]] static Axis lattice_axis(const std::vector<double>& knots_deg, int otherwise_steps);
  void sample(const IntensityDistribution& distribution, int otherwise_steps);
  [[nodiscard]] double deviation_of(const IntensityDistribution& distribution) const;
  void toward_plainly(const Directions& directions, std::size_t count, float* candela) const;
  void locate(const Directions& directions, std::size_t begin, int count, Block& block) const;

  Eigen::Matrix3d table_from_luminaire_;
  Axis gamma_;
  Axis c_;                      ///< no steps: the same all around
  std::vector<float> candela_;  ///< gamma runs fastest; (gamma steps + 1) x (C steps + 1)
  double deviation_ = 0;
  IntensityDistribution plain_;  ///< kept where no lattice is good enough
};

}  // namespace evenlit
