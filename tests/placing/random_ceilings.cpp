#include "random_ceilings.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evenlit {
namespace {

using Eigen::Vector2d;

Polygon many_cornered(const Vector2d& centre, double radius_m) {
  constexpr int k_corners = 240;
  Polygon corners;
  for (int i = 0; i < k_corners; ++i) {
    const double turn = 2 * std::numbers::pi * i / k_corners;
    corners.emplace_back(centre + radius_m * Vector2d(std::cos(turn), std::sin(turn)));
  }
  return corners;
}

double side_of(const Vector2d& a, const Vector2d& b, const Vector2d& p) {
  return (b - a).x() * (p - a).y() - (b - a).y() * (p - a).x();
}

bool cross(const Vector2d& a, const Vector2d& b, const Vector2d& c, const Vector2d& d) {
  return side_of(a, b, c) * side_of(a, b, d) < 0 && side_of(c, d, a) * side_of(c, d, b) < 0;
}

bool overlap(const Polygon& a, const Polygon& b) {
  if (is_inside(a, b.front()) || is_inside(b, a.front())) return true;
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (std::size_t j = 0; j < b.size(); ++j) {
      if (cross(a[i], a[(i + 1) % a.size()], b[j], b[(j + 1) % b.size()])) return true;
    }
  }
  return false;
}

double outline_distance_m(const Polygon& a, const Polygon& b) {
  double least_m = 1e9;
  for (const Vector2d& corner : a) least_m = std::min(least_m, distance_to_outline(b, corner));
  for (const Vector2d& corner : b) least_m = std::min(least_m, distance_to_outline(a, corner));
  return least_m;
}

double gap_m(const Polygon& a, const Polygon& b, double clearance_m) {
  return overlap(a, b) ? -1 : outline_distance_m(a, b) - clearance_m;
}

double gap_to_walls_m(const Polygon& body, const Polygon& room, double clearance_m) {
  const bool is_in = std::ranges::all_of(body, [&](const Vector2d& corner) { return is_inside(room, corner); });
  if (!is_in) return -1;
  for (std::size_t i = 0; i < body.size(); ++i) {
    for (std::size_t j = 0; j < room.size(); ++j) {
      if (cross(body[i], body[(i + 1) % body.size()], room[j], room[(j + 1) % room.size()])) return -1;
    }
  }
  return outline_distance_m(body, room) - clearance_m;
}

Polygon outline_of(const Shape& room, const KeepOut& keep_out) {
  if (const auto* corners = std::get_if<Polygon>(&keep_out.shape)) return *corners;
  if (const auto* circle = std::get_if<TapedCircle>(&keep_out.shape)) {
    return many_cornered(*plan_position(room, circle->from), circle->diameter_m / 2);
  }
  return corners_of(room, std::get<TapedRectangle>(keep_out.shape));
}

/// Of one part of the can, which keeps so far from wood.
double part_gap_m(const Job& job, const Framing& framing, const Polygon& part, double wood_m) {
  double least_m = gap_to_walls_m(part, job.room.corners_m, wood_m);
  for (const Strip& strip : framing.strips) least_m = std::min(least_m, gap_m(part, strip.corners_m, wood_m));
  for (const KeepOut& keep_out : job.keep_outs) {
    least_m = std::min(least_m, gap_m(part, outline_of(job.room, keep_out), keep_out.clearance_m));
  }
  return least_m;
}

Polygon mirrored(Polygon corners) {
  for (Vector2d& corner : corners) corner.x() = -corner.x();
  std::ranges::reverse(corners);
  return corners;
}

}  // namespace

double plain_gap_m(const Job& job, const Framing& framing, const Vector2d& centre_m) {
  const CanType& type = job.can_types.front();
  constexpr double k_half_inch_m = 0.0127;
  const double wood_m = type.rating == Rating::ic ? 0 : k_half_inch_m;
  const Polygon hole = many_cornered(centre_m, *type.hole_m / 2);
  const double hole_gap_m = part_gap_m(job, framing, hole, type.housing ? 0 : wood_m);
  if (!type.housing) return hole_gap_m;
  std::vector<Vector2d> lies;
  const auto run = run_at(framing, centre_m);
  for (std::size_t i = 0; i < framing.runs.size(); ++i) {
    const Vector2d& along = framing.runs[i].along;
    const bool is_either = type.housing->lies == Housing::Lies::either;
    if (!is_either && run && *run != static_cast<int>(i)) continue;
    if (type.housing->lies != Housing::Lies::across) lies.push_back(along);
    if (type.housing->lies != Housing::Lies::along) lies.emplace_back(-along.y(), along.x());
  }
  double best_m = -1;
  for (const Vector2d& along : lies) {
    const Vector2d u = type.housing->length_m / 2 * along;
    const Vector2d v = type.housing->width_m / 2 * Vector2d(-along.y(), along.x());
    const Polygon housing{centre_m - u - v, centre_m + u - v, centre_m + u + v, centre_m - u + v};
    best_m = std::max(best_m, part_gap_m(job, framing, housing, wood_m));
  }
  return std::min(hole_gap_m, best_m);
}

