#include "evenlit/placing/plan_frame.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "evenlit/placing/line.hpp"

namespace evenlit {
namespace {

using Eigen::AlignedBox2d;
using Eigen::Vector2d;
using Boxes = std::vector<AlignedBox2d>;

/// Corners that differ by less are at the same place.
constexpr double k_same = 1e-6;
/// Walls that turn by less are parallel: 5 mm in a metre, more than a tape is off.
constexpr double k_parallel = 0.005;
/// A direction that is off by less is east: 1 mm in a metre.
constexpr double k_east = 0.001;
constexpr double k_in_line_m = 0.01;    ///< walls that are on lines so near to each other are on one
constexpr double k_nearly_whole = 0.9;  ///< of the bounding rectangle
constexpr std::size_t k_most_inner_corners = 8;
constexpr std::size_t k_every_order = 4;  ///< inner corners, of which every order of the cuts is tried

double cross(const Vector2d& a, const Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

/// Without repeated corners and corners in the middle of a wall.
Polygon tidied(const Polygon& polygon) {
  Polygon once;
  for (const Vector2d& corner : polygon) {
    if (once.empty() || (corner - once.back()).norm() > k_same) once.push_back(corner);
  }
  while (once.size() > 1 && (once.front() - once.back()).norm() <= k_same) once.pop_back();
  Polygon turns;
  for (std::size_t i = 0; i < once.size(); ++i) {
    const Vector2d in = once[i] - once[(i + once.size() - 1) % once.size()];
    const Vector2d out = once[(i + 1) % once.size()] - once[i];
    if (std::abs(cross(in.normalized(), out.normalized())) > k_parallel) turns.push_back(once[i]);
  }
  return turns;
}

/// Walls that are about on a line exactly so.
void align(Polygon& square, int axis) {
  std::vector<std::size_t> order(square.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return square[i][axis]; });
  double line_m = square[order.front()][axis];
  for (const std::size_t i : order) {
    if (square[i][axis] - line_m > k_in_line_m) line_m = square[i][axis];
    square[i][axis] = line_m;
  }
}

/// With its walls exactly along x and y; no corners where one is aslant.
Polygon squared(const Polygon& polygon) {
  Polygon square = polygon;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const std::size_t next = (i + 1) % polygon.size();
    const Vector2d edge = polygon[next] - polygon[i];
    if (edge.cwiseAbs().minCoeff() > k_parallel * edge.norm()) return {};
    const int across = std::abs(edge.x()) > std::abs(edge.y()) ? 1 : 0;
    square[i][across] = square[next][across] = (polygon[i][across] + polygon[next][across]) / 2;
  }
  for (const int axis : {0, 1}) align(square, axis);
  return tidied(square);
}

/// Corners where the room is on three sides of four.
std::vector<std::size_t> inner_corners(const Polygon& polygon) {
  std::vector<std::size_t> inner;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vector2d in = polygon[i] - polygon[(i + polygon.size() - 1) % polygon.size()];
    const Vector2d out = polygon[(i + 1) % polygon.size()] - polygon[i];
    if (cross(in, out) < 0) inner.push_back(i);
  }
  return inner;
}

struct Halves {
  Polygon first;
  Polygon second;
};

/// Cut from a corner in a direction to the wall opposite.
Halves halves(const Polygon& polygon, std::size_t corner, const Vector2d& along) {
  const std::size_t size = polygon.size();
  double nearest = std::numeric_limits<double>::infinity();
  std::size_t hit = corner;
  for (std::size_t i = 0; i < size; ++i) {
    if (i == corner || (i + 1) % size == corner) continue;
    const Vector2d start = polygon[i] - polygon[corner];
    const Vector2d end = polygon[(i + 1) % size] - polygon[corner];
    const double side = cross(along, start);
    const double other_side = cross(along, end);
    if (std::abs(side - other_side) < k_same || std::min(side, other_side) > k_same ||
        std::max(side, other_side) < -k_same) {
      continue;
    }
    const double station = along.dot(start);
    if (station > k_same && station < nearest) {
      nearest = station;
      hit = i;
    }
  }
  const Vector2d opposite = polygon[corner] + nearest * along;
  const auto piece = [&](std::size_t from, std::size_t to) {
    Polygon corners{polygon[from]};
    while (from != to) {
      from = (from + 1) % size;
      corners.push_back(polygon[from]);
    }
    return corners;
  };
  Halves result{piece(corner, hit), piece((hit + 1) % size, corner)};
  result.first.push_back(opposite);
  result.second.push_back(opposite);
  return {tidied(result.first), tidied(result.second)};
}

