#include "evenlit/room/flat_area.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <boost/polygon/polygon.hpp>
#include <cmath>

namespace evenlit {
namespace {

namespace bp = boost::polygon;
using Eigen::Vector2d;

using Figure = bp::polygon_data<int>;
using FigureWithHoles = bp::polygon_with_holes_data<int>;
using FigureSet = bp::polygon_set_data<int>;

/// Between metres and whole steps of a power of two, which keeps halves and quarters exact.
class Steps {
 public:
  explicit Steps(const FlatArea& area) {
    for (const Polygon& outline : area) {
      for (const Vector2d& corner : outline) bounds_.extend(corner);
    }
    constexpr int k_bits = 29;
    const double size_m = std::max(1e-3, bounds_.sizes().maxCoeff());
    step_m_ = std::ldexp(1.0, static_cast<int>(std::ceil(std::log2(size_m))) - k_bits);
    origin_ = (bounds_.center() / step_m_).array().round().matrix() * step_m_;
    bounds_ = {bounds_.min().array() - size_m / 2, bounds_.max().array() + size_m / 2};
  }

  /// The part of a convex figure that is near to the area, so that its steps are not too many for an integer.
  [[nodiscard]] Figure convex_figure(Polygon convex) const {
    for (int axis = 0; axis < 2; ++axis) {
      convex = part_within(convex, Vector2d::Unit(axis), bounds_.max()[axis]);
      convex = part_within(convex, -Vector2d::Unit(axis), -bounds_.min()[axis]);
    }
    return figure(convex);
  }

  [[nodiscard]] FigureSet set(const FlatArea& area) const {
    FigureSet set;
    for (const Polygon& outline : area) set.insert(figure(outline), signed_area(outline) < 0);
    return set;
  }

  [[nodiscard]] FlatArea area(const FigureSet& set) const {
    constexpr double k_sliver_m2 = 1e-8;
    std::vector<FigureWithHoles> figures;
    set.get(figures);
    FlatArea area;
    for (const FigureWithHoles& figure : figures) {
      Polygon outline = polygon_of(figure, true);
      if (signed_area(outline) < k_sliver_m2) continue;
      area.push_back(std::move(outline));
      for (auto hole = figure.begin_holes(); hole != figure.end_holes(); ++hole) {
        area.push_back(polygon_of(*hole, false));
      }
    }
    return area;
  }

 private:
  [[nodiscard]] Figure figure(const Polygon& polygon) const {
    std::vector<bp::point_data<int>> points;
    for (const Vector2d& corner : polygon) points.emplace_back(step_of(corner, 0), step_of(corner, 1));
    return {points.begin(), points.end()};
  }

  [[nodiscard]] int step_of(const Vector2d& corner, int axis) const {
    return static_cast<int>(std::lround((corner[axis] - origin_[axis]) / step_m_));
  }

  template <class Ring>
  [[nodiscard]] Polygon polygon_of(const Ring& ring, bool is_outer) const {
    Polygon polygon;
    for (auto point = ring.begin(); point != ring.end(); ++point) {
      polygon.push_back(origin_ + step_m_ * Vector2d(point->x(), point->y()));
    }
    if (polygon.size() > 1 && polygon.front() == polygon.back()) polygon.pop_back();
    if ((signed_area(polygon) > 0) != is_outer) std::ranges::reverse(polygon);
    return polygon;
  }

  Eigen::AlignedBox2d bounds_;
  Vector2d origin_;
  double step_m_;
};

}  // namespace

FlatArea intersection(const Polygon& simple, const Polygon& convex) {
  using namespace bp::operators;
  FlatArea area{simple};
  if (signed_area(simple) < 0) std::ranges::reverse(area.front());
  const Steps steps(area);
  FigureSet set = steps.set(area);
  set &= steps.convex_figure(convex);
  return steps.area(set);
}

FlatArea difference(const FlatArea& area, const std::vector<Polygon>& convex) {
  using namespace bp::operators;
  if (area.empty() || convex.empty()) return area;
  const Steps steps(area);
  FigureSet cuts;
  for (const Polygon& figure : convex) cuts.insert(steps.convex_figure(figure));
  FigureSet set = steps.set(area);
  set -= cuts;
  return steps.area(set);
}

}  // namespace evenlit
