#include "evenlit/placing/compared_job.hpp"

#include <algorithm>

#include "evenlit/placing/plan_frame.hpp"

namespace evenlit {
namespace {

/// The types of the cans, each once, in their order.
std::string types_text(const std::vector<Can>& cans) {
  std::vector<std::string> types;
  for (const Can& can : cans) {
    if (std::ranges::find(types, can.type) == types.end()) types.push_back(can.type);
  }
  std::string text;
  for (const std::string& type : types) text += (text.empty() ? "" : "+") + type;
  return text;
}

/// All cans of a job, in its order.
Layout whole_layout(const std::string& name, const Job& job) {
  Layout layout{.name = name, .type = types_text(job.cans), .along = frame_of(job.room.corners_m).along};
  for (const Can& can : job.cans) layout.positions_m.push_back(plan_position(job.room, can).value());
  layout.wall_offset_m = wall_offset_m(job.room.corners_m, layout.along, layout.positions_m);
  return layout;
}

}  // namespace

Result<ComparedJob> compared_job(const std::string& name, const Job& job,
                                 const std::vector<PhotometricFile>& photometry, const Place& place,
                                 const Progress& progress) {
  ComparedJob result{.job = job, .boxes = build_scene(job, photometry).boxes, .grid = {}, .row = {}};
  auto grid = work_plane_grid(job.room, job.work_plane, place, result.boxes);
  if (!grid) return tl::unexpected(grid.error());
  auto comparison = compared(job, photometry, *grid, {}, place, false, progress);
  if (!comparison) return tl::unexpected(comparison.error());
  result.grid = std::move(*grid);
  result.row = std::move(comparison->rows.front());
  result.row.layout = whole_layout(name, job);
  return result;
}

Comparison comparison_of(const std::vector<ComparedJob>& jobs) {
  Comparison comparison;
  for (const ComparedJob& each : jobs) comparison.rows.push_back(each.row);
  return comparison;
}

}  // namespace evenlit