double side_ratio(const AlignedBox2d& box) { return box.sizes().maxCoeff() / box.sizes().minCoeff(); }

/// From the south, then from the west.
void sort(Boxes& boxes) {
  std::ranges::sort(boxes, [](const AlignedBox2d& a, const AlignedBox2d& b) {
    const bool is_level = std::abs(a.min().y() - b.min().y()) < k_same;
    return is_level ? a.min().x() < b.min().x() : a.min().y() < b.min().y();
  });
}

/// All ways to cut.
std::vector<Boxes> ways_to_cut(const Polygon& polygon) {
  const std::vector<std::size_t> inner = inner_corners(polygon);
  if (inner.empty()) return {{bounds_of(polygon)}};
  std::vector<Boxes> ways;
  const std::size_t tried = inner.size() <= k_every_order ? inner.size() : 1;
  for (std::size_t i = 0; i < tried; ++i) {
    const Vector2d& corner = polygon[inner[i]];
    const Vector2d& before = polygon[(inner[i] + polygon.size() - 1) % polygon.size()];
    const Vector2d& after = polygon[(inner[i] + 1) % polygon.size()];
    for (const Vector2d& neighbour : {before, after}) {
      const Halves cut = halves(polygon, inner[i], (corner - neighbour).normalized());
      const std::vector<Boxes> others = ways_to_cut(cut.second);
      for (const Boxes& first : ways_to_cut(cut.first)) {
        for (const Boxes& second : others) {
          ways.push_back(first);
          ways.back().insert(ways.back().end(), second.begin(), second.end());
        }
      }
    }
  }
  return ways;
}

/// How many rectangles have no mirror image about the middle, from west to east and from south to north.
Eigen::Vector2i without_image(const Boxes& boxes, const Vector2d& middle) {
  Eigen::Vector2i count = Eigen::Vector2i::Zero();
  for (const int axis : {0, 1}) {
    for (AlignedBox2d image : boxes) {
      const double low = 2 * middle[axis] - image.max()[axis];
      image.max()[axis] = 2 * middle[axis] - image.min()[axis];
      image.min()[axis] = low;
      if (std::ranges::none_of(boxes, [&](const AlignedBox2d& box) { return box.isApprox(image, k_parallel); })) {
        ++count[axis];
      }
    }
  }
  return count;
}

/// What makes one way to cut better than another.
struct Cut {
  Boxes boxes;  ///< from the south, then from the west
  Eigen::Vector2i without_image;
  double worst_ratio = 0;
  double sum_of_ratios = 0;
};

Cut cut_of(Boxes boxes, const Vector2d& middle) {
  sort(boxes);
  Cut cut{.without_image = without_image(boxes, middle)};
  for (const AlignedBox2d& box : boxes) {
    cut.worst_ratio = std::max(cut.worst_ratio, side_ratio(box));
    cut.sum_of_ratios += side_ratio(box);
  }
  cut.boxes = std::move(boxes);
  return cut;
}

