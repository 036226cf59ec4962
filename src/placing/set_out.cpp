#include "evenlit/placing/set_out.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <queue>
#include <set>
#include <tuple>

#include "evenlit/base/names.hpp"
#include "evenlit/placing/line.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

/// Sine of the least angle between two walls that cans are taped from: 30 degrees.
constexpr double k_least_sine = 0.5;
/// What rounding may move a point on a wall.
constexpr double k_on_wall_m = 1e-6;

double sine_between(const Shape& room, int a, int b) {
  const Vector2d along = along_wall(room, b);
  return std::abs(left_of(along_wall(room, a)).dot(along));
}

double distance_from(const Shape& room, int wall, const Vector2d& point_m) {
  return left_of(along_wall(room, wall)).dot(point_m - room.corners_m[static_cast<std::size_t>(wall)]);
}

double length_of(const Shape& room, int wall) {
  const auto start = static_cast<std::size_t>(wall);
  return (room.corners_m[(start + 1) % room.corners_m.size()] - room.corners_m[start]).norm();
}

/// The part of a line through a point of the plan that is in the plan around that point.
Span clear_span(const Polygon& plan_m, const Vector2d& point_m, const Vector2d& along) {
  const std::vector<Span> spans = spans_within(plan_m, {point_m, along});
  const auto around =
      std::ranges::find_if(spans, [](const Span& span) { return span[0] <= k_on_wall_m && span[1] >= -k_on_wall_m; });
  return around != spans.end() ? *around : Span{0, 0};
}

bool is_clear(const Polygon& plan_m, const Vector2d& from_m, const Vector2d& to_m) {
  const Vector2d way = to_m - from_m;
  const double length_m = way.norm();
  const Span span = clear_span(plan_m, (from_m + to_m) / 2, way / length_m);
  return span[0] <= -length_m / 2 + k_on_wall_m && span[1] >= length_m / 2 - k_on_wall_m;
}

/// Whether a tape from a point square to a wall meets the wall's face, with nothing between.
bool is_in_reach(const Shape& room, int wall, const Vector2d& point_m) {
  const double distance_m = distance_from(room, wall, point_m);
  const double station_m = along_wall(room, wall).dot(point_m - room.corners_m[static_cast<std::size_t>(wall)]);
  if (distance_m < -k_on_wall_m || station_m < -k_on_wall_m || station_m > length_of(room, wall) + k_on_wall_m) {
    return false;
  }
  const Vector2d toward = -left_of(along_wall(room, wall));
  return clear_span(room.corners_m, point_m, toward)[1] >= distance_m - k_on_wall_m;
}

bool is_whole(double metres, Units units) {
  constexpr double k_rounding_m = 1e-7;
  const double step_m = units == Units::imperial ? k_metres_per_inch / 16 : 0.001;
  return std::abs(metres - std::round(metres / step_m) * step_m) < k_rounding_m;
}

/// What the walls of a room say to its cans.
class Taping {
 public:
  Taping(const Job& job, const std::vector<Vector2d>& centres_m) : room_(job.room), walls_(room_.wall_names.size()) {
    for (std::size_t wall = 0; wall < walls_; ++wall) {
      for (std::size_t i = 0; i < centres_m.size(); ++i) {
        const bool is_job_s = std::ranges::any_of(
            job.cans[i].from, [&](const Taped& from) { return from.wall == room_.wall_names[wall]; });
        const double distance_m = distance_from(room_, static_cast<int>(wall), centres_m[i]);
        sights_.push_back({.distance_m = distance_m,
                           .is_in_reach = is_in_reach(room_, static_cast<int>(wall), centres_m[i]),
                           .is_whole = is_whole(distance_m, job.units),
                           .is_job_s = is_job_s});
      }
    }
    cans_ = centres_m.size();
  }

  /// The two walls that suit most cans.
  [[nodiscard]] std::array<int, 2> best_walls() const {
    std::array<int, 2> best{0, 1};
    Merit best_merit{-1, 0, 0, false, 0};
    for (const auto& [a, b] : pairs()) {
      const Merit merit = merit_of(a, b);
      if (merit > best_merit) {
        best_merit = merit;
        best = {a, b};
      }
    }
    return best;
  }

  [[nodiscard]] bool reaches(int wall, std::size_t can) const { return sight(wall, can).is_in_reach; }

  /// The two walls in reach of a can whose tapes are shortest together; empty where there are none.
  [[nodiscard]] std::optional<std::array<int, 2>> nearest_walls(std::size_t can) const {
    std::optional<std::array<int, 2>> best;
    double least_m = std::numeric_limits<double>::infinity();
    for (const auto& [a, b] : pairs()) {
      const double both_m = sight(a, can).distance_m + sight(b, can).distance_m;
      if (!reaches(a, can) || !reaches(b, can) || both_m >= least_m) continue;
      least_m = both_m;
      best = {a, b};
    }
    return best;
  }

