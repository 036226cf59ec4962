#include "evenlit/placing/moved_layout.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <type_traits>

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Cans = std::vector<std::size_t>;
using Part = PartMove::Part;
using Symmetry = MovedLayout::Symmetry;

constexpr double k_same_shift_m = 0.0254 / 16;

/// What is in spans and also in others; both ascend.
std::vector<Span> common(const std::vector<Span>& spans, const std::vector<Span>& others) {
  std::vector<Span> both;
  for (std::size_t i = 0, j = 0; i < spans.size() && j < others.size();) {
    const Span span{std::max(spans[i][0], others[j][0]), std::min(spans[i][1], others[j][1])};
    if (span[0] < span[1]) both.push_back(span);
    ++(spans[i][1] < others[j][1] ? i : j);
  }
  return both;
}

/// Spans of x as spans of x times a factor, which is not 0.
std::vector<Span> scaled(std::vector<Span> spans, double factor) {
  for (Span& span : spans) {
    span = {span[0] * factor, span[1] * factor};
    if (factor < 0) std::swap(span[0], span[1]);
  }
  if (factor < 0) std::ranges::reverse(spans);
  return spans;
}

/// The nearest whole number of steps.
double rounded(double value_m, double step_m) { return std::round(value_m / step_m) * step_m; }

/// Where a shift into a window ends.
double shift_into(const Span& window, double step_m) {
  if (window[0] <= 0 && window[1] >= 0) return nearest_in(window, 0);
  const double way = window[0] > 0 ? 1 : -1;
  const double near_m = std::min(std::abs(window[0]), std::abs(window[1]));
  const double far_m = std::max(std::abs(window[0]), std::abs(window[1]));
  const double with_play_m = std::ceil((near_m + k_play_m - k_touch_m) / step_m) * step_m;
  const double middle_m = (near_m + far_m) / 2;
  double shift_m = with_play_m;
  if (with_play_m > far_m - k_play_m + k_touch_m) {
    const double whole_m = rounded(middle_m, step_m / 2);
    shift_m = whole_m > near_m && whole_m < far_m ? whole_m : middle_m;
  }
  if (near_m <= k_farthest_shift_m) shift_m = std::min(shift_m, k_farthest_shift_m);
  return nearest_in(window, way * shift_m);
}

/// From a can's centre to what is farthest of its hole and housing.
double reach_m(const CanType& type) {
  const double housing_m = type.housing ? std::hypot(type.housing->length_m, type.housing->width_m) / 2 : 0;
  return std::max(type.hole_m.value() / 2, housing_m);
}

double longest_m(const MovedLayout& moved) {
  double longest = 0;
  for (const PartMove& move : moved.moves) longest = std::max(longest, move.by_m.norm());
  return longest;
}

/// The one of two that fits with the shorter longest shift.
std::optional<MovedLayout> gentler(std::optional<MovedLayout> first, std::optional<MovedLayout> second) {
  const auto fits = [](const std::optional<MovedLayout>& moved) { return moved && moved->all_fit; };
  if (!fits(first) || (fits(second) && longest_m(*second) < longest_m(*first))) std::swap(first, second);
  return fits(first) ? first : std::nullopt;
}

/// Axis 0 is along rows, axis 1 along columns.
class Mover {
 public:
  Mover(const std::vector<Vector2d>& positions_m, const CeilingMap& map, const CanType& type, const MoveRules& rules)
      : positions_(positions_m),
        map_(map),
        type_(type),
        rules_(rules),
        axes_{rules.frame.along, left_of(rules.frame.along)},
        step_m_(rules.units == Units::imperial ? 0.0254 / 8 : 0.005),
        all_(positions_m.size()) {
    std::iota(all_.begin(), all_.end(), std::size_t{0});
    for (const int axis : {0, 1}) was_symmetric_[at(axis)] = is_symmetric(positions_, axis);
  }

