#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/placing/hole_check.hpp"

namespace evenlit {

// Where the cans of a job go, as a crew marks them on the ceiling. Every distance is from a wall's face or a corner
// itself and none is a sum of others, so that what rounds one of them is not handed on to the next.

/// Half of the finest mark on a tape, 1/32 in: cans that are no farther off a line are on it.
inline constexpr double k_in_line_m = k_metres_per_inch / 32;

/// What a crew may ask for.
struct SetOutWish {
  std::optional<std::array<std::string, 2>> walls;  ///< to tape from; absent: chosen
  std::optional<std::string> corner;  ///< to lay a string or a laser from: a name that `corner_names` tells
};

/// A can to be marked.
struct MarkedCan {
  int can = 0;  ///< index into the job's cans
  Eigen::Vector2d centre_m;
  std::array<Taped, 2> from;                    ///< the set-out's two walls, or others where these are out of reach
  std::array<bool, 2> is_in_reach{true, true};  ///< a tape square to the wall meets its face inside of the room; where
                                                ///< it does not, the distance is from the wall's line
  std::optional<std::size_t> hole;              ///< index into the check's holes; empty for a can without one
};

/// Cans on one line parallel to a wall, none farther off it than 1/32 in, with nothing of the walls between them.
struct MarkedRow {
  Taped wall;                      ///< that the row follows, and how far from it the line is
  std::vector<std::size_t> cans;   ///< indices into the set-out's, along the line
  std::vector<double> stations_m;  ///< of each can, along the line from where that begins
  Eigen::Vector2d start_m;         ///< where the line meets the wall that it begins at
  Eigen::Vector2d end_m;
  std::string start_wall;
  std::string end_wall;
};

/// A straight tape between two ends.
struct Diagonal {
  std::array<std::size_t, 2> ends;
  double length_m = 0;
};

/// A string or a laser beam along a wall from a corner.
struct CornerLine {
  std::size_t corner = 0;                  ///< of the plan
  std::string wall;                        ///< along which the line runs from there
  std::vector<Eigen::Vector2d> offsets_m;  ///< of each can: along that wall, square to it
};

struct SetOut {
  std::array<std::string, 2> walls;  ///< the one that most rows follow first
  std::vector<MarkedCan> cans;       ///< in the order of work
  std::vector<MarkedRow> rows;       ///< in that order too; a can that shares its line with none is a row of its own
  std::vector<Diagonal> room;        ///< between corners: the longest two that a tape can follow
  std::vector<Diagonal> outermost;   ///< between the ends of the first and the last row of several cans
  std::optional<CornerLine> line;
  HoleCheck check;

  /// Whether nothing is known to be in the way of a can's hole.
  [[nodiscard]] bool has_room(const MarkedCan& can) const { return !can.hole || check.holes[*can.hole].hits.empty(); }
};

/// The names of a plan's corner: `southwest` where such walls meet, and its two walls, `south,west`.
std::vector<std::string> corner_names(const Shape& room, std::size_t corner);

/// Lays a job's cans out for the tape.
///
/// Without a wish for walls, those are taken from which a tape reaches most cans, of these those that give most
/// distances in whole sixteenths of an inch (millimetres), then those that the job tapes most cans from, then two that
/// meet in a corner, then the longest. They are more than 30 degrees off each other. What they do not reach is taped
/// from the nearest walls that it can be taped from, or as the job has it.
///
/// Rows are the largest sets of cans in line with a wall, the largest first; of equal ones those that follow one of the
/// two walls. The order of work goes from row to row away from the wall that most of them follow, along each from the
/// other wall; cans that have a height of their own come last.
///
/// @param job one that `read_job` would accept
/// @param place for messages
/// @errors walls that the room does not have or that run too much alike, a corner that it does not have
Result<SetOut> set_out(const Job& job, const SetOutWish& wish, const Place& place);

}  // namespace evenlit
