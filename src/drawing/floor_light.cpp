#include "evenlit/drawing/floor_light.hpp"

#include <Eigen/Geometry>
#include <algorithm>

#include "evenlit/drawing/rasterise.hpp"
#include "light_scale.hpp"
#include "plan_view.hpp"
#include "room_plan.hpp"

namespace evenlit {

double map_top_lx(const Job& job, const WorkPlaneLight& light, const PlanMapOptions& options) {
  if (options.top_lx) return *options.top_lx;
  double maximum_lx = light.statistics.maximum_lx;
  if (options.picture_lx) maximum_lx = std::max(maximum_lx, *std::ranges::max_element(options.picture_lx->values));
  return automatic_top_lx(maximum_lx, job.units);
}

std::vector<ScaleColour> map_scale(const Job& job, double top_lx) {
  std::vector<ScaleColour> colours;
  for (const double value : tick_values({.units = job.units, .top_lx = top_lx}, job.units)) {
    const double lx = value * unit_lx(job.units);
    colours.push_back({lx, colour_map(lx / top_lx)});
  }
  return colours;
}

MaskedImage floor_light(const Job& job, const WorkPlaneLight& light, const PlanMapOptions& options, int width_px) {
  const Eigen::AlignedBox2d box = bounds_of(job.room.corners_m);
  const Eigen::Vector2d size = box.sizes();
  const PlanView view{1, {-box.min().x(), box.max().y()}};
  const SampledField points_m = options.picture_lx.value_or(sampled_field(light.grid, light.field.total_lx));
  const Polyline all{{0, 0}, {size.x(), 0}, {size.x(), size.y()}, {0, size.y()}};
  Drawing colours{size.x(), size.y(), {}, {}};
  colours.items.emplace_back(
      FalseColour{.field = view.at(close_field(points_m)), .top = map_top_lx(job, light, options), .clip = {all}});
  Drawing mask{size.x(), size.y(), {0, 0, 0}, {}};
  mask.items.emplace_back(Fill{{view.at(job.room.corners_m)}, k_white});
  MaskedImage floor{rasterise(colours, width_px), {}};
  for (const Rgb& pixel : rasterise(mask, width_px).pixels) floor.opacity.push_back(pixel.red);
  return floor;
}

}  // namespace evenlit
