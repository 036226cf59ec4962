#include <optional>

#include "commands.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/png.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/field/readings_light.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/report/csv_grid.hpp"
#include "evenlit/report/csv_readings.hpp"
#include "evenlit/report/json_report.hpp"
#include "evenlit/report/terminal_report.hpp"
#include "light_request.hpp"
#include "load_job.hpp"
#include "output_files.hpp"
#include "pictures.hpp"
#include "terminal_progress.hpp"

namespace evenlit {
namespace {

int run(const LightRequest& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  for (auto& problem : output_problems(paths_of({request.map, request.json, request.csv, request.readings}), inputs))
    problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, file_warnings] = *loaded;
  Problems warnings = file_warnings;
  for (auto& warning : hole_warnings(job)) warnings.push_back(std::move(warning));
  const Scene scene = build_scene(job, photometry);
  const auto grid = work_plane_grid(job.room, job.work_plane, whole_file(request.job.string()), scene.boxes);
  if (!grid) return refused(inputs.text_of(grid.error()));

  auto readings = readings_of(job, scene);
  if (!readings) return refused(inputs.text_of(readings.error()));
  if (request.surfaces) add_surfaces(*readings, scene);

  const auto [light, read] = room_light(scene, *grid, job.target_lx, std::move(*readings), request.accuracy,
                                        TerminalProgress("computing the light").progress());

  std::vector<OutputFile> files;
  if (request.map) {
    auto picture_lx = map_field(job, scene, *grid, TerminalProgress("computing the map").progress());
    const Drawing map = plan_map(job, scene, light, {.top_lx = request.top_lx, .picture_lx = std::move(picture_lx)});
    files.push_back({*request.map, png(rasterise(map, request.width_px))});
  }
  if (request.json) {
    files.push_back({*request.json, json_report(job, scene, light, warnings, {.per_can = request.per_can}, read)});
  }
  if (request.csv) files.push_back({*request.csv, csv_grid(light)});
  if (request.readings) files.push_back({*request.readings, csv_readings(read)});
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(terminal_report(job, light, warnings, read));
}

}  // namespace

int light_command(const std::vector<std::string>& arguments) {
  const auto request = light_request(arguments);
  if (!request) return refused(text_of(request.error()));
  return request->help ? shown(light_help()) : run(*request);
}

}  // namespace evenlit
