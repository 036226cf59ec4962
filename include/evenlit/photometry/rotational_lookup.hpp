#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <optional>
#include <vector>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// Rays from a point of light in the frame of its table, an array a coordinate: where each ends, and its length times
/// the cosine of the incidence there, m.
struct RayArrays {
  const float *x_m, *y_m, *z_m;
  const float* facing_m;
};

/// Plane facets that collect light, an array a coordinate; normals are of length 1.
struct FacetArrays {
  const float *x_m, *y_m, *z_m;
  const float *nx, *ny, *nz;
};

/// The light of a table of one plane, the same all around, without an angle being computed: a direction is found by the
/// square of the sine of its angle from the nearest of the table's axis, either way, and its horizon.
///
/// That square runs from 0 to a half. Each of its octaves is cut into equal cells, so that the cell is the upper bits
/// of the number itself. In a cell the intensity is two straight lines in the square. They meet at the file's own angle
/// where the cell has one, so that bends of the table, cut-offs too, stay where they are; between bends the file is
/// linear in the angle, whose curve in the square bounds what the lines miss: `k_most_deviation` of the peak.
/// Arithmetic is in single precision: 1e-5 degrees of the angles.
class RotationalLookup {
 public:
  static constexpr double k_most_deviation = 3e-6;

  /// Empty where the table has more than one plane, bends closer together than some hundredths of a degree, falls from
  /// its peak to nothing within less than a quarter of one, or ends in light elsewhere than at 0, 90 or 180 degrees.
  static std::optional<RotationalLookup> of(const IntensityDistribution& distribution);

  /// Illuminances at the ends of rays by the inverse-square law, lx; a ray without length counts as 1 nm long.
  void illuminances(const RayArrays& rays, int count, float* lx) const;

  /// Illuminances of facets, lx, by a light that gives `output` times the table and whose axis is that of the facets'
  /// frame, its upward the same; 0 behind them.
  void upright_illuminances(const Eigen::Vector3f& from_m, float output, const FacetArrays& facets, int count,
                            float* lx) const;

  /// Bound of the distance between the cells' lines and the table, as a fraction of the peak.
  [[nodiscard]] double deviation() const { return deviation_; }

 private:
  /// Candelas by the square of the sine: through `candela` at `bend`, with one slope before it and one after.
  struct alignas(16) Cell {
    float bend, candela, before, after;
  };
  /// How the cell of a square is found.
  struct Lattice {
    int shift;         ///< of the number's bits, so that those of the cell are left
    int first_key;     ///< what that leaves of the largest number in cell 0 of a branch
    int branch_cells;  ///< of each: beside the axis downward, below the horizon, beside the axis upward, above it
    int last_cell;     ///< a dark one where nothing goes up
    float rim2;        ///< square of the sine above the horizon that still counts as below; negative: the other way
  };
  struct Branch;
  struct Course;
  struct Block;
  struct Kernels;

  static std::optional<RotationalLookup> cut(const std::vector<Branch>& branches, double peak, int bits);
  [[nodiscard]] bool append(const Branch& branch, int bits, int octaves, double most_shared_cd);

  Lattice lattice_{};
  std::vector<Cell> cells_;
  double deviation_ = 0;
};

}  // namespace evenlit
