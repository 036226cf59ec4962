#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/job/changed_text.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
CHANGES.json lists changes, made one after the other. A path is keys and numbers
from 0 on; lengths and light are written as in the job file:
  [
    {"set": ["finishes", "walls"], "value": "LRV 60"},
    {"remove": ["cans", 2]},
    {"add": ["cans"], "value": {"type": "six_inch",
                                "from": {"west": "4ft", "south": "3ft"}}},
    {"move": ["cans", 0], "to_m": [1.25, 2.5]},
    {"cans": [{"type": "six_inch", "x_m": 1.25, "y_m": 2.5}]}
  ]
set also adds what is not there; move and cans take metres on the plan, east and
north, and write what a tape reads; cans puts these in the place of all.

Examples:
  evenlit change my-room.toml changes.json --write new-room.toml
      Comments, order and units of all else stay as they are, byte for byte.
  evenlit change my-room.toml changes.json
      Tells what would be done, and whether the job is still one.

Nothing is written unless every change can be made and the job can be read.
)";

struct Request {
  std::filesystem::path job;
  std::filesystem::path changes;
  std::optional<std::filesystem::path> write;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit change", "Changes a job file and keeps all the rest of its text.\n");
  all.custom_help("[options]").positional_help("JOB.toml CHANGES.json").set_width(80);
  auto add = all.add_options();
  add("write", "write the changed job", text(), "OUT.toml");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

/// The job file and the file of changes.
Request request_of(OptionReader& reader) {
  const auto names = reader.all_names("job", "job file", "scenes/family-room.toml");
  if (names.size() < 2) reader.problem("no file of changes is named", "name it behind the job file, like changes.json");
  if (names.size() > 2) {
    reader.problem(evenlit::quoted(names[2].string()) + " is one name too many",
                   "name a job file and a file of changes; put quotes around a name that has spaces");
  }
  return {.job = names.front(), .changes = names.size() > 1 ? names[1] : "", .write = reader.text("write")};
}

/// The problems, those of the changed text with its lines, which are in no file yet.
std::string text_of_refusal(const RefusedChanges& refusal, const std::string& changed_name, const InputFiles& inputs) {
  std::string text;
  for (const Problem& problem : refusal.problems) {
    text += problem.place.file == changed_name ? text_of(problem, refusal.changed) : inputs.text_of({problem});
  }
  return text;
}

int run(const Request& request) {
  InputFiles inputs;
  const auto job = inputs.read(request.job, whole_file(request.job.string()));
  const auto changes = inputs.read(request.changes, whole_file(request.changes.string()));
  Problems problems = job ? Problems{} : job.error();
  if (!changes) problems.insert(problems.end(), changes.error().begin(), changes.error().end());
  for (auto& problem : output_problems(paths_of({request.write}), inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const std::string job_name = request.job.string();
  const std::string changes_name = request.changes.string();
  const auto changed = changed_text({*job, job_name}, {*changes, changes_name});
  if (!changed) return refused(text_of_refusal(changed.error(), name_of_changed(job_name), inputs));
  if (request.write) {
    const auto written = write_all({{*request.write, changed->bytes}});
    if (!written) return refused(inputs.text_of(written.error()), k_cannot_write);
  }
  std::string lines;
  for (const std::string& done : changed->done) lines += done + "\n";
  return shown(lines.empty() ? "no changes\n" : lines);
}

}  // namespace

int change_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  const Request request = request_of(reader);
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
