#include "evenlit/placing/line.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {

std::vector<double> crossings(const Polygon& polygon, const Line& line) {
  const Eigen::Vector2d left = left_of(line.along);
  std::vector<double> stations;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Eigen::Vector2d& start = polygon[i];
    const Eigen::Vector2d& end = polygon[(i + 1) % polygon.size()];
    const double off_start = left.dot(start - line.point);
    const double off_end = left.dot(end - line.point);
    if (off_start == 0) stations.push_back(line.station_of(start));
    if ((off_start < 0) == (off_end < 0)) continue;
    stations.push_back(line.station_of(start + off_start / (off_start - off_end) * (end - start)));
  }
  std::ranges::sort(stations);
  return stations;
}

std::vector<Eigen::Vector2d> crossings(const Circle& a, const Circle& b) {
  const Eigen::Vector2d way = b.centre - a.centre;
  const double distance2 = way.squaredNorm();
  if (distance2 == 0) return {};
  const double share = (1 + (a.radius_m * a.radius_m - b.radius_m * b.radius_m) / distance2) / 2;
  const double side2 = a.radius_m * a.radius_m / distance2 - share * share;
  if (!(side2 >= 0)) return {};
  const Eigen::Vector2d foot = a.centre + share * way;
  const Eigen::Vector2d aside = std::sqrt(side2) * left_of(way);
  return {foot + aside, foot - aside};
}

std::vector<Span> spans_within(const Polygon& polygon, const Line& line) {
  const std::vector<double> stations = crossings(polygon, line);
  std::vector<Span> spans;
  for (std::size_t i = 0; i + 1 < stations.size(); ++i) {
    const Span span{stations[i], stations[i + 1]};
    if (!(span[0] < span[1]) || !is_inside(polygon, line.at((span[0] + span[1]) / 2))) continue;
    if (!spans.empty() && spans.back()[1] == span[0]) {
      spans.back()[1] = span[1];
    } else {
      spans.push_back(span);
    }
  }
  return spans;
}

std::vector<Span> joined(std::vector<Span> spans) {
  std::ranges::sort(spans);
  std::vector<Span> result;
  for (const Span& span : spans) {
    if (!result.empty() && span[0] <= result.back()[1]) {
      result.back()[1] = std::max(result.back()[1], span[1]);
    } else {
      result.push_back(span);
    }
  }
  return result;
}

std::vector<Span> without(const std::vector<Span>& spans, std::vector<Span> blocked) {
  const std::vector<Span> blocks = joined(std::move(blocked));
  std::vector<Span> left;
  for (Span rest : spans) {
    for (const Span& block : blocks) {
      if (block[1] <= rest[0]) continue;
      if (block[0] >= rest[1]) break;
      if (block[0] > rest[0]) left.push_back({rest[0], block[0]});
      rest[0] = std::min(block[1], rest[1]);
    }
    if (rest[0] < rest[1]) left.push_back(rest);
  }
  return left;
}

}  // namespace evenlit
