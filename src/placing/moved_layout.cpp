#include "evenlit/placing/moved_layout.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numeric>

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Cans = std::vector<std::size_t>;
using Part = PartMove::Part;

constexpr double k_same_shift_m = 0.0254 / 16;
constexpr double k_raster_m = 0.0254 / 4;

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

class Mover {
 public:
  Mover(const std::vector<Vector2d>& positions_m, const CeilingMap& map, const CanType& type, const Polygon& plan_m)
      : positions_(positions_m), map_(map), type_(type), middle_(bounds_of(plan_m).center()), all_(positions_m.size()) {
    std::iota(all_.begin(), all_.end(), std::size_t{0});
  }

  [[nodiscard]] MovedLayout moved() const {
    if (fit_together(positions_)) return {positions_, {}, true};
    const auto fitting = [&](const std::optional<MovedLayout>& moved) { return moved && moved->all_fit; };
    if (const auto together = all_together(); fitting(together)) return *together;
    for (const auto& [columns_along, rows_along] :
         {std::pair(Vector2d::UnitX(), Vector2d::UnitY()), std::pair(Vector2d::UnitY(), Vector2d::UnitX())}) {
      const auto columns = each_by_itself(Part::column, columns_along);
      const auto rows = each_by_itself(Part::row, rows_along);
      if (fitting(rows) && (!fitting(columns) || longest_m(*rows) < longest_m(*columns))) return *rows;
      if (fitting(columns)) return *columns;
    }
    return {positions_, {}, false};
  }

 private:
  [[nodiscard]] bool fit_alone(const Cans& cans) const {
    return std::ranges::all_of(cans, [&](std::size_t can) { return map_.fits(positions_[can]); });
  }

  [[nodiscard]] bool fits_among(const std::vector<Vector2d>& positions_m, std::size_t can) const {
    if (!map_.fits(positions_m[can])) return false;
    std::vector<Obstacle> near;
    for (const Vector2d& other : positions_m) {
      if (&other == &positions_m[can] || (other - positions_m[can]).norm() >= 2 * reach_m(type_)) continue;
      for (Obstacle& body : obstacles_of(type_, "can", other, map_.lie_at(other))) near.push_back(std::move(body));
    }
    if (near.empty()) return true;
    CeilingMap map = map_;
    for (const Obstacle& body : near) map.add(body);
    return map.fits(positions_m[can]);
  }

  [[nodiscard]] bool fit_together(const std::vector<Vector2d>& positions_m) const {
    return std::ranges::all_of(all_, [&](std::size_t can) { return fits_among(positions_m, can); });
  }

  /// The layout with parts moved; `cans` of each move.
  [[nodiscard]] MovedLayout applied(const std::vector<std::pair<PartMove, Cans>>& moves) const {
    MovedLayout moved{.positions_m = positions_};
    for (const auto& [move, cans] : moves) {
      for (const std::size_t can : cans) moved.positions_m[can] += move.by_m;
      moved.moves.push_back(move);
    }
    moved.all_fit = fit_together(moved.positions_m);
    return moved;
  }

  /// The shortest of the shifts; of those as short the one that brings the cans nearest to the middle, then the first.
  [[nodiscard]] std::optional<Vector2d> least(const std::vector<Vector2d>& shifts_m, const Cans& cans) const {
    if (shifts_m.empty()) return std::nullopt;
    const auto by_norm = [](const Vector2d& shift) { return shift.norm(); };
    const double least_m = std::ranges::min_element(shifts_m, {}, by_norm)->norm();
    Vector2d mean = Vector2d::Zero();
    for (const std::size_t can : cans) mean += positions_[can] / static_cast<double>(cans.size());
    const auto off_m = [&](const Vector2d& shift) { return (mean + shift - middle_).norm(); };
    std::optional<Vector2d> best;
    for (const Vector2d& shift : shifts_m) {
      if (shift.norm() > least_m + k_same_shift_m) continue;
      if (!best || off_m(shift) < off_m(*best) - k_touch_m) best = shift;
    }
    return best;
  }

