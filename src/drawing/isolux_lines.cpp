#include "isolux_lines.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "evenlit/drawing/isolux.hpp"
#include "evenlit/drawing/text.hpp"

namespace evenlit {
namespace {

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
std::optional<LabelledGap> label_along(const Measured& line, const std::string& label, double size, Weight weight,
                                       const FreeSpace& space) {
  constexpr double k_step = 6;
  constexpr double k_straight_enough = 0.93;  // chord over length
  constexpr double k_shortest_line = 2;       // over the label's width
  struct Candidate {
    double at;
    Eigen::Vector2d along;
    double merit;
  };
  const double width = text_width(label, size, weight) + 14;
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
    const Text text = halo_text(label, centre, size, weight, turn_along_line(c.along));
    if (space.is_free(discs_of(text))) return LabelledGap{text, begin, end};
  }
  return std::nullopt;
}

}  // namespace

Text halo_text(std::string text, const Eigen::Vector2d& centre, double size, Weight weight, double turn_rad) {
  Text made = centred_text(std::move(text), centre, size, weight, turn_rad);
  made.halo_width = k_halo_width;
  return made;
}

std::vector<DrawingItem> isolux_lines(const SampledField& field_m, const Polygon& plan_m,
                                      const std::vector<Isolux>& levels, const PlanView& view, double label_size,
                                      FreeSpace& space) {
  std::vector<DrawingItem> rims;
  std::vector<DrawingItem> lines;
  std::vector<DrawingItem> labels;
  for (const Isolux& level : levels) {
    const double width = level.is_heavy ? 3.2 : 1.4;
    const std::vector<double> dash = level.is_dashed ? std::vector{9.0, 5.0} : std::vector<double>{};
    const Weight weight = level.is_heavy ? Weight::bold : Weight::regular;
    for (const Polyline& line_m : clipped(contours(field_m, level.lx), plan_m)) {
      const Polyline whole = view.at(line_m);
      const Measured line(whole);
      std::vector<Polyline> pieces;
      if (const auto gap = label_along(line, level.label, label_size, weight, space)) {
        pieces = {line.piece(0, gap->begin), line.piece(gap->end, line.station.back())};
        space.take(discs_of(gap->label));
        labels.emplace_back(gap->label);
      } else {
        pieces = {whole};
      }
      for (const Polyline& piece : pieces) {
        rims.emplace_back(Stroke{piece, false, width + 2.4, {{255, 255, 255}, 0.55}, {}});
        lines.emplace_back(Stroke{piece, false, width, k_dark, dash});
      }
    }
  }
  rims.insert(rims.end(), lines.begin(), lines.end());
  rims.insert(rims.end(), labels.begin(), labels.end());
  return rims;
}

}  // namespace evenlit
