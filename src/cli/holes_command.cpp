#include <fmt/format.h>

#include <algorithm>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/base/length.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/job/changed_text.hpp"
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
  evenlit holes my-room.toml --can 3 --near "16ft 2in,4ft"
      Where can 3 may go near that point of the plan, which is counted from the
      plan's origin to the east and north: in line with others where it fits,
      else to the nearest place that is clear.
  evenlit holes my-room.toml --can 3 --near "16ft 2in,4ft" --write moved.toml
      Also writes the job with can 3 put there; nothing where it fits nowhere.
  evenlit holes my-room.toml --json holes.json
      The same for a program.

Joists, members, keep-outs and fans of a job file: scenes/README.md.
)";

struct HolesRequest {
  std::filesystem::path job;
  std::optional<int> can;  ///< the number of the can to be placed
  std::optional<Eigen::Vector2d> near_m;
  std::optional<std::filesystem::path> json;
  std::optional<std::filesystem::path> write;  ///< the job with the can where it may go
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit holes", "Whether the cans' holes and housings clear what is above the ceiling.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("can", "with --near: number of a can to be placed", text(), "N");
  add("near", "with --can: where it is wished, like \"9ft,4ft 6in\"", text(), "X,Y");
  add("json", "write all results", text(), "FILE.json");
  add("write", "with --near: write the job with the can put there", text(), "OUT.toml");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

/// A point of the plan; empty where it is not given or wrong.
std::optional<Eigen::Vector2d> plan_point_m(OptionReader& reader, const std::string& option) {
  constexpr double k_farthest_m = 1e4;
  if (!reader.has(option)) return std::nullopt;
  Eigen::Vector2d point_m;
  const std::vector<std::string> parts = reader.names(option);
  const auto refuse = [&](const std::string& hint) {
    reader.problem("--" + option + " " + evenlit::quoted(*reader.text(option)) + " is no point of the plan", hint);
    return std::nullopt;
  };
  if (parts.size() != 2) return refuse("write two lengths with a comma between, like \"9ft,4ft 6in\"");
  for (int axis = 0; axis < 2; ++axis) {
    const auto length_m = metres_from_text(parts[static_cast<std::size_t>(axis)]);
    if (!length_m) return refuse(length_m.error().what + ": " + length_m.error().hint);
    point_m[axis] = std::clamp(*length_m, -k_farthest_m, k_farthest_m);
  }
  return point_m;
}

/// The can to be placed must be one of the job's.
Problems can_problems(const HolesRequest& request, const Job& job) {
  if (!request.can || *request.can <= std::ssize(job.cans)) return {};
  return {{whole_file(request.job.string()), fmt::format("--can {}: there is no such can", *request.can),
           fmt::format("the job's cans have the numbers 1 to {}, in the order in which they are written",
                       job.cans.size())}};
}

/// What is written and shown.
struct Reports {
  std::string text;
  std::string json;
  std::optional<std::string> moved;  ///< the job with the can put where it may go
};

/// The text of a job with a can somewhere else.
Result<std::string> moved_job(const std::filesystem::path& path, InputFiles& inputs, int can,
                              const Eigen::Vector2d& to_m) {
  const auto text = inputs.read(path, whole_file(path.string()));
  if (!text) return tl::unexpected(text.error());
  const std::string changes = fmt::format(R"([{{"move": ["cans", {}], "to_m": [{}, {}]}}])", can, to_m.x(), to_m.y());
  auto changed = changed_text({*text, path.string()}, {changes, "the move"});
  if (!changed) return tl::unexpected(std::move(changed.error().problems));
  return std::move(changed->bytes);
}

Result<Reports> reports_of_can(const HolesRequest& request, const LoadedJob& loaded, InputFiles& inputs) {
  const int can = *request.can - 1;
  const PlacedCan placed = placed_can(loaded.job, can, *request.near_m);
  Reports reports{
      place_text(loaded.job, can, placed, loaded.warnings), place_json(loaded.job, can, placed, loaded.warnings), {}};
  if (!request.write || !placed.place_m) return reports;
  auto moved = moved_job(request.job, inputs, can, *placed.place_m);
  if (!moved) return tl::unexpected(std::move(moved.error()));
  reports.moved = std::move(*moved);
  return reports;
}

Reports reports_of_all(const LoadedJob& loaded) {
  const HoleCheck check = hole_check(loaded.job);
  const std::vector<FanHit> fans = fan_check(loaded.job, loaded.photometry);
  return {
      holes_text(loaded.job, check, fans, loaded.warnings), holes_json(loaded.job, check, fans, loaded.warnings), {}};
}

int run(const HolesRequest& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  for (auto& problem : output_problems(paths_of({request.json, request.write}), inputs)) {
    problems.push_back(std::move(problem));
  }
  if (!problems.empty()) return refused(inputs.text_of(problems));
  if (const Problems wrong = can_problems(request, loaded->job); !wrong.empty()) return refused(inputs.text_of(wrong));
  const auto reports = request.near_m ? reports_of_can(request, *loaded, inputs) : reports_of_all(*loaded);
  if (!reports) return refused(inputs.text_of(reports.error()));
  std::vector<OutputFile> files;
  if (request.json) files.push_back({*request.json, reports->json});
  if (reports->moved) files.push_back({*request.write, *reports->moved});
  const auto written = write_all(files);
  if (!written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(reports->text);
}

}  // namespace

int holes_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  constexpr OptionRange k_can_numbers{1, 500};  // of the largest job
  OptionReader reader(accepted.program(), *line);
  const HolesRequest request{.job = reader.single_name("job", "job file", "scenes/keeping-room.toml"),
                             .can = reader.whole_number("can", k_can_numbers),
                             .near_m = plan_point_m(reader, "near"),
                             .json = reader.text("json"),
                             .write = reader.text("write")};
  reader.needs("can", "near", "add --near \"9ft,4ft 6in\"");
  reader.needs("near", "can", "add --can N");
  reader.needs("write", "near", "add --can N --near \"9ft,4ft 6in\"");
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