  [[nodiscard]] double distance_m(int wall, std::size_t can) const { return sight(wall, can).distance_m; }

 private:
  /// A wall as seen from a can.
  struct Sight {
    double distance_m = 0;
    bool is_in_reach = false;
    bool is_whole = false;
    bool is_job_s = false;
  };

  /// Cans in reach, whole distances, distances that the job has, whether the walls meet, their lengths in mm.
  using Merit = std::tuple<int, int, int, bool, long>;

  [[nodiscard]] const Sight& sight(int wall, std::size_t can) const {
    return sights_[static_cast<std::size_t>(wall) * cans_ + can];
  }

  /// Walls at a clear angle to each other.
  [[nodiscard]] std::vector<std::array<int, 2>> pairs() const {
    std::vector<std::array<int, 2>> pairs;
    for (int a = 0; a < static_cast<int>(walls_); ++a) {
      for (int b = a + 1; b < static_cast<int>(walls_); ++b) {
        if (sine_between(room_, a, b) > k_least_sine) pairs.push_back({a, b});
      }
    }
    return pairs;
  }

  [[nodiscard]] Merit merit_of(int a, int b) const {
    int reached = 0;
    int whole = 0;
    int of_job = 0;
    for (std::size_t can = 0; can < cans_; ++can) {
      const Sight& to_a = sight(a, can);
      const Sight& to_b = sight(b, can);
      reached += to_a.is_in_reach && to_b.is_in_reach ? 1 : 0;
      whole += (to_a.is_whole ? 1 : 0) + (to_b.is_whole ? 1 : 0);
      of_job += (to_a.is_job_s ? 1 : 0) + (to_b.is_job_s ? 1 : 0);
    }
    const bool is_corner = b == a + 1 || (a == 0 && b == static_cast<int>(walls_) - 1);
    return {reached, whole, of_job, is_corner, std::lround(1000 * (length_of(room_, a) + length_of(room_, b)))};
  }

  const Shape& room_;
  std::size_t walls_;
  std::size_t cans_ = 0;
  std::vector<Sight> sights_;  ///< wall by wall
};

/// Cans in line with a wall.
struct Group {
  int wall = 0;
  std::vector<std::size_t> cans;
};

/// Cans in line with a wall, each set of one line's that no wall parts.
std::vector<Group> groups_along(const Job& job, const std::vector<Vector2d>& centres_m, int wall) {
  std::vector<std::size_t> order(centres_m.size());
  std::iota(order.begin(), order.end(), 0);
  const auto key = [&](std::size_t can) {
    return std::pair(job.cans[can].height_m.has_value(), distance_from(job.room, wall, centres_m[can]));
  };
  std::ranges::stable_sort(order, {}, key);
  std::vector<Group> groups;
  std::vector<std::pair<bool, double>> lines;  // of each group
  for (const std::size_t can : order) {
    const auto [has_height, distance_m] = key(can);
    bool is_joined = false;
    for (std::size_t i = groups.size(); i-- > 0 && !is_joined;) {
      if (lines[i].first != has_height || distance_m - lines[i].second > k_in_line_m) break;
      const Vector2d& first = centres_m[groups[i].cans.front()];
      is_joined = (first - centres_m[can]).norm() < k_on_wall_m || is_clear(job.room.corners_m, first, centres_m[can]);
      if (is_joined) groups[i].cans.push_back(can);
    }
    if (is_joined) continue;
    groups.push_back({wall, {can}});
    lines.emplace_back(has_height, distance_m);
  }
  return groups;
}

/// Walls that rows may follow, one a direction: the two that are taped from first, then the others, the longest first.
std::vector<int> walls_to_follow(const Shape& room, const std::array<int, 2>& walls) {
  std::vector<int> order(room.wall_names.size());
  std::iota(order.begin(), order.end(), 0);
  const auto rank = [&](int wall) {
    const auto chosen = std::ranges::find(walls, wall);
    return chosen != walls.end() ? static_cast<int>(chosen - walls.begin()) : 2;
  };
  std::ranges::stable_sort(order, [&](int a, int b) {
    return std::pair(rank(a), -length_of(room, a)) < std::pair(rank(b), -length_of(room, b));
  });
  constexpr double k_same_direction = 1e-9;
  std::vector<int> kept;
  for (const int wall : order) {
    const bool is_known =
        std::ranges::any_of(kept, [&](int other) { return sine_between(room, wall, other) < k_same_direction; });
    if (!is_known) kept.push_back(wall);
  }
  return kept;
}

