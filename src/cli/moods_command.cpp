#include <cmath>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/drawing/mood_sheet.hpp"
#include "evenlit/report/moods_report.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"
#include "pictures.hpp"
#include "room_views.hpp"
#include "terminal_progress.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Circuits, dimmers, moods, seats and screens of a job file: scenes/README.md.

Examples:
  evenlit moods scenes/living-room.toml
      Where each dimmer is set in each mood and how bright that is to a meter
      and to the eye; light on tables and walls, power, colour, glare,
      reflections; wishes solved into levels, and which of them cannot be met.
  evenlit moods scenes/living-room.toml --dimmers 3
      Also which cans to put on three dimmers for these moods.
  evenlit moods scenes/living-room.toml --sheet moods.png
      The moods side by side as maps in colours that compare.
  evenlit moods my-room.toml --json moods.json
      All results for a program.
)";

struct Request {
  std::filesystem::path job;
  std::optional<int> dimmers;
  std::optional<std::filesystem::path> json;
  std::optional<std::filesystem::path> sheet;
  bool with_views = false;
  std::optional<int> width_px;  ///< empty: as wide as the sheet is drawn
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit moods", "The room in its moods: dimmer settings, light, power, comfort.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("dimmers", "propose which cans to put on so many dimmers", text(), "N");
  add("json", "write all results", text(), "FILE.json");
  add("sheet", "draw all moods side by side", text(), "FILE.png|svg");
  add("views", "with --sheet: below each plan the room as it will look");
  add("width", "pixels across in a PNG (as wide as it is drawn)", text(), "PIXELS");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

Problems no_moods(const Job& job, const Place& place) {
  if (!job.moods.empty()) return {};
  return {{place, "the job has no moods", R"(add one like [moods.evening] with levels = { general = "40 %" })"}};
}

int run(const Request& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  const Place place = whole_file(request.job.string());
  Problems problems = loaded ? no_moods(loaded->job, place) : loaded.error();
  for (auto& problem : output_problems(paths_of({request.json, request.sheet}), inputs))
    problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, warnings] = *loaded;
  const std::vector<Box> boxes = build_scene(job, photometry).boxes;
  const auto grid = work_plane_grid(job.room, job.work_plane, place, boxes);
  if (!grid) return refused(inputs.text_of(grid.error()));
  const auto moods =
      room_moods(job, photometry, *grid, request.dimmers, TerminalProgress("computing the light").progress());
  if (!moods) return refused(inputs.text_of(moods.error()));
  std::vector<OutputFile> files;
  if (request.json) files.push_back({*request.json, moods_json(job, *moods, warnings)});
  if (request.sheet) {
    std::vector<PanelView> views;
    if (request.with_views) {
      auto seen = mood_views(job, photometry, *moods, place, TerminalProgress("computing the views").progress());
      if (!seen) return refused(inputs.text_of(seen.error()));
      views = std::move(*seen);
    }
    const Drawing sheet = mood_sheet(job, boxes, *grid, *moods, views);
    const int width_px = request.width_px.value_or(static_cast<int>(std::ceil(sheet.width)));
    files.push_back(drawn(sheet, *request.sheet, "evenlit: " + job.room.name, width_px));
  }
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(moods_text(job, *moods, warnings));
}

}  // namespace

int moods_command(const std::vector<std::string>& arguments) {
  constexpr int k_most_dimmers = 20;
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  const Request request{.job = reader.single_name("job", "job file", "scenes/living-room.toml"),
                        .dimmers = reader.whole_number("dimmers", {1, k_most_dimmers}),
                        .json = reader.text("json"),
                        .sheet = picture(reader, "sheet"),
                        .with_views = reader.has("views"),
                        .width_px = reader.has("width") ? std::optional(width_px(reader)) : std::nullopt};
  for (const std::string option : {"width", "views"}) reader.needs(option, "sheet", "add --sheet FILE.png");
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
