#include "exchange.hpp"

#include <cmath>
#include <vector>

#include "evenlit/base/parallel.hpp"
#include "evenlit/field/form_factor.hpp"
#include "kernel.hpp"

namespace evenlit {
namespace {

constexpr int k_order = 2;
constexpr int k_points = k_order * k_order;

/// Pairs whose centres are nearer than this many times the sum of their radii are integrated exactly. Twice as many
/// would change results by less than 0.01 %: the scaling that closes the room takes care of the rest.
constexpr double k_near = 1;

struct Room {
  const Mesh& mesh;
  const Visibility& visibility;
  Nodes nodes;
};

/// The 4 x 4 point values of cos cos' / (pi r^2) between two patches, weighted by both areas.
Eigen::Matrix<float, k_points, k_points> point_pairs(const Room& room, int i, const Eigen::Vector3d& normal_i, int j,
                                                     const Eigen::Vector3d& normal_j) {
  Eigen::Matrix<float, k_points, k_points> values;
  for (int s = 0; s < k_points; ++s) {
    const int node = i * k_points + s;
    const Facet from = facet({room.nodes.x_m[node], room.nodes.y_m[node], room.nodes.z_m[node]}, normal_i);
    float row[k_points];
    point_kernel(from, room.nodes, j * k_points, (j + 1) * k_points, normal_j.cast<float>(), row);
    for (int t = 0; t < k_points; ++t) values(s, t) = row[t] * room.nodes.area_m2[node];
  }
  return values;
}

/// The share of the light between two patches that no wall and no box hides.
float visible_share(const Room& room, int i, const Eigen::Vector3d& normal_i, int j, const Eigen::Vector3d& normal_j,
                    const Obstacles& obstacles) {
  const auto values = point_pairs(room, i, normal_i, j, normal_j);
  const auto point = [&](int node) {
    return Eigen::Vector3d(room.nodes.x_m[node], room.nodes.y_m[node], room.nodes.z_m[node]);
  };
  float seen = 0;
  for (int s = 0; s < k_points; ++s) {
    for (int t = 0; t < k_points; ++t) {
      if (room.visibility.is_clear(point(i * k_points + s), point(j * k_points + t), obstacles)) seen += values(s, t);
    }
  }
  const float all = values.sum();
  return all > 0 ? seen / all : 0;
}

float hidden_taken_off(const Room& room, int i, const Eigen::Vector3d& normal_i, int j, const Eigen::Vector3d& normal_j,
                       float open) {
  if (open == 0 || room.visibility.is_always_clear()) return open;
  const auto view = room.visibility.view(figure_of(room.mesh.patches[i]), figure_of(room.mesh.patches[j]));
  if (view.sight == Sight::clear) return open;
  if (view.sight == Sight::hidden) return 0;
  return open * visible_share(room, i, normal_i, j, normal_j, view.obstacles);
}

/// Row i, towards the patches of one other surface. Patches of which no point faces the other exchange nothing, however
/// near they are: the two sides of an inner corner stand back to back.
void fill_row(const Room& room, int i, const Eigen::Vector3d& normal, const PatchRange& to, float* row) {
  const int count = to.end - to.begin;
  std::vector<float> values(static_cast<std::size_t>(count) * k_points);
  std::vector<float> sums(count);
  for (int s = 0; s < k_points; ++s) {
    const int node = i * k_points + s;
    const Facet from = facet({room.nodes.x_m[node], room.nodes.y_m[node], room.nodes.z_m[node]}, normal);
    point_kernel(from, room.nodes, to.begin * k_points, to.end * k_points, to.normal.cast<float>(), values.data());
    for (int j = 0; j < count; ++j) {
      const float* v = values.data() + j * k_points;
      sums[j] += room.nodes.area_m2[node] * ((v[0] + v[1]) + (v[2] + v[3]));
    }
  }

  const Patch& patch = room.mesh.patches[i];
  for (int j = 0; j < count; ++j) {
    const Patch& other = room.mesh.patches[to.begin + j];
    const double reach = k_near * (patch.radius_m + other.radius_m);
    const bool near = sums[j] > 0 && (patch.centre_m - other.centre_m).squaredNorm() < reach * reach;
    const float open = near ? static_cast<float>(exchange_area(patch.corners_m, other.corners_m)) : sums[j];
    row[to.begin + j] = hidden_taken_off(room, i, normal, to.begin + j, to.normal, open);
  }
}

void mirror_upper_half(ExchangeAreas& areas) {
  parallel_for(static_cast<int>(areas.rows()), [&](int i) {
    for (int j = 0; j < i; ++j) areas(i, j) = areas(j, i);
  });
}

/// Finds d with d_i sum_j(S_ij d_j) = A_i and puts d_i S_ij d_j in the place of S_ij.
void close_room(const Mesh& mesh, ExchangeAreas& areas) {
  constexpr int k_most_steps = 60;
  constexpr float k_closed = 1e-6F;
  Eigen::ArrayXf area(mesh.size());
  for (int i = 0; i < mesh.size(); ++i) area[i] = static_cast<float>(mesh.patches[i].area_m2);

  Eigen::ArrayXf scale = Eigen::ArrayXf::Ones(mesh.size());
  Eigen::ArrayXf sums(mesh.size());
  for (int step = 0; step < k_most_steps; ++step) {
    parallel_for(mesh.size(), [&](int i) { sums[i] = scale[i] * areas.row(i).dot(scale.matrix()); });
    const Eigen::ArrayXf ratio = (sums > 0).select(area / sums, 1);
    if ((ratio - 1).abs().maxCoeff() < k_closed) break;
    scale *= ratio.sqrt();
  }
  parallel_for(mesh.size(), [&](int i) { areas.row(i) = scale[i] * areas.row(i).array() * scale.transpose(); });
}

}  // namespace

ExchangeAreas exchange_areas(const Mesh& mesh, const Visibility& visibility) {
  const Room room{mesh, visibility, gauss_nodes(mesh, k_order)};
  ExchangeAreas areas = ExchangeAreas::Zero(mesh.size(), mesh.size());
  for (std::size_t from = 0; from < mesh.surfaces.size(); ++from) {
    const PatchRange& surface = mesh.surfaces[from];
    parallel_for(surface.end - surface.begin, [&](int index) {
      const int i = surface.begin + index;
      for (std::size_t to = from + 1; to < mesh.surfaces.size(); ++to) {
        fill_row(room, i, surface.normal, mesh.surfaces[to], &areas(i, 0));
      }
    });
  }
  mirror_upper_half(areas);
  close_room(mesh, areas);
  return areas;
}

}  // namespace evenlit
