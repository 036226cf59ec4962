#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "command_line.hpp"
#include "commands.hpp"
#include "compare_jobs.hpp"
#include "compare_outputs.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/difference_map.hpp"
#include "evenlit/drawing/layout_sheet.hpp"
#include "evenlit/placing/comparison.hpp"
#include "evenlit/placing/doubts.hpp"
#include "evenlit/placing/layout_wish.hpp"
#include "evenlit/placing/plan_frame.hpp"
#include "evenlit/report/comparison_report.hpp"
#include "load_job.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"
#include "pictures.hpp"
#include "room_views.hpp"
#include "terminal_progress.hpp"

namespace evenlit {
namespace {

constexpr const char* k_usual_counts = "4,6,8,9,12";
constexpr int k_most_rows = 999;  // more than the layouts of all counts

constexpr const char* k_after_options = R"(
Examples:
  evenlit compare scenes/family-room.toml
      Prints the job's own layout beside even, staggered and other layouts of 4,
      6, 8, 9 and 12 cans: light, evenness, power, holes that do not fit. What
      hits something follows once more, moved to fit, with the moves.
  evenlit compare scenes/family-room.toml --counts 5,6
      The same of five and six cans.
  evenlit compare scenes/open-kitchen.toml --around "island countertop"
      Also cans over the island's edges; --outside 6in sets them off the edges.
  evenlit compare my-room.toml --spacing 4ft --wall-offset 24in
      Also cans no farther apart than 4 ft; what keeps off the walls keeps 2 ft.
  evenlit compare scenes/attic-bedroom.toml --about window --move-single
      Layouts centred on the window, along its wall; where whole rows and
      columns do not clear the joists, single cans move.
  evenlit compare my-room.toml --counts 4-8 --types six_inch,four_inch
      Each layout with either of two can types of the job.
  evenlit compare my-room.toml --counts 4-8 --what-if
      Also whether the light is still enough with darker finishes, aged lamps,
      cans half an inch off or one dead, and what that means for the count.
  evenlit compare my-room.toml --csv layouts.csv --json layouts.json
      For a spreadsheet, and with every place for a program.
  evenlit compare scenes/family-room.toml --counts 4,6,8 --sheet layouts.png
      The plans of all of them on one sheet, in colours that compare; with
      --views the room as it will look in each, at one exposure.
  evenlit compare my-room.toml --difference 1,4 --difference-map change.png
      Where the fourth layout of the table is brighter or darker than the first.
  evenlit compare eight-cans.toml six-and-strip.toml --sheet both.png
      Whole jobs, each with its own cans: what each takes and gives.
)";

struct CompareRequest {
  std::filesystem::path job;
  std::vector<int> counts;
  std::vector<std::string> types;
  SpacingWish spacing;
  std::optional<std::string> around;
  double outside_m = 0;
  std::optional<std::string> about;
  bool may_move_single_cans = false;
  bool asks_what_if = false;
  CompareOutputs outputs;
};

cxxopts::Options options() {
  const auto text = [] { return cxxopts::value<std::string>(); };
  cxxopts::Options all("evenlit compare",
                       "The light of usual layouts of the job's cans, or of several jobs, side by side.\n");
  all.custom_help("[options]").positional_help("JOB.toml [JOB.toml ...]").set_width(80);
  auto add = all.add_options();
  add("counts", "how many cans", text()->default_value(k_usual_counts), "N,N,...");
  add("types", "can types of the job; otherwise that of most of its cans", text(), "NAME,...");
  add("spacing", "also no farther apart than this", text(), "LENGTH");
  add("wall-offset", "of outermost rows and columns, instead of 30 in", text(), "LENGTH");
  add("around", "also round an obstruction such as an island", text(), "NAME");
  add("outside", "cans around it are so far outside of its edges", text(), "LENGTH");
  add("about", "layouts centred on an obstruction, keep-out, member or wall area", text(), "NAME");
  add("move-single", "where whole rows do not clear joists, move single cans");
  add("what-if", "also how sure it is: darker finishes, aged lamps, a dead can ...");
  add("csv", "write the table", text(), "FILE.csv");
  add("json", "write all results", text(), "FILE.json");
  add("sheet", "draw all plans side by side", text(), "FILE.png|svg");
  add("views", "with --sheet: below each plan the room as it will look");
  add("difference", "two layouts by their numbers in the table: B against A", text(), "A,B");
  add("difference-map", "draw where B is brighter or darker than A", text(), "FILE.png|svg");
  add("width", "pixels across in a PNG (as wide as it is drawn)", text(), "PIXELS");
  add("help", "show this text");
  all.add_options("hidden")("job", "", text());
  all.parse_positional({"job"});
  return all;
}

/// Two rows of the table, one against the other.
std::optional<LayoutPair> difference_of(OptionReader& reader) {
  const auto written = reader.text("difference");
  if (!written) return std::nullopt;
  std::vector<int> numbers;
  for (const std::string& name : reader.names("difference")) {
    const double number = number_from_text(name).value_or(0);
    if (number >= 1 && number <= k_most_rows && number == std::floor(number))
      numbers.push_back(static_cast<int>(number));
  }
  if (numbers.size() != 2) {
    reader.problem(fmt::format("--difference {} is not two numbers of layouts", evenlit::quoted(*written)),
                   "write the numbers that stand before two layouts in the table, like 1,4");
    return std::nullopt;
  }
  if (numbers[0] == numbers[1]) {
    reader.problem(fmt::format("--difference {} names one layout twice", evenlit::quoted(*written)),
                   "write the numbers of two layouts, like 1,4");
  }
  return LayoutPair{numbers[0] - 1, numbers[1] - 1};
}

/// Options that make layouts, of which whole jobs have none.
void refuse_layout_options(OptionReader& reader) {
  for (const std::string option :
       {"counts", "types", "spacing", "wall-offset", "around", "outside", "about", "move-single"}) {
    if (reader.has(option)) {
      reader.problem(fmt::format("--{} makes layouts, but several jobs are compared as they are", option),
                     fmt::format("leave out --{}, or name one job", option));
    }
  }
}

/// Empty: as wide as each picture is drawn.
std::optional<int> picture_width_px(OptionReader& reader) {
  if (!reader.has("width")) return std::nullopt;
  reader.needs_any("width", {"sheet", "difference-map"}, "add --sheet FILE.png");
  return width_px(reader);
}

Problem unknown_name(const std::string& option, const std::string& name, const std::string& kind,
                     const std::vector<std::string_view>& known, const Place& place) {
  std::string hint = fmt::format("this job has no {}", kind);
  if (!known.empty()) {
    hint = "write one of:";
    for (std::size_t i = 0; i < known.size(); ++i) hint += (i == 0 ? " " : ", ") + evenlit::quoted(known[i]);
  }
  return {place, fmt::format("--{} {}: the job has no {} of that name", option, evenlit::quoted(name), kind), hint};
}

/// What is asked for, with the names of the job's things looked up.
Result<LayoutWish> wish_of(const CompareRequest& request, const Job& job) {
  const Place place = whole_file(request.job.string());
  LayoutWish wish{
      .counts = request.counts, .types = request.types, .spacing = request.spacing, .outside_m = request.outside_m};
  Problems problems;
  if (request.around) {
    const auto box = std::ranges::find(job.obstructions, *request.around, &Obstruction::name);
    if (box != job.obstructions.end()) {
      wish.around_m = corners_of(job.room, *box);
    } else {
      std::vector<std::string_view> names;
      for (const Obstruction& each : job.obstructions) names.emplace_back(each.name);
      problems.push_back(unknown_name("around", *request.around, "obstruction", names, place));
    }
  }
  if (request.about) {
    wish.about = feature(job, *request.about);
    if (!wish.about) {
      problems.push_back(unknown_name("about", *request.about, "obstruction, keep-out, member or wall area",
                                      feature_names(job), place));
    }
  }
  const Polygon plan = frame_of(job.room.corners_m).in(job.room.corners_m);
  const double across_m = bounds_of(plan).sizes().minCoeff();
  if (wish.spacing.wall_offset_m && 2 * *wish.spacing.wall_offset_m >= across_m) {
    problems.push_back(
        {place, "--wall-offset leaves no room between the walls",
         fmt::format("the room is {} across: write less than half of that", length_text(across_m, job.units))});
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return wish;
}

/// The job in the layouts that a sheet has room for.
std::vector<LaidOut> laid_out(const Job& job, const std::vector<PhotometricFile>& photometry,
                              const Comparison& comparison, const Place& place) {
  std::vector<LaidOut> rooms;
  for (const ComparedLayout& row : comparison.rows) {
    if (rooms.size() == k_most_panels) break;
    rooms.push_back({job, photometry, row, place});
    rooms.back().job.cans = row.cans;
  }
  return rooms;
}

int run(const CompareRequest& request) {
  InputFiles inputs;
  const auto loaded = load_job(request.job, inputs);
  Problems problems = loaded ? unknown_types(loaded->job, request.types, request.job) : loaded.error();
  for (auto& problem : output_problems(request.outputs.paths(), inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto& [job, photometry, warnings] = *loaded;
  const Scene scene = build_scene(job, photometry);
  const auto grid = work_plane_grid(job.room, job.work_plane, whole_file(request.job.string()), scene.boxes);
  if (!grid) return refused(inputs.text_of(grid.error()));

  const auto wish = wish_of(request, job);
  if (!wish) return refused(inputs.text_of(wish.error()));
  const WishedLayouts wished = wished_layouts(job, photometry, mean_ceiling_m(scene), *wish);
  if (wished.is_none_around) {
    return refused(inputs.text_of(
        {{whole_file(request.job.string()),
          fmt::format("--around {}: no layout around it is wholly in the room", evenlit::quoted(*request.around)),
          "ask for an even count with --counts, or for less --outside"}}));
  }
  auto comparison = compared(job, photometry, *grid, wished.choice.layouts, whole_file(request.job.string()),
                             request.may_move_single_cans, TerminalProgress("computing the light").progress());
  if (!comparison) return refused(inputs.text_of(comparison.error()));
  if (const Problems unknown = request.outputs.row_problems(comparison->rows.size()); !unknown.empty())
    return refused(text_of(unknown));
  if (request.asks_what_if) {
    auto found = doubts(job, photometry, *grid, comparison->rows, whole_file(request.job.string()),
                        TerminalProgress("computing what if").progress());
    if (!found) return refused(inputs.text_of(found.error()));
    for (std::size_t i = 0; i < found->size(); ++i) comparison->rows[i].doubts = std::move((*found)[i]);
  }
  std::vector<OutputFile> files;
  const CompareOutputs& outputs = request.outputs;
  if (outputs.csv) files.push_back({*outputs.csv, comparison_csv(*comparison)});
  if (outputs.json) files.push_back({*outputs.json, comparison_json(job, *comparison, wished, warnings)});
  if (outputs.sheet) {
    std::vector<PanelView> views;
    if (outputs.with_views) {
      auto seen = layout_views(laid_out(job, photometry, *comparison, whole_file(request.job.string())),
                               TerminalProgress("computing the views").progress());
      if (!seen) return refused(inputs.text_of(seen.error()));
      views = std::move(*seen);
    }
    files.push_back(
        outputs.drawn_file(layout_sheet(job, scene.boxes, *grid, *comparison, views), *outputs.sheet, job.room.name));
  }
  if (outputs.difference_map) {
    files.push_back(outputs.drawn_file(difference_map(job, scene.boxes, *grid, *comparison, *outputs.difference),
                                       *outputs.difference_map, job.room.name));
  }
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(comparison_text(job, *comparison, wished, warnings));
}

}  // namespace

int compare_command(const std::vector<std::string>& arguments) {
  cxxopts::Options accepted = options();
  const auto line = command_line(accepted, arguments);
  if (!line) return refused(text_of(line.error()));
  if (line->count("help") > 0) return shown(accepted.help({""}) + k_after_options);
  OptionReader reader(accepted.program(), *line);
  constexpr OptionRange k_spacing_m{0.3, 30};
  constexpr OptionRange k_offset_m{0.05, 10};
  constexpr OptionRange k_outside_m{0, 10};
  reader.needs("outside", "around", "add --around NAME");
  const auto jobs = reader.all_names("job", "job file", "scenes/family-room.toml");
  if (jobs.size() > 1) refuse_layout_options(reader);
  const CompareRequest request{.job = jobs.front(),
                               .counts = reader.whole_numbers("counts", k_usual_counts, {1, k_most_counted}),
                               .types = reader.names("types"),
                               .spacing = {.widest_m = reader.length_m("spacing", k_spacing_m),
                                           .wall_offset_m = reader.length_m("wall-offset", k_offset_m)},
                               .around = reader.text("around"),
                               .outside_m = reader.length_m("outside", k_outside_m).value_or(0),
                               .about = reader.text("about"),
                               .may_move_single_cans = reader.has("move-single"),
                               .asks_what_if = reader.has("what-if"),
                               .outputs = {.csv = reader.text("csv"),
                                           .json = reader.text("json"),
                                           .sheet = picture(reader, "sheet"),
                                           .with_views = reader.has("views"),
                                           .difference = difference_of(reader),
                                           .difference_map = picture(reader, "difference-map"),
                                           .width_px = picture_width_px(reader)}};
  reader.needs("views", "sheet", "add --sheet FILE.png");
  reader.needs("difference", "difference-map", "add --difference-map FILE.png");
  reader.needs("difference-map", "difference", "add the numbers of two layouts in the table, like --difference 1,4");
  if (const Problems problems = reader.take_problems(); !problems.empty()) return refused(text_of(problems));
  return jobs.size() > 1 ? compare_jobs(jobs, request.asks_what_if, request.outputs) : run(request);
}

}  // namespace evenlit
