#include "plan_ceiling.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <string>

#include "evenlit/drawing/isolux.hpp"
#include "evenlit/drawing/text.hpp"
#include "isolux_lines.hpp"
#include "plan_labels.hpp"
#include "plan_light.hpp"

namespace evenlit {
namespace {

constexpr double k_hub_radius = 4;
constexpr double k_outline_radius = 4;  // of the discs that lie on an outline

/// A keep-out on the sheet.
Polyline outline_of(const Shape& room, const KeepOut& keep_out, const PlanView& view) {
  if (const auto* circle = std::get_if<TapedCircle>(&keep_out.shape)) {
    return evenlit::circle(view.at(plan_position(room, circle->from).value()),
                           circle->diameter_m / 2 * view.units_per_m);
  }
  const auto* rectangle = std::get_if<TapedRectangle>(&keep_out.shape);
  return view.at(rectangle != nullptr ? corners_of(room, *rectangle) : std::get<Polygon>(keep_out.shape));
}

Disc hub_of(const Shape& room, const Fan& fan, const PlanView& view) {
  return {view.at(plan_position(room, fan.from).value()), k_hub_radius};
}

Polyline closed(Polyline outline) {
  outline.push_back(outline.front());
  return outline;
}

/// Lines aslant across what of an outline is in the room.
std::vector<Polyline> hatching(const Polyline& outline, const Polyline& room) {
  constexpr double k_apart = 10;  // along x
  const Eigen::AlignedBox2d box = bounds_of(outline).intersection(bounds_of(room));
  if (box.isEmpty()) return {};
  const double height = box.sizes().y();
  std::vector<Polyline> lines;
  const auto first = static_cast<int>(std::ceil((box.min().x() - height) / k_apart));
  for (int i = first; i * k_apart < box.max().x(); ++i) {
    const double x = i * k_apart;
    lines.push_back({{x, box.max().y()}, {x + height, box.min().y()}});
  }
  return clipped(clipped(lines, outline), room);
}

/// The line at a distance around an outline, as far as it is in the room.
std::vector<Polyline> around(const Polyline& outline, double distance, const Polyline& room) {
  constexpr double k_finest = 2;  // units of a lattice on which the line is followed; it cuts its corners by no more
  constexpr double k_steps = 100;
  Eigen::AlignedBox2d box = bounds_of(outline);
  const Eigen::Vector2d beyond = Eigen::Vector2d::Constant(distance + 2 * k_finest);
  box.extend(Eigen::Vector2d(box.min() - beyond));
  box.extend(Eigen::Vector2d(box.max() + beyond));
  const Eigen::AlignedBox2d seen = box.intersection(bounds_of(room));
  if (seen.isEmpty()) return {};
  const double lattice = std::max(k_finest, seen.sizes().maxCoeff() / k_steps);
  return clipped(contours(depths_in(outline, seen, lattice), -distance), room);
}

/// A keep-out's clearance, as far as it is in the room.
std::vector<Polyline> clearance_lines(const Shape& room, const KeepOut& keep_out, const PlanView& view) {
  if (keep_out.clearance_m <= 0) return {};
  const Polyline walls = view.at(room.corners_m);
  if (const auto* circle = std::get_if<TapedCircle>(&keep_out.shape)) {
    const double radius = (circle->diameter_m / 2 + keep_out.clearance_m) * view.units_per_m;
    return clipped({closed(evenlit::circle(view.at(plan_position(room, circle->from).value()), radius))}, walls);
  }
  return around(outline_of(room, keep_out, view), keep_out.clearance_m * view.units_per_m, walls);
}

void add_line(std::vector<DrawingItem>& items, const Polyline& line, double width, const std::vector<double>& dash) {
  items.emplace_back(Stroke{line, false, width + 2, {{255, 255, 255}, 0.6}, {}});
  items.emplace_back(Stroke{line, false, width, k_dark, dash});
}

void add_keep_out(std::vector<DrawingItem>& items, const Shape& room, const KeepOut& keep_out, const PlanView& view) {
  const Polyline walls = view.at(room.corners_m);
  const Polyline outline = outline_of(room, keep_out, view);
  for (const Polyline& line : hatching(outline, walls)) {
    items.emplace_back(Stroke{line, false, 7.2, {{255, 255, 255}, 0.55}, {}});
    items.emplace_back(Stroke{line, false, 1.2, k_dark, {}});
  }
  for (const Polyline& line : clipped({closed(outline)}, walls)) add_line(items, line, 1.8, {});
  for (const Polyline& line : clearance_lines(room, keep_out, view)) add_line(items, line, 1, {4, 3});
}

void add_fan(std::vector<DrawingItem>& items, const Disc& hub, double radius, const Polyline& walls) {
  for (const Polyline& line : clipped({closed(circle(hub.centre, radius))}, walls)) {
    add_line(items, line, 1.6, {14, 6, 3, 6});
  }
  items.emplace_back(Fill{{circle(hub.centre, hub.radius + 2.5)}, k_halo});
  items.emplace_back(Fill{{circle(hub.centre, hub.radius)}, k_dark});
}

/// Discs along a line, each touching the next.
void add_discs(std::vector<Disc>& discs, const Polyline& line) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Eigen::Vector2d along = line[i] - line[i - 1];
    const int count = std::max(1, static_cast<int>(std::ceil(along.norm() / (2 * k_outline_radius))));
    for (int k = 0; k < count; ++k) discs.push_back({line[i - 1] + k * along / count, k_outline_radius});
  }
}

