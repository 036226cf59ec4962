#include "compare_jobs.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "command_line.hpp"
#include "commands.hpp"
#include "evenlit/drawing/layout_sheet.hpp"
#include "evenlit/placing/compared_job.hpp"
#include "evenlit/placing/doubts.hpp"
#include "evenlit/report/comparison_report.hpp"
#include "load_job.hpp"
#include "room_views.hpp"
#include "terminal_progress.hpp"

namespace evenlit {
namespace {

/// Jobs that are read, or all that is wrong with them.
Result<std::vector<LoadedJob>> loaded_jobs(const std::vector<std::filesystem::path>& paths, InputFiles& inputs) {
  std::vector<LoadedJob> all;
  Problems problems;
  for (const auto& path : paths) {
    auto loaded = load_job(path, inputs);
    if (loaded) {
      all.push_back(std::move(*loaded));
    } else {
      problems.insert(problems.end(), loaded.error().begin(), loaded.error().end());
    }
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return all;
}

Result<ComparedJob> lit_job(const std::filesystem::path& path, const LoadedJob& loaded, bool asks_what_if,
                            const Progress& progress) {
  const Place place = whole_file(path.string());
  const auto& [job, photometry, warnings] = loaded;
  auto lit = compared_job(path.stem().string(), job, photometry, place, part_of(progress, 0, asks_what_if ? 0.2 : 1));
  if (!lit || !asks_what_if) return lit;
  auto found = doubts(job, photometry, lit->grid, {lit->row}, place, part_of(progress, 0.2, 1));
  if (!found) return tl::unexpected(found.error());
  lit->row.doubts = std::move(found->front());
  return lit;
}

Result<std::vector<ComparedJob>> lit_jobs(const std::vector<std::filesystem::path>& paths,
                                          const std::vector<LoadedJob>& loaded, bool asks_what_if) {
  TerminalProgress terminal("computing the light");
  std::vector<ComparedJob> all;
  const auto count = static_cast<double>(paths.size());
  for (std::size_t i = 0; i < paths.size(); ++i) {
    const auto done = static_cast<double>(i);
    auto lit =
        lit_job(paths[i], loaded[i], asks_what_if, part_of(terminal.progress(), done / count, (done + 1) / count));
    if (!lit) return tl::unexpected(lit.error());
    all.push_back(std::move(*lit));
  }
  return all;
}

/// What one against the other needs: the same points.
Problems difference_problems(const std::vector<ComparedJob>& jobs, const CompareOutputs& outputs) {
  if (Problems problems = outputs.row_problems(jobs.size()); !problems.empty() || !outputs.difference) return problems;
  const auto& [before, after] = *outputs.difference;
  const ComparedJob& a = jobs[static_cast<std::size_t>(before)];
  const ComparedJob& b = jobs[static_cast<std::size_t>(after)];
  if (a.grid == b.grid && a.job.room.corners_m == b.job.room.corners_m) return {};
  return {{whole_file("evenlit compare"),
           fmt::format("--difference {},{}: the two jobs do not count light at the same points", before + 1, after + 1),
           "give both the same room, the same [work_plane] and the same obstructions at its height"}};
}

/// As many jobs as a sheet has room for.
std::vector<LaidOut> laid_out(const std::vector<std::filesystem::path>& paths, const std::vector<LoadedJob>& loaded,
                              const std::vector<ComparedJob>& jobs) {
  std::vector<LaidOut> rooms;
  for (std::size_t i = 0; i < std::min<std::size_t>(jobs.size(), k_most_panels); ++i) {
    rooms.push_back({jobs[i].job, loaded[i].photometry, jobs[i].row, whole_file(paths[i].string())});
  }
  return rooms;
}

}  // namespace

int compare_jobs(const std::vector<std::filesystem::path>& paths, bool asks_what_if, const CompareOutputs& outputs) {
  InputFiles inputs;
  const auto loaded = loaded_jobs(paths, inputs);
  Problems problems = loaded ? Problems{} : loaded.error();
  for (auto& problem : output_problems(outputs.paths(), inputs)) problems.push_back(std::move(problem));
  if (!problems.empty()) return refused(inputs.text_of(problems));
  const auto jobs = lit_jobs(paths, *loaded, asks_what_if);
  if (!jobs) return refused(inputs.text_of(jobs.error()));
  if (const Problems unlike = difference_problems(*jobs, outputs); !unlike.empty()) return refused(text_of(unlike));

  Problems warnings;
  for (const LoadedJob& each : *loaded) warnings.insert(warnings.end(), each.warnings.begin(), each.warnings.end());
  std::vector<OutputFile> files;
  if (outputs.csv) files.push_back({*outputs.csv, comparison_csv(comparison_of(*jobs))});
  if (outputs.json) files.push_back({*outputs.json, jobs_json(*jobs, warnings)});
  if (outputs.sheet) {
    std::vector<PanelView> views;
    if (outputs.with_views) {
      auto seen = layout_views(laid_out(paths, *loaded, *jobs), TerminalProgress("computing the views").progress());
      if (!seen) return refused(inputs.text_of(seen.error()));
      views = std::move(*seen);
    }
    files.push_back(outputs.drawn_file(layout_sheet(*jobs, views), *outputs.sheet, "jobs"));
  }
  if (outputs.difference) {
    const ComparedJob& before = (*jobs)[static_cast<std::size_t>(outputs.difference->before)];
    files.push_back(
        outputs.drawn_file(difference_map(*jobs, *outputs.difference), *outputs.difference_map, before.job.room.name));
  }
  if (const auto written = write_all(files); !written) return refused(inputs.text_of(written.error()), k_cannot_write);
  return shown(jobs_text(*jobs, warnings));
}

}  // namespace evenlit
