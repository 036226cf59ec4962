#include "mesh.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/field/trapezoids.hpp"
#include "gauss.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

Quad part_of_quad(const Quad& quad, double u0, double u1, double v0, double v1) {
  return {on_quad(quad, u0, v0), on_quad(quad, u1, v0), on_quad(quad, u1, v1), on_quad(quad, u0, v1)};
}

/// Area element of the bilinear map of the unit square onto the quad.
double jacobian(const Quad& quad, double u, double v) {
  const Vector3d along_u = (1 - v) * (quad[1] - quad[0]) + v * (quad[2] - quad[3]);
  const Vector3d along_v = (1 - u) * (quad[3] - quad[0]) + u * (quad[2] - quad[1]);
  return along_u.cross(along_v).norm();
}

Patch patch_of(const Quad& quad, const Vector3d& normal) {
  Patch patch{.corners_m = quad, .centre_m = (quad[0] + quad[1] + quad[2] + quad[3]) / 4, .normal = normal};
  for (const auto& corner : quad) patch.radius_m = std::max(patch.radius_m, (corner - patch.centre_m).norm());
  patch.area_m2 = (quad[2] - quad[0]).cross(quad[3] - quad[1]).norm() / 2;
  return patch;
}

int pieces(double length_m, double patch_size_m) {
  return std::max(1, static_cast<int>(std::ceil(length_m / patch_size_m - 1e-9)));
}

void add_patches(const Surface& surface, double patch_size_m, std::vector<Patch>& patches) {
  const FaceFrame frame = frame_of(surface.corners_m, surface.normal);
  std::vector<Polygon> outlines;
  for (const auto& outline : surface.free_m) {
    Polygon& flat = outlines.emplace_back();
    for (const auto& corner : outline) flat.push_back(frame.flat(corner));
  }

  for (const auto& trapezoid : trapezoids(outlines)) {
    Quad quad;
    std::ranges::transform(trapezoid, quad.begin(), [&](const Vector2d& corner) { return frame.lifted(corner); });
    const double width = std::max((quad[1] - quad[0]).norm(), (quad[2] - quad[3]).norm());
    const int columns = pieces(width, patch_size_m);
    const int rows = pieces(trapezoid[3].y() - trapezoid[0].y(), patch_size_m);
    for (int row = 0; row < rows; ++row) {
      for (int column = 0; column < columns; ++column) {
        patches.push_back(patch_of(
            part_of_quad(quad, static_cast<double>(column) / columns, static_cast<double>(column + 1) / columns,
                         static_cast<double>(row) / rows, static_cast<double>(row + 1) / rows),
            surface.normal));
      }
    }
  }
}

}  // namespace

Vector3d on_quad(const Quad& quad, double u, double v) {
  return (1 - v) * ((1 - u) * quad[0] + u * quad[1]) + v * ((1 - u) * quad[3] + u * quad[2]);
}

Mesh make_mesh(const Scene& scene, double patch_size_m) {
  Mesh mesh;
  for (const auto& surface : scene.surfaces) {
    const int begin = mesh.size();
    add_patches(surface, patch_size_m, mesh.patches);
    mesh.surfaces.push_back({.begin = begin,
                             .end = mesh.size(),
                             .corners_m = surface.corners_m,
                             .normal = surface.normal,
                             .offset_m = surface.normal.dot(surface.corners_m.front()),
                             .reflectance = surface.reflectance});
  }
  return mesh;
}

Figures figures_of(const Mesh& mesh, const Visibility& visibility) {
  Figures figures;
  for (const auto& patch : mesh.patches) visibility.add(figures, patch.centre_m, patch.radius_m, patch.corners_m);
  return figures;
}

std::array<Patch, 4> quarters(const Patch& patch) {
  const auto quarter = [&](double u, double v) {
    return patch_of(part_of_quad(patch.corners_m, u, u + 0.5, v, v + 0.5), patch.normal);
  };
  return {quarter(0, 0), quarter(0.5, 0), quarter(0, 0.5), quarter(0.5, 0.5)};
}

int order_of(const Nodes& nodes) { return static_cast<int>(std::lround(std::sqrt(nodes.per_patch))); }

Nodes gauss_nodes(const std::vector<Patch>& patches, int order) {
  const auto& rule = gauss_rule(order);
  Nodes nodes;
  nodes.per_patch = order * order;
  nodes.reserve(patches.size() * nodes.per_patch);
  nodes.area_m2.reserve(patches.size() * nodes.per_patch);
  for (const Patch& patch : patches) {
    for (int k = 0; k < nodes.per_patch; ++k) {
      const double u = rule.nodes[k % order];
      const double v = rule.nodes[k / order];
      nodes.add(on_quad(patch.corners_m, u, v), patch.normal);
      nodes.area_m2.push_back(
          static_cast<float>(rule.weights[k / order] * rule.weights[k % order] * jacobian(patch.corners_m, u, v)));
    }
  }
  return nodes;
}

Quad cell_of_node(const Patch& patch, int order, int node) {
  const auto& weights = gauss_rule(order).weights;
  const auto edge_before = [&](int index) {
    double sum = 0;
    for (int i = 0; i < index; ++i) sum += weights[i];
    return sum;
  };
  const int row = node / order;
  const int column = node % order;
  return part_of_quad(patch.corners_m, edge_before(column), edge_before(column + 1), edge_before(row),
                      edge_before(row + 1));
}

}  // namespace evenlit
