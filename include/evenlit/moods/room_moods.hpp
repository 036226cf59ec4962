#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/progress.hpp"
#include "evenlit/base/result.hpp"
#include "evenlit/field/readings_light.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/moods/colour.hpp"
#include "evenlit/moods/comfort_glare.hpp"
#include "evenlit/moods/comfort_ratios.hpp"
#include "evenlit/moods/grouping.hpp"
#include "evenlit/moods/power.hpp"
#include "evenlit/moods/reflections.hpp"

namespace evenlit {

/// What a wish of a mood has.
struct WishLight {
  std::string area;   ///< empty: the work plane
  std::string other;  ///< of a ratio; empty: the work plane
  LevelWish::Kind kind = LevelWish::Kind::about;
  double value = 0;  ///< what is wished: lx, or a ratio
  WishResult result;
};

/// Luminaires mirrored in a screen.
struct ScreenImages {
  std::string screen;
  std::vector<MirrorImage> images;  ///< of which light comes
};

/// A mood as the eyes at a seat meet it.
struct SeatView {
  std::string seat;
  Estimate seen_cd_m2;                      ///< luminance of what they look at
  std::string surface;                      ///< that they look at
  std::optional<LuminanceBalance> balance;  ///< of that against its surface's average, and against walls and ceiling
  Glare glare;
  std::vector<ScreenImages> screens;  ///< that mirror a luminaire
};

/// The room in one mood.
struct MoodLight {
  std::string name;
  std::vector<double> settings;       ///< of each circuit's dimmer, 0...1
  std::vector<double> circuit_light;  ///< of each circuit, average over its cans, 0...1
  std::vector<double> can_levels;     ///< of each can, 0...1
  RoomLight light;
  std::optional<double> watts;         ///< empty where a can that is on has none
  std::optional<YearlyEnergy> energy;  ///< empty where hours or watts are not known
  std::optional<MixedLight> colour;  ///< of all cans together; empty in the dark, or where a can's colour is not known
  std::vector<WishLight> wishes;
  std::optional<Split> split;  ///< of the circuits' cans (see `RoomMoods::dimmed`) that would serve its wishes
                               ///< better
  std::vector<SeatView> seats;
};

/// A room in all of its moods.
struct RoomMoods {
  std::vector<MoodLight> moods;
  std::vector<int> dimmed;  ///< cans on a circuit: indices into the job's; what a `Split` or a `Grouping` counts
  std::vector<DimmerLoad> loads;
  std::optional<BranchLoad> branch;
  std::optional<Grouping> proposed;  ///< of the dimmed cans, where it was asked for
};

/// The light of each of the job's moods. Moods that state wishes get the circuits' levels that come nearest to them,
/// and then the settings whose light is nearest to those.
///
/// All moods come from one response table.
///
/// @param photometry one a can type, in the job's order
/// @param grid       of the job's work plane
/// @param dimmers to propose which of the cans on circuits to put on so many dimmers, so that the moods that state
///                wishes come nearest to them; absent: nothing is proposed
/// @errors those of `readings_of`; a seat inside an obstruction; a circuit that cannot give a level that a mood sets;
/// of
///         a proposal, no mood that states wishes, or fewer cans on circuits than dimmers
Result<RoomMoods> room_moods(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                             std::optional<int> dimmers = {}, const Progress& progress = {});

}  // namespace evenlit
