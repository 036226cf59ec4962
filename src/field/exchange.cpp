#include "exchange.hpp"

#include <cmath>
#include <vector>

#include "evenlit/base/parallel.hpp"
#include "evenlit/field/form_factor.hpp"
#include "kernel.hpp"
#include "sums.hpp"

namespace evenlit {
namespace {

constexpr int k_points_a_side = 2;
constexpr int k_points = k_points_a_side * k_points_a_side;

/// Pairs whose centres are nearer than this many times the sum of their radii are integrated exactly. Twice as many
/// would change results by less than 0.01 %: the scaling that closes the room takes care of the rest.
constexpr double k_near = 1;

/// The point values of one patch against a run of others, and room to work in.
struct Row {
  std::vector<float> values;  ///< k_points x k_points of the run's: cos cos' / (pi r^2) weighted by both areas
  std::vector<float> clear;   ///< 1 where the two points see each other
  View view;
};

struct Room {
  const Mesh& mesh;
  const Visibility& visibility;
  Nodes nodes;
  const Figures& figures;

  /// Row i of the exchange areas, towards the patches first ... end of the mesh. Patches of which no point faces the
  /// other exchange nothing, however near they are: the two sides of an inner corner stand back to back.
  void fill(int i, int first, Row& row, float* areas) const {
    const int count = mesh.size() - first;
    const int stride = count * k_points;
    row.values.resize(static_cast<std::size_t>(stride) * k_points);
    for (int s = 0; s < k_points; ++s) {
      const int node = i * k_points + s;
      float* const values = row.values.data() + static_cast<std::size_t>(s) * stride;
      point_kernel({nodes.point(node), nodes.normal(node)}, nodes, first * k_points, nodes.size(), values);
      for (int k = 0; k < stride; ++k) values[k] *= nodes.area_m2[node];
    }
    const bool may_hide = !visibility.is_always_clear();
    if (may_hide) look(i, first, row);

    for (int j = 0; j < count; ++j) {
      const float sum = sum_of(row.values, nullptr, j, stride);
      float open = sum > 0 && is_near(i, first + j) ? exact(i, first + j) : sum;
      if (may_hide && sum > 0) {
        if (row.view.sights[j] == Sight::hidden) open = 0;
        if (row.view.sights[j] == Sight::mixed) open *= sum_of(row.values, row.clear.data(), j, stride) / sum;
      }
      areas[first + j] = open;
    }
  }

 private:
  /// Lines of sight between all points of patch i and of the patches from `first` on that obstacles may hide.
  void look(int i, int first, Row& row) const {
    const int count = mesh.size() - first;
    const int stride = count * k_points;
    visibility.look(figures, i, figures, first, mesh.size(), row.view);
    row.clear.assign(static_cast<std::size_t>(stride) * k_points, 1);
    for (const Passage& passage : passages(row.view, k_points)) {
      for (int s = 0; s < k_points; ++s) {
        visibility.cross(passage.obstacle, nodes.point(i * k_points + s),
                         nodes.points((first + passage.begin) * k_points), (passage.end - passage.begin) * k_points,
                         row.clear.data() + static_cast<std::size_t>(s) * stride + passage.begin * k_points);
      }
    }
  }

  [[nodiscard]] bool is_near(int i, int j) const {
    const Patch& a = mesh.patches[i];
    const Patch& b = mesh.patches[j];
    const double reach = k_near * (a.radius_m + b.radius_m);
    return (a.centre_m - b.centre_m).squaredNorm() < reach * reach;
  }

  [[nodiscard]] float exact(int i, int j) const {
    return static_cast<float>(exchange_area(mesh.patches[i].corners_m, mesh.patches[j].corners_m));
  }

  /// The values between two patches added up, those that are hidden left out.
  static float sum_of(const std::vector<float>& values, const float* clear, int j, int stride) {
    float sum = 0;
    for (int s = 0; s < k_points; ++s) {
      const std::size_t first = static_cast<std::size_t>(s) * stride + j * k_points;
      for (int t = 0; t < k_points; ++t) sum += values[first + t] * (clear != nullptr ? clear[first + t] : 1);
    }
    return sum;
  }
};

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
    parallel_for(mesh.size(),
                 [&](int i) { sums[i] = scale[i] * sum_of_products(&areas(i, 0), scale.data(), mesh.size()); });
    const Eigen::ArrayXf ratio = (sums > 0).select(area / sums, 1);
    if ((ratio - 1).abs().maxCoeff() < k_closed) break;
    scale *= ratio.sqrt();
  }
  parallel_for(mesh.size(), [&](int i) { areas.row(i) = scale[i] * areas.row(i).array() * scale.transpose(); });
}

}  // namespace

ExchangeAreas exchange_areas(const Mesh& mesh, const Figures& patches, const Visibility& visibility) {
  const Room room{mesh, visibility, gauss_nodes(mesh.patches, k_points_a_side), patches};
  ExchangeAreas areas = ExchangeAreas::Zero(mesh.size(), mesh.size());
  for (const PatchRange& surface : mesh.surfaces) {
    parallel_for(surface.end - surface.begin, [&](int index) {
      thread_local Row row;
      const int i = surface.begin + index;
      room.fill(i, surface.end, row, &areas(i, 0));
    });
  }
  mirror_upper_half(areas);
  close_room(mesh, areas);
  return areas;
}

}  // namespace evenlit
