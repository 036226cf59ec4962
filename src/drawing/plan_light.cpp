#include "plan_light.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/isolux.hpp"
#include "evenlit/drawing/text.hpp"
#include "evenlit/placing/framing.hpp"
#include "isolux_lines.hpp"
#include "plan_labels.hpp"
#include "sheet.hpp"

namespace evenlit {
namespace {

constexpr double k_cross_overshoot = 4;

double can_size_m(const std::vector<CanType>& types, const Can& can, const Luminaire& luminaire) {
  const auto type = std::ranges::find(types, can.type, &CanType::name);
  if (type != types.end() && type->hole_m) return *type->hole_m;
  return std::min(luminaire.opening.width_m, luminaire.opening.length_m);
}

void add_framing_line(std::vector<DrawingItem>& items, const Polyline& line) {
  items.emplace_back(Stroke{line, false, 3.2, {{255, 255, 255}, 0.35}, {12, 7}});
  items.emplace_back(Stroke{line, false, 1.6, {{40, 42, 46}, 0.7}, {12, 7}});
}

bool is_through(const Box& box, double work_plane_m) { return box.bottom_m < work_plane_m && box.top_m > work_plane_m; }

}  // namespace

std::vector<DrawingItem> framing_lines(const Job& job, const PlanView& view) {
  constexpr double k_closest = 8;  // units between joists
  std::vector<Strip> strips;
  for (const Joists& joists : job.joists) {
    if (!(joists.spacing_m * view.units_per_m >= k_closest)) continue;
    for (Strip& joist : strips_of(job.room, joists)) strips.push_back(std::move(joist));
  }
  for (const Member& member : job.members) strips.push_back(strip_of(job.room, member));
  std::vector<DrawingItem> items;
  for (const Strip& strip : strips) {
    const Polygon& corners = strip.corners_m;
    for (const Polyline& side : {Polyline{corners[0], corners[1]}, Polyline{corners[3], corners[2]}}) {
      for (const Polyline& line : clipped({side}, job.room.corners_m)) add_framing_line(items, view.at(line));
    }
  }
  return items;
}

std::vector<DrawingItem> framing_sample() {
  std::vector<DrawingItem> items;
  for (const double y : {-4.0, 4.0}) add_framing_line(items, {{-15.5, y}, {15.5, y}});
  return items;
}

SampledField depths_in(const Polygon& polygon, const Eigen::AlignedBox2d& box, double spacing) {
  const Eigen::Array2i steps = (box.sizes().array() / spacing).ceil().cast<int>();
  SampledField field{box.min(), {spacing, spacing}, steps.x() + 1, steps.y() + 1, {}};
  for (int row = 0; row < field.rows; ++row) {
    for (int column = 0; column < field.columns; ++column) {
      const Eigen::Vector2d point = field.first + spacing * Eigen::Vector2d(column, row);
      const double distance = distance_to_outline(polygon, point);
      field.values.push_back(is_inside(polygon, point) ? distance : -distance);
    }
  }
  return field;
}

std::vector<DrawingItem> margin_line(const Polygon& plan_m, double margin_m, const PlanView& view) {
  constexpr double k_lattice = 3;  // units; the line cuts its corners by no more
  std::vector<DrawingItem> items;
  if (margin_m <= 0) return items;
  for (const Polyline& line : contours(depths_in(plan_m, bounds_of(plan_m), k_lattice / view.units_per_m), margin_m)) {
    items.emplace_back(Stroke{view.at(line), false, 3.2, {{255, 255, 255}, 0.45}, {}});
    items.emplace_back(Stroke{view.at(line), false, 1.4, k_dark, {2, 5}});
  }
  return items;
}

std::vector<DrawingItem> box_marks(const std::vector<Box>& boxes, double work_plane_m, const PlanView& view) {
  std::vector<DrawingItem> items;
  for (const Box& box : boxes) {
    const Eigen::Vector2d u = box.half_m.x() * box.along;
    const Eigen::Vector2d v = box.half_m.y() * Eigen::Vector2d(-box.along.y(), box.along.x());
    const Polyline outline =
        view.at({box.centre_m - u - v, box.centre_m + u - v, box.centre_m + u + v, box.centre_m - u + v});
    const bool is_above = box.bottom_m >= work_plane_m;
    if (is_through(box, work_plane_m)) items.emplace_back(Fill{{outline}, k_light_grey});
    const std::vector<double> dash = is_above ? std::vector{9.0, 6.0} : std::vector<double>{};
    items.emplace_back(Stroke{outline, true, 3.6, {{255, 255, 255}, 0.6}, {}});
    items.emplace_back(Stroke{outline, true, 1.6, k_dark, dash});
  }
  return items;
}

std::vector<Disc> filled_box_discs(const std::vector<Box>& boxes, double work_plane_m, const PlanView& view) {
  constexpr double k_step = 16;  // units between discs that touch each other
  std::vector<Disc> discs;
  for (const Box& box : boxes) {
    if (!is_through(box, work_plane_m)) continue;
    const Eigen::Vector2d across(-box.along.y(), box.along.x());
    const Eigen::Vector2i count = (2 * view.units_per_m / k_step * box.half_m).array().ceil().cwiseMin(200).cast<int>();
    for (int i = 0; i < count.x(); ++i) {
      for (int j = 0; j < count.y(); ++j) {
        const Eigen::Vector2d part((2.0 * i + 1) / count.x() - 1, (2.0 * j + 1) / count.y() - 1);
        const Eigen::Vector2d offset = part.cwiseProduct(box.half_m);
        const Eigen::Vector2d plan_m = box.centre_m + offset.x() * box.along + offset.y() * across;
        discs.push_back({view.at(plan_m), k_step / 2});
      }
    }
  }
  return discs;
}

std::vector<Disc> can_discs(const std::vector<CanType>& types, const std::vector<Can>& cans,
                            const std::vector<Luminaire>& luminaires, const PlanView& view) {
  constexpr double k_smallest_radius = 5;
  std::vector<Disc> discs;
  for (std::size_t i = 0; i < luminaires.size(); ++i) {
    const Luminaire& luminaire = luminaires[i];
    const double radius = can_size_m(types, cans[i], luminaire) / 2 * view.units_per_m;
    discs.push_back({view.at(Eigen::Vector2d(luminaire.position_m.head<2>())), std::max(k_smallest_radius, radius)});
  }
  return discs;
}

std::vector<DrawingItem> can_mark(const Disc& can, bool is_amiss) {
  const auto& [centre, radius] = can;
  const double arm = radius + k_cross_overshoot;
  const double aslant = arm / std::sqrt(2.0);
  const Eigen::Vector2d first = is_amiss ? Eigen::Vector2d(aslant, aslant) : Eigen::Vector2d(arm, 0);
  const double width = is_amiss ? 3 : 1.2;
  std::vector<DrawingItem> items;
  items.emplace_back(Fill{{circle(centre, radius + 2.5)}, k_halo});
  items.emplace_back(Stroke{circle(centre, radius), true, 2, k_dark, {}});
  for (const Eigen::Vector2d& half : {first, Eigen::Vector2d(first.y(), -first.x())}) {
    items.emplace_back(Stroke{{centre - half, centre + half}, false, width, k_dark, {}});
  }
  return items;
}

std::vector<DrawingItem> can_marks(const std::vector<Disc>& cans, FreeSpace& space) {
  std::vector<DrawingItem> items;
  for (std::size_t i = 0; i < cans.size(); ++i) {
    append(items, can_mark(cans[i], false));
    const std::string number = fixed_text(static_cast<double>(i + 1), 0);
    const Disc mark{cans[i].centre, cans[i].radius + k_cross_overshoot};
    add_label(label_beside(number, mark, Weight::bold, space), space, items);
  }
  return items;
}

std::vector<DrawingItem> darkest_mark(const Eigen::Vector2d& at) {
  constexpr double k_rim = 4;
  const auto diamond = [&](double size) {
    return Polyline{at + Eigen::Vector2d(0, -size), at + Eigen::Vector2d(size, 0), at + Eigen::Vector2d(0, size),
                    at + Eigen::Vector2d(-size, 0)};
  };
  return {Fill{{diamond(k_darkest_radius)}, k_white}, Fill{{diamond(k_darkest_radius - k_rim)}, k_dark}};
}

std::vector<DrawingItem> labelled_darkest_mark(const WorkPlaneLight& light, const PlanView& view, Units units,
                                               FreeSpace& space) {
  const int darkest = light.statistics.minimum_at;
  const Disc mark{view.at(Eigen::Vector2d(light.grid.points_m[darkest])), k_darkest_radius};
  std::vector<DrawingItem> items = darkest_mark(mark.centre);
  space.take({mark});
  const std::string value = illuminance_text(light.statistics.minimum_lx, light.field.error_lx[darkest], units);
  auto label = label_beside("darkest " + value, mark, Weight::bold, space);
  if (!label) label = label_beside(value, mark, Weight::bold, space);
  add_label(label, space, items);
  return items;
}

}  // namespace evenlit
