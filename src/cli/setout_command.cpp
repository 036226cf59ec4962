#include <fmt/format.h>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/drawing/set_out_plan.hpp"
#include "evenlit/drawing/svg.hpp"
#include "evenlit/report/set_out_report.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"
#include "pictures.hpp"
#ifndef EVENLIT_WITHOUT_PDF
#include "evenlit/base/names.hpp"
#include "evenlit/drawing/document_pages.hpp"
#include "evenlit/drawing/paper.hpp"
#include "evenlit/pdf/pdf.hpp"
#endif

namespace evenlit {
namespace {

constexpr const char* k_after_options = R"(
Examples:
  evenlit setout scenes/family-room.toml
      Where each can goes: tape readings from two walls, running dimensions of
      each row, diagonals, holes and what is beside them.
  evenlit setout my-room.toml --pdf sheet.pdf
      The same to take up the ladder: a plan to scale and tables to tick off.
      Print it at 100 %.
  evenlit setout my-room.toml --from west,south --corner southwest
      Taped from these walls; offsets from one corner too, for a string or a
      laser. A corner of other walls is named by both: --corner hall,nook.
  evenlit setout moved.toml --was planned.toml --pdf sheet.pdf
      Also which cans the earlier plan had elsewhere, and what was in their way.

Rooms out of square (sides and a diagonal) in a job file: scenes/README.md.
)";

constexpr const char* k_plan_width = "7.25in";

struct Request {
  std::filesystem::path job;
  std::optional<std::filesystem::path> was;
  SetOutWish wish;
  std::optional<std::filesystem::path> html;
  std::optional<std::filesystem::path> svg;
#ifndef EVENLIT_WITHOUT_PDF
  std::optional<std::filesystem::path> pdf;
  std::optional<Paper> paper;  ///< empty: the usual one of the job's trade
#endif
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit setout", "Where the cans go, for the crew that marks and cuts.\n");
  all.custom_help("[options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("from", "tape from these two walls (the handiest)", text(), "WALL,WALL");
  add("corner", "add offsets from this corner, for a string or a laser", text(), "CORNER");
  add("was", "the job before cans were moved: tells which, and why", text(), "OLD.toml");
  add("html", "write the sheet as a page to print", text(), "FILE.html");
  add("svg", "write the plan to scale", text(), "FILE.svg");
#ifndef EVENLIT_WITHOUT_PDF
  add("pdf", "write the sheet as PDF, to scale", text(), "FILE.pdf");
  add("paper", "of the PDF (letter; a4 in metric jobs)", text(), "letter|a4");
#endif
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

std::optional<std::array<std::string, 2>> walls(OptionReader& reader) {
  if (!reader.has("from")) return std::nullopt;
  const std::vector<std::string> names = reader.names("from");
  if (names.size() == 2 && names[0] != names[1]) return std::array{names[0], names[1]};
  reader.problem("--from does not name two walls", "write it like --from west,south");
  return std::nullopt;
}

std::vector<std::filesystem::path> output_paths(const Request& request) {
  std::vector<std::optional<std::filesystem::path>> asked{request.html, request.svg};
#ifndef EVENLIT_WITHOUT_PDF
  asked.push_back(request.pdf);
#endif
  return paths_of(asked);
}

#ifndef EVENLIT_WITHOUT_PDF
std::optional<Paper> paper(OptionReader& reader) {
  const auto written = reader.text("paper");
  if (!written) return std::nullopt;
  if (*written == "letter") return Paper::letter;
  if (*written != "a4") reader.problem("--paper " + evenlit::quoted(*written) + " is unknown", "write letter or a4");
  return Paper::a4;
}
#endif

Result<std::vector<OutputFile>> sheets(const Request& request, const Job& job, const SetOut& set_out,
                                       const Document& document) {
  const Drawing plan = set_out_plan(job, set_out);
  std::vector<OutputFile> files;
  if (request.html) {
    files.push_back({*request.html, document_html(document, svg(plan, document.title), k_plan_width)});
  }
  if (request.svg) files.push_back({*request.svg, svg(plan, document.title, k_plan_width)});
#ifndef EVENLIT_WITHOUT_PDF
  if (request.pdf) {
    const Paper usual = job.units == Units::metric ? Paper::a4 : Paper::letter;
    auto bytes =
        pdf(document_pages(document, plan), k_paper_units_per_in, request.paper.value_or(usual), document.title);
    if (!bytes) return tl::unexpected(bytes.error());
    files.push_back({*request.pdf, std::move(*bytes)});
  }
#endif
  return files;
}

/// The cans that an earlier job of the same room had elsewhere.
Result<std::vector<MovedCan>> moved_from(const std::filesystem::path& path, const Job& job, InputFiles& inputs) {
  const auto before = load_job(path, inputs);
  if (!before) return tl::unexpected(before.error());
  const Place place = whole_file(path.string());
  if (before->job.room != job.room) {
    return failure(place, "the earlier job has another room", "name a job of the same [room] after --was");
  }
  if (before->job.cans.size() != job.cans.size()) {
    return failure(place, fmt::format("the earlier job has {} cans, not {}", before->job.cans.size(), job.cans.size()),
                   "cans are told apart by their order: name a job with as many after --was");
  }
  return moved_cans(before->job, job);
}

int run(const Request& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  for (auto& problem : output_problems(output_paths(request), inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const Job& job = loaded->job;
  const auto found = set_out(job, request.wish, whole_file("evenlit setout"));
  if (!found) return refused(text_of(found.error()));
  std::vector<MovedCan> moved;
  if (request.was) {
    auto cans = moved_from(*request.was, job, inputs);
    if (!cans) return refused(inputs.text_of(cans.error()));
    moved = std::move(*cans);
  }
  const Document document = set_out_document(job, *found, moved);
  const auto files = sheets(request, job, *found, document);
  if (!files) return refused(text_of(files.error()), k_cannot_write);
  if (const auto written = write_all(*files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(document_text(document));
}

}  // namespace

int setout_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  Request request{.job = reader.single_name("job", "job file", "scenes/family-room.toml"),
                  .was = reader.text("was"),
                  .wish = {walls(reader), reader.text("corner")},
                  .html = reader.text("html"),
                  .svg = reader.text("svg")};
#ifndef EVENLIT_WITHOUT_PDF
  request.pdf = file_ending_in(reader, "pdf", ".pdf", "PDF");
  request.paper = paper(reader);
  reader.needs("paper", "pdf", "add --pdf FILE.pdf");
#endif
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
