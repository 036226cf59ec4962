#include "evenlit/room/cross_section.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "evenlit/photometry/beam.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

constexpr double k_rounding_m = 1e-6;

double cross(const Vector2d& a, const Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

Vector2d edge_of(const Polygon& polygon, std::size_t i) { return polygon[(i + 1) % polygon.size()] - polygon[i]; }

double distance_to_edge(const Polygon& polygon, std::size_t i, const Vector2d& point) {
  const Vector2d edge = edge_of(polygon, i);
  const double share = std::clamp(edge.dot(point - polygon[i]) / edge.squaredNorm(), 0.0, 1.0);
  return (polygon[i] + share * edge - point).norm();
}

int nearest_wall(const Polygon& plan_m, const Vector2d& point) {
  std::size_t nearest = 0;
  for (std::size_t i = 1; i < plan_m.size(); ++i) {
    if (distance_to_edge(plan_m, i, point) < distance_to_edge(plan_m, nearest, point) - k_rounding_m) nearest = i;
  }
  return static_cast<int>(nearest);
}

/// Square to a wall, toward the east or else the north.
Vector2d direction_across(const Polygon& plan_m, int wall) {
  constexpr double k_due_north = 1e-9;
  const Vector2d along = edge_of(plan_m, static_cast<std::size_t>(wall)).normalized();
  const Vector2d across(-along.y(), along.x());
  const bool is_turned = across.x() < -k_due_north || (std::abs(across.x()) <= k_due_north && across.y() < 0);
  return is_turned ? Vector2d(-across) : across;
}

struct WallHit {
  int wall = -1;
  double at_m = 0;
};

/// The walls next to a point of the plan along a line, against its direction and with it.
std::pair<WallHit, WallHit> walls_beside(const Polygon& plan_m, const Vector2d& point, const Vector2d& along) {
  WallHit before{-1, -std::numeric_limits<double>::infinity()};
  WallHit after{-1, std::numeric_limits<double>::infinity()};
  for (std::size_t i = 0; i < plan_m.size(); ++i) {
    const Vector2d a = plan_m[i] - point;
    const Vector2d b = a + edge_of(plan_m, i);
    const double a_aside = cross(along, a);
    const double b_aside = cross(along, b);
    if ((a_aside < 0) == (b_aside < 0)) continue;
    const double at_m = along.dot(a + a_aside / (a_aside - b_aside) * (b - a));
    if (at_m <= 0 && at_m > before.at_m) before = {static_cast<int>(i), at_m};
    if (at_m > 0 && at_m < after.at_m) after = {static_cast<int>(i), at_m};
  }
  return {before, after};
}

Polygon outline_of(const Ceiling& ceiling, const Vector2d& start_m, const Vector2d& along, double length_m) {
  Polygon outline{{0, 0}, {length_m, 0}, {length_m, ceiling.highest_m}, {0, ceiling.highest_m}};
  for (const CeilingPlane& plane : ceiling.planes) {
    outline = part_within(outline, {-plane.rise.dot(along), 1}, plane.at(start_m));
  }
  return outline;
}

/// What is between two upright lines and two level ones.
Polygon part_between(Polygon figure, const Vector2d& low, const Vector2d& high) {
  for (int axis = 0; axis < 2; ++axis) {
    figure = part_within(figure, Vector2d::Unit(axis), high[axis]);
    figure = part_within(figure, -Vector2d::Unit(axis), -low[axis]);
  }
  return figure;
}

/// Where a line over the plan is over a box; empty where it is nowhere.
std::optional<std::pair<double, double>> stretch_over(const Box& box, const Vector2d& start_m, const Vector2d& along) {
  const Vector2d across(-box.along.y(), box.along.x());
  const Vector2d from((start_m - box.centre_m).dot(box.along), (start_m - box.centre_m).dot(across));
  const Vector2d step(along.dot(box.along), along.dot(across));
  double begin = -std::numeric_limits<double>::infinity();
  double end = std::numeric_limits<double>::infinity();
  for (int axis = 0; axis < 2; ++axis) {
    if (std::abs(step[axis]) < 1e-12) {
      if (std::abs(from[axis]) >= box.half_m[axis]) return std::nullopt;
      continue;
    }
    const double a = (-box.half_m[axis] - from[axis]) / step[axis];
    const double b = (box.half_m[axis] - from[axis]) / step[axis];
    begin = std::max(begin, std::min(a, b));
    end = std::min(end, std::max(a, b));
  }
  if (end <= begin) return std::nullopt;
  return std::pair{begin, end};
}

std::vector<SectionBox> boxes_in(const Scene& scene, const CrossSection& section) {
  std::vector<SectionBox> boxes;
  for (const Box& box : scene.boxes) {
    const auto stretch = stretch_over(box, section.start_m, section.along);
    if (!stretch) continue;
    Polygon cut = part_between(section.outline_m, {stretch->first, box.bottom_m}, {stretch->second, box.top_m});
    if (!cut.empty()) boxes.push_back({box.name, std::move(cut)});
  }
  return boxes;
}

std::vector<SectionLuminaire> row_in(const Scene& scene, const CrossSection& section) {
  constexpr double k_in_row_m = 0.1;  // cans of a row that a tape put in line; common practice, no source
  std::vector<SectionLuminaire> row;
  for (int i = 0; i < static_cast<int>(scene.luminaires.size()); ++i) {
    const Vector3d& position = scene.luminaires[i].position_m;
    const Vector2d from_start = position.head<2>() - section.start_m;
    const double x_m = section.along.dot(from_start);
    if (std::abs(cross(section.along, from_start)) > k_in_row_m || x_m <= 0 || x_m >= section.length_m) continue;
    row.push_back({i, {x_m, position.z()}});
  }
  std::ranges::stable_sort(row, {}, [](const SectionLuminaire& one) { return one.at_m.x(); });
  return row;
}

/// How far a ray goes until it meets an edge of a polygon.
double reach_m(const Polygon& polygon, const Vector2d& from, const Vector2d& direction) {
  double reach = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vector2d edge = edge_of(polygon, i);
    const Vector2d to_corner = polygon[i] - from;
    const double turn = cross(direction, edge);
    if (turn == 0) continue;
    const double distance = cross(to_corner, edge) / turn;
    const double share = cross(to_corner, direction) / turn;
    if (distance > k_rounding_m && share >= -1e-9 && share <= 1 + 1e-9) reach = std::min(reach, distance);
  }
  return reach;
}