/// Every can in one group: the largest groups first, of equal ones those of earlier walls.
std::vector<Group> largest_groups(const Job& job, const std::vector<Vector2d>& centres_m,
                                  const std::vector<int>& walls) {
  std::vector<Group> all;
  for (const int wall : walls) {
    for (Group& group : groups_along(job, centres_m, wall)) all.push_back(std::move(group));
  }
  // Largest first, then as listed. Groups only shrink, so one that is still as large as it was is the largest of all.
  using Entry = std::pair<std::size_t, std::ptrdiff_t>;
  std::priority_queue<Entry> queue;
  for (std::size_t i = 0; i < all.size(); ++i) queue.emplace(all[i].cans.size(), -static_cast<std::ptrdiff_t>(i));
  std::vector<bool> is_taken(centres_m.size(), false);
  std::vector<Group> kept;
  while (!queue.empty()) {
    const auto [size, negative_index] = queue.top();
    queue.pop();
    Group& group = all[static_cast<std::size_t>(-negative_index)];
    std::erase_if(group.cans, [&](std::size_t can) { return is_taken[can]; });
    if (group.cans.empty()) continue;
    if (group.cans.size() < size) {
      queue.emplace(group.cans.size(), negative_index);
      continue;
    }
    for (const std::size_t can : group.cans) is_taken[can] = true;
    kept.push_back(group);
  }
  return kept;
}

/// The wall that a point is on; at a corner the one that a line ends at more squarely.
int wall_at(const Shape& room, const Vector2d& point_m, const Vector2d& along) {
  int best = 0;
  std::pair<double, double> least{std::numeric_limits<double>::infinity(), 0};
  for (int wall = 0; wall < static_cast<int>(room.wall_names.size()); ++wall) {
    const Vector2d direction = along_wall(room, wall);
    const Vector2d offset = point_m - room.corners_m[static_cast<std::size_t>(wall)];
    const double beyond_m = std::max({0.0, -direction.dot(offset), direction.dot(offset) - length_of(room, wall)});
    const double off_m = std::hypot(beyond_m, left_of(direction).dot(offset));
    const std::pair merit{off_m < k_on_wall_m ? 0 : off_m, -std::abs(left_of(direction).dot(along))};
    if (merit < least) {
      least = merit;
      best = wall;
    }
  }
  return best;
}

/// A group as a row that begins at the side of one of the two walls.
///
/// @param walls that cans are taped from
MarkedRow row_of(const Shape& room, const std::vector<Vector2d>& centres_m, Group group,
                 const std::array<int, 2>& walls) {
  const bool is_more_along_first = sine_between(room, group.wall, walls[0]) < sine_between(room, group.wall, walls[1]);
  const int begins_at = walls[is_more_along_first ? 1 : 0];
  Vector2d along = along_wall(room, group.wall);
  if (left_of(along_wall(room, begins_at)).dot(along) < 0) along = -along;
  const auto station = [&](std::size_t can) { return along.dot(centres_m[can] - centres_m[group.cans.front()]); };
  const Vector2d first = centres_m[group.cans.front()];
  const Span span = clear_span(room.corners_m, first, along);
  std::vector<std::pair<double, std::size_t>> order;
  for (const std::size_t can : group.cans) order.emplace_back(station(can) - span[0], can);
  std::ranges::sort(order);
  MarkedRow row{.wall = {room.wall_names[static_cast<std::size_t>(group.wall)], distance_from(room, group.wall, first)},
                .start_m = first + span[0] * along,
                .end_m = first + span[1] * along};
  for (const auto& [station_m, can] : order) {
    row.stations_m.push_back(station_m);
    row.cans.push_back(can);
  }
  row.start_wall = room.wall_names[static_cast<std::size_t>(wall_at(room, row.start_m, along))];
  row.end_wall = room.wall_names[static_cast<std::size_t>(wall_at(room, row.end_m, along))];
  return row;
}

/// How many cans are in rows of several that run along a wall.
std::size_t followers(const Shape& room, const std::vector<Group>& groups, int wall) {
  std::size_t count = 0;
  for (const Group& group : groups) {
    if (group.cans.size() > 1 && sine_between(room, group.wall, wall) < k_least_sine) count += group.cans.size();
  }
  return count;
}

