#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/room/grid.hpp"

namespace evenlit {

/// A function of the plane given by its values on a rectangular lattice: bilinear between the lattice points, held
/// constant beyond the outermost.
struct SampledField {
  Eigen::Vector2d first;    ///< lattice point in row 0, column 0
  Eigen::Vector2d spacing;  ///< between columns, between rows; not 0, may be negative
  int columns = 0;
  int rows = 0;
  std::vector<double> values;  ///< row by row

  double at(int column, int row) const { return values[static_cast<std::size_t>(row) * columns + column]; }

  friend bool operator==(const SampledField&, const SampledField&) = default;
};

double value_at(const SampledField& field, const Eigen::Vector2d& point);

/// The values of a lattice's points as a field. Cells without a point (outside a plan, within a margin) take the mean
/// of their neighbours', from the points outwards, so that the field is held constant beyond the outermost points.
///
/// @param values one a point of the lattice, which has at least one
SampledField sampled_field(const Lattice& lattice, const Eigen::VectorXd& values);

/// A smooth field through the same values, >= 0, on a lattice `steps` times as fine that reaches half a spacing beyond
/// the outermost points: cubic between the points, straight beyond them. For pictures; figures come from the points.
///
/// @param steps even, so that the old lattice points are among the new
SampledField smoothed(const SampledField& field, int steps);

}  // namespace evenlit
