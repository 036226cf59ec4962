#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/placing/comparison.hpp"
#include "evenlit/report/comparison_report.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"
#include "terminal_progress.hpp"

namespace evenlit {
namespace {

constexpr const char* k_usual_counts = "4,6,8,9,12";

constexpr const char* k_after_options = R"(
Examples:
  evenlit compare scenes/family-room.toml
      Prints the job's own layout beside even, staggered and other layouts of 4,
      6, 8, 9 and 12 cans: light, evenness, power, holes that do not fit. What
      hits something follows once more, moved to fit, with the moves.
  evenlit compare scenes/family-room.toml --counts 5,6
      The same of five and six cans.
  evenlit compare my-room.toml --csv layouts.csv --json layouts.json
      For a spreadsheet, and with every place for a program.
)";

struct CompareRequest {
  std::filesystem::path job;
  std::vector<int> counts;
  std::optional<std::filesystem::path> csv;
  std::optional<std::filesystem::path> json;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit compare", "The light of usual layouts of the job's cans, side by side.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("counts", "how many cans", text()->default_value(k_usual_counts), "N,N,...");
  add("csv", "write the table", text(), "FILE.csv");
  add("json", "write all results", text(), "FILE.json");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

std::vector<std::filesystem::path> outputs_of(const CompareRequest& request) {
  std::vector<std::filesystem::path> paths;
  for (const auto& path : {request.csv, request.json}) {
    if (path) paths.push_back(*path);
  }
  return paths;
}

int run(const CompareRequest& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  for (auto& problem : output_problems(outputs_of(request), inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, warnings] = *loaded;
  const Scene scene = build_scene(job, photometry);
  const auto grid = work_plane_grid(job.room, job.work_plane, whole_file(request.job.string()), scene.boxes);
  if (!grid) return refused(inputs.text_of(grid.error()));

  const auto [layouts, without_layout] = layouts_to_compare(job.room.corners_m, mean_ceiling_m(scene), request.counts);
  const auto comparison = compared(job, photometry, *grid, layouts, whole_file(request.job.string()),
                                   TerminalProgress("computing the light").progress());
  if (!comparison) return refused(inputs.text_of(comparison.error()));
  std::vector<OutputFile> files;
  if (request.csv) files.push_back({*request.csv, comparison_csv(*comparison)});
  if (request.json) files.push_back({*request.json, comparison_json(job, *comparison, without_layout, warnings)});
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(comparison_text(job, *comparison, without_layout, warnings));
}

}  // namespace

int compare_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  const CompareRequest request{.job = reader.single_name("job", "job file", "scenes/family-room.toml"),
                               .counts = reader.whole_numbers("counts", k_usual_counts, {1, k_most_counted}),
                               .csv = reader.text("csv"),
                               .json = reader.text("json")};
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