SectionCone cone_between(const CrossSection& section, const Vector2d& from, const BeamEdges& edges) {
  constexpr double k_step_deg = 0.5;
  const double angle_deg = edges.to_deg - edges.from_deg;
  const int steps = std::max(1, static_cast<int>(std::ceil(angle_deg / k_step_deg)));
  SectionCone cone{angle_deg, {from}};
  for (int i = 0; i <= steps; ++i) {
    const double angle = (edges.from_deg + angle_deg * i / steps) * std::numbers::pi / 180;
    const Vector2d direction(std::sin(angle), -std::cos(angle));
    double reach = reach_m(section.outline_m, from, direction);
    for (const SectionBox& box : section.boxes) reach = std::min(reach, reach_m(box.outline_m, from, direction));
    if (std::isfinite(reach)) cone.outline_m.emplace_back(from + reach * direction);
  }
  return cone;
}

/// As far as a luminaire has a share of its maximum intensity in the section's plane.
std::optional<SectionCone> cone_of(const Scene& scene, const CrossSection& section, double share) {
  const Luminaire& luminaire = scene.luminaires[section.through];
  const IntensityDistribution& distribution = scene.distributions[luminaire.distribution];
  const Eigen::Matrix3d luminaire_from_room = luminaire.room_from_luminaire.transpose();
  const Vector3d down = luminaire_from_room * -Vector3d::UnitZ();
  const Vector3d aside = luminaire_from_room * Vector3d(section.along.x(), section.along.y(), 0);
  const double peak_cd = distribution.candela.maxCoeff();
  if (!(peak_cd > 0)) return std::nullopt;
  const auto edges = beam_edges(distribution, share * peak_cd, down, aside);
  if (!edges) return std::nullopt;
  const double x_m = section.along.dot(luminaire.position_m.head<2>() - section.start_m);
  return cone_between(section, {x_m, luminaire.position_m.z()}, *edges);
}

void add_stations(const Scene& scene, CrossSection& section) {
  constexpr double k_spacing_m = 0.05;
  const int count = std::max(1, static_cast<int>(std::ceil(section.length_m / k_spacing_m - 1e-9)));
  section.spacing_m = section.length_m / count;
  for (int i = 0; i < count; ++i) {
    const double x_m = (i + 0.5) * section.spacing_m;
    const Vector2d plan_m = section.plan_at(x_m);
    const Vector3d point(plan_m.x(), plan_m.y(), section.work_plane_m);
    const auto holds = [&](const Box& box) { return is_inside(box, point, k_rounding_m); };
    if (point.z() >= scene.ceiling.height_m(plan_m) - k_rounding_m || std::ranges::any_of(scene.boxes, holds)) continue;
    section.stations_m.push_back(x_m);
  }
}

}  // namespace

int middle_luminaire(const Scene& scene) {
  const Vector2d middle = bounds_of(scene.plan_m).center();
  const auto distance_m = [&](int i) { return (scene.luminaires[i].position_m.head<2>() - middle).norm(); };
  int nearest = 0;
  for (int i = 1; i < static_cast<int>(scene.luminaires.size()); ++i) {
    if (distance_m(i) < distance_m(nearest) - k_rounding_m) nearest = i;
  }
  return nearest;
}

CrossSection cross_section(const Scene& scene, const WorkPlane& work_plane, int through) {
  const Vector2d at_m = scene.luminaires[through].position_m.head<2>();
  CrossSection section;
  section.through = through;
  section.along = direction_across(scene.plan_m, nearest_wall(scene.plan_m, at_m));
  const auto [left, right] = walls_beside(scene.plan_m, at_m, section.along);
  section.start_m = at_m + left.at_m * section.along;
  section.left_wall = left.wall;
  section.right_wall = right.wall;
  section.length_m = right.at_m - left.at_m;
  section.outline_m = outline_of(scene.ceiling, section.start_m, section.along, section.length_m);
  section.boxes = boxes_in(scene, section);
  section.row = row_in(scene, section);
  section.beam = cone_of(scene, section, 0.5);
  section.field = cone_of(scene, section, 0.1);
  section.work_plane_m = work_plane.height_m;
  add_stations(scene, section);
  return section;
}

std::vector<Receiver> receivers_of(const CrossSection& section) {
  std::vector<Receiver> receivers;
  for (const double x_m : section.stations_m) {
    const Vector2d plan_m = section.plan_at(x_m);
    receivers.push_back({{plan_m.x(), plan_m.y(), section.work_plane_m}, Vector3d::UnitZ()});
  }
  return receivers;
}

}  // namespace evenlit
