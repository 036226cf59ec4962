#pragma once

#include <span>

#include "evenlit/moods/levels.hpp"
#include "evenlit/moods/room_moods.hpp"
#include "evenlit/room/readings.hpp"

namespace evenlit {

/// A room's response table with what moods read of it.
struct MoodTable {
  Scene scene;  ///< of the job, with its levels
  Readings readings;
  Response response;         ///< of the grid's receivers, then the readings'
  int seats_first = 0;       ///< of the readings' points: two a seat, what it looks at and what its eyes get
  Eigen::MatrixXd areas_lx;  ///< averages of the work plane and then of each task area, in rows, of each can at full
                             ///< light, in columns
};

/// @errors those of `readings_of`
Result<MoodTable> mood_table(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                             const Progress& progress);

/// Cans on a circuit: indices into the job's.
std::vector<int> dimmed_cans(const Job& job);

/// The wishes of a mood over the rows of `MoodTable::areas_lx`.
std::vector<LevelWish> level_wishes(const Job& job, const Wishes& wishes);

/// The job's dimmed cans, each on whatever dimmer, and those of its moods that state wishes. Where `only` is not null
/// that mood, the cans with what controls them: those of circuits that it has off give nothing, those of switches all
/// or nothing.
GroupingProblem grouping_problem(const Job& job, const MoodTable& table, const Mood* only = nullptr);

/// The circuits' levels, by circuit, that come nearest to wishes.
std::vector<double> wished_levels(const Job& job, const MoodTable& table, const Wishes& wishes);

}  // namespace evenlit
