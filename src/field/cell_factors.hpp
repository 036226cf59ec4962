#pragma once

#include <array>
#include <vector>

#include "evenlit/room/receiver.hpp"
#include "mesh.hpp"

namespace evenlit {

/// Configuration factors of the cells that a mesh's nodes stand for (`cell_of_node`), exact but for single precision,
/// also where cells dip below a receiver's horizon.
///
/// @source Lambert's formula for a polygon: Siegel and Howell, Thermal Radiation Heat Transfer
class CellFactors {
 public:
  /// The mesh must outlive this.
  ///
  /// @param nodes of the mesh
  CellFactors(const Mesh& mesh, const Nodes& nodes);

  /// Puts the factors of all cells of some patches in the place of what stands in `factors`; 0 where the receiver is
  /// not in front.
  ///
  /// @param factors of all nodes from `first` on
  void put(const Receiver& receiver, const std::vector<int>& patches, int first, float* factors) const;

 private:
  /// Cells that are handled together.
  struct Batch;

  [[nodiscard]] bool is_full(const Batch& batch) const;
  void add(const Receiver& receiver, int patch, Batch& batch) const;
  /// Empties a batch.
  template <class FactorsOf>
  void put(const Receiver& receiver, Batch& batch, const FactorsOf& factors_of, int first, float* factors) const;

  const Mesh& mesh_;
  int per_patch_;
  static constexpr int k_coordinates = 12;
  /// x, y, z of the first corner, of the second ... : one of each cell; counter-clockwise seen from the room.
  std::array<std::vector<double>, k_coordinates> corners_m_;
};

}  // namespace evenlit
