#include <fmt/format.h>

#include <algorithm>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/job/write_job.hpp"
#include "evenlit/placing/doubts.hpp"
#include "evenlit/report/search_report.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"
#include "stop_request.hpp"
#include "terminal_progress.hpp"

namespace evenlit {
namespace {

constexpr const char* k_usual_counts = "4-8";

constexpr const char* k_after_options = R"(
What is wanted is the job's target, the targets of its task areas and its table
[wanted]; prices stand in its can types: scenes/README.md. Ctrl-C ends the
search with the best so far.

Examples:
  evenlit search scenes/family-room.toml
      Looks at all even rows and columns of 4 to 8 cans whose holes clear the
      joists, and tells which is the cheapest that gives what is wanted, and why
      cheaper ones do not.
  evenlit search my-room.toml --counts 3-6,8 --types six_inch,four_inch
      The same with either of two can types of the job.
  evenlit search my-room.toml --what-if
      Also whether each is still enough with darker finishes, aged lamps, cans
      half an inch off or one dead.
  evenlit search my-room.toml --write best.toml
      Writes the job with the cans of the one marked *; with --take 5 those of
      number 5 in the table.
)";

struct Request {
  std::filesystem::path job;
  std::vector<int> counts;
  std::vector<std::string> types;
  bool asks_what_if = false;
  std::optional<std::filesystem::path> json;
  std::optional<std::filesystem::path> new_job;
  std::optional<int> take;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit search", "The best layouts of the job's cans, of all that fit.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("counts", "how many cans", text()->default_value(k_usual_counts), "N-N,N,...");
  add("types", "can types of the job; otherwise that of most of its cans", text(), "NAME,...");
  add("what-if", "also how sure it is: darker finishes, aged lamps, a dead can ...");
  add("json", "write all results", text(), "FILE.json");
  add("write", "write the job with the layout marked *", text(), "FILE.toml");
  add("take", "with --write: the layout of this number", text(), "N");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

/// The job as it is written elsewhere: the photometric files' names lead from there to where they are.
std::string job_bytes(Job job, const Request& request) {
  const auto from = std::filesystem::absolute(*request.new_job).parent_path();
  const auto beside = std::filesystem::absolute(request.job).parent_path();
  for (CanType& type : job.can_types) {
    if (!type.file.empty()) type.file = (beside / type.file).lexically_proximate(from).string();
  }
  return write_job(job);
}

/// The layout that is to be written: an index, or why there is none.
tl::expected<std::size_t, Problem> taken(const Request& request, const SearchResult& result) {
  const Place place = whole_file("evenlit search");
  if (request.take) {
    if (*request.take <= std::ssize(result.layouts)) return static_cast<std::size_t>(*request.take - 1);
    return tl::unexpected(Problem{place, fmt::format("there is no layout {}", *request.take),
                                  fmt::format("the search has {} layouts", result.layouts.size())});
  }
  if (result.cheapest) return *result.cheapest;
  return tl::unexpected(Problem{place, "nothing is written: no layout found gives all that is wanted",
                                "choose one from the table with --take"});
}

int run(const Request& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? unknown_types(loaded->job, request.types, request.job) : loaded.error();
  for (auto& problem : output_problems(paths_of({request.json, request.new_job}), inputs))
    problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, warnings] = *loaded;
  const Place place = whole_file(request.job.string());
  const auto grid = work_plane_grid(job.room, job.work_plane, place, build_scene(job, photometry).boxes);
  if (!grid) return refused(inputs.text_of(grid.error()));

  auto result = [&, &job = job, &photometry = photometry] {
    const StopRequest stop;
    return search(job, photometry, *grid, {request.types, request.counts}, place, StopRequest::is_made,
                  TerminalProgress("searching").progress());
  }();
  if (!result) return refused(inputs.text_of(result.error()));
  if (request.asks_what_if) {
    std::vector<ComparedLayout> rows;
    for (const SearchedLayout& layout : result->layouts) rows.push_back(layout.figures);
    auto found = doubts(job, photometry, *grid, rows, place, TerminalProgress("computing what if").progress());
    if (!found) return refused(inputs.text_of(found.error()));
    for (std::size_t i = 0; i < found->size(); ++i) result->layouts[i].figures.doubts = std::move((*found)[i]);
  }
  std::vector<OutputFile> files;
  if (request.json) files.push_back({*request.json, search_json(job, *result, warnings)});
  if (request.new_job) {
    const auto index = taken(request, *result);
    if (!index) {
      shown(search_text(job, *result, warnings));
      return refused(text_of(index.error()));
    }
    files.push_back({*request.new_job, job_bytes(with_layout(job, result->layouts[*index].figures.layout), request)});
  }
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(search_text(job, *result, warnings));
}

}  // namespace

int search_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  const Request request{.job = reader.single_name("job", "job file", "scenes/family-room.toml"),
                        .counts = reader.whole_numbers("counts", k_usual_counts, {1, k_most_counted}),
                        .types = reader.names("types"),
                        .asks_what_if = reader.has("what-if"),
                        .json = reader.text("json"),
                        .new_job = reader.text("write"),
                        .take = reader.whole_number("take", {1, 10'000})};
  reader.needs("take", "write", "it names the layout that is written");
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
