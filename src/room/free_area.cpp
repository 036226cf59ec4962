#include "free_area.hpp"

#include <algorithm>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/linestring.hpp>
#include <boost/geometry/geometries/multi_linestring.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

namespace evenlit {
namespace {

namespace bg = boost::geometry;
using Eigen::Vector2d;
using Eigen::Vector3d;

using FlatPoint = bg::model::d2::point_xy<double>;
using FlatPolygon = bg::model::polygon<FlatPoint, false, false>;  // counter-clockwise, not closed
using FlatArea = bg::model::multi_polygon<FlatPolygon>;
using FlatLine = bg::model::linestring<FlatPoint>;

/// What is this near to a face stands on it.
constexpr double k_touching_m = 1e-5;
constexpr double k_sliver_m2 = 1e-8;

FlatPolygon flat_polygon(const Polygon& corners) {
  FlatPolygon polygon;
  for (const Vector2d& corner : corners) polygon.outer().emplace_back(corner.x(), corner.y());
  bg::correct(polygon);
  return polygon;
}

/// The part of a convex polygon where normal . x <= limit.
Polygon clipped(const Polygon& convex, const Vector2d& normal, double limit) {
  Polygon kept;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Vector2d& a = convex[i];
    const Vector2d& b = convex[(i + 1) % convex.size()];
    const double beyond_a = normal.dot(a) - limit;
    const double beyond_b = normal.dot(b) - limit;
    if (beyond_a <= 0) kept.push_back(a);
    if ((beyond_a < 0 && beyond_b > 0) || (beyond_a > 0 && beyond_b < 0)) {
      kept.push_back(a + beyond_a / (beyond_a - beyond_b) * (b - a));
    }
  }
  return kept;
}

/// Where a box cuts the plane of a frame.
Polygon section(const Box& box, const FaceFrame& frame) {
  const double reach = half_extent(box).norm();
  const Vector3d box_centre(box.centre_m.x(), box.centre_m.y(), (box.bottom_m + box.top_m) / 2);
  const Vector2d centre = frame.flat(box_centre);
  Polygon cut{centre + Vector2d(-reach, -reach), centre + Vector2d(reach, -reach), centre + Vector2d(reach, reach),
              centre + Vector2d(-reach, reach)};
  for (const BoxFace& face : faces_of(box)) {
    const Vector2d slope(face.normal.dot(frame.u), face.normal.dot(frame.v));
    const double limit = face.normal.dot(face.corners_m.front() - frame.origin);
    if (slope.norm() > 1e-12) {
      cut = clipped(cut, slope, limit);
    } else if (limit < 0) {
      return {};
    }
  }
  return cut;
}

/// The same frame, a touch into the room.
FaceFrame in_front(FaceFrame frame, const Vector3d& normal) {
  frame.origin += k_touching_m * normal;
  return frame;
}

FlatArea without_boxes(FlatArea area, const FaceFrame& frame, const std::vector<Box>& boxes) {
  for (const Box& box : boxes) {
    const Polygon cut = section(box, frame);
    if (cut.size() < 3) continue;
    FlatArea rest;
    bg::difference(area, flat_polygon(cut), rest);
    area = std::move(rest);
  }
  return area;
}

std::vector<Outline> lifted(const FlatArea& area, const FaceFrame& frame) {
  std::vector<Outline> outlines;
  const auto add = [&](const auto& ring) {
    Outline outline;
    for (const FlatPoint& point : ring) outline.push_back(frame.lifted({point.x(), point.y()}));
    outlines.push_back(std::move(outline));
  };
  for (const FlatPolygon& polygon : area) {
    if (bg::area(polygon) < k_sliver_m2) continue;
    add(polygon.outer());
    for (const auto& hole : polygon.inners()) add(hole);
  }
  return outlines;
}

Polygon flattened(std::span<const Vector3d> corners, const FaceFrame& frame) {
  Polygon flat;
  for (const Vector3d& corner : corners) flat.push_back(frame.flat(corner));
  return flat;
}

/// The part of a level face that is over or under the plan.
FlatArea level_part(const FlatPolygon& face, const FaceFrame& frame, const Polygon& plan_m) {
  Polygon plan;
  for (const Vector2d& corner : plan_m) plan.push_back(frame.flat({corner.x(), corner.y(), frame.origin.z()}));
  FlatArea part;
  bg::intersection(face, flat_polygon(plan), part);
  return part;
}

/// The part of an upright face that is inside the plan and below the ceiling.
FlatArea upright_part(const BoxFace& face, const FaceFrame& frame, const Polygon& plan_m, double ceiling_m) {
  const auto [low, high] = std::ranges::minmax(face.corners_m, {}, [](const Vector3d& c) { return c.z(); });
  const double bottom = std::max(low.z(), 0.0);
  const double top = std::min(high.z(), ceiling_m);
  if (bottom >= top) return {};

  // The face's foot, a touch in front of it, as far as it runs inside the plan.
  const Vector3d shift = k_touching_m * face.normal;
  const Vector3d start = face.corners_m[0] + shift;
  const Vector3d end =
      (std::abs(face.corners_m[1].z() - start.z()) < 1e-12 ? face.corners_m[1] : face.corners_m[3]) + shift;
  bg::model::multi_linestring<FlatLine> inside;
  bg::intersection(FlatLine{{start.x(), start.y()}, {end.x(), end.y()}}, flat_polygon(plan_m), inside);

  FlatArea part;
  for (const FlatLine& piece : inside) {
    const auto corner = [&](const FlatPoint& foot, double height) {
      return frame.flat({foot.x() - shift.x(), foot.y() - shift.y(), height});
    };
    part.push_back(flat_polygon({corner(piece.front(), bottom), corner(piece.back(), bottom), corner(piece.back(), top),
                                 corner(piece.front(), top)}));
  }
  return part;
}

}  // namespace

std::vector<Outline> free_area(const Outline& corners, const Vector3d& normal, const std::vector<Box>& boxes) {
  const FaceFrame frame = frame_of(corners, normal);
  const FlatPolygon whole = flat_polygon(flattened(corners, frame));
  const FlatArea area = without_boxes({whole}, in_front(frame, normal), boxes);
  return area.size() == 1 && bg::equals(area.front(), whole) ? std::vector<Outline>{corners} : lifted(area, frame);
}

std::vector<Outline> free_area(const BoxFace& face, const std::vector<Box>& boxes, const Polygon& plan_m,
                               double ceiling_m) {
  const FaceFrame frame = frame_of(face.corners_m, face.normal);
  const bool is_level = std::abs(face.normal.z()) > 0.5;
  const double height = frame.origin.z() + k_touching_m * face.normal.z();
  if (is_level && (height <= 0 || height >= ceiling_m)) return {};
  const FlatArea in_room = is_level ? level_part(flat_polygon(flattened(face.corners_m, frame)), frame, plan_m)
                                    : upright_part(face, frame, plan_m, ceiling_m);
  return lifted(without_boxes(in_room, in_front(frame, face.normal), boxes), frame);
}

}  // namespace evenlit