Result<std::array<int, 2>> wished_walls(const Shape& room, const std::array<std::string, 2>& names,
                                        const Place& place) {
  const std::vector<std::string_view> known(room.wall_names.begin(), room.wall_names.end());
  Problems problems;
  for (const std::string& name : names) {
    if (wall_index(room, name)) continue;
    const std::string nearest = nearest_name(name, known);
    std::string hint = "did you mean " + quoted(nearest) + "?";
    if (nearest.empty()) {
      hint = "its walls are";
      for (const std::string_view wall : known) hint += (wall == known.front() ? " " : ", ") + quoted(wall);
    }
    problems.push_back({place, fmt::format("the room has no wall {}", quoted(name)), std::move(hint)});
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  const std::array walls{*wall_index(room, names[0]), *wall_index(room, names[1])};
  if (sine_between(room, walls[0], walls[1]) > k_least_sine) return walls;
  return failure(place,
                 fmt::format("walls {} and {} run too much alike to tape from", quoted(names[0]), quoted(names[1])),
                 "name two walls that are more than 30 degrees off each other");
}

Result<std::size_t> wished_corner(const Shape& room, const std::string& name, const Place& place) {
  std::vector<std::string> all;
  for (std::size_t corner = 0; corner < room.corners_m.size(); ++corner) {
    for (std::string& known : corner_names(room, corner)) {
      if (known == name) return corner;
      all.push_back(std::move(known));
    }
  }
  const std::string nearest = nearest_name(name, std::vector<std::string_view>(all.begin(), all.end()));
  const std::string hint = nearest.empty()
                               ? "name the two walls that meet in it, like " + quoted(corner_names(room, 0).back())
                               : "did you mean " + quoted(nearest) + "?";
  return failure(place, fmt::format("the room has no corner {}", quoted(name)), hint);
}

CornerLine corner_line(const Shape& room, std::size_t corner, const std::string& followed,
                       const std::vector<MarkedCan>& cans) {
  const auto count = static_cast<int>(room.corners_m.size());
  const int after = static_cast<int>(corner);
  const int before = (after + count - 1) % count;
  const int main = *wall_index(room, followed);
  const int wall = sine_between(room, before, main) < sine_between(room, after, main) ? before : after;
  const Vector2d along = wall == after ? along_wall(room, wall) : Vector2d(-along_wall(room, wall));
  CornerLine line{.corner = corner, .wall = room.wall_names[static_cast<std::size_t>(wall)]};
  for (const MarkedCan& can : cans) {
    const Vector2d offset = can.centre_m - room.corners_m[corner];
    line.offsets_m.emplace_back(along.dot(offset), left_of(along_wall(room, wall)).dot(offset));
  }
  return line;
}

/// The longest two tapes from corner to corner across the room.
std::vector<Diagonal> room_diagonals(const Polygon& plan_m) {
  std::vector<Diagonal> all;
  for (std::size_t a = 0; a < plan_m.size(); ++a) {
    for (std::size_t b = a + 2; b < plan_m.size(); ++b) {
      if (a == 0 && b + 1 == plan_m.size()) continue;
      all.push_back({{a, b}, (plan_m[a] - plan_m[b]).norm()});
    }
  }
  std::ranges::stable_sort(all, std::greater<>{}, &Diagonal::length_m);
  std::vector<Diagonal> longest;
  for (const Diagonal& diagonal : all) {
    if (longest.size() == 2) break;
    if (is_clear(plan_m, plan_m[diagonal.ends[0]], plan_m[diagonal.ends[1]])) longest.push_back(diagonal);
  }
  std::ranges::sort(longest, {}, &Diagonal::ends);
  return longest;
}

/// Between the ends of the first and the last row of several cans that follow one wall, where tapes are clear.
std::vector<Diagonal> outermost_diagonals(const Job& job, const SetOut& set_out) {
  std::vector<const MarkedRow*> rows;
  for (const MarkedRow& row : set_out.rows) {
    const bool has_height = job.cans[static_cast<std::size_t>(set_out.cans[row.cans.front()].can)].height_m.has_value();
    if (row.cans.size() > 1 && !has_height) rows.push_back(&row);
  }
  if (rows.size() < 2) return {};
  const MarkedRow& first = *rows.front();
  const MarkedRow& last = *rows.back();
  std::vector<Diagonal> diagonals;
  for (const auto& [a, b] : {std::pair(first.cans.front(), last.cans.back()), {first.cans.back(), last.cans.front()}}) {
    const Vector2d& from = set_out.cans[a].centre_m;
    const Vector2d& to = set_out.cans[b].centre_m;
    if (!is_clear(job.room.corners_m, from, to)) return {};
    diagonals.push_back({{a, b}, (from - to).norm()});
  }
  return diagonals;
}

/// The tapes to a can.
MarkedCan marked(const Job& job, const Taping& taping, const std::array<int, 2>& walls, std::size_t can,
                 const Vector2d& centre_m) {
  MarkedCan mark{.can = static_cast<int>(can), .centre_m = centre_m};
  const auto from = [&](const std::array<int, 2>& these) {
    for (std::size_t i = 0; i < 2; ++i) {
      mark.from[i] = {job.room.wall_names[static_cast<std::size_t>(these[i])], taping.distance_m(these[i], can)};
      mark.is_in_reach[i] = taping.reaches(these[i], can);
    }
  };
  from(walls);
  if (mark.is_in_reach == std::array{true, true}) return mark;
  if (const auto nearest = taping.nearest_walls(can)) {
    from(*nearest);
  } else {
    from({*wall_index(job.room, job.cans[can].from[0].wall), *wall_index(job.room, job.cans[can].from[1].wall)});
  }
  return mark;
}

/// Rows from the first wall's side to the opposite one, cans at a height of their own last.
void sort_rows(const Job& job, const std::vector<Vector2d>& centres_m, int wall, std::vector<MarkedRow>& rows) {
  const auto key = [&](const MarkedRow& row) {
    double sum_m = 0;
    for (const std::size_t can : row.cans) sum_m += distance_from(job.room, wall, centres_m[can]);
    // Rows that are level with each other but for rounding go by their stations.
    const double mean_m = sum_m / static_cast<double>(row.cans.size());
    return std::tuple(job.cans[row.cans.front()].height_m.has_value(), std::round(mean_m / k_in_line_m),
                      row.stations_m.front());
  };
  std::ranges::stable_sort(rows, {}, key);
}

/// The chosen walls, the one that most cans in rows follow first.
std::array<int, 2> ordered_walls(const Shape& room, std::array<int, 2> walls, const std::vector<Group>& groups) {
  if (followers(room, groups, walls[1]) > followers(room, groups, walls[0])) std::swap(walls[0], walls[1]);
  return walls;
}

}  // namespace

