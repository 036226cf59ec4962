#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "evenlit/field/direct.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/room/visibility.hpp"

namespace evenlit {

/// Four corners in the room, in order.
using Quad = std::array<Eigen::Vector3d, 4>;

/// The point of a quadrilateral at 0 <= u, v <= 1: bilinear, u along its first side.
Eigen::Vector3d on_quad(const Quad& quad, double u, double v);

/// A convex quadrilateral piece of a surface, counter-clockwise seen from the room. Exitance reflected more than once
/// is taken as constant on it.
struct Patch {
  Quad corners_m;
  Eigen::Vector3d centre_m;
  Eigen::Vector3d normal;  ///< unit, into the room
  double radius_m = 0;     ///< from the centre to the farthest corner
  double area_m2 = 0;
};

/// Quadrature points of patches: those of a patch follow each other, the patches of a surface too.
struct Nodes : Facets {
  int per_patch = 0;
  std::vector<float> area_m2;  ///< weight; a patch's add up to its area
};

/// The patches of one surface.
struct PatchRange {
  int begin = 0;
  int end = 0;
  std::vector<Eigen::Vector3d> corners_m;  ///< of the whole surface
  Eigen::Vector3d normal;
  double offset_m = 0;  ///< normal . x on the surface
  double reflectance = 0;
};

/// A room's surfaces cut into patches.
struct Mesh {
  std::vector<Patch> patches;
  std::vector<PatchRange> surfaces;  ///< in the scene's order

  [[nodiscard]] int size() const { return static_cast<int>(patches.size()); }
};

/// @param patch_size_m no side of a patch is longer (but for slanting sides)
Mesh make_mesh(const Scene& scene, double patch_size_m);

/// The patches as what hides or is hidden.
Figures figures_of(const Mesh& mesh, const Visibility& visibility);

/// The patch cut in the middle of its sides.
std::array<Patch, 4> quarters(const Patch& patch);

/// Of the tensor rule on each patch.
int order_of(const Nodes& nodes);

/// A tensor Gauss rule of `order` x `order` points on every patch.
Nodes gauss_nodes(const std::vector<Patch>& patches, int order);

/// The piece of the patch that its Gauss point `node` (0 ... order^2 - 1) stands for: the rule's weights taken as
/// widths.
Quad cell_of_node(const Patch& patch, int order, int node);

}  // namespace evenlit
