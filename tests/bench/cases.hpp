#pragma once

#include <Eigen/Core>
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

/// Six cosine-cubed cans of 600 lm, in two rows of three, in an empty room of 4.2 x 3.6 x 2.5 m; 168 receivers at 0.8
/// m.
///
/// @param x_m, y_m of the outer cans from the walls
Case six_cans(const std::string& name, double x_m, double y_m);

/// Six of the same in an L of 5.4 x 4.8 m with a notch of 2.4 x 2.0 m; receivers 0.3 m apart.
Case l_shape();

/// The first demo job as it ships, on its own grid. Ends the program when it cannot be read.
Case demo_job();

std::string demo_job_path();

/// Light of all luminaires at full level, with the engine's stated error.
Field full_field(const Response& response);

}  // namespace evenlit::bench