  /// The least of the shifts along a direction that make cans fit which were shifted by `before_m`, that included.
  [[nodiscard]] std::optional<Vector2d> least_along(const Cans& cans, const Vector2d& before_m, const Vector2d& along,
                                                    double farthest_m) const {
    std::vector<Span> free{{-farthest_m, farthest_m}};
    for (const std::size_t can : cans) {
      if (free.empty()) return std::nullopt;
      free = common(free, map_.windows({positions_[can] + before_m, along}));
    }
    std::vector<Vector2d> shifts;
    for (const Span& span : free) shifts.push_back(before_m + nearest_in(span, 0) * along);
    return least(shifts, cans);
  }

  [[nodiscard]] std::optional<Vector2d> least_straight() const {
    const auto east = least_along(all_, Vector2d::Zero(), Vector2d::UnitX(), k_farthest_shift_m);
    const auto north = least_along(all_, Vector2d::Zero(), Vector2d::UnitY(), k_farthest_shift_m);
    return east && (!north || east->norm() <= north->norm()) ? east : north;
  }

  [[nodiscard]] std::optional<Vector2d> least_aslant() const {
    std::vector<Vector2d> shifts;
    double farthest_m = k_farthest_shift_m;  // later ones are of no use if they are longer than one that is known
    for (int step = 1; step * k_raster_m < farthest_m; ++step) {
      for (const Vector2d& way : {Vector2d(-1, 0), Vector2d(0, -1), Vector2d(1, 0), Vector2d(0, 1)}) {
        const Vector2d before = step * k_raster_m * way;
        const double rest_m = std::sqrt(std::max(0.0, farthest_m * farthest_m - before.squaredNorm()));
        const auto shift = least_along(all_, before, left_of(way).cwiseAbs(), rest_m);
        if (!shift) continue;
        shifts.push_back(*shift);
        farthest_m = std::min(farthest_m, shift->norm() + k_same_shift_m);
      }
    }
    return least(shifts, all_);
  }

  [[nodiscard]] std::optional<MovedLayout> all_together() const {
    auto shift = least_straight();
    if (!shift) shift = least_aslant();
    if (!shift) return std::nullopt;
    return applied({{{.part = Part::all, .by_m = *shift}, all_}});
  }

  /// The cans of each row from the south, or of each column from the west.
  [[nodiscard]] std::vector<Cans> lines_of(Part part) const {
    const auto place_m = [&](std::size_t can) { return part == Part::row ? positions_[can].y() : positions_[can].x(); };
    Cans sorted = all_;
    std::ranges::stable_sort(sorted, {}, place_m);
    std::vector<Cans> lines;
    for (const std::size_t can : sorted) {
      if (lines.empty() || place_m(can) - place_m(lines.back().back()) > k_touch_m) lines.emplace_back();
      lines.back().push_back(can);
    }
    return lines;
  }

  [[nodiscard]] std::optional<MovedLayout> each_by_itself(Part part, const Vector2d& along) const {
    std::vector<std::pair<PartMove, Cans>> moves;
    int number = 0;
    for (const Cans& cans : lines_of(part)) {
      ++number;
      if (fit_alone(cans)) continue;
      if (cans.size() == 1) return std::nullopt;
      const auto shift = least_along(cans, Vector2d::Zero(), along, k_farthest_shift_m);
      if (!shift) return std::nullopt;
      moves.push_back({{part, number, *shift}, cans});
    }
    return applied(moves);
  }

  const std::vector<Vector2d>& positions_;
  const CeilingMap& map_;
  const CanType& type_;
  Vector2d middle_;
  Cans all_;
};

}  // namespace

MovedLayout moved_to_fit(const std::vector<Vector2d>& positions_m, const CeilingMap& map, const CanType& type,
                         const Polygon& plan_m) {
  return Mover(positions_m, map, type, plan_m).moved();
}

}  // namespace evenlit