  [[nodiscard]] MovedLayout moved() const {
    if (fit_together(positions_)) return MovedLayout{.positions_m = positions_, .all_fit = true};
    for (const auto& way :
         {&Mover::all_together, &Mover::stretched, &Mover::in_pairs, &Mover::apart, &Mover::along_themselves}) {
      if (auto found = (this->*way)(); found && found->all_fit) return *found;
    }
    if (rules_.may_move_single_cans) {
      if (auto found = single_cans()) return *found;
    }
    return MovedLayout{.positions_m = positions_};
  }

 private:
  /// The cans that a move takes along.
  struct Step {
    PartMove move;
    Cans cans;
  };

  static std::size_t at(int axis) { return static_cast<std::size_t>(axis); }

  /// A can's place along an axis, from the middle.
  [[nodiscard]] double station_m(const Vector2d& place_m, int axis) const {
    return axes_[at(axis)].dot(place_m - rules_.middle_m);
  }

  [[nodiscard]] bool is_symmetric(const std::vector<Vector2d>& places_m, int axis) const {
    return std::ranges::all_of(places_m, [&](const Vector2d& place) {
      const Vector2d image = place - 2 * station_m(place, axis) * axes_[at(axis)];
      return std::ranges::any_of(places_m, [&](const Vector2d& other) { return (other - image).norm() < k_touch_m; });
    });
  }

  [[nodiscard]] bool fit_alone(const Cans& cans) const {
    return std::ranges::all_of(cans, [&](std::size_t can) { return map_.fits(positions_[can]); });
  }

  /// The map with all other cans so near that they may touch this one.
  [[nodiscard]] CeilingMap map_among(const std::vector<Vector2d>& positions_m, std::size_t can,
                                     double farther_m) const {
    CeilingMap map = map_;
    for (const Vector2d& other : positions_m) {
      if (&other == &positions_m[can] || (other - positions_m[can]).norm() >= 2 * reach_m(type_) + farther_m) continue;
      for (const Obstacle& body : obstacles_of(type_, "can", other, map_.lie_at(other))) map.add(body);
    }
    return map;
  }

  [[nodiscard]] bool fits_among(const std::vector<Vector2d>& positions_m, std::size_t can) const {
    if (!map_.fits(positions_m[can])) return false;
    const bool is_alone = std::ranges::none_of(positions_m, [&](const Vector2d& other) {
      return &other != &positions_m[can] && (other - positions_m[can]).norm() < 2 * reach_m(type_);
    });
    return is_alone || map_among(positions_m, can, 0).fits(positions_m[can]);
  }

  [[nodiscard]] bool fit_together(const std::vector<Vector2d>& positions_m) const {
    return std::ranges::all_of(all_, [&](std::size_t can) { return fits_among(positions_m, can); });
  }

  [[nodiscard]] MovedLayout applied(const std::vector<Step>& steps, const Vector2d& spacing_factor) const {
    MovedLayout moved{.positions_m = positions_, .spacing_factor = spacing_factor};
    for (const auto& [move, cans] : steps) {
      if (move.by_m.isZero(0)) continue;
      for (const std::size_t can : cans) moved.positions_m[can] += move.by_m;
      moved.moves.push_back(move);
    }
    moved.all_fit = fit_together(moved.positions_m);
    for (const int axis : {0, 1}) {
      if (!was_symmetric_[at(axis)]) continue;
      const bool is_lost = moved.symmetry == Symmetry::lost || !is_symmetric(moved.positions_m, axis);
      moved.symmetry = is_lost ? Symmetry::lost : Symmetry::kept;
    }
    return moved;
  }

  [[nodiscard]] static Vector2d factor_on(int axis, double factor) {
    Vector2d both = Vector2d::Ones();
    both[axis] = factor;
    return both;
  }

