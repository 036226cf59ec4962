#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "evenlit/field/response.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit::testing {

struct Reflectances {
  double floor = 0.2;
  double ceiling = 0.8;
  double walls = 0.5;
};

/// An empty room over a plan (counter-clockwise), without luminaires.
Scene room_over(const Polygon& plan_m, double ceiling_m, const Reflectances& reflectances = {});

/// The same under slopes that name the plan's walls "wall 1", "wall 2" ... by the edges' numbers.
Scene room_under_slopes(const Polygon& plan_m, std::optional<double> ceiling_m, const std::vector<Slope>& slopes,
                        const Reflectances& reflectances = {});

/// The same over a rectangle with a corner in the origin.
Scene box_room(double x_m, double y_m, double ceiling_m, const Reflectances& reflectances = {});

/// I(gamma) in whole steps of `step_deg`, rotationally symmetric, from 0 to 90 (or 180) degrees.
IntensityDistribution tabulated(const std::function<double(double gamma_rad)>& candela, double last_deg = 90,
                                double step_deg = 0.05);

/// peak cos^power below the horizontal.
IntensityDistribution cosine_power(double peak_cd, double power);

/// The same intensity in all directions.
IntensityDistribution isotropic(double lumens);

/// Hangs a point luminaire, aimed straight down, in the scene.
void add_point(Scene& scene, const Eigen::Vector3d& position_m, const IntensityDistribution& distribution);

std::vector<Receiver> upward_grid(double x_m, double y_m, double height_m, int columns, int rows);

/// Direct plus indirect light of all luminaires at full level.
Eigen::VectorXd total_lx(const Response& response);

}  // namespace evenlit::testing
