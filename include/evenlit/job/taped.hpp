#pragma once

#include <string>

namespace evenlit {

/// A tape measurement: so far from the named wall, square to it, into the room.
struct Taped {
  std::string wall;
  double distance_m = 0;

  friend bool operator==(const Taped&, const Taped&) = default;
};

}  // namespace evenlit
