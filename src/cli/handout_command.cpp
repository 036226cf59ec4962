#include <algorithm>
#include <cmath>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/png.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/placing/comparison.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/placing/layout_wish.hpp"
#include "evenlit/report/handout.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"
#include "pictures.hpp"
#include "room_views.hpp"
#include "shown_levels.hpp"
#include "terminal_progress.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
The page needs no other file: mail it, open it on a phone, print it on three
sheets or so. It tells the room, the layout, the moods of a job that has some,
the map of light, what to expect, what was assumed and what to mind.

Examples:
  evenlit handout scenes/living-room.toml --html living-room.html
      With the dimmers' settings and the light of each mood.
  evenlit handout scenes/family-room.toml --html plan.html --counts 4,6,8
      Also why not four or six cans: each count in its best usual layout.
)";

struct Request {
  std::filesystem::path job;
  std::filesystem::path html;
  std::vector<int> counts;  ///< none: nothing is compared
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit handout", "The plan of light as a page for who lives in the room.\n");
  all.custom_help("--html FILE.html [options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("html", "write the page", text(), "FILE.html");
  add("counts", "also compare layouts of so many cans", text(), "N,N,...");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

/// The usual layouts of just these counts beside the job's own.
Result<Comparison> comparison_of(const LoadedJob& loaded, const Scene& scene, const Grid& grid, const Request& request,
                                 const Place& place) {
  const auto& [job, photometry, warnings] = loaded;
  std::vector<Layout> layouts =
      wished_layouts(job, photometry, mean_ceiling_m(scene), {.counts = request.counts}).choice.layouts;
  std::erase_if(layouts, [&](const Layout& layout) {
    return !std::ranges::binary_search(request.counts, static_cast<int>(layout.positions_m.size()));
  });
  return compared(job, photometry, grid, layouts, place, false, TerminalProgress("comparing layouts").progress());
}

/// The room at its cans' own levels and in its moods, at one exposure.
Result<std::monostate> add_pictures(const LoadedJob& loaded, const Place& place, Handout& handout) {
  constexpr int k_width_px = 960;
  const auto& [job, photometry, warnings] = loaded;
  const auto from = viewpoint_named(job, std::nullopt, place);
  if (!from) return tl::unexpected(from.error());
  std::vector<std::vector<double>> levels{own_levels(job)};
  if (handout.moods != nullptr) {
    for (const MoodLight& mood : handout.moods->moods) levels.push_back(mood.can_levels);
  }
  const std::vector<Image> images = displayed_together(seen_rooms(
      job, photometry, *from, wide_picture(k_width_px), levels, TerminalProgress("computing the pictures").progress()));
  handout.room_picture = room_picture(job, handout.light, png(images.front()));
  for (std::size_t i = 1; i < images.size(); ++i) {
    handout.mood_pictures.push_back(mood_picture(job, handout.moods->moods[i - 1], png(images[i])));
  }
  return std::monostate{};
}

int run(const Request& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  for (auto& problem : output_problems({request.html}, inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, file_warnings] = *loaded;
  Problems warnings = file_warnings;
  for (auto& warning : hole_warnings(job)) warnings.push_back(std::move(warning));
  const Place place = whole_file(request.job.string());
  const Scene scene = build_scene(job, photometry);
  const auto grid = work_plane_grid(job.room, job.work_plane, place, scene.boxes);
  if (!grid) return refused(inputs.text_of(grid.error()));
  auto readings = readings_of(job, scene);
  if (!readings) return refused(inputs.text_of(readings.error()));

  const RoomLight light = room_light(scene, *grid, job.target_lx, std::move(*readings), {},
                                     TerminalProgress("computing the light").progress());
  Handout handout{.job = job, .light = light, .misfits = misfits(job).size()};
  if (light.work_plane.watts && job.energy.hours) {
    handout.energy = yearly_energy(*light.work_plane.watts, *job.energy.hours, job.energy.price);
  }
  Result<RoomMoods> moods;
  if (!job.moods.empty()) {
    moods = room_moods(job, photometry, *grid, {}, TerminalProgress("computing the moods").progress());
    if (!moods) return refused(inputs.text_of(moods.error()));
    handout.moods = &*moods;
  }
  if (const auto seen = add_pictures(*loaded, place, handout); !seen) return refused(inputs.text_of(seen.error()));
  Result<Comparison> comparison;
  if (!request.counts.empty()) {
    comparison = comparison_of(*loaded, scene, *grid, request, place);
    if (!comparison) return refused(inputs.text_of(comparison.error()));
    handout.comparison = &*comparison;
  }
  PlanMapOptions options;
  if (const auto points = map_grid(job, scene, *grid)) {
    options.picture_lx = map_field(scene, *points, Accuracy{}, TerminalProgress("computing the map").progress());
  }
  const Drawing map = plan_map(job, scene, light.work_plane, options);
  handout.map_png = png(rasterise(map, static_cast<int>(std::ceil(map.width))));

  const auto written = write_all({{request.html, handout_html(handout)}});
  if (!written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(handout_text(handout, warnings));
}

}  // namespace

int handout_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  Request request{.job = reader.single_name("job", "job file", "scenes/living-room.toml"),
                  .html = reader.text("html").value_or("")};
  if (request.html.empty()) reader.problem("no page is named", "add --html FILE.html");
  if (reader.has("counts")) request.counts = reader.whole_numbers("counts", "4,6,8", {1, k_most_counted});
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
