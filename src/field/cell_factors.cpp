#include "cell_factors.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "evenlit/base/arc_cosine.hpp"
#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

constexpr int k_together = 64;  ///< cells handled at a time
constexpr float k_tiny = 1e-18F;
constexpr float k_tiny2 = k_tiny * k_tiny;

/// Corners of cells as a receiver sees them, and how high they are above its horizon.
struct Corners {
  float x[4][k_together], y[4][k_together], z[4][k_together], height[4][k_together];
};

struct Point {
  float x, y, z;
};

/// The angle that an edge subtends times the component of its plane's unit normal along the facet's. From a point next
/// to the edge its ends lie in opposite directions, and the cosine no longer tells the angle: the cross product does.
[[gnu::always_inline]] inline float edge_term(const Point& a, const Point& b, const float* normal) {
  const Point cross{a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
  const float across = normal[0] * cross.x + normal[1] * cross.y + normal[2] * cross.z;
  const float cross2 = cross.x * cross.x + cross.y * cross.y + cross.z * cross.z;
  const float squares = (a.x * a.x + a.y * a.y + a.z * a.z) * (b.x * b.x + b.y * b.y + b.z * b.z);
  const float cosine = (a.x * b.x + a.y * b.y + a.z * b.z) / (std::sqrt(squares) + k_tiny);
  const float u = std::abs(cosine);
  const float above2 = (1 + u) * squares;
  // The root of 1 - u from the sine, without a difference of near numbers.
  const float root_below = std::sqrt(cross2 / (above2 + k_tiny2));
  const float arc = arc_over_root(u);
  const float top = cosine < 0 ? std::numbers::pi_v<float> - root_below * arc : arc;
  return top * across / (std::sqrt(cosine < 0 ? cross2 : above2) + k_tiny);
}

[[gnu::always_inline]] inline Point between(const Point& a, const Point& b, float share) {
  return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y), a.z + share * (b.z - a.z)};
}

/// A corner, and how high it is above the horizon.
struct Corner {
  Point at;
  float height;
};

[[gnu::always_inline]] inline Corner corner_of(const Corners& corners, int k, int i) {
  return {{corners.x[k][i], corners.y[k][i], corners.z[k][i]}, corners.height[k][i]};
}

/// What an outline comes to that is followed edge by edge, only above the horizon.
struct Outline {
  float sum;    ///< of the edges' terms
  Point dives;  ///< where it goes below, all 0 if it does not
  Point rises;  ///< where it comes up again
};

[[gnu::always_inline]] inline Point with(const Point& sum, float share, const Point& point) {
  return {sum.x + share * point.x, sum.y + share * point.y, sum.z + share * point.z};
}

[[gnu::always_inline]] inline Outline with_edge(const Outline& outline, const Corner& a, const Corner& b,
                                                const float* normal) {
  const float fall = a.height - b.height;
  const float meets = a.height / (fall == 0 ? 1 : fall);
  const Point from = between(a.at, b.at, a.height < 0 ? meets : 0);
  const Point to = between(a.at, b.at, b.height < 0 ? meets : 1);
  const float term = edge_term(from, to, normal);
  const float is_below = a.height < 0 ? (b.height < 0 ? 1.0F : 0.0F) : 0.0F;
  const float falls = a.height < 0 ? 0.0F : (b.height < 0 ? 1.0F : 0.0F);
  const float climbs = a.height < 0 ? (b.height < 0 ? 0.0F : 1.0F) : 0.0F;
  return {outline.sum + (1 - is_below) * term, with(outline.dives, falls, to), with(outline.rises, climbs, from)};
}

/// Corners as seen from a point, and their heights along a normal there: differences in double precision, because what
/// is near is small beside the room.
EVENLIT_VECTORISED
void see_corners(const double* from, const double* normal, const double* __restrict x, const double* __restrict y,
                 const double* __restrict z, int count, float* __restrict dx, float* __restrict dy,
                 float* __restrict dz, float* __restrict height) {
  const double from_x = from[0], from_y = from[1], from_z = from[2];
  const double nx = normal[0], ny = normal[1], nz = normal[2];
  for (int i = 0; i < count; ++i) {
    const double along_x = x[i] - from_x;
    const double along_y = y[i] - from_y;
    const double along_z = z[i] - from_z;
    dx[i] = static_cast<float>(along_x);
    dy[i] = static_cast<float>(along_y);
    dz[i] = static_cast<float>(along_z);
    height[i] = static_cast<float>(nx * along_x + ny * along_y + nz * along_z);
  }
}

/// Corners run counter-clockwise seen from the front, so clockwise about the ray from the facet.
[[gnu::always_inline]] inline float factor_of(float sum) {
  const float factor = -sum / (2 * std::numbers::pi_v<float>);
  return factor > 0 ? factor : 0;
}

