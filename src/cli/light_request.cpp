#include "light_request.hpp"

#include "command_line.hpp"
#include "option_reader.hpp"
#include "pictures.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Examples:
  evenlit light scenes/family-room.toml
      Prints average, minimum, uniformity, power and a plain verdict.
  evenlit light scenes/family-room.toml --map room.png
      Draws the plan with false colours and isolux lines as well.
  evenlit light scenes/family-room.toml --elevations walls.png
      The light on the walls, seen from inside: scallops, dark corners.
  evenlit light scenes/family-room.toml --section beam.svg --through 6
      A cut through can 6: its beam, its row, the light along it.
  evenlit light four-cans.toml --map four.png --top "40 fc"
  evenlit light six-cans.toml  --map six.png  --top "40 fc"
      Two maps on one colour scale, to be laid side by side.
  evenlit light scenes/family-room.toml --csv grid.csv --json all.json --per-can
      Every grid point for a spreadsheet; all results, by can, for a program.
  evenlit light my-room.toml --quick --floor floor.png --json all.json
      Only the light on the floor plan, in the map's colours, for a program that
      draws the plan over it; the JSON has the colours' scale.
  evenlit light scenes/open-kitchen.toml --surfaces --readings readings.csv
      Task areas and points of the job, and every surface, also as a table.

How to write a job file: scenes/README.md.
)";

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit light", "The light on a room's work plane: statistics, map, grid.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("map", "draw the plan in false colours", text(), "FILE.png|svg");
  add("floor", "only the light, to be laid under a plan", text(), "FILE.png");
  add("elevations", "draw the light on the walls", text(), "FILE.png|svg");
  add("section", "draw a section through a can", text(), "FILE.png|svg");
  add("through", "with --section: number of the can (the middle one)", text(), "N");
  add("csv", "write the grid of points", text(), "FILE.csv");
  add("readings", "write task areas, points, surfaces", text(), "FILE.csv");
  add("json", "write all results", text(), "FILE.json");
  add("per-can", "with --json: each can's light on each point");
  add("surfaces", "report the light on floor, ceiling, walls, boxes too");
  add("fine", "aim at 0.1 % instead of 0.5 %, takes longer");
  add("quick", "a rough look, mostly within 2 %, for a first idea");
  add("top", "of map, elevations: end of the colour scale, like \"40 fc\"", text(), "LIGHT");
  add_width_option(add, "pixels across in a PNG");
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

  constexpr OptionRange k_can_numbers{1, 500};  // of the largest job
  constexpr int k_narrowest_floor_px = 50;      // has no words
  OptionReader reader(accepted.program(), *line);
  const bool has_words = reader.has("map") || reader.has("elevations") || reader.has("section");
  LightRequest request{.job = reader.single_name("job", "job file", "scenes/family-room.toml"),
                       .map = picture(reader, "map"),
                       .floor = file_ending_in(reader, "floor", ".png", "PNG"),
                       .elevations = picture(reader, "elevations"),
                       .section = picture(reader, "section"),
                       .json = reader.text("json"),
                       .csv = reader.text("csv"),
                       .readings = reader.text("readings"),
                       .top_lx = reader.illuminance_lx("top"),
                       .through = reader.whole_number("through", k_can_numbers),
                       .width_px = width_px(reader, has_words ? k_narrowest_px : k_narrowest_floor_px),
                       .per_can = reader.has("per-can"),
                       .surfaces = reader.has("surfaces"),
                       .accuracy = reader.has("fine") ? k_fine : Accuracy{},
                       .is_rough = reader.has("quick")};
  reader.needs("per-can", "json", "add --json FILE.json");
  reader.needs("through", "section", "add --section FILE.png");
  reader.needs_any("top", {"map", "floor", "elevations"}, "add --map FILE.png");
  reader.needs_any("width", {"map", "floor", "elevations", "section"}, "add --map FILE.png");
  if (reader.has("fine") && reader.has("quick")) {
    reader.problem("--fine and --quick contradict each other", "leave one of them out");
  }
  if (Problems problems = reader.take_problems(); !problems.empty()) return tl::unexpected(std::move(problems));
  return request;
}

std::string light_help() { return options().help({""}) + k_after_options; }

}  // namespace evenlit
