#include "evenlit/field/trapezoids.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {
namespace {

struct Edge {
  Eigen::Vector2d low;
  Eigen::Vector2d high;
  [[nodiscard]] double x_at(double y) const {
    const double t = std::clamp((y - low.y()) / (high.y() - low.y()), 0.0, 1.0);
    return low.x() + t * (high.x() - low.x());
  }
};

/// The space between two edges, from y = low up to y = high.
struct Strip {
  int left;
  int right;
  double low;
  double high;
};

std::vector<double> levels_of(const std::vector<Polygon>& outlines, double slack) {
  std::vector<double> levels;
  for (const auto& outline : outlines) {
    for (const auto& corner : outline) levels.push_back(corner.y());
  }
  std::ranges::sort(levels);
  const auto is_repeated = [slack](double a, double b) { return b - a <= slack; };
  levels.erase(std::unique(levels.begin(), levels.end(), is_repeated), levels.end());
  return levels;
}

std::vector<Edge> rising_edges(const std::vector<Polygon>& outlines, double slack) {
  std::vector<Edge> edges;
  for (const auto& outline : outlines) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const auto& a = outline[i];
      const auto& b = outline[(i + 1) % outline.size()];
      if (std::abs(a.y() - b.y()) > slack) edges.push_back(a.y() < b.y() ? Edge{a, b} : Edge{b, a});
    }
  }
  return edges;
}

Trapezoid trapezoid_of(const Strip& strip, const std::vector<Edge>& edges) {
  const Edge& left = edges[strip.left];
  const Edge& right = edges[strip.right];
  return {Eigen::Vector2d(left.x_at(strip.low), strip.low), Eigen::Vector2d(right.x_at(strip.low), strip.low),
          Eigen::Vector2d(right.x_at(strip.high), strip.high), Eigen::Vector2d(left.x_at(strip.high), strip.high)};
}

/// Edges that reach across the slab, from left to right.
std::vector<int> edges_across(const std::vector<Edge>& edges, double low, double high) {
  const double middle = (low + high) / 2;
  std::vector<int> crossing;
  for (int i = 0; i < static_cast<int>(edges.size()); ++i) {
    if (edges[i].low.y() < middle && edges[i].high.y() > middle) crossing.push_back(i);
  }
  std::ranges::sort(crossing, {}, [&](int i) { return edges[i].x_at(middle); });
  return crossing;
}

}  // namespace

std::vector<Trapezoid> trapezoids(const std::vector<Polygon>& outlines) {
  const std::vector<double> heights = levels_of(outlines, 0);
  if (heights.empty()) return {};
  const double slack = 1e-9 * (heights.back() - heights.front());
  const std::vector<double> levels = levels_of(outlines, slack);
  const std::vector<Edge> edges = rising_edges(outlines, slack);

  std::vector<Strip> finished;
  std::vector<Strip> open;
  for (std::size_t k = 0; k + 1 < levels.size(); ++k) {
    const std::vector<int> crossing = edges_across(edges, levels[k], levels[k + 1]);
    std::vector<Strip> continued;
    for (std::size_t i = 0; i + 1 < crossing.size(); i += 2) {
      Strip strip{crossing[i], crossing[i + 1], levels[k], levels[k + 1]};
      const auto below =
          std::ranges::find_if(open, [&](const Strip& s) { return s.left == strip.left && s.right == strip.right; });
      if (below != open.end()) {
        strip.low = below->low;
        open.erase(below);
      }
      continued.push_back(strip);
    }
    finished.insert(finished.end(), open.begin(), open.end());
    open = std::move(continued);
  }
  finished.insert(finished.end(), open.begin(), open.end());

  std::vector<Trapezoid> result;
  for (const auto& strip : finished) result.push_back(trapezoid_of(strip, edges));
  return result;
}

}  // namespace evenlit
