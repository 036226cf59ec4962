#include "photometry_outputs.hpp"

#include <fmt/format.h>

#include "commands.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/drawing/floor_sketch.hpp"
#include "evenlit/drawing/intensity_diagrams.hpp"
#include "evenlit/photometry/photometric_summary.hpp"
#include "evenlit/report/photometric_json.hpp"
#include "evenlit/report/photometric_report.hpp"
#include "output_files.hpp"
#include "pictures.hpp"

namespace evenlit {
namespace {

constexpr double k_usual_height_m = 8 * k_metres_per_foot;

PhotometricFormat format_of(OptionReader& reader, const std::optional<std::filesystem::path>& file) {
  const auto written = reader.text("format");
  if (!written && file) {
    const std::string extension = extension_of(*file);
    if (extension == ".ldt") return PhotometricFormat::eulumdat;
    if (extension != ".ies") {
      reader.problem(fmt::format("--write {} does not tell the format", file->string()),
                     "end the name in .ies or .ldt, or add --format LM-63-2002");
    }
  }
  if (!written) return PhotometricFormat::lm63_2002;
  for (const auto format : {PhotometricFormat::lm63_2002, PhotometricFormat::lm63_2019, PhotometricFormat::eulumdat}) {
    if (*written == name_of(format)) return format;
  }
  reader.problem("--format " + *written + " is not known", "write LM-63-2002, LM-63-2019 or EULUMDAT");
  return PhotometricFormat::lm63_2002;
}

}  // namespace

void add_output_options(cxxopts::OptionAdder& add) {
  const auto text = [] { return cxxopts::value<std::string>(); };
  add("json", "write all figures and the table", text(), "FILE.json");
  add("polar", "draw the intensity by direction", text(), "FILE.png|svg");
  add("linear", "draw the intensity over the angle", text(), "FILE.png|svg");
  add("floor", "draw the light on the floor", text(), "FILE.png|svg");
  add("height", "with --floor: height above it (8ft)", text(), "LENGTH");
  add("metric", "with --floor: metres and lux first");
  add_width_option(add, "pixels across in a PNG");
  add("write", "write a photometric file", text(), "FILE");
  add("format", "with --write: LM-63-2002, LM-63-2019 or EULUMDAT (as FILE ends)", text(), "FORMAT");
}

PhotometryOutputs read_outputs(OptionReader& reader) {
  PhotometryOutputs outputs;
  outputs.json = reader.text("json");
  outputs.polar = picture(reader, "polar");
  outputs.linear = picture(reader, "linear");
  outputs.floor = picture(reader, "floor");
  outputs.file = reader.text("write");
  outputs.format = format_of(reader, outputs.file);
  outputs.height_m = reader.length_m("height", {0.2, 30}).value_or(k_usual_height_m);
  outputs.units = reader.has("metric") ? Units::metric : Units::imperial;
  outputs.width_px = width_px(reader);
  reader.needs("height", "floor", "add --floor FILE.png");
  reader.needs("metric", "floor", "add --floor FILE.png");
  reader.needs("format", "write", "add --write FILE");
  return outputs;
}

int present_luminaire(const PhotometricFile& luminaire, const std::string& name, Problems warnings,
                      const PhotometryOutputs& outputs, const InputFiles& inputs) {
  if (const Problems problems =
          output_problems(paths_of({outputs.json, outputs.polar, outputs.linear, outputs.floor, outputs.file}), inputs);
      !problems.empty()) {
    return refused(inputs.text_of(problems));
  }
  const PhotometricSummary summary = photometric_summary(luminaire);
  std::vector<OutputFile> files;
  if (outputs.file) {
    auto made = photometric_bytes(luminaire, outputs.format);
    files.push_back({*outputs.file, std::move(made.value)});
    for (Problem& problem : made.warnings) {
      problem.place.file = outputs.file->string();
      warnings.push_back(std::move(problem));
    }
  }
  const DiagramText text{name, fmt::format("{} lm", rounded_text(summary.lumens))};
  const auto draw = [&](const std::optional<std::filesystem::path>& path, const auto& drawing) {
    if (path) files.push_back(drawn(drawing(), *path, name, outputs.width_px));
  };
  const IntensityDistribution aimed_down = scaled(luminaire.distribution, summary.tilt_factor);
  draw(outputs.polar, [&] { return polar_diagram(aimed_down, text); });
  draw(outputs.linear, [&] { return linear_diagram(aimed_down, text); });
  draw(outputs.floor,
       [&] { return floor_sketch(aimed_down, {.text = text, .height_m = outputs.height_m, .units = outputs.units}); });
  if (outputs.json) files.push_back({*outputs.json, photometric_json(luminaire, summary, warnings, name)});
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(photometric_report(luminaire, summary, warnings, name));
}

}  // namespace evenlit
