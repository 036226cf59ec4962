#include "plan_light.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/isolux.hpp"
#include "evenlit/drawing/text.hpp"

namespace evenlit {
namespace {

constexpr double k_halo_width = 3.5;

Text halo_text(std::string text, const Eigen::Vector2d& centre, Weight weight, double turn_rad = 0) {
  Text made = centred_text(std::move(text), centre, k_small_text, weight, turn_rad);
  made.halo_width = k_halo_width;
  return made;
}

// The first free place for a label around a mark, near places first: right, left, above, below, then what lies between.
std::optional<Text> label_beside(const std::string& label, const Disc& mark, Weight weight, const FreeSpace& space) {
  constexpr std::array<double, 20> k_directions_deg{0,   180, 90, 270, 15,  345, 165, 195, 45,  135,
                                                    225, 315, 30, 60,  120, 150, 210, 240, 300, 330};
  const Eigen::Vector2d half_size(text_width(label, k_small_text, weight) / 2 + k_halo_width,
                                  k_cap_height / 2 * k_small_text + k_halo_width);
  for (const double gap : {3.0, 12.0, 24.0, 40.0}) {
    for (const double direction_deg : k_directions_deg) {
      const double angle = direction_deg / 90 * std::acos(0.0);
      const Eigen::Vector2d direction(std::cos(angle), -std::sin(angle));
      const Eigen::Vector2d side = (1.5 * direction).cwiseMax(-1).cwiseMin(1);  // of the label's box, toward the mark
      const Eigen::Vector2d centre = mark.centre + (mark.radius + gap) * direction + side.cwiseProduct(half_size);
      const Text text = halo_text(label, centre, weight);
      if (space.is_free(discs_of(text))) return text;
    }
  }
  return std::nullopt;
}

double can_size_m(const Job& job, const Can& can, const Luminaire& luminaire) {
  const auto type = std::find_if(job.can_types.begin(), job.can_types.end(),
                                 [&](const CanType& candidate) { return candidate.name == can.type; });
  if (type != job.can_types.end() && type->hole_m) return *type->hole_m;
  return luminaire.opening.width_m;
}

// A line with the distance of each point from its beginning.
struct Measured {
  const Polyline& line;
  std::vector<double> station{0};

  explicit Measured(const Polyline& line_) : line(line_) {
    for (std::size_t i = 1; i < line.size(); ++i) station.push_back(station.back() + (line[i] - line[i - 1]).norm());
  }

  std::size_t segment_end(double s) const {
    return std::upper_bound(station.begin() + 1, station.end() - 1, s) - station.begin();
  }

  Eigen::Vector2d point_at(double s) const {
    const std::size_t end = segment_end(s);
    const double t = (s - station[end - 1]) / (station[end] - station[end - 1]);
    return line[end - 1] + t * (line[end] - line[end - 1]);
  }

  Polyline piece(double from, double to) const {
    Polyline points{point_at(from)};
    for (std::size_t i = segment_end(from); station[i] < to; ++i) points.push_back(line[i]);
    points.push_back(point_at(to));
    return points;
  }
};

// A label in a gap of a line.
struct LabelledGap {
  Text label;
  double begin = 0;
  double end = 0;
};

// Text along a direction; near the vertical always read from below, lest a 6 on one side be a 9 on the other.
double turn_along_line(const Eigen::Vector2d& along) {
  constexpr double k_steep_rad = 1.1;
  const double turn = upright_turn(along);
  return turn > k_steep_rad ? turn - 2 * std::acos(0.0) : turn;
}

// The straightest free stretch that a label fits on, the flatter the better; none on a line that it would all but hide.
std::optional<LabelledGap> label_along(const Measured& line, const std::string& label, Weight weight,
                                       const FreeSpace& space) {
  constexpr double k_step = 6;
  constexpr double k_straight_enough = 0.93;  // chord over length
  constexpr double k_shortest_line = 2;       // over the label's width
  struct Candidate {
    double at;
    Eigen::Vector2d along;
    double merit;
  };
  const double width = text_width(label, k_small_text, weight) + 14;
  const double length = line.station.back();
  if (length < k_shortest_line * width) return std::nullopt;
  std::vector<Candidate> candidates;
  for (double s = width / 2; s + width / 2 <= length; s += k_step) {
    const Eigen::Vector2d along = line.point_at(s + width / 2) - line.point_at(s - width / 2);
    const double straightness = along.norm() / width;
    if (straightness < k_straight_enough) continue;
    const double steepness = std::abs(along.y()) / along.norm();
    candidates.push_back({s, along, straightness - 0.15 * steepness * steepness});
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.merit > b.merit; });
  for (const Candidate& c : candidates) {
    const double begin = c.at - width / 2;
    const double end = c.at + width / 2;
    const Eigen::Vector2d centre = (line.point_at(begin) + line.point_at(end) + 2 * line.point_at(c.at)) / 4;
    const Text text = halo_text(label, centre, weight, turn_along_line(c.along));
    if (space.is_free(discs_of(text))) return LabelledGap{text, begin, end};
  }
  return std::nullopt;
}

}  // namespace

