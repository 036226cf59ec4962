#include "plan_walls.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/drawing/text.hpp"
#include "sheet.hpp"

namespace evenlit {
namespace {

constexpr double k_name_distance = 33;       // wall face to the middle of the name
constexpr double k_dimension_distance = 66;  // wall face to the dimension line

// A wall on the sheet.
struct Wall {
  Eigen::Vector2d from;
  Eigen::Vector2d to;
  Eigen::Vector2d along;    // unit
  Eigen::Vector2d outward;  // unit
  double length = 0;
};

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

// The plan runs counter-clockwise as seen; on the sheet, y down, outside is right of the wall all the same as seen.
std::vector<Wall> walls_on_sheet(const Polygon& plan_m, const PlanView& view) {
  const Polyline corners = view.at(plan_m);
  std::vector<Wall> walls;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Eigen::Vector2d from = corners[i];
    const Eigen::Vector2d to = corners[(i + 1) % corners.size()];
    const Eigen::Vector2d along = (to - from).normalized();
    walls.push_back({from, to, along, {-along.y(), along.x()}, (to - from).norm()});
  }
  return walls;
}

bool is_reentrant(const Wall& before, const Wall& after) { return cross(before.along, after.along) > 1e-9; }

// The outline moved outward, corners mitred (no farther than four times the distance).
Polyline moved_outward(const std::vector<Wall>& walls, double distance) {
  Polyline outline;
  for (std::size_t i = 0; i < walls.size(); ++i) {
    const Wall& before = walls[(i + walls.size() - 1) % walls.size()];
    const Eigen::Vector2d sum = before.outward + walls[i].outward;
    outline.emplace_back(walls[i].from + distance * sum / std::max(0.25, 1 + before.outward.dot(walls[i].outward)));
  }
  return outline;
}

// Whether a wall's edge reaches into the strip in front of `wall`, which it could not be dimensioned across.
bool is_in_front(const Wall& other, const Wall& wall) {
  constexpr double k_touch = 1;  // unit; walls that only touch the strip's border are beside it
  const auto local = [&](const Eigen::Vector2d& p) {
    return Eigen::Vector2d((p - wall.from).dot(wall.along), (p - wall.from).dot(wall.outward));
  };
  Eigen::Vector2d a = local(other.from);
  Eigen::Vector2d b = local(other.to);
  if (a.x() > b.x()) std::swap(a, b);
  if (b.x() <= k_touch || a.x() >= wall.length - k_touch) return false;
  const auto height_at = [&](double x) {
    const double t = b.x() > a.x() ? std::clamp((x - a.x()) / (b.x() - a.x()), 0.0, 1.0) : 0;
    return a.y() + t * (b.y() - a.y());
  };
  return std::max(height_at(k_touch), height_at(wall.length - k_touch)) > k_touch;
}

// Distance from the wall's face to its dimension line: beside the whole plan for a wall along an axis with a free view.
double dimension_distance(const std::vector<Wall>& walls, const Wall& wall) {
  const bool along_axis = std::abs(wall.along.x()) < 1e-9 || std::abs(wall.along.y()) < 1e-9;
  const bool free = std::none_of(walls.begin(), walls.end(), [&](const Wall& w) { return is_in_front(w, wall); });
  if (!along_axis || !free) return k_dimension_distance;
  double farthest = 0;
  for (const Wall& w : walls) farthest = std::max(farthest, (w.from - wall.from).dot(wall.outward));
  return farthest + k_dimension_distance;
}

}  // namespace

std::vector<DrawingItem> dimension_line(const Eigen::Vector2d& from, const Eigen::Vector2d& to, double distance,
                                        const std::string& length) {
  constexpr double k_gap = 10;
  constexpr double k_overshoot = 7;
  const Eigen::Vector2d along = (to - from).normalized();
  const Eigen::Vector2d outward(-along.y(), along.x());
  const Eigen::Vector2d start = from + distance * outward;
  const Eigen::Vector2d end = to + distance * outward;
  std::vector<DrawingItem> items;
  const auto line = [&](const Eigen::Vector2d& a, const Eigen::Vector2d& b, double width, const Ink& ink) {
    items.emplace_back(Stroke{{a, b}, false, width, ink, {}});
  };
  for (const Eigen::Vector2d& corner : {from, to}) {
    const Eigen::Vector2d crossing = corner + distance * outward;
    line(corner, crossing + k_overshoot * outward, 1.2, k_light_grey);
    const Eigen::Vector2d slash = 6.5 * (along + outward).normalized();
    line(crossing - slash, crossing + slash, 2.2, k_grey);
  }
  const Eigen::Vector2d middle = (start + end) / 2;
  const double half_gap = text_width(length, k_small_text, Weight::regular) / 2 + k_gap;
  const double turn = upright_turn(along);
  if (2 * half_gap + 2 * k_gap > (to - from).norm()) {
    line(start, end, 1.2, k_grey);
    items.emplace_back(centred_text(length, middle + 20 * outward, k_small_text, Weight::regular, turn));
    return items;
  }
  line(start, middle - half_gap * along, 1.2, k_grey);
  line(middle + half_gap * along, end, 1.2, k_grey);
  items.emplace_back(centred_text(length, middle, k_small_text, Weight::regular, turn));
  return items;
}

std::vector<DrawingItem> wall_dimensions(const Shape& room, const PlanView& view, Units units) {
  const std::vector<Wall> walls = walls_on_sheet(room.corners_m, view);
  std::vector<DrawingItem> items;
  for (const Wall& wall : walls) {
    const double length_m = wall.length / view.units_per_m;
    append(items, dimension_line(wall.from, wall.to, dimension_distance(walls, wall), length_text(length_m, units)));
  }
  return items;
}

DrawingItem wall_band(const Polygon& outline_m, const PlanView& view) {
  Polyline inside = view.at(outline_m);
  std::reverse(inside.begin(), inside.end());
  return Fill{{moved_outward(walls_on_sheet(outline_m, view), k_wall_band), inside}, k_dark};
}

std::vector<DrawingItem> wall_names(const Shape& room, const PlanView& view) {
  const std::vector<Wall> walls = walls_on_sheet(room.corners_m, view);
  std::vector<DrawingItem> items;
  // A name has its wall's length, less the corners that open inward, where the neighbour's name is near.
  constexpr double k_corner = 50;
  for (std::size_t i = 0; i < walls.size(); ++i) {
    const Wall& wall = walls[i];
    const double begin = is_reentrant(walls[(i + walls.size() - 1) % walls.size()], wall) ? k_corner : 0;
    const double end = wall.length - (is_reentrant(wall, walls[(i + 1) % walls.size()]) ? k_corner : 0);
    const std::string name = elided(room.wall_names[i], k_small_text, Weight::regular, end - begin - 4);
    if (name.empty()) continue;
    const Eigen::Vector2d centre = wall.from + (begin + end) / 2 * wall.along + k_name_distance * wall.outward;
    Text text = centred_text(name, centre, k_small_text, Weight::regular, upright_turn(wall.along));
    text.ink = k_grey;
    items.emplace_back(text);
  }
  return items;
}

}  // namespace evenlit
