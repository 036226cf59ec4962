#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/report/job_page.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"

namespace evenlit {
namespace {

constexpr const char* k_blank = ".build/page/evenlit.html";

constexpr const char* k_after_options = R"(
The page is one HTML file with all of evenlit, the job and its photometric
files. It opens from a disk, a mail or a stick, on a phone too, and neither asks
for nor sends anything. scripts/page makes the blank page.

Examples:
  evenlit page scenes/living-room.toml --html living-room.html
      The room to walk through, to dim, to move cans in, to hand over.
  evenlit page my-room.toml --html my-room.html --blank evenlit.html
      The same with the blank page in another place.
)";

struct Request {
  std::filesystem::path job;
  std::filesystem::path html;
  std::filesystem::path blank;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit page", "A page with the job, to work on in a browser without a network.\n");
  all.custom_help("--html FILE.html [options]").positional_help("JOB.toml").set_width(80);
  auto add = all.add_options();
  add("html", "write the page", text(), "FILE.html");
  add("blank", "the blank page", text()->default_value(k_blank), "FILE.html");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

/// What was read of the files that the job's can types name.
Result<std::vector<NamedFile>> named_files(const Job& job, const std::filesystem::path& folder, InputFiles& inputs) {
  std::vector<NamedFile> files;
  for (const CanType& type : job.can_types) {
    if (type.file.empty()) continue;
    const auto bytes = inputs.read(folder / type.file, type.origin.place);
    if (!bytes) return tl::unexpected(bytes.error());
    files.push_back({type.file, *bytes});
  }
  return files;
}

int run(const Request& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  const Place blank_place = whole_file(request.blank.string());
  const auto blank = inputs.read(request.blank, blank_place);
  if (!blank) problems.insert(problems.end(), blank.error().begin(), blank.error().end());
  for (auto& problem : output_problems({request.html}, inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));

  const auto files = named_files(loaded->job, request.job.parent_path(), inputs);
  if (!files) return refused(inputs.text_of(files.error()));
  const auto text = inputs.read(request.job, whole_file(request.job.string()));
  auto page = job_page(*blank, request.job.filename().string(), *text, *files, blank_place);
  if (!page) return refused(evenlit::text_of(page.error()));
  if (const auto written = write_all({{request.html, std::move(*page)}}); !written)
    return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown("");
}

}  // namespace

int page_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  const Request request{.job = reader.single_name("job", "job file", "scenes/living-room.toml"),
                        .html = reader.text("html").value_or(""),
                        .blank = reader.text("blank").value_or(k_blank)};
  if (request.html.empty()) reader.problem("no page is named", "add --html FILE.html");
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return run(request);
}

}  // namespace evenlit
