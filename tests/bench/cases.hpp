#pragma once

#include <string>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit::bench {

/// A room and the points at which its light is wanted.
struct Case {
  std::string name;
  Scene scene;
  std::vector<Receiver> receivers;
};

/// Six cans of 600 lm in two rows of three, in 4.2 x 3.6 x 2.5 m; 168 receivers at 0.8 m.
Case empty_room();

/// Eight of the same in an L of 5.4 x 4.8 m with a notch of 2.4 x 2.0 m; receivers 0.3 m apart.
Case l_shape();

/// The L with a sofa, a turned low table, a shelf, an island, a tall cabinet in a corner and a soffit over it.
Case furnished_l();

/// Six spots of 20 degrees in 4.4 x 3.7 m.
Case narrow_beams();

/// Furnished rooms of different sizes, each unlike the others.
std::vector<Case> house(int rooms);

/// A rectangle with so many boxes that stand about.
Case cluttered_room(int boxes);

/// The first demo job as it ships, on its own grid. Ends the program when it cannot be read.
Case demo_job();

std::string demo_job_path();

/// Hangs luminaires of one distribution, of 600 lm, evenly from the ceiling, in the place of those that the room has:
/// the first `count` places of a raster that lie inside the plan and under no box.
void rehang(Case& room, int count);

/// Receivers all over the room at the work plane, no farther apart than this.
void respace(Case& room, double spacing_m);

}  // namespace evenlit::bench
