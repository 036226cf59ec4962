#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "photometry_outputs.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Examples:
  evenlit beam --lumens 900 --angle 60 --write can.ies
      A smooth beam as an LM-63 file, for want of the maker's own.
  evenlit beam --lumens 900 --angle 60 --field 95
      A beam that is down to a tenth of its peak at 95 degrees.
  evenlit beam --lumens 1200 --angle 100 --peak 30 --centre 60 --polar wide.png
      A batwing: peak 30 degrees off the axis, 60 % of it straight down.
  evenlit beam --lumens 650 --angle 40 --cut-off 50 --floor spot.png
      No light beyond 50 degrees from straight down.
)";

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit beam", "A round beam from its lumens and angles, by formula.\n");
  all.custom_help("[options]").set_width(80);
  auto add = all.add_options();
  add("lumens", "all light of the beam", text(), "LUMENS");
  add("angle", "beam angle: between the directions of half the peak", text(), "DEGREES");
  add("field", "field angle: the same of a tenth", text(), "DEGREES");
  add("cut-off", "no light beyond, from straight down (90)", text(), "DEGREES");
  add("peak", "batwing: the peak's angle from straight down", text(), "DEGREES");
  add("centre", "batwing: light straight down, of the peak's", text(), "PERCENT");
  add_output_options(add);
  add("help", "show this text");
  return all;
}

SyntheticBeam read_beam(OptionReader& reader) {
  for (const auto& [option, example] : {std::pair{"lumens", "--lumens 900"}, {"angle", "--angle 60"}}) {
    if (!reader.has(option)) reader.problem(std::string("--") + option + " is missing", std::string("add ") + example);
  }
  reader.needs("peak", "centre", "add --centre 60");
  reader.needs("centre", "peak", "add --peak 30");
  SyntheticBeam beam;
  beam.lumens = reader.number("lumens", {1, 1e7}).value_or(0);
  beam.beam_angle_deg = reader.number("angle", {5, 150}).value_or(0);
  beam.field_angle_deg = reader.number("field", {5, 360});
  beam.cut_off_deg = reader.number("cut-off", {5, 180}).value_or(90);
  const auto peak_deg = reader.number("peak", {1, 75});
  const auto centre_percent = reader.number("centre", {0, 100});
  if (centre_percent && *centre_percent > 0 && *centre_percent < 1) {
    reader.problem("--centre is less than 1 percent", "write --centre 60 for 60 percent");
  }
  if (peak_deg && centre_percent) beam.batwing = Batwing{*peak_deg, *centre_percent / 100};
  return beam;
}

}  // namespace

int beam_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  if (!line->unmatched().empty()) reader.problem("it takes options only", "put -- before each option's name");
  const SyntheticBeam beam = read_beam(reader);
  const PhotometryOutputs outputs = read_outputs(reader);
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  const auto file = synthetic_file(beam, whole_file(accepted.program()));
  if (!file) return refused(text_of(file.error()));
  return present_luminaire(*file, "Synthetic beam", {}, outputs, InputFiles{});
}

}  // namespace evenlit
