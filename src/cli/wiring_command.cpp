#include <cmath>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/drawing/wiring_sheet.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/report/take_off_report.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"
#include "pictures.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
[wiring] of a job file: scenes/README.md.

Examples:
  evenlit wiring scenes/living-room.toml
      Each cable from box to box, holes through joists, what the boxes hold,
      load and voltage, what to buy, and the work in order.
  evenlit wiring my-room.toml --sheet cables.png --csv list.csv
      Also the plan with the cables, and the list for a spreadsheet.
  evenlit wiring before.toml after.toml
      Two jobs side by side: cable, pieces, hours, cost.
)";

struct Request {
  std::vector<std::filesystem::path> jobs;
  std::optional<std::filesystem::path> csv;
  std::optional<std::filesystem::path> json;
  std::optional<std::filesystem::path> sheet;
  std::optional<int> width_px;  ///< empty: as wide as the sheet is drawn
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit wiring",
                       "Cable, boxes and small parts for the cans, what to buy, the work in order.\n");
  all.custom_help("[options]").positional_help("JOB.toml [JOB2.toml]").set_width(80);
  auto add = all.add_options();
  add("csv", "write what to buy", text(), "FILE.csv");
  add("json", "write all results", text(), "FILE.json");
  add("sheet", "draw the plan with its cables", text(), "FILE.png|svg");
  add("width", "pixels across in a PNG (as wide as it is drawn)", text(), "PIXELS");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

/// The jobs with their cables and scenes, or what is wrong with them.
struct Wired {
  std::vector<WiredJob> jobs;
  std::vector<Scene> scenes;
  Problems warnings;
  Problems problems;
};

Wired wired_jobs(const std::vector<std::filesystem::path>& paths, InputFiles& inputs) {
  Wired wired;
  for (const auto& path : paths) {
    const auto loaded = load_job(path, inputs);
    if (!loaded) {
      wired.problems.insert(wired.problems.end(), loaded.error().begin(), loaded.error().end());
      continue;
    }
    if (!loaded->job.wiring) {
      wired.problems.push_back({whole_file(path.string()), "the job has no [wiring]",
                                "add a table [wiring] and [[wiring.switches]]: scenes/README.md"});
      continue;
    }
    wired.scenes.push_back(build_scene(loaded->job, loaded->photometry));
    wired.jobs.push_back(wired_job(path.stem().string(), loaded->job, wired.scenes.back()));
    wired.warnings.insert(wired.warnings.end(), loaded->warnings.begin(), loaded->warnings.end());
    const Problems holes = hole_warnings(loaded->job);
    wired.warnings.insert(wired.warnings.end(), holes.begin(), holes.end());
  }
  return wired;
}

int run(const Request& request) {
  InputFiles inputs;
  const Wired wired = wired_jobs(request.jobs, inputs);
  Problems problems = wired.problems;
  for (auto& problem : output_problems(paths_of({request.csv, request.json, request.sheet}), inputs)) {
    problems.push_back(std::move(problem));
  }
  if (!problems.empty()) return refused(inputs.text_of(problems));
  std::vector<OutputFile> files;
  if (request.csv) files.push_back({*request.csv, take_offs_csv(wired.jobs)});
  if (request.json) files.push_back({*request.json, take_offs_json(wired.jobs, wired.warnings)});
  if (request.sheet) {
    const Drawing sheet = wiring_sheet(wired.jobs.front(), wired.scenes.front());
    const int width_px = request.width_px.value_or(static_cast<int>(std::ceil(sheet.width)));
    files.push_back(drawn(sheet, *request.sheet, "evenlit: " + wired.jobs.front().job.room.name, width_px));
  }
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(wired.jobs.size() == 1 ? take_off_text(wired.jobs.front(), wired.warnings)
                                      : take_offs_text(wired.jobs, wired.warnings));
}

}  // namespace

int wiring_command(const std::vector<std::string>& arguments) {
  constexpr std::size_t k_most_jobs = 2;
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  const Request request{.jobs = reader.all_names("job", "job file", "scenes/living-room.toml"),
                        .csv = reader.text("csv"),
                        .json = reader.text("json"),
                        .sheet = picture(reader, "sheet"),
                        .width_px = reader.has("width") ? std::optional(width_px(reader)) : std::nullopt};
  reader.needs("width", "sheet", "add --sheet FILE.png");
  if (request.jobs.size() > k_most_jobs) reader.problem("more than two job files", "name one or two");
  if (request.sheet && request.jobs.size() > 1) reader.problem("--sheet draws one job", "name one job file");
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
