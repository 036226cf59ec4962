#include "evenlit/room/visibility.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// Coordinates of points on faces are rounded to single precision; what is this near to a face stands on it.
double touching_distance(const Polygon& plan_m) {
  constexpr double k_relative = 1e-5;
  double extent_m = 0;
  for (const auto& corner : plan_m) extent_m = std::max(extent_m, corner.cwiseAbs().maxCoeff());
  return k_relative * extent_m;
}

double cross_product(const Vector2d& a, const Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

/// Whether the whole plan lies to the left of the line through an edge.
bool is_on_hull(const Polygon& plan, const Vector2d& start, const Vector2d& along) {
  const double slack = 1e-9 * along.squaredNorm();
  return std::ranges::all_of(plan, [&](const auto& corner) { return cross_product(along, corner - start) >= -slack; });
}

/// Bit 2a for lying wholly above half along axis a, bit 2a + 1 for below -half.
FaceCode outside_code(const Eigen::Ref<const Eigen::Matrix3Xd>& corners, const Vector3d& half, int axes,
                      double touching_m) {
  int code = 0;
  for (int axis = 0; axis < axes; ++axis) {
    if (corners.row(axis).minCoeff() >= half[axis] - touching_m) code |= 1 << (2 * axis);
    if (corners.row(axis).maxCoeff() <= -half[axis] + touching_m) code |= 2 << (2 * axis);
  }
  return static_cast<FaceCode>(code);
}

constexpr float k_tiny = 1e-12F;

float least(float a, float b) { return a < b ? a : b; }
float most(float a, float b) { return a > b ? a : b; }

struct Extent {
  float least, most;
};

/// Of one number and more.
EVENLIT_VECTORISED
Extent extent(const float* values, int count) {
  constexpr int k_parts = 16;
  float low[k_parts], high[k_parts];
  for (int i = 0; i < k_parts; ++i) low[i] = high[i] = values[0];
  const int whole = count / k_parts * k_parts;
  for (int begin = 0; begin < whole; begin += k_parts) {
    for (int i = 0; i < k_parts; ++i) {
      low[i] = least(low[i], values[begin + i]);
      high[i] = most(high[i], values[begin + i]);
    }
  }
  for (int i = whole; i < count; ++i) {
    low[i - whole] = least(low[i - whole], values[i]);
    high[i - whole] = most(high[i - whole], values[i]);
  }
  return {*std::min_element(low, low + k_parts), *std::max_element(high, high + k_parts)};
}

}  // namespace

/// A tube around lines of sight that leave one point: on the plan nothing of them is farther than `radius` from the
/// segment from there to the middle of where they end. Obstacles that are outside of it need no closer look: in a room
/// full of boxes that is nearly all of them.
struct Visibility::Tube {
  float from_x, from_y;
  float way_x, way_y;
  float radius;
  float low, high;

  /// @param grown by how much obstacles are grown before they are held against the lines
  Tube(const float* from, const Points& to, int count, float grown) : from_x(from[0]), from_y(from[1]) {
    const Extent x = extent(to.x_m, count);
    const Extent y = extent(to.y_m, count);
    const Extent z = extent(to.z_m, count);
    way_x = (x.least + x.most) / 2 - from_x;
    way_y = (y.least + y.most) / 2 - from_y;
    radius = std::hypot(x.most - x.least, y.most - y.least) / 2 + std::numbers::sqrt2_v<float> * grown;
    low = least(z.least, from[2]) - grown;
    high = most(z.most, from[2]) + grown;
  }
};

struct Visibility::Kernels {
  /// A direction on the plan, along the slab and across it.
  struct Turned {
    float along, across;
  };
  [[gnu::always_inline]] static inline Turned turned(const Slab& slab, float x, float y) {
    return {x * slab.along_x + y * slab.along_y, y * slab.along_x - x * slab.along_y};
  }
  [[gnu::always_inline]] static inline Turned from_middle(const Slab& slab, float x, float y) {
    return turned(slab, x - slab.x, y - slab.y);
  }

  struct Sizes {
    float along, across, up;
  };

  /// A segment in the slab's frame: its middle from the slab's, and half of it.
  struct Segment {
    float middle_along, middle_across, middle_up;
    float along, across, up;
  };
  [[gnu::always_inline]] static inline Segment segment(const Slab& slab, const Turned& from, float from_up, float x,
                                                       float y, float z) {
    const Turned half = turned(slab, x / 2, y / 2);
    const float half_up = z / 2;
    return {from.along + half.along, from.across + half.across, from_up + half_up, half.along, half.across, half_up};
  }