  /// The shortest of the shifts; of those as short the one with the least `off_m`, then the first.
  template <class Shift, class Off>
  [[nodiscard]] static std::optional<Shift> least(const std::vector<Shift>& shifts, const Off& off_m) {
    const auto length_m = [](const Shift& shift) {
      if constexpr (std::is_same_v<Shift, double>) {
        return std::abs(shift);
      } else {
        return shift.norm();
      }
    };
    if (shifts.empty()) return std::nullopt;
    const double least_m = length_m(*std::ranges::min_element(shifts, {}, length_m));
    std::optional<Shift> best;
    for (const Shift& shift : shifts) {
      if (length_m(shift) > least_m + k_same_shift_m) continue;
      if (!best || off_m(shift) < off_m(*best) - k_touch_m) best = shift;
    }
    return best;
  }

  /// What brings cans, shifted by so much, the nearest to the middle.
  [[nodiscard]] auto off_middle_m(const Cans& cans) const {
    Vector2d mean = Vector2d::Zero();
    for (const std::size_t can : cans) mean += positions_[can] / static_cast<double>(cans.size());
    return [from_middle = Vector2d(mean - rules_.middle_m)](const Vector2d& shift) {
      return (from_middle + shift).norm();
    };
  }

  /// The stations that all of the cans may have along a direction when each begins at its place and `before_m` from it.
  [[nodiscard]] std::vector<Span> windows_of(const Cans& cans, const Vector2d& before_m, const Vector2d& along) const {
    std::vector<Span> free{{-2 * k_farthest_shift_m, 2 * k_farthest_shift_m}};
    for (const std::size_t can : cans) {
      if (free.empty()) break;
      free = common(free, map_.windows({positions_[can] + before_m, along}));
    }
    return free;
  }

  /// Where a shift may end in each of the windows.
  [[nodiscard]] static std::vector<double> shifts_into(const std::vector<Span>& windows, double step_m,
                                                       double farthest_m) {
    std::vector<double> shifts;
    for (const Span& window : windows) {
      const double shift = shift_into(window, step_m);
      if (std::abs(shift) <= farthest_m) shifts.push_back(shift);
    }
    return shifts;
  }

  /// The least shift along a direction that makes cans fit.
  [[nodiscard]] std::optional<Vector2d> least_along(const Cans& cans, const Vector2d& along) const {
    std::vector<Vector2d> shifts;
    for (const double shift : shifts_into(windows_of(cans, Vector2d::Zero(), along), step_m_, k_farthest_shift_m)) {
      shifts.emplace_back(shift * along);
    }
    return least(shifts, off_middle_m(cans));
  }

  [[nodiscard]] std::optional<Vector2d> least_straight() const {
    std::optional<Vector2d> best;
    for (const int axis : {0, 1}) {
      if (rules_.is_held[at(axis)]) continue;
      const auto shift = least_along(all_, axes_[at(axis)]);
      if (shift && (!best || shift->norm() < best->norm())) best = shift;
    }
    return best;
  }

  /// Along one axis so far that there is so much play on both sides there, then along the other.
  [[nodiscard]] std::optional<Vector2d> least_aslant(double play_m) const {
    std::vector<Vector2d> shifts;
    const double raster_m = 2 * step_m_;
    double farthest_m = k_farthest_shift_m;  // later ones are of no use if they are longer than one that is known
    for (int step = 1; step * raster_m < farthest_m; ++step) {
      for (const auto& [axis, sign] : {std::pair(0, -1), std::pair(1, -1), std::pair(0, 1), std::pair(1, 1)}) {
        const Vector2d& first = axes_[at(axis)];
        const Vector2d& then = axes_[at(1 - axis)];
        const Vector2d before = sign * step * raster_m * first;
        std::vector<Span> free = windows_of(all_, before, then);
        for (const double aside_m : {-play_m, play_m}) {
          if (!free.empty() && play_m > 0) free = common(free, windows_of(all_, before + aside_m * first, then));
        }
        const double rest_m = std::sqrt(std::max(0.0, farthest_m * farthest_m - before.squaredNorm()));
        for (const double shift : shifts_into(free, step_m_, rest_m)) shifts.emplace_back(before + shift * then);
        if (const auto best = least(shifts, off_middle_m(all_))) {
          farthest_m = std::min(farthest_m, best->norm() + k_same_shift_m);
        }
      }
    }
    return least(shifts, off_middle_m(all_));
  }