/// @param axes in which the plan is its own mirror image
bool is_better(const Cut& a, const Cut& b, const Eigen::Vector2i& axes) {
  if (a.boxes.size() != b.boxes.size()) return a.boxes.size() < b.boxes.size();
  const int lacking = axes.dot(a.without_image);
  const int other_lacking = axes.dot(b.without_image);
  if (lacking != other_lacking) return lacking < other_lacking;
  if (std::abs(a.worst_ratio - b.worst_ratio) > k_same) return a.worst_ratio < b.worst_ratio;
  if (std::abs(a.sum_of_ratios - b.sum_of_ratios) > k_same) return a.sum_of_ratios < b.sum_of_ratios;
  for (std::size_t i = 0; i < a.boxes.size(); ++i) {
    const Vector2d low = a.boxes[i].min() - b.boxes[i].min();
    const Vector2d high = a.boxes[i].max() - b.boxes[i].max();
    for (const double difference : {low.y(), low.x(), high.y(), high.x()}) {
      if (std::abs(difference) > k_same) return difference < 0;
    }
  }
  return false;
}

/// Whether the plan is its own mirror image about the middle, from west to east and from south to north.
Eigen::Vector2i symmetric_axes(const Polygon& plan, const Vector2d& middle) {
  Eigen::Vector2i axes = Eigen::Vector2i::Ones();
  for (const int axis : {0, 1}) {
    for (Vector2d image : plan) {
      image[axis] = 2 * middle[axis] - image[axis];
      if (std::ranges::none_of(plan, [&](const Vector2d& corner) { return (corner - image).norm() < k_parallel; })) {
        axes[axis] = 0;
      }
    }
  }
  return axes;
}

}  // namespace

Vector2d PlanFrame::in(const Vector2d& plan_m) const { return {along.dot(plan_m), left_of(along).dot(plan_m)}; }

Vector2d PlanFrame::out(const Vector2d& frame_m) const { return frame_m.x() * along + frame_m.y() * left_of(along); }

Polygon PlanFrame::in(const Polygon& plan_m) const {
  Polygon turned;
  for (const Vector2d& corner : plan_m) turned.push_back(in(corner));
  return turned;
}

PlanFrame frame_along(const Vector2d& direction) {
  Vector2d along = direction.normalized();
  if (std::abs(along.x()) < std::abs(along.y())) along = left_of(along);
  if (along.x() < 0) along = -along;
  if (std::abs(along.y()) < k_east) along = Vector2d::UnitX();
  return {along};
}

PlanFrame frame_of(const Polygon& plan_m) {
  const auto wall = [&](std::size_t i) { return Vector2d(plan_m[(i + 1) % plan_m.size()] - plan_m[i]); };
  PlanFrame best;
  double most_m = 0;
  for (std::size_t i = 0; i < plan_m.size(); ++i) {
    const PlanFrame frame = frame_along(wall(i));
    double length_m = 0;
    for (std::size_t j = 0; j < plan_m.size(); ++j) {
      const bool is_alike = frame.in(wall(j)).cwiseAbs().minCoeff() <= k_parallel * wall(j).norm();
      if (is_alike) length_m += wall(j).norm();
    }
    if (length_m <= most_m + k_same) continue;
    most_m = length_m;
    best = frame;
  }
  return best;
}

std::vector<AlignedBox2d> rectangles_of(const Polygon& plan_m) {
  const Polygon plan = tidied(frame_of(plan_m).in(plan_m));
  const AlignedBox2d whole = bounds_of(plan);
  const Polygon square = squared(plan);
  // What is narrower than walls in line may have folded up.
  if (square.empty() || crossing_edges(square) || signed_area(square) >= k_nearly_whole * whole.volume() ||
      inner_corners(square).size() > k_most_inner_corners) {
    return {whole};
  }
  const Eigen::Vector2i axes = symmetric_axes(square, whole.center());
  Cut best;
  for (Boxes& boxes : ways_to_cut(square)) {
    Cut cut = cut_of(std::move(boxes), whole.center());
    if (best.boxes.empty() || is_better(cut, best, axes)) best = std::move(cut);
  }
  return best.boxes;
}

}  // namespace evenlit
