#include "free_area.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/room/flat_area.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

using Bounds = Eigen::AlignedBox2d;

/// What is this near to a face stands on it.
constexpr double k_touching_m = 1e-5;

/// The points x of the room with normal . x <= limit.
struct HalfSpace {
  Vector3d normal;
  double limit = 0;
};

/// What of a convex figure in the plane of a frame is in a half-space.
Polygon part_in_space(const Polygon& figure, const FaceFrame& frame, const HalfSpace& space) {
  const Vector2d across(space.normal.dot(frame.u), space.normal.dot(frame.v));
  const double limit = space.limit - space.normal.dot(frame.origin);
  if (across.norm() > 1e-12) return part_within(figure, across, limit);
  return limit < 0 ? Polygon{} : figure;
}

Vector3d centre_of(const Box& box) { return {box.centre_m.x(), box.centre_m.y(), (box.bottom_m + box.top_m) / 2}; }

/// Whether a box can cut the plane of a frame within the bounds.
bool is_near(const Box& box, const FaceFrame& frame, const Bounds& bounds) {
  const Vector3d centre = centre_of(box);
  const Vector3d half = half_extent(box);
  const Vector3d normal = frame.u.cross(frame.v);
  const Vector2d across(-box.along.y(), box.along.x());
  const double reach = half.dot(Vector3d(std::abs(normal.head<2>().dot(box.along)),
                                         std::abs(normal.head<2>().dot(across)), std::abs(normal.z())));
  return std::abs(normal.dot(centre - frame.origin)) <= reach &&
         bounds.exteriorDistance(frame.flat(centre)) <= half.norm();
}

/// Where a box cuts the plane of a frame.
Polygon section(const Box& box, const FaceFrame& frame) {
  const double reach = half_extent(box).norm();
  const Vector2d centre = frame.flat(centre_of(box));
  Polygon cut{centre + Vector2d(-reach, -reach), centre + Vector2d(reach, -reach), centre + Vector2d(reach, reach),
              centre + Vector2d(-reach, reach)};
  for (const BoxFace& face : faces_of(box)) {
    cut = part_in_space(cut, frame, {face.normal, face.normal.dot(face.corners_m.front())});
  }
  return cut;
}

/// The same frame, moved along the face's normal.
FaceFrame moved(FaceFrame frame, const Vector3d& normal, double distance_m) {
  frame.origin += distance_m * normal;
  return frame;
}

/// The sections of boxes with the plane of a frame that can cover something within the bounds.
std::vector<Polygon> sections(std::span<const Box> boxes, const FaceFrame& frame, const Bounds& bounds) {
  std::vector<Polygon> cuts;
  for (const Box& box : boxes) {
    if (!is_near(box, frame, bounds)) continue;
    Polygon cut = section(box, frame);
    if (!cut.empty() && bounds.intersects(bounds_of(cut))) cuts.push_back(std::move(cut));
  }
  return cuts;
}

std::vector<Outline> lifted(const std::vector<Polygon>& outlines, const FaceFrame& frame) {
  std::vector<Outline> result;
  for (const Polygon& outline : outlines) {
    Outline& corners = result.emplace_back();
    for (const Vector2d& corner : outline) corners.push_back(frame.lifted(corner));
  }
  return result;
}

Polygon flattened(std::span<const Vector3d> corners, const FaceFrame& frame) {
  Polygon flat;
  for (const Vector3d& corner : corners) flat.push_back(frame.flat(corner));
  return flat;
}

/// What of a figure on a face is above the floor and below the ceiling.
Polygon part_in_height(Polygon part, const FaceFrame& frame, const Ceiling& ceiling) {
  part = part_in_space(part, frame, {-Vector3d::UnitZ(), 0});
  for (const CeilingPlane& plane : ceiling.planes) {
    part = part_in_space(part, frame, {{-plane.rise.x(), -plane.rise.y(), 1}, plane.height_m});
  }
  return part;
}

/// Pieces of a line, from and to so far along it.
using Stretches = std::vector<std::pair<double, double>>;

/// Where the line through a point of the plan runs inside.
Stretches stretches_inside(const Polygon& plan_m, const Vector2d& point, const Vector2d& along) {
  const Vector2d across(-along.y(), along.x());
  std::vector<double> crossings;
  for (std::size_t i = 0; i < plan_m.size(); ++i) {
    const Vector2d a = plan_m[i] - point;
    const Vector2d b = plan_m[(i + 1) % plan_m.size()] - point;
    const double a_aside = across.dot(a);
    const double b_aside = across.dot(b);
    if ((a_aside < 0) == (b_aside < 0)) continue;
    crossings.push_back(along.dot(a + a_aside / (a_aside - b_aside) * (b - a)));
  }
  std::ranges::sort(crossings);
  Stretches stretches;
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) stretches.emplace_back(crossings[i], crossings[i + 1]);
  return stretches;
}