/// Factors of cells, all of them above the horizon.
EVENLIT_VECTORISED
void whole_factors(const Corners& corners, const float* normal, int count, float* __restrict out) {
  for (int i = 0; i < count; ++i) {
    const Point a = corner_of(corners, 0, i).at;
    const Point b = corner_of(corners, 1, i).at;
    const Point c = corner_of(corners, 2, i).at;
    const Point d = corner_of(corners, 3, i).at;
    out[i] = factor_of(edge_term(a, b, normal) + edge_term(b, c, normal) + edge_term(c, d, normal) +
                       edge_term(d, a, normal));
  }
}

/// Factors of cells, what is below the horizon cut off: the cut runs from where the outline dives to where it rises.
EVENLIT_VECTORISED
void cut_factors(const Corners& corners, const float* normal, int count, float* __restrict out) {
  for (int i = 0; i < count; ++i) {
    const Corner a = corner_of(corners, 0, i);
    const Corner b = corner_of(corners, 1, i);
    const Corner c = corner_of(corners, 2, i);
    const Corner d = corner_of(corners, 3, i);
    Outline outline{0, {0, 0, 0}, {0, 0, 0}};
    outline = with_edge(outline, a, b, normal);
    outline = with_edge(outline, b, c, normal);
    outline = with_edge(outline, c, d, normal);
    outline = with_edge(outline, d, a, normal);
    out[i] = factor_of(outline.sum + edge_term(outline.dives, outline.rises, normal));
  }
}

}  // namespace

CellFactors::CellFactors(const Mesh& mesh, const Nodes& nodes) : mesh_(mesh), per_patch_(nodes.per_patch) {
  const int order = order_of(nodes);
  for (auto& values : corners_m_) values.reserve(nodes.size());
  for (const Patch& patch : mesh.patches) {
    for (int node = 0; node < per_patch_; ++node) {
      const Quad cell = cell_of_node(patch, order, node);
      for (int k = 0; k < k_coordinates; ++k) corners_m_[k].push_back(cell[k / 3][k % 3]);
    }
  }
}

struct CellFactors::Batch {
  Corners corners{};
  std::array<float, k_together> factors{};
  std::array<int, k_together> patches{};
  int count = 0;  ///< of patches
};

void CellFactors::put(const Receiver& receiver, const std::vector<int>& patches, int first, float* factors) const {
  constexpr double k_on_plane_m = 1e-6;
  thread_local Batch whole;
  thread_local Batch cut;
  for (const int number : patches) {
    const Patch& patch = mesh_.patches[number];
    const auto height = [&](int corner) { return receiver.normal.dot(patch.corners_m[corner] - receiver.position_m); };
    const auto [lowest, highest] = std::minmax({height(0), height(1), height(2), height(3)});
    if (patch.normal.dot(receiver.position_m - patch.centre_m) <= k_on_plane_m || highest <= 0) {
      std::fill_n(factors + number * per_patch_ - first, per_patch_, 0.0F);
    } else if (lowest >= 0) {
      add(receiver, number, whole);
      if (is_full(whole)) put(receiver, whole, whole_factors, first, factors);
    } else {
      add(receiver, number, cut);
      if (is_full(cut)) put(receiver, cut, cut_factors, first, factors);
    }
  }
  put(receiver, whole, whole_factors, first, factors);
  put(receiver, cut, cut_factors, first, factors);
}

bool CellFactors::is_full(const Batch& batch) const { return (batch.count + 1) * per_patch_ > k_together; }

void CellFactors::add(const Receiver& receiver, int patch, Batch& batch) const {
  const int at = batch.count * per_patch_;
  const int cell = patch * per_patch_;
  Corners& corners = batch.corners;
  for (int k = 0; k < 4; ++k) {
    see_corners(receiver.position_m.data(), receiver.normal.data(), &corners_m_[3 * k][cell],
                &corners_m_[3 * k + 1][cell], &corners_m_[3 * k + 2][cell], per_patch_, corners.x[k] + at,
                corners.y[k] + at, corners.z[k] + at, corners.height[k] + at);
  }
  batch.patches[batch.count++] = patch;
}

template <class FactorsOf>
void CellFactors::put(const Receiver& receiver, Batch& batch, const FactorsOf& factors_of, int first,
                      float* factors) const {
  constexpr int k_vector = 16;
  const Eigen::Vector3f normal = receiver.normal.cast<float>();
  const int cells = batch.count * per_patch_;
  factors_of(batch.corners, normal.data(), (cells + k_vector - 1) / k_vector * k_vector, batch.factors.data());
  for (int k = 0; k < batch.count; ++k) {
    std::copy_n(batch.factors.data() + k * per_patch_, per_patch_, factors + batch.patches[k] * per_patch_ - first);
  }
  batch.count = 0;
}

}  // namespace evenlit
