#include "evenlit/drawing/sampled_field.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace evenlit {
namespace {

/// A value between lattice points as a weighted sum of up to four of them.
struct Blend {
  int first = 0;  ///< index of the first
  int count = 1;
  std::array<double, 4> weights{1, 0, 0, 0};

  template <class Values>
  [[nodiscard]] double of(Values value) const {
    double sum = 0;
    for (int i = 0; i < count; ++i) sum += weights[i] * value(first + i);
    return sum;
  }
};

/// The cubic of Catmull and Rom (1974) through the points on either side with the slopes of their neighbours; a missing
/// neighbour lies on the straight line, and so does what is beyond the last point.
Blend blend_at(double place, int points) {
  if (points == 1) return {};
  const int before = std::clamp(static_cast<int>(std::floor(place)), 0, points - 2);
  const double t = place - before;
  if (t < 0 || t > 1) return {before, 2, {1 - t, t}};

  std::array<double, 4> w{t * (-1 + t * (2 - t)) / 2, 1 + t * t * (-5 + 3 * t) / 2, t * (1 + t * (4 - 3 * t)) / 2,
                          t * t * (t - 1) / 2};
  if (before == 0) w = {0, w[1] + 2 * w[0], w[2] - w[0], w[3]};
  if (before == points - 2) w = {w[0], w[1] - w[3], w[2] + 2 * w[3], 0};
  const int skipped = before == 0 ? 1 : 0;
  Blend blend{before - 1 + skipped, 0, {}};
  blend.count = std::min(4 - skipped, points - blend.first);
  for (int i = 0; i < blend.count; ++i) blend.weights[i] = w[i + skipped];
  return blend;
}

}  // namespace

double value_at(const SampledField& field, const Eigen::Vector2d& point) {
  const Eigen::Array2d last(field.columns - 1, field.rows - 1);
  const Eigen::Array2d p = ((point - field.first).array() / field.spacing.array()).max(0).min(last);
  const int column = std::min(static_cast<int>(p.x()), std::max(field.columns - 2, 0));
  const int row = std::min(static_cast<int>(p.y()), std::max(field.rows - 2, 0));
  const int next_column = std::min(column + 1, field.columns - 1);
  const int next_row = std::min(row + 1, field.rows - 1);
  const double u = p.x() - column;
  const double v = p.y() - row;
  return (1 - v) * ((1 - u) * field.at(column, row) + u * field.at(next_column, row)) +
         v * ((1 - u) * field.at(column, next_row) + u * field.at(next_column, next_row));
}

SampledField sampled_field(const Lattice& lattice, const Eigen::VectorXd& values) {
  SampledField field{lattice.first_m, lattice.spacing_m, lattice.columns, lattice.rows, {}};
  const std::size_t cells = lattice.point_of_cell.size();
  field.values.assign(cells, 0);
  std::vector<char> known(cells, 0);
  std::vector<int> missing;
  for (std::size_t cell = 0; cell < cells; ++cell) {
    const int point = lattice.point_of_cell[cell];
    known[cell] = point >= 0;
    if (point >= 0) field.values[cell] = values[point];
    if (point < 0) missing.push_back(static_cast<int>(cell));
  }

  // Grow the known region by one ring of cells at a time.
  while (!missing.empty() && missing.size() < cells) {
    std::vector<int> grown;
    std::vector<int> still_missing;
    for (const int cell : missing) {
      const int column = cell % lattice.columns;
      const int row = cell / lattice.columns;
      double sum = 0;
      int count = 0;
      const auto count_neighbour = [&](bool exists, int neighbour) {
        if (!exists || !known[neighbour]) return;
        sum += field.values[neighbour];
        ++count;
      };
      count_neighbour(column > 0, cell - 1);
      count_neighbour(column + 1 < lattice.columns, cell + 1);
      count_neighbour(row > 0, cell - lattice.columns);
      count_neighbour(row + 1 < lattice.rows, cell + lattice.columns);
      if (count > 0) field.values[cell] = sum / count;
      (count > 0 ? grown : still_missing).push_back(cell);
    }
    for (const int cell : grown) known[cell] = 1;
    missing = std::move(still_missing);
  }
  return field;
}

SampledField smoothed(const SampledField& field, int steps) {
  SampledField fine;
  fine.spacing = field.spacing / steps;
  fine.first = field.first - field.spacing / 2;
  fine.columns = field.columns * steps + 1;
  fine.rows = field.rows * steps + 1;

  std::vector<double> rows_as_given;  // fine columns, given rows
  for (int row = 0; row < field.rows; ++row) {
    for (int column = 0; column < fine.columns; ++column) {
      const Blend blend = blend_at(static_cast<double>(column) / steps - 0.5, field.columns);
      rows_as_given.push_back(blend.of([&](int i) { return field.at(i, row); }));
    }
  }
  for (int row = 0; row < fine.rows; ++row) {
    const Blend blend = blend_at(static_cast<double>(row) / steps - 0.5, field.rows);
    for (int column = 0; column < fine.columns; ++column) {
      const double value =
          blend.of([&](int i) { return rows_as_given[static_cast<std::size_t>(i) * fine.columns + column]; });
      fine.values.push_back(std::max(0.0, value));
    }
  }
  return fine;
}

}  // namespace evenlit
