#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/report/holes_report.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Examples:
  evenlit holes scenes/keeping-room.toml
      Prints each hole's gaps to joists, vents and walls, what does not fit, and
      the nearest places that do.
  evenlit holes my-room.toml --json holes.json
      The same for a program.

Joists, members, keep-outs and fans of a job file: scenes/README.md.
)";

struct HolesRequest {
  std::filesystem::path job;
  std::optional<std::filesystem::path> json;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit holes", "Whether the cans' holes and housings clear what is above the ceiling.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("json", "write all results", text(), "FILE.json");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

int run(const HolesRequest& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  const std::vector<std::filesystem::path> outputs(request.json ? 1 : 0, request.json.value_or(""));
  for (auto& problem : output_problems(outputs, inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, warnings] = *loaded;
  const HoleCheck check = hole_check(job);
  const std::vector<FanHit> fans = fan_check(job, photometry);
  if (request.json) {
    const auto written = write_all({{*request.json, holes_json(job, check, fans, warnings)}});
    if (!written) return refused(inputs.text_of(written.error()), k_cannot_write);
  }
  return shown(holes_text(job, check, fans, warnings));
}

}  // namespace

int holes_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  const HolesRequest request{.job = reader.single_name("job", "job file", "scenes/keeping-room.toml"),
                             .json = reader.text("json")};
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