  /// By how much a plane parts a segment from a slab whose half sizes are `grown` so much; below 0 where none does. Six
  /// planes decide: parallel to the slab's faces, or to the segment and one of the slab's axes; an axis along the
  /// segment spans none. No division. (S. Gottschalk, M. C. Lin, D. Manocha, "OBBTree", SIGGRAPH '96.)
  [[gnu::always_inline]] static inline float parted_by(const Slab& slab, const Sizes& grown, const Segment& s) {
    const float half_along = slab.half_along + grown.along;
    const float half_across = slab.half_across + grown.across;
    const float half_up = slab.half_up + grown.up;
    const float along = std::abs(s.along);
    const float across = std::abs(s.across);
    const float up = std::abs(s.up);
    const float by_face =
        most(most(std::abs(s.middle_along) - (half_along + along), std::abs(s.middle_across) - (half_across + across)),
             std::abs(s.middle_up) - (half_up + up));
    const float by_edge = most(
        most(std::abs(s.middle_across * s.up - s.middle_up * s.across) - (half_across * up + half_up * across),
             std::abs(s.middle_up * s.along - s.middle_along * s.up) - (half_up * along + half_along * up)),
        std::abs(s.middle_along * s.across - s.middle_across * s.along) - (half_along * across + half_across * along));
    return most(by_face, by_edge - k_tiny);
  }

  /// Sights past one obstacle from every point of one figure to every point of others. The segment between the centres
  /// is held against the obstacle grown, and shrunk, by the larger reach: no segment between the figures runs farther
  /// than that from it. Two figures outside the same face of the obstacle see each other.
  ///
  /// @return whether the obstacle may hide something of any
  EVENLIT_VECTORISED
  static bool sights_past(const Slab& slab, float slack, const float* from, const Sizes& from_reach,
                          FaceCode from_outside, const float* __restrict x, const float* __restrict y,
                          const float* __restrict z, const float* __restrict along, const float* __restrict across,
                          const float* __restrict up, const FaceCode* __restrict outside, int count,
                          Sight* __restrict sights) {
    const Turned start = from_middle(slab, from[0], from[1]);
    const float start_up = from[2] - slab.z;
    const Sizes own = from_reach;
    for (int i = 0; i < count; ++i) {
      const Segment s = segment(slab, start, start_up, x[i] - from[0], y[i] - from[1], z[i] - from[2]);
      const Sizes r{most(along[i], own.along) + slack, most(across[i], own.across) + slack,
                    most(up[i], own.up) + slack};
      const float nothing_left =
          most(most(r.along - slab.half_along, r.across - slab.half_across), r.up - slab.half_up);
      const int meets = parted_by(slab, r, s) < 0 ? 1 : 0;
      const int hides = most(parted_by(slab, {-r.along, -r.across, -r.up}, s), nothing_left) < 0 ? 1 : 0;
      sights[i] = static_cast<Sight>(meets + hides);
    }
    int any = 0;  // on its own, as bytes and floats together make no long vectors
    for (int i = 0; i < count; ++i) {
      const int sight = (from_outside & outside[i]) != 0 ? 0 : static_cast<int>(sights[i]);
      sights[i] = static_cast<Sight>(sight);
      any |= sight;
    }
    return any != 0;
  }

  /// Faces that points lie outside of, as `outside_code`.
  EVENLIT_VECTORISED
  static void codes(const Slab& slab, float touching, const float* __restrict x, const float* __restrict y,
                    const float* __restrict z, int count, FaceCode* __restrict out) {
    const float half_along = slab.half_along - touching;
    const float half_across = slab.half_across - touching;
    const float half_up = slab.half_up - touching;
    for (int i = 0; i < count; ++i) {
      const auto [along, across] = from_middle(slab, x[i], y[i]);
      const float up = z[i] - slab.z;
      const int code = (along >= half_along ? 1 : 0) | (along <= -half_along ? 2 : 0) |
                       (across >= half_across ? 4 : 0) | (across <= -half_across ? 8 : 0) | (up >= half_up ? 16 : 0) |
                       (up <= -half_up ? 32 : 0);
      out[i] = static_cast<FaceCode>(code);
    }
  }

