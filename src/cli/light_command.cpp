#include <cstdio>

#include "commands.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/png.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/report/csv_grid.hpp"
#include "evenlit/report/json_report.hpp"
#include "evenlit/report/terminal_report.hpp"
#include "light_request.hpp"
#include "load_job.hpp"
#include "output_files.hpp"

namespace evenlit {
namespace {

std::vector<std::filesystem::path> outputs_of(const LightRequest& request) {
  std::vector<std::filesystem::path> paths;
  for (const auto& path : {request.map, request.json, request.csv}) {
    if (path) paths.push_back(*path);
  }
  return paths;
}

int refused(const std::string& text, ExitStatus status = k_bad_input) {
  std::fputs(text.c_str(), stderr);
  return status;
}

int run(const LightRequest& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  for (auto& problem : output_problems(outputs_of(request), inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, warnings] = *loaded;
  const auto grid = work_plane_grid(job.room, job.work_plane, whole_file(request.job.string()));
  if (!grid) return refused(inputs.text_of(grid.error()));

  const Scene scene = build_scene(job, photometry);
  const WorkPlaneLight light = work_plane_light(scene, *grid, job.target_lx);

  std::vector<OutputFile> files;
  if (request.map) {
    const Drawing map = plan_map(job, scene, light, {.top_lx = request.top_lx});
    files.push_back({*request.map, png(rasterise(map, request.width_px))});
  }
  if (request.json) {
    files.push_back({*request.json, json_report(job, scene, light, warnings, {.per_can = request.per_can})});
  }
  if (request.csv) files.push_back({*request.csv, csv_grid(light)});
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  std::fputs(terminal_report(job, light, warnings).c_str(), stdout);
  return k_done;
}

}  // namespace

int light_command(const std::vector<std::string>& arguments) {
  const auto request = light_request(arguments);
  if (!request) return refused(text_of(request.error()));
  if (!request->help) return run(*request);
  std::fputs(light_help().c_str(), stdout);
  return k_done;
}

}  // namespace evenlit