  [[nodiscard]] std::optional<MovedLayout> all_together() const {
    auto shift = least_straight();
    for (const double play_m : {k_play_m, 0.0}) {
      if (!shift && !rules_.is_held[0] && !rules_.is_held[1]) shift = least_aslant(play_m);
    }
    if (!shift) return std::nullopt;
    return applied({{{.part = Part::all, .by_m = *shift}, all_}}, Vector2d::Ones());
  }

  /// The cans with the same place along an axis, ascending: columns along rows, rows along columns.
  [[nodiscard]] std::vector<Cans> lines_on(int axis) const {
    const auto place_m = [&](std::size_t can) { return station_m(positions_[can], axis); };
    Cans sorted = all_;
    std::ranges::stable_sort(sorted, {}, place_m);
    std::vector<Cans> lines;
    for (const std::size_t can : sorted) {
      if (lines.empty() || place_m(can) - place_m(lines.back().back()) > k_touch_m) lines.emplace_back();
      lines.back().push_back(can);
    }
    return lines;
  }

  [[nodiscard]] static Part part_on(int axis) { return axis == 0 ? Part::column : Part::row; }

  /// What the outermost of an axis' lines may shift when the others shift in proportion, each with so much play.
  [[nodiscard]] std::vector<Span> stretches(const std::vector<Cans>& lines, int axis, double play_m) const {
    const double half_m = station_m(positions_[lines.back().front()], axis);
    std::vector<Span> free{{-2 * k_farthest_shift_m, 2 * k_farthest_shift_m}};
    for (const Cans& cans : lines) {
      const double from_middle_m = station_m(positions_[cans.front()], axis);
      if (std::abs(from_middle_m) < k_touch_m) {
        if (!fit_alone(cans)) return {};
        continue;
      }
      const double share = from_middle_m / half_m;
      // Play of the outermost is less of the others: what they lack is taken off first.
      std::vector<Span> own;
      const double lacking_m = play_m * (1 - std::abs(share));
      for (const Span& window : windows_of(cans, Vector2d::Zero(), axes_[at(axis)])) {
        if (window[0] + lacking_m < window[1] - lacking_m)
          own.push_back({window[0] + lacking_m, window[1] - lacking_m});
      }
      free = common(free, scaled(own, 1 / share));
    }
    return free;
  }

  [[nodiscard]] std::optional<MovedLayout> stretched_on(int axis) const {
    const std::vector<Cans> lines = lines_on(axis);
    if (!was_symmetric_[at(axis)] || lines.size() < 2) return std::nullopt;
    const double half_m = station_m(positions_[lines.back().front()], axis);
    // Of evenly spaced lines the outermost move so many times what the innermost do.
    const auto count = static_cast<double>(lines.size());
    const double steps = lines.size() % 2 == 0 ? count - 1 : (count - 1) / 2;
    const auto inward = [](double shift) { return shift; };
    std::optional<double> shift;
    for (const double play_m : {k_play_m, 0.0}) {
      if (shift) break;
      shift = least(shifts_into(stretches(lines, axis, play_m), steps * step_m_, k_farthest_shift_m), inward);
    }
    if (!shift) return std::nullopt;
    std::vector<Step> moves;
    int number = 0;
    for (const Cans& cans : lines) {
      const double from_middle_m = station_m(positions_[cans.front()], axis);
      const double own_m = std::abs(from_middle_m) < k_touch_m ? 0 : *shift * from_middle_m / half_m;
      moves.push_back({{part_on(axis), ++number, own_m * axes_[at(axis)]}, cans});
    }
    return applied(moves, factor_on(axis, 1 + *shift / half_m));
  }