struct Edge {
  Eigen::Vector2d middle;
  Eigen::Vector2d vector;
};

/// The longest edges of an outline, the longest first, as many as are worth a try.
std::vector<Edge> edges_of(const Polyline& outline) {
  std::vector<Edge> edges;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Eigen::Vector2d& next = outline[(i + 1) % outline.size()];
    edges.push_back({(outline[i] + next) / 2, next - outline[i]});
  }
  std::ranges::stable_sort(edges, std::greater<>{}, [](const Edge& edge) { return edge.vector.norm(); });
  constexpr std::size_t k_most = 40;
  if (edges.size() > k_most) edges.erase(edges.begin() + k_most, edges.end());
  return edges;
}

/// A name along an edge that is longer than itself, on one side or the other.
std::optional<Text> label_along(const std::string& name, const Edge& edge, const FreeSpace& space) {
  constexpr double k_off = 20;
  if (text_width(name, k_small_text, Weight::regular) > edge.vector.norm()) return std::nullopt;
  const Eigen::Vector2d normal = Eigen::Vector2d(-edge.vector.y(), edge.vector.x()).normalized();
  for (const double side : {-k_off, k_off}) {
    const Text text =
        halo_text(name, edge.middle + side * normal, k_small_text, Weight::regular, upright_turn(edge.vector));
    if (space.is_free(discs_of(text))) return text;
  }
  return std::nullopt;
}

/// A small outline's name stands beside all of it, a larger one's along an edge or beside the middle of one.
std::optional<Text> keep_out_label(const std::string& name, const Polyline& outline, const FreeSpace& space) {
  constexpr double k_small = 60;  // radius
  const Eigen::AlignedBox2d box = bounds_of(outline);
  const double radius = box.sizes().maxCoeff() / 2;
  if (radius <= k_small) return label_beside(name, {box.center(), radius}, Weight::regular, space);
  const std::vector<Edge> edges = edges_of(outline);
  for (const Edge& edge : edges) {
    if (auto label = label_along(name, edge, space)) return label;
  }
  for (const Edge& edge : edges) {
    if (auto label = label_beside(name, {edge.middle, k_outline_radius}, Weight::regular, space)) return label;
  }
  return std::nullopt;
}

}  // namespace

std::vector<DrawingItem> ceiling_marks(const Job& job, const PlanView& view) {
  std::vector<DrawingItem> items;
  for (const KeepOut& keep_out : job.keep_outs) add_keep_out(items, job.room, keep_out, view);
  for (const Fan& fan : job.fans) {
    add_fan(items, hub_of(job.room, fan, view), fan.diameter_m / 2 * view.units_per_m, view.at(job.room.corners_m));
  }
  return items;
}

std::vector<Disc> ceiling_discs(const Job& job, const PlanView& view) {
  const Polyline walls = view.at(job.room.corners_m);
  std::vector<Disc> discs;
  for (const KeepOut& keep_out : job.keep_outs) {
    for (const Polyline& line : clipped({closed(outline_of(job.room, keep_out, view))}, walls)) add_discs(discs, line);
  }
  for (const Fan& fan : job.fans) discs.push_back(hub_of(job.room, fan, view));
  return discs;
}

std::vector<DrawingItem> ceiling_names(const Job& job, const PlanView& view, FreeSpace& space) {
  std::vector<DrawingItem> items;
  for (const KeepOut& keep_out : job.keep_outs) {
    const Polyline outline = outline_of(job.room, keep_out, view);
    add_label(keep_out_label(short_name(keep_out.name), outline, space), space, items);
  }
  for (const Fan& fan : job.fans) {
    const Disc hub = hub_of(job.room, fan, view);
    add_label(label_beside(short_name(fan.name), hub, Weight::regular, space), space, items);
  }
  return items;
}

}  // namespace evenlit
