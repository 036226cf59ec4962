#include "near_factors.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "evenlit/base/vectorised.hpp"
#include "evenlit/field/form_factor.hpp"
#include "gauss.hpp"

namespace evenlit {
namespace {

constexpr int k_most_corners = (k_most_order + 1) * (k_most_order + 1);
constexpr int k_most_edges = 2 * k_most_order * (k_most_order + 1);

/// The corners of a patch's cells as a facet sees them.
struct Corners {
  float x[k_most_corners], y[k_most_corners], z[k_most_corners];
  float height[k_most_corners];  ///< above the facet's horizon
  float distance[k_most_corners];
};

/// The edges between neighbouring corners, first those along the rows, then those along the columns.
struct Edges {
  int from[k_most_edges], to[k_most_edges];
  int count = 0;
};

Edges edges_of(int order) {
  Edges edges;
  const int side = order + 1;
  for (int row = 0; row < side; ++row) {
    for (int column = 0; column < order; ++column) {
      edges.from[edges.count] = row * side + column;
      edges.to[edges.count++] = row * side + column + 1;
    }
  }
  for (int row = 0; row < order; ++row) {
    for (int column = 0; column < side; ++column) {
      edges.from[edges.count] = row * side + column;
      edges.to[edges.count++] = (row + 1) * side + column;
    }
  }
  return edges;
}

const Edges& edges_of_order(int order) {
  static const auto k_edges = [] {
    std::array<Edges, k_most_order + 1> all;
    for (int i = 1; i <= k_most_order; ++i) all[i] = edges_of(i);
    return all;
  }();
  return k_edges[order];
}

/// Arc cosine of x over the sine of that angle.
/// @source Abramowitz and Stegun, Handbook of Mathematical Functions, 4.4.46: error below 2e-8
[[gnu::always_inline]] inline float arc_over_sine(float x) {
  const float u = std::abs(x);
  const float p =
      1.5707963050F +
      u * (-0.2145988016F +
           u * (0.0889789874F +
                u * (-0.0501743046F +
                     u * (0.0308918810F + u * (-0.0170881256F + u * (0.0066700901F - u * 0.0012624911F))))));
  const float root = std::sqrt(1 - u < 0 ? 0 : 1 - u);
  const float near = p / std::sqrt(1 + u);
  constexpr float k_tiny = 1e-12F;
  const float far = (std::numbers::pi_v<float> - root * p) / (root * std::sqrt(1 + u) + k_tiny);
  return x < 0 ? far : near;
}

/// For each edge the angle it subtends times the component of its plane's unit normal along the facet's.
EVENLIT_VECTORISED
void edge_terms(const Corners& corners, const Edges& edges, const float* facing, float* __restrict terms) {
  float ax[k_most_edges], ay[k_most_edges], az[k_most_edges], ar[k_most_edges];
  float bx[k_most_edges], by[k_most_edges], bz[k_most_edges], br[k_most_edges];
  for (int i = 0; i < edges.count; ++i) {
    const int a = edges.from[i];
    const int b = edges.to[i];
    ax[i] = corners.x[a], ay[i] = corners.y[a], az[i] = corners.z[a], ar[i] = corners.distance[a];
    bx[i] = corners.x[b], by[i] = corners.y[b], bz[i] = corners.z[b], br[i] = corners.distance[b];
  }
  const float nx = facing[0], ny = facing[1], nz = facing[2];
  constexpr float k_tiny = 1e-20F;
  for (int i = 0; i < edges.count; ++i) {
    const float across = nx * (ay[i] * bz[i] - az[i] * by[i]) + ny * (az[i] * bx[i] - ax[i] * bz[i]) +
                         nz * (ax[i] * by[i] - ay[i] * bx[i]);
    const float product = ar[i] * br[i] + k_tiny;
    const float cosine = (ax[i] * bx[i] + ay[i] * by[i] + az[i] * bz[i]) / product;
    terms[i] = arc_over_sine(cosine) * across / product;
  }
}

}  // namespace

void near_factors(const Eigen::Vector3d& point, const Eigen::Vector3d& facing, const Patch& patch, int order,
                  float* out) {
  constexpr double k_on_plane_m = 1e-6;
  if (patch.normal.dot(point - patch.centre_m) <= k_on_plane_m) {
    std::fill_n(out, order * order, 0.0F);
    return;
  }
  const auto& weights = gauss_rule(order).weights;
  std::array<double, k_most_order + 1> lines{};
  for (int i = 0; i < order; ++i) lines[i + 1] = lines[i] + weights[i];

  Corners corners;
  const int side = order + 1;
  for (int k = 0; k < side * side; ++k) {
    const Eigen::Vector3d corner = on_quad(patch.corners_m, lines[k % side], lines[k / side]) - point;
    corners.x[k] = static_cast<float>(corner.x());
    corners.y[k] = static_cast<float>(corner.y());
    corners.z[k] = static_cast<float>(corner.z());
    corners.height[k] = static_cast<float>(facing.dot(corner));
    corners.distance[k] = static_cast<float>(corner.norm());
  }
  const Eigen::Vector3f to = facing.cast<float>();
  float terms[k_most_edges];
  edge_terms(corners, edges_of_order(order), to.data(), terms);

  constexpr float k_horizon_m = -1e-6F;
  const int rows_of_edges = side * order;
  for (int node = 0; node < order * order; ++node) {
    const int row = node / order;
    const int column = node % order;
    const int first = row * side + column;
    const float heights[] = {corners.height[first], corners.height[first + 1], corners.height[first + side],
                             corners.height[first + side + 1]};
    const auto [low, high] = std::minmax_element(std::begin(heights), std::end(heights));
    if (*high <= 0) {
      out[node] = 0;
    } else if (*low < k_horizon_m) {
      out[node] = static_cast<float>(configuration_factor(point, facing, cell_of_node(patch, order, node)));
    } else {
      const float around = terms[row * order + column] + terms[rows_of_edges + row * side + column + 1] -
                           terms[(row + 1) * order + column] - terms[rows_of_edges + row * side + column];
      // Corners run counter-clockwise seen from the front, so clockwise about the ray from the facet.
      out[node] = std::max(0.0F, -around / (2 * std::numbers::pi_v<float>));
    }
  }
}

}  // namespace evenlit
