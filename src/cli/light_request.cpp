#include "light_request.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "command_line.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/rasterise.hpp"

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

How to write a job file: scenes/README.md.
)";

struct Dependent {
  const char* option;
  const char* needed;
  const char* hint;
};

/// Options that change another option's file, and would be ignored in silence without it.
constexpr std::array<Dependent, 3> k_dependents{{
    {"per-can", "json", "add --json FILE.json"},
    {"top", "map", "add --map FILE.png"},
    {"width", "map", "add --map FILE.png"},
}};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit light", "The light on a room's work plane: statistics, map, grid.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("map", "write a false-colour plan", text(), "FILE.png");
  add("csv", "write the grid of points", text(), "FILE.csv");
  add("json", "write all results", text(), "FILE.json");
  add("per-can", "with --json: each can's light on each point");
  add("top", "with --map: end of the colour scale, like \"40 fc\"", text(), "LIGHT");
  add("width", "with --map: pixels across", text()->default_value("1200"), "PIXELS");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

Problem mistake(std::string what, std::string hint) {
  return {whole_file("evenlit light"), std::move(what), std::move(hint)};
}

std::optional<std::string> value_of(const cxxopts::ParseResult& line, const std::string& option) {
  if (line.count(option) == 0) return std::nullopt;
  return line[option].as<std::string>();
}

std::string job_name(const cxxopts::ParseResult& line, Problems& problems) {
  std::string name = value_of(line, "job").value_or("");
  if (name.empty()) problems.push_back(mistake("no job file is named", "name one, like scenes/family-room.toml"));
  if (!line.unmatched().empty()) {
    problems.push_back(mistake(evenlit::quoted(line.unmatched().front()) + " is one name too many",
                               "name one job file; put quotes around a name that has spaces"));
  }
  return name;
}

std::optional<double> top_lx(const cxxopts::ParseResult& line, Problems& problems) {
  const auto text = value_of(line, "top");
  if (!text) return std::nullopt;
  const auto lux = lux_from_text(*text);
  if (!lux) {
    problems.push_back(mistake("--top " + lux.error().what, lux.error().hint));
  } else if (*lux <= 0) {
    problems.push_back(mistake("--top " + evenlit::quoted(*text) + " is not above 0", "write it like \"40 fc\""));
  }
  return lux ? std::optional(*lux) : std::nullopt;
}

int width_px(const cxxopts::ParseResult& line, Problems& problems) {
  constexpr int k_narrowest_px = 300;
  const auto& text = line["width"].as<std::string>();
  const double width = number_from_text(text).value_or(0);
  if (width >= k_narrowest_px && width <= k_widest_image_px && width == std::floor(width)) {
    return static_cast<int>(width);
  }
  problems.push_back(mistake("--width " + evenlit::quoted(text) + " is not a width in pixels",
                             fmt::format("write a whole number from {} to {}", k_narrowest_px, k_widest_image_px)));
  return 0;
}

}  // namespace

Result<LightRequest> light_request(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return tl::unexpected(line.error());
  if (line->count("help") > 0) return LightRequest{.help = true};

  Problems problems;
  LightRequest request{.job = job_name(*line, problems),
                       .map = value_of(*line, "map"),
                       .json = value_of(*line, "json"),
                       .csv = value_of(*line, "csv"),
                       .top_lx = top_lx(*line, problems),
                       .width_px = width_px(*line, problems),
                       .per_can = line->count("per-can") > 0};
  for (const auto& [option, needed, hint] : k_dependents) {
    if (line->count(option) > 0 && line->count(needed) == 0) {
      problems.push_back(mistake(fmt::format("--{} does nothing without --{}", option, needed), hint));
    }
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return request;
}

std::string light_help() { return options().help({""}) + k_after_options; }

}  // namespace evenlit
