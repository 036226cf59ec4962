#include <fmt/format.h>

#include <optional>

#include "commands.hpp"
#include "evenlit/drawing/elevations.hpp"
#include "evenlit/drawing/floor_light.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/section_drawing.hpp"
#include "evenlit/field/readings_light.hpp"
#include "evenlit/field/rough_mesh.hpp"
#include "evenlit/field/section_light.hpp"
#include "evenlit/field/wall_light.hpp"
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

/// The can that a section goes through must be one of the job's.
Problems section_problems(const LightRequest& request, const Job& job) {
  if (!request.through || *request.through <= std::ssize(job.cans)) return {};
  return {{whole_file(request.job.string()), fmt::format("--through {}: there is no such can", *request.through),
           fmt::format("the job's cans have the numbers 1 to {}, in the order in which they are written",
                       job.cans.size())}};
}

Drawing elevations_of(const Job& job, const Scene& scene, std::optional<double> top_lx) {
  TerminalProgress progress("computing the walls");
  return elevations(job, wall_light(job.room, scene, wall_grids(job, scene), progress.progress()), top_lx);
}

Drawing section_of(const Job& job, const Scene& scene, std::optional<int> through) {
  TerminalProgress progress("computing the section");
  const int can = through ? *through - 1 : middle_luminaire(scene);
  return section_drawing(job, scene,
                         section_light(scene, cross_section(scene, job.work_plane, can), progress.progress()));
}

/// The light of all receivers, and what a map is painted from.
struct Tables {
  Response figures;
  std::optional<SampledField> picture_lx;
};

/// All in one, so that light follows a finger.
Tables rough_tables(const Scene& scene, std::vector<Receiver> receivers, const std::optional<Grid>& picture) {
  const auto count = std::ssize(receivers);
  if (picture) {
    for (const Receiver& point : upward_receivers(*picture)) receivers.push_back(point);
  }
  const Response all = response(scene, receivers, rough_mesh(scene));
  Tables tables{.figures = rows_of(all, 0, count), .picture_lx = {}};
  if (picture) {
    const Response points = rows_of(all, count, std::ssize(receivers) - count);
    tables.picture_lx = sampled_field(*picture, field_at(points, levels_of(scene)).total_lx);
  }
  return tables;
}

/// A map is as accurate as the figures; the floor under a drawing shows no more than a coarse mesh tells.
Tables tables_of(const LightRequest& request, const Job& job, const Scene& scene, const Grid& grid,
                 const Readings& readings) {
  const bool is_painted = request.map || request.floor;
  const std::optional<Grid> picture =
      is_painted ? map_grid(job, scene, grid, request.is_rough ? k_rough_map_m : k_map_m) : std::nullopt;
  if (request.is_rough) return rough_tables(scene, receivers_of(grid, readings), picture);
  Tables tables{.figures = response(scene, receivers_of(grid, readings), request.accuracy,
                                    TerminalProgress("computing the light").progress()),
                .picture_lx = {}};
  if (picture) {
    const MapDetail detail = request.map ? MapDetail{request.accuracy} : coarse_mesh(scene);
    tables.picture_lx = map_field(scene, *picture, detail, TerminalProgress("computing the map").progress());
  }
  return tables;
}

int run(const LightRequest& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  for (auto& problem : output_problems(paths_of({request.map, request.floor, request.elevations, request.section,
                                                 request.json, request.csv, request.readings}),
                                       inputs))
    problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, file_warnings] = *loaded;
  if (const Problems wrong = section_problems(request, job); !wrong.empty()) return refused(inputs.text_of(wrong));
  Problems warnings = file_warnings;
  for (auto& warning : hole_warnings(job)) warnings.push_back(std::move(warning));
  const Scene scene = build_scene(job, photometry);
  const auto grid = work_plane_grid(job.room, job.work_plane, whole_file(request.job.string()), scene.boxes);
  if (!grid) return refused(inputs.text_of(grid.error()));

  auto readings = readings_of(job, scene);
  if (!readings) return refused(inputs.text_of(readings.error()));
  if (request.surfaces) add_surfaces(*readings, scene);

  Tables tables = tables_of(request, job, scene, *grid, *readings);
  const auto [light, read] = room_light(scene, *grid, job.target_lx, std::move(*readings), tables.figures);

  std::vector<OutputFile> files;
  const auto draw = [&, &title = job.room.name](const std::optional<std::filesystem::path>& path,
                                                const Drawing& drawing) {
    files.push_back(drawn(drawing, *path, title, request.width_px));
  };
  const PlanMapOptions map{.top_lx = request.top_lx, .picture_lx = std::move(tables.picture_lx)};
  if (request.map) draw(request.map, plan_map(job, scene, light, map));
  if (request.floor) files.push_back({*request.floor, png(floor_light(job, light, map, request.width_px))});
  if (request.elevations) draw(request.elevations, elevations_of(job, scene, request.top_lx));
  if (request.section) draw(request.section, section_of(job, scene, request.through));
  if (request.json) {
    const JsonReportOptions options{.per_can = request.per_can, .scale = map_scale(job, map_top_lx(job, light, map))};
    files.push_back({*request.json, json_report(job, scene, light, warnings, options, read)});
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
