#pragma once

#include <random>

#include "evenlit/placing/ceiling_map.hpp"

namespace evenlit {

/// Makes ceilings that are hard on a can: an L or a rectangle, joists along or aslant, odd members, keep-outs of every
/// shape, housings of every kind.
class RandomCeilings {
 public:
  explicit RandomCeilings(unsigned seed) : random_(seed) {}

  Job next();

  /// Anywhere in the room.
  Eigen::Vector2d place(const Shape& room);

  /// Through the room, in any direction or straight across.
  Line line(const Shape& room);

 private:
  bool flip() { return (random_() & 1U) != 0; }
  double between(double least, double most) { return std::uniform_real_distribution(least, most)(random_); }
  Shape room();
  Taped taped(const Shape& room, std::size_t wall, double most_m);
  std::variant<TapedRectangle, TapedCircle, Polygon> shape(const Shape& room);
  CanType type();

  std::mt19937_64 random_;
};

/// The job with east and west exchanged: x turned into -x.
Job mirrored(const Job& job);

/// How far a can at a place is from the nearest of what it must not hit, by figures laid over each other: the hole a
/// polygon of many corners, the housing a rectangle, everything a polygon. Any value below 0 where some overlap or the
/// clearance is not kept. Shares nothing with the map but the framing's strips.
double plain_gap_m(const Job& job, const Framing& framing, const Eigen::Vector2d& centre_m);

}  // namespace evenlit
