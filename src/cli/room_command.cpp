#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/report/room_report.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Examples:
  evenlit room scenes/living-room.toml
      What the job file says: size, finishes, cans by type and circuit, what is
      above the ceiling and in the room. No light is computed.
  evenlit room my-room.toml --json room.json
      Where everything is on the plan, for a program that draws it.

How to write a job file: scenes/README.md.
)";

struct RoomRequest {
  std::filesystem::path job;
  std::optional<std::filesystem::path> json;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit room", "A job as it stands: what is where, before any light is computed.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("json", "write everything, resolved and measured", text(), "FILE.json");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

int run(const RoomRequest& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  for (auto& problem : output_problems(paths_of({request.json}), inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, warnings] = *loaded;
  const std::vector<CanHits> holes = hole_hits(job);
  const RoomFacts facts{job, photometry, holes};
  if (request.json) {
    const auto written = write_all({{*request.json, room_json(facts, warnings)}});
    if (!written) return refused(inputs.text_of(written.error()), k_cannot_write);
  }
  return shown(room_text(facts, warnings));
}

}  // namespace

int room_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  const RoomRequest request{.job = reader.single_name("job", "job file", "scenes/living-room.toml"),
                            .json = reader.text("json")};
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