  /// Sets `out` to 1 for the obstacles that reach into a tube, else to 0.
  EVENLIT_VECTORISED
  static void reach_into(const Tube& tube, const float* __restrict x, const float* __restrict y,
                         const float* __restrict radius, const float* __restrict low, const float* __restrict high,
                         int count, std::int32_t* __restrict out) {
    const float from_x = tube.from_x, from_y = tube.from_y, way_x = tube.way_x, way_y = tube.way_y;
    const float tube_radius = tube.radius, tube_low = tube.low, tube_high = tube.high;
    const float per_length = 1 / (way_x * way_x + way_y * way_y + k_tiny);
    for (int i = 0; i < count; ++i) {
      const float dx = x[i] - from_x;
      const float dy = y[i] - from_y;
      const float along = least(most((dx * way_x + dy * way_y) * per_length, 0), 1);
      const float aside_x = dx - along * way_x;
      const float aside_y = dy - along * way_y;
      const float reach = radius[i] + tube_radius;
      const bool is_near = aside_x * aside_x + aside_y * aside_y <= reach * reach;
      out[i] = is_near & (low[i] <= tube_high) & (high[i] >= tube_low) ? 1 : 0;
    }
  }

  EVENLIT_VECTORISED
  static void cross_box(const Slab& slab, const float* from, const float* __restrict x, const float* __restrict y,
                        const float* __restrict z, int count, float* __restrict clear) {
    const Turned start = from_middle(slab, from[0], from[1]);
    const float start_up = from[2] - slab.z;
    for (int i = 0; i < count; ++i) {
      const Segment s = segment(slab, start, start_up, x[i] - from[0], y[i] - from[1], z[i] - from[2]);
      clear[i] *= parted_by(slab, {0, 0, 0}, s) < 0 ? 0.0F : 1.0F;  // a choice to store would keep it out of vectors
    }
  }

  EVENLIT_VECTORISED
  static void cross_wall(const Slab& slab, float touching, const float* from, const float* __restrict x,
                         const float* __restrict y, int count, float* __restrict clear) {
    const Turned start = from_middle(slab, from[0], from[1]);
    if (std::abs(start.across) <= touching) return;
    const float side = start.across > 0 ? 1 : -1;
    for (int i = 0; i < count; ++i) {
      const Turned end = from_middle(slab, x[i], y[i]);
      // The two ends are on different sides, and their line meets the wall's between its ends.
      const bool apart = side * end.across < -touching;
      const bool on_wall = std::abs(start.along * end.across - end.along * start.across) <=
                           slab.half_along * std::abs(end.across - start.across);
      clear[i] *= apart && on_wall ? 0.0F : 1.0F;
    }
  }
};

void View::clear(int figures, int obstacle_count) {
  for (const auto& [index, begin, end] : stretches) {
    std::fill(past[index].begin() + begin, past[index].begin() + end, Sight::clear);
  }
  for (const int obstacle : obstacles) index_of_obstacle[obstacle] = -1;
  stretches.clear();
  obstacles.clear();
  sights.assign(figures, Sight::clear);
  if (static_cast<int>(index_of_obstacle.size()) < obstacle_count) index_of_obstacle.resize(obstacle_count, -1);
}

void View::add(int obstacle, int begin, std::span<const Sight> seen) {
  int& index = index_of_obstacle[obstacle];
  if (index < 0) {
    index = static_cast<int>(obstacles.size());
    obstacles.push_back(obstacle);
    if (past.size() < obstacles.size()) past.emplace_back();
    past[index].resize(std::max(past[index].size(), sights.size()), Sight::clear);
  }
  std::ranges::copy(seen, past[index].begin() + begin);
  for (std::size_t i = 0; i < seen.size(); ++i) sights[begin + i] = std::max(sights[begin + i], seen[i]);
  stretches.push_back({index, begin, begin + static_cast<int>(seen.size())});
}

std::vector<Passage> passages(const View& view, int lines_a_figure) {
  constexpr int k_bridged_lines = 16;  // between two passages that make it not worth while to part them
  const int bridged = k_bridged_lines / lines_a_figure;
  std::vector<Passage> result;
  for (const auto& [index, first, last] : view.stretches) {
    const Sight* const past = view.past[index].data();
    const auto earlier = std::ssize(result);
    for (int i = first; i < last; ++i) {
      if (past[i] == Sight::clear || view.sights[i] == Sight::hidden) continue;
      if (std::ssize(result) > earlier && i - result.back().end <= bridged) {
        result.back().end = i + 1;
      } else {
        result.push_back({view.obstacles[index], i, i + 1});
      }
    }
  }
  return result;
}

