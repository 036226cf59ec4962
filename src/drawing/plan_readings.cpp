#include "plan_readings.hpp"

#include "isolux_lines.hpp"
#include "plan_labels.hpp"

namespace evenlit {
namespace {

constexpr double k_dot_radius = 4;

Polyline outline_of(const Job& job, const TaskArea& area, const PlanView& view) {
  Polyline outline;
  for (const Eigen::Vector3d& corner : corners_of(job.room, area)) {
    outline.push_back(view.at(Eigen::Vector2d(corner.head<2>())));
  }
  return outline;
}

/// An area's name in its middle, level or along its longest edge, or else beside.
std::optional<Text> area_label(const std::string& name, const Polyline& outline, const FreeSpace& space) {
  Eigen::Vector2d centre(0, 0);
  Eigen::Vector2d longest(0, 0);
  for (std::size_t i = 0; i < outline.size(); ++i) {
    centre += outline[i] / static_cast<double>(outline.size());
    const Eigen::Vector2d edge = outline[(i + 1) % outline.size()] - outline[i];
    if (edge.norm() > longest.norm()) longest = edge;
  }
  for (const double turn_rad : {0.0, upright_turn(longest)}) {
    const Text text = halo_text(short_name(name), centre, k_small_text, Weight::regular, turn_rad);
    if (space.is_free(discs_of(text))) return text;
  }
  return label_beside(short_name(name), {centre, 0}, Weight::regular, space);
}

}  // namespace

std::vector<DrawingItem> reading_marks(const Job& job, const PlanView& view, FreeSpace& space) {
  std::vector<DrawingItem> items;
  for (const TaskArea& area : job.task_areas) {
    const Polyline outline = outline_of(job, area, view);
    items.emplace_back(Stroke{outline, true, 3, {{255, 255, 255}, 0.7}, {}});
    items.emplace_back(Stroke{outline, true, 1.2, k_dark, {5, 4}});
  }
  std::vector<Disc> dots;
  for (const NamedPoint& point : job.points) {
    const Disc dot{view.at(*plan_position(job.room, point)), k_dot_radius};
    items.emplace_back(Fill{{circle(dot.centre, dot.radius + 2)}, k_halo});
    items.emplace_back(Fill{{circle(dot.centre, dot.radius)}, k_dark});
    dots.push_back(dot);
  }
  space.take(dots);
  for (std::size_t i = 0; i < dots.size(); ++i) {
    add_label(label_beside(short_name(job.points[i].name), dots[i], Weight::regular, space), space, items);
  }
  for (const TaskArea& area : job.task_areas) {
    add_label(area_label(area.name, outline_of(job, area, view), space), space, items);
  }
  return items;
}

}  // namespace evenlit
