#include "evenlit/drawing/isolux.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace evenlit {
namespace {

constexpr int k_none = -1;

// The crossings of one value with the lattice's edges, linked cell by cell. Edge 2 i runs from lattice point i to the
// next in its row, edge 2 i + 1 to the next in its column. `next` leads along the line with greater values on the left.
struct Crossings {
  const SampledField& field;
  double value;
  std::vector<int> next;
  std::vector<char> entered;

  Crossings(const SampledField& field_, double value_)
      : field(field_), value(value_), next(2 * field_.values.size(), k_none), entered(2 * field_.values.size(), 0) {
    for (int row = 0; row + 1 < field.rows; ++row) {
      for (int column = 0; column + 1 < field.columns; ++column) link_cell(column, row);
    }
  }

  void link(int from, int to) {
    next[from] = to;
    entered[to] = 1;
  }

  // Corners and edges counter-clockwise from the lattice point (column, row); edge k joins corners k and k + 1. Walking
  // round the cell, the line leaves where the corners change from below to above, and enters at the opposite change.
  void link_cell(int column, int row) {
    const int here = row * field.columns + column;
    const std::array<int, 4> edges{2 * here, 2 * (here + 1) + 1, 2 * (here + field.columns), 2 * here + 1};
    const std::array<double, 4> corners{field.at(column, row), field.at(column + 1, row), field.at(column + 1, row + 1),
                                        field.at(column, row + 1)};
    std::array<int, 2> leaves{k_none, k_none};
    std::array<int, 2> enters{k_none, k_none};
    int left = 0;
    int entered_count = 0;
    for (int k = 0; k < 4; ++k) {
      const bool above = corners[k] >= value;
      const bool next_above = corners[(k + 1) % 4] >= value;
      if (!above && next_above) leaves[left++] = k;
      if (above && !next_above) enters[entered_count++] = k;
    }
    if (left == 1) link(edges[enters[0]], edges[leaves[0]]);
    if (left < 2) return;

    // A saddle: the line that enters after a high corner goes round that corner, or round the low corner that follows.
    const double saddle =
        (corners[0] * corners[2] - corners[1] * corners[3]) / (corners[0] + corners[2] - corners[1] - corners[3]);
    const bool round_high_corners = saddle < value;
    for (const int enter : enters) {
      const int leave = (enter + (round_high_corners ? 3 : 1)) % 4;
      link(edges[enter], edges[leave]);
    }
  }

  Eigen::Vector2d point_on(int edge) const {
    const int from = edge / 2;
    const bool along_row = edge % 2 == 0;
    const double a = field.values[from];
    const double b = field.values[along_row ? from + 1 : from + field.columns];
    const double t = (value - a) / (b - a);
    const Eigen::Vector2d lattice(from % field.columns + (along_row ? t : 0),
                                  from / field.columns + (along_row ? 0 : t));
    return field.first + field.spacing.cwiseProduct(lattice);
  }

  // Follows the links from an edge, taking them away.
  Polyline line_from(int edge) {
    Polyline line{point_on(edge)};
    while (next[edge] != k_none) {
      edge = std::exchange(next[edge], k_none);
      const Eigen::Vector2d point = point_on(edge);
      if (point != line.back()) line.push_back(point);
    }
    return line;
  }
};

}  // namespace

std::vector<Polyline> contours(const SampledField& field, double value) {
  Crossings crossings(field, value);
  std::vector<Polyline> lines;
  const auto follow = [&](int edge) {
    Polyline line = crossings.line_from(edge);
    if (line.size() > 1) lines.push_back(std::move(line));
  };
  const int edges = static_cast<int>(crossings.next.size());
  for (int edge = 0; edge < edges; ++edge) {
    if (crossings.next[edge] != k_none && !crossings.entered[edge]) follow(edge);
  }
  for (int edge = 0; edge < edges; ++edge) {
    if (crossings.next[edge] != k_none) follow(edge);
  }
  return lines;
}

std::vector<Polyline> clipped(const std::vector<Polyline>& lines, const Polygon& polygon) {
  std::vector<Polyline> pieces;
  for (const Polyline& line : lines) {
    Polyline piece;
    const auto end_piece = [&] {
      if (piece.size() > 1) pieces.push_back(piece);
      piece.clear();
    };
    for (std::size_t i = 1; i < line.size(); ++i) {
      const Eigen::Vector2d from = line[i - 1];
      const Eigen::Vector2d along = line[i] - from;
      std::vector<double> cuts{0, 1};
      for (std::size_t k = 0; k < polygon.size(); ++k) {
        const Eigen::Vector2d edge = polygon[(k + 1) % polygon.size()] - polygon[k];
        const Eigen::Vector2d to_corner = polygon[k] - from;
        const double cross = along.x() * edge.y() - along.y() * edge.x();
        if (cross == 0) continue;
        const double t = (to_corner.x() * edge.y() - to_corner.y() * edge.x()) / cross;
        const double s = (to_corner.x() * along.y() - to_corner.y() * along.x()) / cross;
        if (t > 0 && t < 1 && s >= 0 && s <= 1) cuts.push_back(t);
      }
      std::sort(cuts.begin(), cuts.end());
      for (std::size_t k = 1; k < cuts.size(); ++k) {
        if (cuts[k] == cuts[k - 1]) continue;
        if (!is_inside(polygon, from + (cuts[k - 1] + cuts[k]) / 2 * along)) {
          end_piece();
          continue;
        }
        if (piece.empty()) piece.push_back(from + cuts[k - 1] * along);
        piece.push_back(from + cuts[k] * along);
      }
    }
    end_piece();
  }
  return pieces;
}

std::vector<double> round_levels(double top) {
  constexpr int k_most = 10;
  double decade = std::pow(10.0, std::floor(std::log10(top / k_most)));
  double step = decade;
  for (const double factor : {1.0, 2.0, 5.0, 10.0}) {
    step = factor * decade;
    if (top <= step * k_most * (1 + 1e-9)) break;
  }
  std::vector<double> levels;
  for (int i = 1; i * step < top * (1 - 1e-9); ++i) levels.push_back(i * step);
  return levels;
}

}  // namespace evenlit
