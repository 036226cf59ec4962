#pragma once

#include <Eigen/Core>
#include <vector>

#include "cell_aims.hpp"
#include "cell_factors.hpp"
#include "evenlit/room/receiver.hpp"
#include "evenlit/room/visibility.hpp"
#include "mesh.hpp"

namespace evenlit {

/// Receivers that look at the room from viewpoints: `per_viewpoint` receivers that follow each other lie within the
/// figure of one.
struct Lookout {
  std::vector<Receiver> receivers;
  int per_viewpoint = 1;
  Figures viewpoints;
};

/// Every receiver its own viewpoint.
Lookout lookout_of(const std::vector<Receiver>& receivers, const Visibility& visibility);

/// The nodes of a mesh, one viewpoint a patch.
///
/// @param patches of the mesh, as the visibility sees them
Lookout lookout_of(const Nodes& nodes, const Figures& patches);

/// How closely receivers look.
struct GatherDetail {
  double near = 3;             ///< patches nearer than so many of their radii count cell by cell, with the exact factor
  int near_lines = 1;          ///< along each side of a cell that may be partly hidden: lines of sight to it, near...
  int far_lines = 1;           ///< ...and far
  bool cut_at_horizon = true;  ///< whether far patches that the horizon cuts count exactly too
  bool scale_all = false;  ///< whether what factors miss of 1 is put on all of them, not only on sampled ones: then an
                           ///< even glow stays even, and no light is lost from one reflection to the next
};

/// For nodes, whose light reaches receivers only after averaging over many of them.
inline constexpr GatherDetail k_node_detail{
    .near = 1.5, .near_lines = 2, .far_lines = 1, .cut_at_horizon = false, .scale_all = true};

/// For receivers, with so many lines of sight along each side of a far cell that may be partly hidden.
GatherDetail receiver_detail(int lines_of_sight);

/// Receivers x nodes, or the other way about.
using NodeWeights = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Patches that follow each other.
struct PatchRun {
  int begin = 0;
  int end = 0;

  [[nodiscard]] int size() const { return end - begin; }
};

/// What some receivers see of a room.
struct FactorRows {
  NodeWeights factors;         ///< configuration factors, receivers x nodes
  NodeWeights is_sampled;      ///< 1 for nodes of patches that a viewpoint sees in part, else 0: viewpoints x nodes; no
                               ///< columns where nothing may hide or all factors are scaled
  std::vector<PatchRun> runs;  ///< patches in whose columns something is written; all others count as 0
  Eigen::ArrayXf missed;       ///< by how much the factors of each receiver missed 1
  Eigen::ArrayXf open;  ///< share of the light of the sampled ones that the raster of lines of sight leaves open: an
                        ///< edge falls between two lines on each patch, and errors of many patches even out
};

/// Puts what of the factors lines of sight leave open in their place.
void keep_uncertain_part(int nodes_per_patch, FactorRows& rows);

/// Configuration factors of a mesh's nodes. A receiver in a closed room sees surfaces wherever it looks: its factors
/// add up to 1. Those of patches that are partly hidden, which are found by sampling, are scaled so that they do.
class NodeFactors {
 public:
  /// What is given must outlive this.
  ///
  /// @param patches of the mesh, as the visibility sees them
  NodeFactors(const Mesh& mesh, const Figures& patches, const Nodes& nodes, const Visibility& visibility,
              const GatherDetail& detail);

  [[nodiscard]] int nodes() const { return nodes_.size(); }
  [[nodiscard]] bool may_hide() const { return !visibility_.is_always_clear(); }
  [[nodiscard]] int nodes_per_patch() const { return nodes_.per_patch; }

  /// What the receivers of the viewpoints begin ... end - 1 see.
  ///
  /// @param rows keep their memory from one call to the next
  void see(const Lookout& lookout, int begin, int end, FactorRows& rows) const;

 private:
  struct Sights;
  struct Normals {
    std::vector<float> x, y, z;
  };

  void fill(const Lookout& lookout, int viewpoint, int row, PatchRun run, FactorRows& rows) const;
  void find_close(PatchRun run, Sights& sights) const;
  void look(const Figures& viewpoints, int viewpoint, PatchRun run, Sights& sights) const;
  [[nodiscard]] bool is_near(const Receiver& receiver, int patch) const;
  [[nodiscard]] bool is_cut_by_horizon(const Receiver& receiver, int patch) const;
  void fill_open(const Receiver& receiver, PatchRun run, Sights& sights, float* factors) const;
  void take_hidden_off(const Receiver& receiver, PatchRun run, Sights& sights, float* factors) const;
  [[nodiscard]] bool tells_sampled() const { return may_hide() && !detail_.scale_all; }
  [[nodiscard]] bool one_far_line() const { return far_aims_.per_cell() == 1; }
  /// Where far lines of sight to a patch end, and to those after it.
  [[nodiscard]] Points far_aims_of(int patch) const;
  void close(int per_viewpoint, FactorRows& rows) const;

  const Mesh& mesh_;
  const Figures& patches_;
  const Nodes& nodes_;
  int order_;
  const Visibility& visibility_;
  GatherDetail detail_;
  Normals normals_;  ///< of all patches
  CellFactors cells_;
  CellAims near_aims_;
  CellAims far_aims_;
  std::vector<float> far_x_m_, far_y_m_, far_z_m_;  ///< of all patches
};

}  // namespace evenlit
