#include "room_plan.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/drawing/isolux.hpp"
#include "plan_ceiling.hpp"
#include "plan_light.hpp"
#include "plan_walls.hpp"
#include "sheet.hpp"

namespace evenlit {

FreeSpace free_space(const RoomPlan& plan) {
  FreeSpace space(plan.view.at(plan.job.room.corners_m));
  space.take(filled_box_discs(plan.boxes, plan.job.work_plane.height_m, plan.view));
  space.take(ceiling_discs(plan.job, plan.view));
  return space;
}

std::vector<DrawingItem> room_picture(const RoomPlan& plan, RoomLayers layers) {
  const auto& [job, boxes, view] = plan;
  std::vector<DrawingItem> items;
  const auto add = [&](std::vector<DrawingItem> more) { append(items, std::move(more)); };
  layers.colours.clip = {view.at(job.room.corners_m)};
  items.emplace_back(std::move(layers.colours));
  add(framing_lines(job, view));
  add(std::move(layers.lines));
  add(margin_line(job.room.corners_m, job.work_plane.margin_m, view));
  add(box_marks(boxes, job.work_plane.height_m, view));
  add(ceiling_marks(job, view));
  add(std::move(layers.marks));
  items.push_back(wall_band(job.room.corners_m, view));
  return items;
}

SampledField close_field(const SampledField& points_m) {
  constexpr int k_enough_a_side = 60;
  const int steps = 2 * std::clamp(k_enough_a_side / std::max(points_m.columns, points_m.rows), 1, 6);
  return smoothed(points_m, steps);
}

std::vector<Isolux> isolux_levels(const Job& job, double top_lx) {
  const double unit = unit_lx(job.units);
  std::vector<Isolux> levels;
  if (job.target_lx && *job.target_lx > 0) {
    levels.push_back({*job.target_lx, "target " + level_text(*job.target_lx / unit), true});
  }
  for (Isolux& level : isolux_levels(LightScale{.units = job.units, .top_lx = top_lx})) {
    const bool is_target = job.target_lx && std::abs(level.lx - *job.target_lx) < 1e-3 * level.lx;
    if (!is_target) levels.push_back(std::move(level));
  }
  return levels;
}

std::vector<Isolux> isolux_levels(const LightScale& scale) {
  const double unit = unit_lx(scale.units);
  const double top = scale.top_lx / unit;
  std::vector<Isolux> levels;
  for (const double value : scale.is_root ? levels_of_all_sizes(top) : round_levels(top)) {
    levels.push_back({value * unit, level_text(value)});
  }
  return levels;
}

}  // namespace evenlit