Job RandomCeilings::next() {
  Job job;
  job.room = room();
  const bool are_two = flip();
  for (int i = 0; i < (are_two ? 2 : 1); ++i) {
    const auto wall = random_() % job.room.wall_names.size();
    Joists joists{job.room.wall_names[wall], between(0.05, 0.4), flip() ? 0.4064 : between(0.25, 0.7)};
    if (are_two) {
      const double x = between(1.5, 2.5);
      joists.area =
          i == 0 ? Polygon{{-1, -1}, {x, -1}, {x + 0.5, 7}, {-1, 7}} : Polygon{{x, -1}, {9, -1}, {9, 7}, {x, 7}};
    }
    job.joists.push_back(joists);
  }
  for (int i = static_cast<int>(random_() % 3); i > 0; --i) {
    Member member{"member " + std::to_string(i), {}, between(0.03, 0.15), {}};
    if (flip()) {
      member.line = taped(job.room, random_() % job.room.wall_names.size(), 3);
    } else {
      const std::size_t last = job.room.wall_names.size() - 1;
      member.line = TapedLine{{taped(job.room, 0, 3), taped(job.room, last, 3)},
                              {taped(job.room, 0, 3), taped(job.room, last, 3)}};
    }
    job.members.push_back(member);
  }
  for (int i = static_cast<int>(random_() % 4); i > 0; --i) {
    job.keep_outs.push_back({"keep-out " + std::to_string(i), shape(job.room), flip() ? 0 : between(0, 0.1), {}});
  }
  job.can_types = {type()};
  return job;
}

Vector2d RandomCeilings::place(const Shape& room) {
  while (true) {
    const Vector2d place(between(0, 6), between(0, 5));
    if (is_inside(room.corners_m, place)) return place;
  }
}

Line RandomCeilings::line(const Shape& room) {
  const double turn =
      flip() ? between(0, 2 * std::numbers::pi) : std::numbers::pi / 2 * static_cast<double>(random_() % 4);
  return {place(room), {std::cos(turn), std::sin(turn)}};
}

Shape RandomCeilings::room() {
  const double width = between(3, 6);
  const double depth = between(2.5, 5);
  Shape room{"room", {{0, 0}, {width, 0}, {width, depth}, {0, depth}}, {"south", "east", "north", "west"}, 2.5, {}};
  const auto kind = random_() % 3;
  if (kind == 1) room.corners_m[2].y() *= between(0.6, 0.9);
  if (kind == 2) {
    room.corners_m = {{0, 0}, {width, 0}, {width, depth / 2}, {width / 3, depth / 2}, {width / 3, depth}, {0, depth}};
    room.wall_names = {"south", "east", "hall", "nook", "north", "west"};
  }
  return room;
}

Taped RandomCeilings::taped(const Shape& room, std::size_t wall, double most_m) {
  return {room.wall_names[wall], between(0, most_m)};
}

std::variant<TapedRectangle, TapedCircle, Polygon> RandomCeilings::shape(const Shape& room) {
  const std::size_t last = room.wall_names.size() - 1;
  const auto kind = random_() % 3;
  if (kind == 0) return TapedCircle{{taped(room, 0, 3), taped(room, last, 3)}, between(0.05, 0.4)};
  if (kind == 1) {
    return TapedRectangle{
        {taped(room, 0, 3), taped(room, last, 3)}, between(0.1, 0.6), between(0.1, 0.6), between(-90, 90)};
  }
  // A bent duct.
  const Vector2d a = place(room);
  const double w = between(0.1, 0.3);
  return Polygon{a,
                 a + Vector2d(1, 0.1),
                 a + Vector2d(1, 0.1 + w),
                 a + Vector2d(w, w),
                 a + Vector2d(w + 0.1, 1),
                 a + Vector2d(0, 1)};
}

CanType RandomCeilings::type() {
  CanType type;
  type.name = "can";
  type.hole_m = between(0.08, 0.2);
  type.rating = static_cast<Rating>(random_() % 3);
  if (flip()) {
    type.housing = Housing{.length_m = between(0.15, 0.4), .width_m = between(0.1, 0.25)};
    type.housing->lies = static_cast<Housing::Lies>(random_() % 3);
  }
  return type;
}

Job mirrored(const Job& job) {
  Job image = job;
  const auto& names = job.room.wall_names;
  image.room.corners_m = mirrored(job.room.corners_m);
  for (std::size_t i = 0; i < names.size(); ++i)
    image.room.wall_names[i] = names[(2 * names.size() - 2 - i) % names.size()];
  for (Joists& joists : image.joists) {
    if (joists.area) joists.area = mirrored(std::get<Polygon>(*joists.area));
  }
  for (KeepOut& keep_out : image.keep_outs) {
    if (auto* corners = std::get_if<Polygon>(&keep_out.shape)) *corners = mirrored(*corners);
    if (auto* rectangle = std::get_if<TapedRectangle>(&keep_out.shape)) rectangle->turn_deg = -rectangle->turn_deg;
  }
  return image;
}

}  // namespace evenlit
