#include "evenlit/report/location.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "evenlit/base/number.hpp"
#include "evenlit/report/plain_text.hpp"

namespace evenlit {
namespace {

// A wall as seen from the point: the distance square to it, and how far that foot lies beyond the wall's ends.
struct Sighting {
  std::string wall;
  Eigen::Vector2d along;
  double distance_m = 0;
  double beyond_m = 0;
};

std::string tape_text(double distance_m, Units units) {
  return units == Units::imperial ? feet_inches(distance_m, 1) : fixed_text(distance_m, 2) + " m";
}

}  // namespace

std::vector<Taped> taped_location(const Shape& room, const Eigen::Vector2d& point_m) {
  std::vector<Sighting> sightings;
  for (std::size_t i = 0; i < room.corners_m.size(); ++i) {
    const Eigen::Vector2d from = room.corners_m[i];
    const Eigen::Vector2d edge = room.corners_m[(i + 1) % room.corners_m.size()] - from;
    const Eigen::Vector2d along = edge.normalized();
    const double station = (point_m - from).dot(along);
    const double distance = along.x() * (point_m - from).y() - along.y() * (point_m - from).x();
    const double beyond = std::max({0.0, -station, station - edge.norm()});
    if (distance >= 0) sightings.push_back({room.wall_names[i], along, distance, beyond});
  }
  std::stable_sort(sightings.begin(), sightings.end(), [](const Sighting& a, const Sighting& b) {
    return std::hypot(a.distance_m, a.beyond_m) < std::hypot(b.distance_m, b.beyond_m);
  });
  std::stable_partition(sightings.begin(), sightings.end(), [](const Sighting& s) { return s.beyond_m == 0; });

  std::vector<Taped> taped;
  for (const Sighting& sighting : sightings) {
    const double sine =
        sighting.along.x() * sightings.front().along.y() - sighting.along.y() * sightings.front().along.x();
    if (!taped.empty() && std::abs(sine) <= 0.5) continue;
    taped.push_back({sighting.wall, sighting.distance_m});
    if (taped.size() == 2) break;
  }
  return taped;
}

std::string location_text(const Shape& room, const Eigen::Vector2d& point_m, Units units) {
  std::string text;
  for (const Taped& taped : taped_location(room, point_m)) {
    if (!text.empty()) text += " and ";
    text += tape_text(taped.distance_m, units) + " from the " + printable(taped.wall) + " wall";
  }
  return text;
}

std::string mark_text(const Shape& room, const Eigen::Vector2d& point_m, Units units) {
  std::string text;
  for (const Taped& taped : taped_location(room, point_m)) {
    if (!text.empty()) text += ", ";
    text += length_text(taped.distance_m, units) + " " + printable(taped.wall);
  }
  return text;
}

CompassPoint compass_point(const Eigen::Vector2d& direction) {
  constexpr std::array<CompassPoint, 8> k_points{{{"east", "E"},
                                                  {"northeast", "NE"},
                                                  {"north", "N"},
                                                  {"northwest", "NW"},
                                                  {"west", "W"},
                                                  {"southwest", "SW"},
                                                  {"south", "S"},
                                                  {"southeast", "SE"}}};
  const double eighths = std::round(std::atan2(direction.y(), direction.x()) / (std::numbers::pi / 4));
  return k_points[static_cast<std::size_t>(eighths + 8) % 8];
}

}  // namespace evenlit