std::vector<std::string> corner_names(const Shape& room, std::size_t corner) {
  const std::string& after = room.wall_names[corner];
  const std::string& before = room.wall_names[(corner + room.wall_names.size() - 1) % room.wall_names.size()];
  std::vector<std::string> names;
  for (const auto& [first, second] : {std::pair(&before, &after), {&after, &before}}) {
    const bool is_compass = (*first == "south" || *first == "north") && (*second == "west" || *second == "east");
    if (is_compass) names.push_back(*first + *second);
  }
  names.push_back(before + "," + after);
  names.push_back(after + "," + before);
  return names;
}

Result<SetOut> set_out(const Job& job, const SetOutWish& wish, const Place& place) {
  std::vector<Vector2d> centres_m;
  for (const Can& can : job.cans) centres_m.push_back(plan_position(job.room, can).value());
  const Taping taping(job, centres_m);
  Result<std::array<int, 2>> wished = taping.best_walls();
  if (wish.walls) wished = wished_walls(job.room, *wish.walls, place);
  Result<std::size_t> corner = 0;
  if (wish.corner) corner = wished_corner(job.room, *wish.corner, place);
  Problems problems = wished ? Problems{} : wished.error();
  if (!corner) problems.insert(problems.end(), corner.error().begin(), corner.error().end());
  if (!problems.empty()) return tl::unexpected(std::move(problems));

  const std::vector<Group> groups = largest_groups(job, centres_m, walls_to_follow(job.room, *wished));
  const std::array<int, 2> walls = ordered_walls(job.room, *wished, groups);
  SetOut result;
  for (std::size_t i = 0; i < 2; ++i) result.walls[i] = job.room.wall_names[static_cast<std::size_t>(walls[i])];
  for (const Group& group : groups) result.rows.push_back(row_of(job.room, centres_m, group, walls));
  sort_rows(job, centres_m, walls[0], result.rows);
  result.check = hole_check(job);
  for (MarkedRow& row : result.rows) {
    for (std::size_t& can : row.cans) {
      MarkedCan mark = marked(job, taping, walls, can, centres_m[can]);
      const auto& holes = result.check.holes;
      const auto hole = std::ranges::find(holes, mark.can, &CanHole::can);
      if (hole != holes.end()) mark.hole = static_cast<std::size_t>(hole - holes.begin());
      can = result.cans.size();
      result.cans.push_back(std::move(mark));
    }
  }
  result.room = room_diagonals(job.room.corners_m);
  result.outermost = outermost_diagonals(job, result);
  if (wish.corner) result.line = corner_line(job.room, *corner, result.walls[0], result.cans);
  return result;
}

}  // namespace evenlit