  [[nodiscard]] std::optional<MovedLayout> pairs_on(int axis) const {
    const std::vector<Cans> lines = lines_on(axis);
    if (!was_symmetric_[at(axis)]) return std::nullopt;
    const Vector2d& along = axes_[at(axis)];
    std::vector<Step> moves(lines.size());
    for (std::size_t i = 0, j = lines.size() - 1; i <= j && j < lines.size(); ++i, --j) {
      moves[i] = {{part_on(axis), static_cast<int>(i) + 1, Vector2d::Zero()}, lines[i]};
      moves[j] = {{part_on(axis), static_cast<int>(j) + 1, Vector2d::Zero()}, lines[j]};
      if (fit_alone(lines[i]) && fit_alone(lines[j])) continue;
      if (i == j) return std::nullopt;
      const std::vector<Span> free =
          common(windows_of(lines[i], Vector2d::Zero(), -along), windows_of(lines[j], Vector2d::Zero(), along));
      const auto inward = [](double shift) { return shift; };
      const auto shift = least(shifts_into(free, step_m_, k_farthest_shift_m), inward);
      if (!shift) return std::nullopt;
      moves[i].move.by_m = -*shift * along;
      moves[j].move.by_m = *shift * along;
    }
    return applied(moves, factor_on(axis, 0));
  }

  /// Each line of an axis by itself, along an axis.
  [[nodiscard]] std::optional<MovedLayout> each_by_itself(int lines_axis, int move_axis) const {
    std::vector<Step> moves;
    int number = 0;
    for (const Cans& cans : lines_on(lines_axis)) {
      ++number;
      if (fit_alone(cans)) continue;
      if (cans.size() == 1) return std::nullopt;
      const auto shift = least_along(cans, axes_[at(move_axis)]);
      if (!shift) return std::nullopt;
      moves.push_back({{part_on(lines_axis), number, *shift}, cans});
    }
    MovedLayout moved = applied(moves, factor_on(move_axis, 0));
    moved.is_straight = lines_axis == move_axis;
    return moved;
  }

  [[nodiscard]] std::optional<MovedLayout> stretched() const { return gentler(stretched_on(0), stretched_on(1)); }
  [[nodiscard]] std::optional<MovedLayout> in_pairs() const { return gentler(pairs_on(0), pairs_on(1)); }
  [[nodiscard]] std::optional<MovedLayout> apart() const { return gentler(each_by_itself(0, 0), each_by_itself(1, 1)); }
  [[nodiscard]] std::optional<MovedLayout> along_themselves() const {
    return gentler(each_by_itself(0, 1), each_by_itself(1, 0));
  }

  /// Each can that does not fit to the nearest place, those before it moved already.
  [[nodiscard]] std::optional<MovedLayout> single_cans() const {
    std::vector<Vector2d> places = positions_;
    std::vector<Step> moves;
    for (const std::size_t can : all_) {
      if (fits_among(places, can)) continue;
      const CeilingMap map = map_among(places, can, std::numeric_limits<double>::infinity());
      const auto nearest = map.nearest(places[can]);
      if (!nearest) return std::nullopt;
      const Line line{places[can], (*nearest - places[can]).normalized()};
      const double least_m = line.station_of(*nearest);
      for (const Span& window : map.windows(line)) {
        if (window[0] > least_m + k_touch_m || window[1] < least_m - k_touch_m) continue;
        moves.push_back({{Part::can, static_cast<int>(can) + 1, shift_into(window, step_m_) * line.along}, {can}});
      }
      if (moves.empty() || moves.back().cans.front() != can) return std::nullopt;
      places[can] += moves.back().move.by_m;
    }
    MovedLayout moved = applied(moves, Vector2d::Zero());
    moved.is_straight = false;
    if (!moved.all_fit) return std::nullopt;
    return moved;
  }

  const std::vector<Vector2d>& positions_;
  const CeilingMap& map_;
  const CanType& type_;
  const MoveRules& rules_;
  std::array<Vector2d, 2> axes_;
  double step_m_;
  std::array<bool, 2> was_symmetric_{};
  Cans all_;
};

}  // namespace

MovedLayout moved_to_fit(const std::vector<Vector2d>& positions_m, const CeilingMap& map, const CanType& type,
                         const MoveRules& rules) {
  return Mover(positions_m, map, type, rules).moved();
}

}  // namespace evenlit
