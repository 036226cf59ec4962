#include "light_request.hpp"

#include "command_line.hpp"
#include "option_reader.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Examples:
  evenlit light scenes/family-room.toml
      Prints average, minimum, uniformity, power and a plain verdict.
  evenlit light scenes/family-room.toml --map room.png
      Draws the plan with false colours and isolux lines as well.
  evenlit light four-cans.toml --map four.png --top "40 fc"
  evenlit light six-cans.toml  --map six.png  --top "40 fc"
      Two maps on one colour scale, to be laid side by side.
  evenlit light scenes/family-room.toml --csv grid.csv --json all.json --per-can
      Every grid point for a spreadsheet; all results, by can, for a program.
  evenlit light scenes/open-kitchen.toml --surfaces --readings readings.csv
      Task areas and points of the job, and every surface, also as a table.

How to write a job file: scenes/README.md.
)";

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit light", "The light on a room's work plane: statistics, map, grid.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("map", "write a false-colour plan", text(), "FILE.png");
  add("csv", "write the grid of points", text(), "FILE.csv");
  add("readings", "write task areas, points, surfaces", text(), "FILE.csv");
  add("json", "write all results", text(), "FILE.json");
  add("per-can", "with --json: each can's light on each point");
  add("surfaces", "report the light on floor, ceiling, walls, boxes too");
  add("fine", "aim at 0.1 % instead of 0.5 %, takes longer");
  add("top", "with --map: end of the colour scale, like \"40 fc\"", text(), "LIGHT");
  add_width_option(add, "with --map: pixels across");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

}  // namespace

Result<LightRequest> light_request(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return tl::unexpected(line.error());
  if (line->count("help") > 0) return LightRequest{.help = true};

  OptionReader reader(accepted.program(), *line);
  LightRequest request{.job = reader.single_name("job", "job file", "scenes/family-room.toml"),
                       .map = reader.text("map"),
                       .json = reader.text("json"),
                       .csv = reader.text("csv"),
                       .readings = reader.text("readings"),
                       .top_lx = reader.illuminance_lx("top"),
                       .width_px = width_px(reader),
                       .per_can = reader.has("per-can"),
                       .surfaces = reader.has("surfaces"),
                       .accuracy = reader.has("fine") ? k_fine : Accuracy{}};
  reader.needs("per-can", "json", "add --json FILE.json");
  reader.needs("top", "map", "add --map FILE.png");
  reader.needs("width", "map", "add --map FILE.png");
  if (Problems problems = reader.take_problems(); !problems.empty()) return tl::unexpected(std::move(problems));
  return request;
}

std::string light_help() { return options().help({""}) + k_after_options; }

}  // namespace evenlit
