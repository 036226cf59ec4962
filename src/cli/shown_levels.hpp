#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/room/scene.hpp"
#include "load_job.hpp"

namespace evenlit {

/// The job's cans as they are dimmed.
std::vector<double> own_levels(const Job& job);

/// The levels of the cans in each of the job's moods, in its order.
///
/// @param scene of the job
/// @param place of the job, for messages
/// @errors those of `room_moods`
Result<std::vector<std::vector<double>>> mood_levels(const LoadedJob& loaded, const Scene& scene, const Place& place);

/// Levels of the cans, one list of them asked for.
struct ShownLevels {
  std::vector<std::vector<double>> can_levels;
  std::size_t asked = 0;
};

/// The cans' own levels, or those of all moods where one is asked for.
///
/// @param scene of the job
/// @param place of the job, for messages
/// @errors a mood that the job does not have; those of `mood_levels`
Result<ShownLevels> shown_levels(const LoadedJob& loaded, const Scene& scene, const std::optional<std::string>& mood,
                                 const Place& place);

}  // namespace evenlit
