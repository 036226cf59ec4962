#include <fmt/format.h>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/report/meter_report.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"
#include "shown_levels.hpp"
#include "terminal_progress.hpp"

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Readings are a table as a spreadsheet saves it (CSV), a line of column names
and a line a reading:

  point,wall,distance,wall,distance,height,facing,reading
  reading chair,,,,,,,31 fc              a point of the job
  corner,west,2ft,south,2ft,30in,,118 lx a place by tape, the sensor up
  ceiling,west,6ft,south,6ft,5ft,down,90 lx

Columns that are not needed may be left out, note is for remarks, lines that
begin with # and empty ones do not count. A column called reading (fc) or
height (in) gives the unit of its bare numbers. What faces down or to a wall
(facing 90: north on the plan) tells most about the finishes.

--meter is how far the meter may be off, as its papers say. DIN 5032-7 has
3 % for class L, 5 % for class A, 10 % for class B (from memory).

Examples:
  evenlit meter scenes/family-room.toml scenes/family-room-readings.csv
      Each reading against the prediction; one factor of all light, and the
      finishes, that go with the readings best; readings that do not go with
      the others, and which can to look at.
  evenlit meter my-room.toml tonight.csv --meter "5 %" --mood evening
      Read in one of the job's moods by a better meter.
  evenlit meter my-room.toml tonight.csv --json meter.json --csv compared.csv
      All results for a program or a spreadsheet.
)";

struct Request {
  std::vector<std::filesystem::path> inputs;  ///< the job, the readings
  double meter_accuracy = 0.1;
  std::optional<std::string> mood;
  std::optional<std::filesystem::path> json;
  std::optional<std::filesystem::path> csv;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit meter", "A finished room's meter readings against the prediction.\n");
  all.custom_help("[options]").positional_help("JOB.toml READINGS.csv").set_width(80);
  auto add = all.add_options();
  add("meter", "how far the meter may be off (10 %)", text(), "PERCENT");
  add("mood", "one of the job's moods; otherwise the cans' own levels", text(), "NAME");
  add("json", "write all results", text(), "FILE.json");
  add("csv", "write the compared readings", text(), "FILE.csv");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

/// At most half: a meter that may be off by more tells nothing.
double meter_accuracy(OptionReader& reader, double usual) {
  constexpr double k_most = 0.5;
  const auto written = reader.text("meter");
  if (!written) return usual;
  const auto fraction = fraction_from_text(*written);
  if (fraction && *fraction > 0 && *fraction <= k_most) return *fraction;
  reader.problem(fmt::format("--meter {} is no accuracy of a meter", evenlit::quoted(*written)),
                 R"(write it in percent, up to 50 %, like --meter "5 %")");
  return usual;
}

int run(const Request& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.inputs[0], inputs);
  const Place place = whole_file(request.inputs[0].string());
  const auto bytes = inputs.read(request.inputs[1], whole_file(request.inputs[1].string()));
  Problems problems = loaded ? Problems{} : loaded.error();
  const auto add = [&](const Problems& more) { problems.insert(problems.end(), more.begin(), more.end()); };
  if (!bytes) add(bytes.error());
  add(output_problems(paths_of({request.json, request.csv}), inputs));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, file_warnings] = *loaded;
  const auto readings = read_meter_readings(*bytes, request.inputs[1].string(), job);
  if (!readings) return refused(inputs.text_of(readings.error()));
  const auto levels = shown_levels(*loaded, build_scene(job, photometry), request.mood, place);
  if (!levels) return refused(inputs.text_of(levels.error()));

  const auto checked = meter_check(job, photometry, *readings, levels->can_levels[levels->asked],
                                   request.meter_accuracy, TerminalProgress("computing the light").progress());
  if (!checked) return refused(inputs.text_of(checked.error()));
  const MeterFacts facts{.job = job, .check = checked->value, .mood = request.mood};
  Problems warnings = file_warnings;
  warnings.insert(warnings.end(), checked->warnings.begin(), checked->warnings.end());
  std::vector<OutputFile> files;
  if (request.json) files.push_back({*request.json, meter_json(facts, warnings)});
  if (request.csv) files.push_back({*request.csv, meter_csv(facts.check)});
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(meter_text(facts, warnings));
}

}  // namespace

int meter_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  constexpr const char* k_example = "scenes/family-room.toml scenes/family-room-readings.csv";
  Request request{.inputs = reader.all_names("job", "job file", k_example),
                  .mood = reader.text("mood"),
                  .json = reader.text("json"),
                  .csv = reader.text("csv")};
  request.meter_accuracy = meter_accuracy(reader, request.meter_accuracy);
  if (reader.has("job") && request.inputs.size() != 2) {
    reader.problem("two files are needed, a job and a table of readings",
                   fmt::format("name two files, like {}; put quotes around a name that has spaces", k_example));
  }
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
