#include "shown_levels.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/names.hpp"
#include "evenlit/moods/room_moods.hpp"
#include "terminal_progress.hpp"

namespace evenlit {

std::vector<double> own_levels(const Job& job) {
  std::vector<double> levels;
  for (const Can& can : job.cans) levels.push_back(can.level);
  return levels;
}

Result<std::vector<std::vector<double>>> mood_levels(const LoadedJob& loaded, const Scene& scene, const Place& place) {
  const auto& [job, photometry, warnings] = loaded;
  if (job.moods.empty()) return std::vector<std::vector<double>>{};
  const auto grid = work_plane_grid(job.room, job.work_plane, place, scene.boxes);
  if (!grid) return tl::unexpected(grid.error());
  const auto moods =
      room_moods(job, photometry, *grid, std::nullopt, TerminalProgress("computing the moods").progress());
  if (!moods) return tl::unexpected(moods.error());
  std::vector<std::vector<double>> levels;
  for (const MoodLight& each : moods->moods) levels.push_back(each.can_levels);
  return levels;
}

Result<ShownLevels> shown_levels(const LoadedJob& loaded, const Scene& scene, const std::optional<std::string>& mood,
                                 const Place& place) {
  const Job& job = loaded.job;
  if (!mood) return ShownLevels{{own_levels(job)}, 0};
  const auto found = std::ranges::find(job.moods, *mood, &Mood::name);
  if (found == job.moods.end()) {
    std::string known;
    for (const Mood& each : job.moods) known += (known.empty() ? "" : ", ") + evenlit::quoted(each.name);
    return failure(place, fmt::format("the job has no mood {}", evenlit::quoted(*mood)),
                   known.empty() ? "add it as [moods.NAME]" : "its moods are " + known);
  }
  auto levels = mood_levels(loaded, scene, place);
  if (!levels) return tl::unexpected(levels.error());
  return ShownLevels{std::move(*levels), static_cast<std::size_t>(found - job.moods.begin())};
}

}  // namespace evenlit