Visibility::Visibility(const Polygon& plan_m, const std::vector<Box>& boxes)
    : touching_m_(touching_distance(plan_m)), boxes_(boxes) {
  const auto add_slab = [&](const Vector3d& middle, const Vector2d& along, const Vector3d& half) {
    const Eigen::Vector3f m = middle.cast<float>();
    const Eigen::Vector2f a = along.cast<float>();
    const Eigen::Vector3f h = half.cast<float>();
    slabs_.push_back({m.x(), m.y(), m.z(), a.x(), a.y(), h.x(), h.y(), h.z()});
    const auto rounding = static_cast<float>(10 * touching_m_);
    cylinders_.x.push_back(m.x());
    cylinders_.y.push_back(m.y());
    cylinders_.radius.push_back(h.head<2>().norm() + rounding);
    cylinders_.low.push_back(m.z() - h.z() - rounding);
    cylinders_.high.push_back(m.z() + h.z() + rounding);
  };
  for (std::size_t i = 0; i < plan_m.size(); ++i) {
    const Vector2d& start = plan_m[i];
    const Vector2d edge = plan_m[(i + 1) % plan_m.size()] - start;
    if (is_on_hull(plan_m, start, edge)) continue;
    constexpr double k_endless_m = 1e6;
    const Vector2d middle = start + edge / 2;
    walls_.push_back({start, edge.normalized(), edge.norm()});
    add_slab({middle.x(), middle.y(), 0}, edge.normalized(), {edge.norm() / 2, 0, k_endless_m});
  }
  for (const Box& box : boxes_) {
    add_slab({box.centre_m.x(), box.centre_m.y(), (box.bottom_m + box.top_m) / 2}, box.along,
             half_extent(box).array() - touching_m_);
  }
}

bool Visibility::crosses(const Wall& wall, const Vector3d& from, const Vector3d& to) const {
  const Vector2d a = from.head<2>() - wall.start;
  const Vector2d b = to.head<2>() - wall.start;
  const double a_side = cross_product(wall.along, a);
  const double b_side = cross_product(wall.along, b);
  const bool apart = (a_side > touching_m_ && b_side < -touching_m_) || (a_side < -touching_m_ && b_side > touching_m_);
  if (!apart) return false;
  const double at_m = (a.dot(wall.along) * b_side - b.dot(wall.along) * a_side) / (b_side - a_side);
  return at_m >= 0 && at_m <= wall.length_m;
}

bool Visibility::is_clear(const Vector3d& from, const Vector3d& to) const {
  return std::ranges::none_of(walls_, [&](const Wall& wall) { return crosses(wall, from, to); }) &&
         std::ranges::none_of(boxes_, [&](const Box& box) { return is_crossed(box, from, to, touching_m_); });
}

Eigen::Matrix3Xd Visibility::in_frame(int obstacle, const Vector3d& centre, std::span<const Vector3d> corners_m) const {
  const auto placed = [&](const Vector3d& point) -> Vector3d {
    if (!is_wall(obstacle)) return in_box_frame(boxes_[obstacle - walls_.size()], point);
    const Wall& wall = walls_[obstacle];
    const Vector2d from_start = point.head<2>() - wall.start;
    return {from_start.dot(wall.along) - wall.length_m / 2, cross_product(wall.along, from_start), 0};
  };
  Eigen::Matrix3Xd points(3, std::ssize(corners_m) + 1);
  points.col(0) = placed(centre);
  for (std::size_t i = 0; i < corners_m.size(); ++i) {
    points.col(static_cast<Eigen::Index>(i) + 1) = placed(corners_m[i]);
  }
  return points;
}

FaceCode Visibility::faces_outside(int obstacle, const Eigen::Ref<const Eigen::Matrix3Xd>& corners) const {
  if (is_wall(obstacle)) return outside_code(corners, {walls_[obstacle].length_m / 2, 0, 0}, 2, touching_m_);
  return outside_code(corners, half_extent(boxes_[obstacle - walls_.size()]), 3, touching_m_);
}