std::vector<DrawingItem> joist_lines(const Shape& room, const Joists& joists, const PlanView& view) {
  constexpr double k_closest = 8;  // units between joists
  std::vector<DrawingItem> items;
  const auto name = std::find(room.wall_names.begin(), room.wall_names.end(), joists.parallel_to);
  if (name == room.wall_names.end() || !(joists.spacing_m * view.units_per_m >= k_closest)) return items;
  const std::size_t wall = static_cast<std::size_t>(name - room.wall_names.begin());
  const Eigen::Vector2d corner = room.corners_m[wall];
  const Eigen::Vector2d along = (room.corners_m[(wall + 1) % room.corners_m.size()] - corner).normalized();
  const Eigen::Vector2d inward(-along.y(), along.x());
  double reach = 0;
  double length = 0;
  for (const Eigen::Vector2d& other : room.corners_m) {
    reach = std::max(reach, (other - corner).dot(inward));
    length = std::max(length, (other - corner).norm());
  }
  for (int i = 0; joists.first_m + i * joists.spacing_m < reach; ++i) {
    for (const double side : {-0.5, 0.5}) {
      const double distance = joists.first_m + i * joists.spacing_m + side * joists.thickness_m;
      const Eigen::Vector2d middle = corner + distance * inward;
      for (const Polyline& line : clipped({{middle - length * along, middle + length * along}}, room.corners_m)) {
        items.emplace_back(Stroke{view.at(line), false, 3.2, {{255, 255, 255}, 0.35}, {12, 7}});
        items.emplace_back(Stroke{view.at(line), false, 1.6, {{40, 42, 46}, 0.7}, {12, 7}});
      }
    }
  }
  return items;
}

std::vector<Disc> can_discs(const Job& job, const Scene& scene, const PlanView& view) {
  constexpr double k_smallest_radius = 5;
  std::vector<Disc> discs;
  for (std::size_t i = 0; i < scene.luminaires.size(); ++i) {
    const Luminaire& luminaire = scene.luminaires[i];
    const double radius = can_size_m(job, job.cans[i], luminaire) / 2 * view.units_per_m;
    discs.push_back({view.at(Eigen::Vector2d(luminaire.position_m.head<2>())), std::max(k_smallest_radius, radius)});
  }
  return discs;
}

std::vector<DrawingItem> can_marks(const std::vector<Disc>& cans, FreeSpace& space) {
  constexpr double k_cross_overshoot = 4;
  std::vector<DrawingItem> items;
  for (std::size_t i = 0; i < cans.size(); ++i) {
    const auto& [centre, radius] = cans[i];
    const double arm = radius + k_cross_overshoot;
    items.emplace_back(Fill{{circle(centre, radius + 2.5)}, k_halo});
    items.emplace_back(Stroke{circle(centre, radius), true, 2, k_dark, {}});
    for (const Eigen::Vector2d& half : {Eigen::Vector2d(arm, 0), Eigen::Vector2d(0, arm)}) {
      items.emplace_back(Stroke{{centre - half, centre + half}, false, 1.2, k_dark, {}});
    }
    const std::string number = fixed_text(static_cast<double>(i + 1), 0);
    const auto label = label_beside(number, {centre, arm}, Weight::bold, space);
    if (!label) continue;
    space.take(discs_of(*label));
    items.emplace_back(*label);
  }
  return items;
}

std::vector<DrawingItem> darkest_mark(const WorkPlaneLight& light, const PlanView& view, Units units,
                                      FreeSpace& space) {
  constexpr double k_size = 9;
  const int darkest = light.statistics.minimum_at;
  const Eigen::Vector2d at = view.at(Eigen::Vector2d(light.grid.points_m[darkest]));
  const auto diamond = [&](double size) {
    return Polyline{at + Eigen::Vector2d(0, -size), at + Eigen::Vector2d(size, 0), at + Eigen::Vector2d(0, size),
                    at + Eigen::Vector2d(-size, 0)};
  };
  std::vector<DrawingItem> items;
  items.emplace_back(Fill{{diamond(k_size + 4)}, k_white});
  items.emplace_back(Fill{{diamond(k_size)}, k_dark});
  const Disc mark{at, k_size + 4};
  space.take({mark});
  const std::string value = illuminance_text(light.statistics.minimum_lx, light.field.error_lx[darkest], units);
  auto label = label_beside("darkest " + value, mark, Weight::bold, space);
  if (!label) label = label_beside(value, mark, Weight::bold, space);
  if (label) {
    space.take(discs_of(*label));
    items.emplace_back(*label);
  }
  return items;
}

std::vector<DrawingItem> isolux_lines(const SampledField& field_m, const Polygon& plan_m,
                                      const std::vector<Isolux>& levels, const PlanView& view, FreeSpace& space) {
  std::vector<DrawingItem> rims;
  std::vector<DrawingItem> lines;
  std::vector<DrawingItem> labels;
  for (const Isolux& level : levels) {
    const double width = level.is_target ? 3.2 : 1.4;
    const Weight weight = level.is_target ? Weight::bold : Weight::regular;
    for (const Polyline& line_m : clipped(contours(field_m, level.lx), plan_m)) {
      const Polyline whole = view.at(line_m);
      const Measured line(whole);
      std::vector<Polyline> pieces;
      if (const auto gap = label_along(line, level.label, weight, space)) {
        pieces = {line.piece(0, gap->begin), line.piece(gap->end, line.station.back())};
        space.take(discs_of(gap->label));
        labels.emplace_back(gap->label);
      } else {
        pieces = {whole};
      }
      for (const Polyline& piece : pieces) {
        rims.emplace_back(Stroke{piece, false, width + 2.4, {{255, 255, 255}, 0.55}, {}});
        lines.emplace_back(Stroke{piece, false, width, k_dark, {}});
      }
    }
  }
  rims.insert(rims.end(), lines.begin(), lines.end());
  rims.insert(rims.end(), labels.begin(), labels.end());
  return rims;
}

}  // namespace evenlit
