#include "command_line.hpp"
#include "commands.hpp"
#include "load_photometry.hpp"
#include "photometry_outputs.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Examples:
  evenlit photometry photometry/six-inch-medium.ies
      Prints lumens, angles, cone of light, zones, luminances, utilization.
  evenlit photometry can.ies --polar can.png --linear can.svg
      Draws the polar and the linear candela diagram.
  evenlit photometry can.ies --floor spot.png --height "8ft 6in"
      Draws the light of one can on the floor below it.
  evenlit photometry can.ldt --write can.ies
      Converts EULUMDAT to LM-63 (or back: --write can.ldt).
  evenlit photometry can.ies --lumens 800 --write can-800.ies
      The same optic with other lumens, the change recorded in the file.
  evenlit photometry can.ies --strict
      Refuses a file that has anything to put right.

A file is LM-63 or EULUMDAT by its content, whatever its name says.
)";

struct PhotometryRequest {
  std::filesystem::path file;
  PhotometricReading reading;
  std::optional<double> lumens;
  PhotometryOutputs outputs;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit photometry", "What a photometric file says of its luminaire.\n");
  all.custom_help("[options]").positional_help("FILE").set_width(80);
  auto add = all.add_options();
  add("lumens", "scale the light to these lumens", text(), "LUMENS");
  add("lamp-set", "EULUMDAT: which lamp set counts, from 1", text(), "NUMBER");
  add("turn", "turn the luminaire by 90, 180 or 270 degrees, counter-clockwise seen from above", text(), "DEGREES");
  add("strict", "take every warning for an error");
  add_output_options(add);
  add("help", "show this text");
  all.add_options("hidden")("file", "", text());
  all.parse_positional({"file"});
  return all;
}

PhotometryRequest read_request(OptionReader& reader) {
  PhotometryRequest request;
  request.file = reader.single_name("file", "photometric file", "photometry/six-inch-medium.ies");
  request.lumens = reader.number("lumens", {1, 1e7});
  request.reading.lamp_set = reader.whole_number("lamp-set", {1, 20}).value_or(1);
  request.reading.strict = reader.has("strict");
  const int turn_deg = reader.whole_number("turn", {0, 270}).value_or(0);
  if (turn_deg % 90 != 0) reader.problem("--turn is not a quarter turn", "write 90, 180 or 270");
  request.reading.quarters = turn_deg / 90;
  request.outputs = read_outputs(reader);
  return request;
}

int run(const PhotometryRequest& request) {
  InputFiles inputs;
  const std::string name = request.file.string();
  auto file = load_photometry(request.file, whole_file(name), request.reading, inputs);
  if (!file) return refused(inputs.text_of(file.error()));
  if (request.lumens) {
    if (lumens(file->value.distribution) * tilt_factor(file->value, 0) <= 0) {
      return refused(inputs.text_of({{whole_file(name), "there is no light to be scaled", ""}}));
    }
    file->value = rescaled(std::move(file->value), *request.lumens);
  }
  return present_luminaire(file->value, request.file.filename().string(), std::move(file->warnings), request.outputs,
                           inputs);
}

}  // namespace

int photometry_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  const PhotometryRequest request = read_request(reader);
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
