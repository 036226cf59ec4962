#include "evenlit/field/wall_light.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/field/response.hpp"
#include "evenlit/field/work_plane_light.hpp"
#include "solver.hpp"

namespace evenlit {
namespace {

/// A lattice in blocks of cells, and the point of each that stands for it.
struct Blocks {
  int columns = 0;
  int rows = 0;
  std::vector<int> index;  ///< row-major, into `points_m`, or -1 where a block has no point
  std::vector<Eigen::Vector2d> points_m;

  [[nodiscard]] int at(int column, int row) const { return index[static_cast<std::size_t>(row) * columns + column]; }
};

/// The point of a block that is nearest to its middle, or -1.
int middle_point(const Lattice& lattice, int first_column, int first_row) {
  constexpr int k_middle = k_wall_block / 2;
  int best = -1;
  int best_distance = 0;
  for (int row = 0; row < k_wall_block; ++row) {
    for (int column = 0; column < k_wall_block; ++column) {
      const int point = lattice.point_of_cell[(first_row + row) * lattice.columns + first_column + column];
      const int distance = (row - k_middle) * (row - k_middle) + (column - k_middle) * (column - k_middle);
      if (point < 0 || (best >= 0 && distance >= best_distance)) continue;
      best = point;
      best_distance = distance;
    }
  }
  return best;
}

Blocks blocks_of(const Lattice& lattice) {
  Blocks blocks{lattice.columns / k_wall_block, lattice.rows / k_wall_block, {}, {}};
  for (int row = 0; row < blocks.rows; ++row) {
    for (int column = 0; column < blocks.columns; ++column) {
      const int point = middle_point(lattice, column * k_wall_block, row * k_wall_block);
      blocks.index.push_back(point < 0 ? -1 : static_cast<int>(blocks.points_m.size()));
      if (point >= 0) blocks.points_m.push_back(lattice.points_m[point]);
    }
  }
  return blocks;
}

/// Two neighbouring blocks along one axis and how much the second counts for a cell; beyond the outermost middles the
/// same straight line goes on.
struct Between {
  int first;
  int second;
  double share;
};

Between between_blocks(int cell, int blocks) {
  const double place = (cell + 0.5) / k_wall_block - 0.5;
  const int first = std::clamp(static_cast<int>(std::floor(place)), 0, std::max(0, blocks - 2));
  return {first, std::min(first + 1, blocks - 1), blocks > 1 ? place - first : 0};
}

/// Bilinear; where a block has no point, the weighted mean of those of the four that have one.
double interpolated(const Blocks& blocks, const Eigen::VectorXd& values, int column, int row) {
  const Between x = between_blocks(column, blocks.columns);
  const Between y = between_blocks(row, blocks.rows);
  const int four[4] = {blocks.at(x.first, y.first), blocks.at(x.second, y.first), blocks.at(x.first, y.second),
                       blocks.at(x.second, y.second)};
  const bool is_whole = std::ranges::all_of(four, [](int index) { return index >= 0; });
  const double right = is_whole ? x.share : std::clamp(x.share, 0.0, 1.0);
  const double up = is_whole ? y.share : std::clamp(y.share, 0.0, 1.0);
  const double weights[4] = {(1 - right) * (1 - up), right * (1 - up), (1 - right) * up, right * up};
  double sum = 0;
  double weight = 0;
  for (int i = 0; i < 4; ++i) {
    if (four[i] < 0) continue;
    sum += weights[i] * values[four[i]];
    weight += weights[i];
  }
  return sum / weight;
}

/// Adds what the room reflects to the light of each point.
void add_reflected(const Lattice& lattice, const Blocks& blocks, const Eigen::VectorXd& reflected_lx,
                   Eigen::VectorXd& lx) {
  for (int row = 0; row < lattice.rows; ++row) {
    for (int column = 0; column < lattice.columns; ++column) {
      const int point = lattice.point_of_cell[row * lattice.columns + column];
      if (point >= 0) lx[point] += interpolated(blocks, reflected_lx, column, row);
    }
  }
}

void append(std::vector<Receiver>& receivers, const std::vector<Receiver>& more) {
  receivers.insert(receivers.end(), more.begin(), more.end());
}

Eigen::VectorXd direct_lx(const Scene& scene, const std::vector<Receiver>& receivers) {
  const Solver solver(scene, receivers);
  Response response;
  solver.add_direct(response);
  return response.direct_lx * levels_of(scene);
}

Eigen::VectorXd reflected_lx(const Scene& scene, const std::vector<Receiver>& receivers, const Progress& progress) {
  return response(scene, receivers, Accuracy{}, progress).indirect_lx * levels_of(scene);
}

}  // namespace

std::vector<WallLight> wall_light(const Shape& room, const Scene& scene, std::vector<WallGrid> grids,
                                  const Progress& progress) {
  std::vector<Receiver> close;
  std::vector<Receiver> sparse;
  std::vector<Blocks> blocks;
  for (const WallGrid& grid : grids) {
    blocks.push_back(blocks_of(grid.lattice));
    append(close, receivers_on(room, grid.wall, grid.lattice.points_m));
    append(sparse, receivers_on(room, grid.wall, blocks.back().points_m));
  }
  const Eigen::VectorXd direct = direct_lx(scene, close);
  const Eigen::VectorXd reflected = reflected_lx(scene, sparse, progress);

  std::vector<WallLight> lights;
  Eigen::Index first = 0;
  Eigen::Index first_sparse = 0;
  for (std::size_t i = 0; i < grids.size(); ++i) {
    const Lattice& lattice = grids[i].lattice;
    const auto count = static_cast<Eigen::Index>(lattice.points_m.size());
    const auto sparse_count = static_cast<Eigen::Index>(blocks[i].points_m.size());
    Eigen::VectorXd lx = direct.segment(first, count);
    add_reflected(lattice, blocks[i], reflected.segment(first_sparse, sparse_count), lx);
    lights.push_back({std::move(grids[i]), lx.cwiseMax(0)});
    first += count;
    first_sparse += sparse_count;
  }
  return lights;
}

}  // namespace evenlit