void Visibility::add(Figures& figures, const Vector3d& centre, double radius_m,
                     std::span<const Vector3d> corners_m) const {
  figures.x_m.push_back(static_cast<float>(centre.x()));
  figures.y_m.push_back(static_cast<float>(centre.y()));
  figures.z_m.push_back(static_cast<float>(centre.z()));
  figures.radius_m.push_back(static_cast<float>(radius_m));
  figures.outside.resize(slabs_.size());
  figures.reach.resize(slabs_.size());
  for (int k = 0; k < obstacle_count(); ++k) {
    const Eigen::Matrix3Xd points = in_frame(k, centre, corners_m);
    const auto corners = points.rightCols(points.cols() - 1);
    const Vector3d reach = (corners.colwise() - points.col(0)).cwiseAbs().rowwise().maxCoeff();
    figures.outside[k].push_back(faces_outside(k, corners));
    figures.reach[k].along_m.push_back(static_cast<float>(reach.x()));
    figures.reach[k].across_m.push_back(static_cast<float>(reach.y()));
    figures.reach[k].up_m.push_back(static_cast<float>(reach.z()));
  }
}

Figures Visibility::figures_of(const Points& points, int count) const {
  Figures figures{.x_m = {points.x_m, points.x_m + count},
                  .y_m = {points.y_m, points.y_m + count},
                  .z_m = {points.z_m, points.z_m + count},
                  .radius_m = std::vector<float>(count, 0.0F),
                  .outside = {},
                  .reach = {}};
  const std::vector<float> none(count, 0.0F);
  figures.reach.assign(slabs_.size(), {none, none, none});
  for (const Slab& slab : slabs_) {
    figures.outside.emplace_back(count);
    Kernels::codes(slab, static_cast<float>(touching_m_), points.x_m, points.y_m, points.z_m, count,
                   figures.outside.back().data());
  }
  return figures;
}

/// Visits the obstacles that reach into a tube.
template <class Visit>
void Visibility::for_each_in(const Tube& tube, const Visit& visit) const {
  constexpr int k_together = 64;
  std::int32_t reaches[k_together];
  for (int first = 0; first < obstacle_count(); first += k_together) {
    const int count = std::min(k_together, obstacle_count() - first);
    Kernels::reach_into(tube, &cylinders_.x[first], &cylinders_.y[first], &cylinders_.radius[first],
                        &cylinders_.low[first], &cylinders_.high[first], count, reaches);
    for (int k = 0; k < count; ++k) {
      if (reaches[k] != 0) visit(first + k);
    }
  }
}

void Visibility::look(const Figures& from, int figure, const Figures& to, int begin, int end, View& view) const {
  constexpr int k_together = 128;
  const float centre[] = {from.x_m[figure], from.y_m[figure], from.z_m[figure]};
  const float from_radius = from.radius_m[figure];
  const auto slack = static_cast<float>(touching_m_ / 4);  // this and `cross` round differently
  view.clear(end - begin, obstacle_count());
  Sight past[k_together];
  for (int first = begin; first < end; first += k_together) {
    const int count = std::min(k_together, end - first);
    const float* const radius = &to.radius_m[first];
    const Points centres{&to.x_m[first], &to.y_m[first], &to.z_m[first]};
    const Tube tube(centre, centres, count, most(from_radius, extent(radius, count).most) + slack);
    for_each_in(tube, [&](int obstacle) {
      const Reach& own = from.reach[obstacle];
      const Reach& others = to.reach[obstacle];
      const bool may_hide = Kernels::sights_past(
          slabs_[obstacle], slack, centre, {own.along_m[figure], own.across_m[figure], own.up_m[figure]},
          from.outside[obstacle][figure], centres.x_m, centres.y_m, centres.z_m, &others.along_m[first],
          &others.across_m[first], &others.up_m[first], &to.outside[obstacle][first], count, past);
      if (may_hide) view.add(obstacle, first - begin, {past, past + count});
    });
  }
}

void Visibility::cross(int obstacle, const Eigen::Vector3f& from, const Points& to, int count, float* clear) const {
  const Slab& slab = slabs_[obstacle];
  if (is_wall(obstacle)) {
    Kernels::cross_wall(slab, static_cast<float>(touching_m_), from.data(), to.x_m, to.y_m, count, clear);
  } else {
    Kernels::cross_box(slab, from.data(), to.x_m, to.y_m, to.z_m, count, clear);
  }
}

void Visibility::cross_seen(const View& view, int figure, const Eigen::Vector3f& from, const Points& to, int count,
                            float* clear) const {
  for (std::size_t k = 0; k < view.obstacles.size(); ++k) {
    if (view.past[k][figure] != Sight::clear) cross(view.obstacles[k], from, to, count, clear);
  }
}

}  // namespace evenlit