/// The pieces of a figure on an upright face that are inside the plan.
std::vector<Polygon> upright_parts(const Polygon& figure, const FaceFrame& frame, const Polygon& plan_m) {
  const Vector2d along = Vector3d::UnitZ().cross(frame.u.cross(frame.v)).head<2>();
  const Vector2d across(along.dot(frame.u.head<2>()), along.dot(frame.v.head<2>()));
  std::vector<Polygon> parts;
  for (const auto& [from, to] : stretches_inside(plan_m, frame.origin.head<2>(), along)) {
    Polygon part = part_within(part_within(figure, across, to), -across, -from);
    if (!part.empty()) parts.push_back(std::move(part));
  }
  return parts;
}

/// The pieces of a figure on a level face that are over or under the plan.
std::vector<Polygon> level_parts(const Polygon& figure, const FaceFrame& frame, const Polygon& plan_m) {
  Polygon plan;
  for (const Vector2d& corner : plan_m) plan.push_back(frame.flat({corner.x(), corner.y(), frame.origin.z()}));
  return intersection(plan, figure);
}

/// What of a box's face is in the room, a touch in front of it and a touch behind it: where it touches the room's own
/// faces from inside, they face each other, and where it touches them from outside, they are there already.
FlatArea part_in_room(const BoxFace& face, const FaceFrame& frame, const Polygon& plan_m, const Ceiling& ceiling) {
  const bool is_level = std::abs(face.normal.z()) > 0.5;
  FaceFrame front = moved(frame, face.normal, k_touching_m);
  FaceFrame back = moved(frame, face.normal, -k_touching_m);
  const Polygon in_height =
      part_in_height(part_in_height(flattened(face.corners_m, frame), front, ceiling), back, ceiling);
  if (in_height.empty()) return {};
  if (is_level) return level_parts(in_height, frame, plan_m);
  std::vector<Polygon> parts;
  for (const Polygon& part : upright_parts(in_height, front, plan_m)) {
    for (Polygon& piece : upright_parts(part, back, plan_m)) parts.push_back(std::move(piece));
  }
  return parts;
}

}  // namespace

std::vector<Outline> free_area(const std::vector<Outline>& outlines, const Vector3d& normal,
                               std::span<const Box> boxes) {
  if (outlines.empty()) return {};
  const FaceFrame frame = frame_of(outlines.front(), normal);
  std::vector<Polygon> flat;
  Bounds bounds;
  for (const Outline& outline : outlines) {
    flat.push_back(flattened(outline, frame));
    bounds.extend(bounds_of(flat.back()));
  }
  const std::vector<Polygon> cuts = sections(boxes, moved(frame, normal, k_touching_m), bounds);
  if (cuts.empty()) return outlines;
  return lifted(difference(flat, cuts), frame);
}

std::vector<CoveredPart> covered_parts(const Outline& outline, const Vector3d& normal, std::span<const Box> boxes) {
  const FaceFrame frame = frame_of(outline, normal);
  const Polygon flat = flattened(outline, frame);
  const Bounds bounds = bounds_of(flat);
  std::vector<CoveredPart> parts;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (const Polygon& cut : sections(boxes.subspan(i, 1), moved(frame, normal, k_touching_m), bounds)) {
      for (Outline& piece : lifted(intersection(flat, cut), frame)) {
        parts.push_back({static_cast<int>(i), std::move(piece)});
      }
    }
  }
  return parts;
}

std::vector<Outline> free_area(const BoxFace& face, std::span<const Box> boxes, std::span<const Box> earlier,
                               const Polygon& plan_m, const Ceiling& ceiling) {
  const FaceFrame frame = frame_of(face.corners_m, face.normal);
  const FlatArea area = part_in_room(face, frame, plan_m, ceiling);
  if (area.empty()) return {};
  const Bounds bounds = bounds_of(flattened(face.corners_m, frame));
  std::vector<Polygon> cuts = sections(boxes, moved(frame, face.normal, k_touching_m), bounds);
  for (Polygon& cut : sections(earlier, moved(frame, face.normal, -k_touching_m), bounds)) {
    cuts.push_back(std::move(cut));
  }
  return lifted(difference(area, cuts), frame);
}

}  // namespace evenlit
