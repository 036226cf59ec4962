#include <fmt/format.h>

#include <cstdlib>

#include "benches.hpp"
#include "evenlit/job/read_job.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "evenlit/placing/comparison.hpp"
#include "evenlit/placing/free_search.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

/// 16 ft by 20 ft, and what is above its ceiling.
Job room_with(const std::string& above) {
  auto job = read_job(
      "target = \"20 fc\"\n[room]\nwidth = \"16ft\"\ndepth = \"20ft\"\nceiling = \"8ft\"\n" + above +
          "[can_types.six]\nbeam = { lumens = 900, angle = 60 }\nhole = \"6-3/8in\"\nrating = \"IC\"\n[[cans]]\ntype = "
          "\"six\"\nfrom = { west = \"8ft\", south = \"10ft\" }\n",
      "bench");
  if (!job) std::exit(1);
  return *job;
}

std::vector<std::string> row_of(const std::string& name, const Job& job, const Limits& limits) {
  const PhotometricFile file = synthetic_file(*job.can_types.front().beam).value();
  const Grid grid = work_plane_grid(job.room, job.work_plane, {}).value();
  const std::vector<int> counts{4, 5, 6, 7, 8};
  std::optional<Candidates> places;
  const Cost columns = least_cost([&] { places = candidates(job, {file}, grid, "six").value(); });
  RegularLayouts regular;
  const Cost looked = least_cost([&] { regular = regular_layouts(job, *places, counts); });
  const double per_s = static_cast<double>(regular.looked_at) / looked.wall_s;
  // A layout of two rows adds up two rows and what stays: 12 bytes a point.
  constexpr double k_bytes_a_point = 12;
  const double from_memory_per_s = limits.read_bytes_per_s / (k_bytes_a_point * places->points);
  // What it would be to solve the room for each layout.
  Layout layout;
  if (regular.best.front().brightest) layout = regular.best.front().brightest->layout;
  const Cost solved = least_cost([&] {
    const Scene scene = build_scene(with_layout(job, layout), {file});
    static_cast<void>(field_at(response(scene, upward_receivers(grid)), levels_of(scene)));
  });
  const Cost free = least_cost([&] { static_cast<void>(free_layout(job, *places, 8, std::nullopt)); });
  return {name,
          std::to_string(places->raster.places_m.size()),
          std::to_string(places->points),
          fmt::format("{:.2f}", columns.wall_s),
          fmt::format("{:.2f}", 1e-6 * static_cast<double>(regular.looked_at)),
          fmt::format("{:.2f}", 1e-6 * per_s),
          fmt::format("{:.1f} x", per_s / from_memory_per_s),
          fmt::format("{:.0f} x", per_s * solved.wall_s),
          fmt::format("{:.2f}", free.wall_s)};
}

}  // namespace

void search_bench(const Limits& limits) {
  print_table(
      "Search of 16 x 20 ft for 4 to 8 cans, all threads: light of all places of a 2 in raster; regular layouts looked "
      "at;\nagainst reading their rows from memory, against solving the room for each; a free search for 8 cans, one "
      "thread",
      {{"", "places", "points", "s", "million layouts", "million/s", "of memory", "of solving", "free, s"},
       row_of("joists 16 in apart",
              room_with("[joists]\nparallel_to = \"west\"\nfirst = \"8in\"\nspacing = \"16in\"\n"), limits),
       row_of("no joists known", room_with(""), limits)});
}

}  // namespace evenlit::bench
