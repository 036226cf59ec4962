#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/room/visibility.hpp"
#include "interreflection.hpp"
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
  int near_lines = 8;          ///< along each side of a cell that may be partly hidden: lines of sight to it, near...
  int far_lines = 4;           ///< ...and far
  bool cut_at_horizon = true;  ///< whether far patches that the horizon cuts count exactly too
};

/// For nodes, whose light reaches receivers only after averaging over many of them.
inline constexpr GatherDetail k_node_detail{.near = 1.5, .near_lines = 2, .far_lines = 1, .cut_at_horizon = false};

struct Gathered {
  PatchLight light_lx;      ///< receivers x columns
  PatchLight uncertain_lx;  ///< what of it the raster of lines of sight leaves open: an edge falls between two lines on
                            ///< each patch that is partly hidden, and errors of many patches even out
  Eigen::ArrayXf missed;    ///< by how much the factors of each receiver missed 1
};

/// Light of the room's surfaces on receivers: the sum over all nodes of exitance times configuration factor. A receiver
/// in a closed room sees surfaces wherever it looks: its factors add up to 1. Those of patches that are partly hidden,
/// which are found by sampling, are scaled so that they do.
///
/// @param patches of the mesh, as the visibility sees them
/// @param order of the Gauss rule that `nodes` holds
/// @param exitance_lm_m2 nodes x columns
Gathered gathered(const Mesh& mesh, const Figures& patches, const Nodes& nodes, int order,
                  const PatchLight& exitance_lm_m2, const Visibility& visibility, const Lookout& lookout,
                  const GatherDetail& detail);

}  // namespace evenlit
