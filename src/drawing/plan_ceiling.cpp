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

/// Lines aslant across an outline.
std::vector<Polyline> hatching(const Polyline& outline) {
  constexpr double k_apart = 10;  // along x
  const Eigen::AlignedBox2d box = bounds_of(outline);
  const double height = box.sizes().y();
  std::vector<Polyline> lines;
  const auto first = static_cast<int>(std::ceil((box.min().x() - height) / k_apart));
  for (int i = first; i * k_apart < box.max().x(); ++i) {
    const double x = i * k_apart;
    lines.push_back({{x, box.max().y()}, {x + height, box.min().y()}});
  }
  return clipped(lines, outline);
}

/// The line at a distance around an outline, as far as it is in the room.
std::vector<Polyline> around(const Polyline& outline, double distance, const Polyline& room) {
  constexpr double k_lattice = 2;  // units; the line cuts its corners by no more
  Eigen::AlignedBox2d box = bounds_of(outline);
  const Eigen::Vector2d beyond = Eigen::Vector2d::Constant(distance + 2 * k_lattice);
  box.extend(Eigen::Vector2d(box.min() - beyond));
  box.extend(Eigen::Vector2d(box.max() + beyond));
  return clipped(contours(depths_in(outline, box, k_lattice), -distance), room);
}

void add_line(std::vector<DrawingItem>& items, const Polyline& line, bool closed, double width,
              const std::vector<double>& dash) {
  items.emplace_back(Stroke{line, closed, width + 2, {{255, 255, 255}, 0.6}, {}});
  items.emplace_back(Stroke{line, closed, width, k_dark, dash});
}

void add_keep_out(std::vector<DrawingItem>& items, const Polyline& outline, double clearance, const Polyline& room) {
  items.emplace_back(Fill{{outline}, {{255, 255, 255}, 0.55}});
  for (const Polyline& line : hatching(outline)) items.emplace_back(Stroke{line, false, 1.2, k_dark, {}});
  add_line(items, outline, true, 1.8, {});
  if (clearance <= 0) return;
  for (const Polyline& line : around(outline, clearance, room)) add_line(items, line, false, 1, {4, 3});
}

void add_fan(std::vector<DrawingItem>& items, const Disc& hub, double radius, const Polyline& room) {
  Polyline blades = circle(hub.centre, radius);
  blades.push_back(blades.front());
  for (const Polyline& line : clipped({blades}, room)) add_line(items, line, false, 1.6, {14, 6, 3, 6});
  items.emplace_back(Fill{{circle(hub.centre, hub.radius + 2.5)}, k_halo});
  items.emplace_back(Fill{{circle(hub.centre, hub.radius)}, k_dark});
}

/// Discs along the outline, each touching the next.
void add_discs(std::vector<Disc>& discs, const Polyline& outline) {
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Eigen::Vector2d edge = outline[(i + 1) % outline.size()] - outline[i];
    const int count = std::max(1, static_cast<int>(std::ceil(edge.norm() / (2 * k_outline_radius))));
    for (int k = 0; k < count; ++k) discs.push_back({outline[i] + k * edge / count, k_outline_radius});
  }
}

struct Edge {
  Eigen::Vector2d middle;
  Eigen::Vector2d vector;
};

/// The edges of an outline, the longest first.
std::vector<Edge> edges_of(const Polyline& outline) {
  std::vector<Edge> edges;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Eigen::Vector2d& next = outline[(i + 1) % outline.size()];
    edges.push_back({(outline[i] + next) / 2, next - outline[i]});
  }
  std::ranges::stable_sort(edges, std::greater<>{}, [](const Edge& edge) { return edge.vector.norm(); });
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
  const Polyline room = view.at(job.room.corners_m);
  std::vector<DrawingItem> items;
  for (const KeepOut& keep_out : job.keep_outs) {
    add_keep_out(items, outline_of(job.room, keep_out, view), keep_out.clearance_m * view.units_per_m, room);
  }
  for (const Fan& fan : job.fans) {
    add_fan(items, hub_of(job.room, fan, view), fan.diameter_m / 2 * view.units_per_m, room);
  }
  return items;
}

std::vector<Disc> ceiling_discs(const Job& job, const PlanView& view) {
  std::vector<Disc> discs;
  for (const KeepOut& keep_out : job.keep_outs) add_discs(discs, outline_of(job.room, keep_out, view));
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
