#include "rooms.hpp"

#include <cmath>
#include <numbers>

namespace evenlit::testing {

Scene room_under_slopes(const Polygon& plan_m, std::optional<double> ceiling_m, const std::vector<Slope>& slopes,
                        const Reflectances& reflectances) {
  Job job;
  job.room.slopes = slopes;
  job.room.corners_m = plan_m;
  job.room.ceiling_m = ceiling_m;
  for (std::size_t i = 0; i < plan_m.size(); ++i) job.room.wall_names.push_back("wall " + std::to_string(i + 1));
  job.finishes.floor = reflectances.floor;
  job.finishes.ceiling = reflectances.ceiling;
  job.finishes.walls = reflectances.walls;
  return build_scene(job, {});
}

Scene room_over(const Polygon& plan_m, double ceiling_m, const Reflectances& reflectances) {
  return room_under_slopes(plan_m, ceiling_m, {}, reflectances);
}

Scene box_room(double x_m, double y_m, double ceiling_m, const Reflectances& reflectances) {
  return room_over({{0, 0}, {x_m, 0}, {x_m, y_m}, {0, y_m}}, ceiling_m, reflectances);
}

IntensityDistribution tabulated(const std::function<double(double)>& candela, double last_deg, double step_deg) {
  const int count = static_cast<int>(std::lround(last_deg / step_deg)) + 1;
  IntensityDistribution distribution{.gamma_deg = {}, .c_deg = {0}, .candela = Eigen::ArrayXXd(count, 1)};
  for (int i = 0; i < count; ++i) {
    distribution.gamma_deg.push_back(i * step_deg);
    distribution.candela(i, 0) = std::max(0.0, candela(i * step_deg * std::numbers::pi / 180));
  }
  return distribution;
}

IntensityDistribution cosine_power(double peak_cd, double power) {
  return tabulated([=](double gamma) { return peak_cd * std::pow(std::max(0.0, std::cos(gamma)), power); });
}

IntensityDistribution isotropic(double lumens) {
  return tabulated([=](double) { return lumens / (4 * std::numbers::pi); }, 180, 5);
}

void add_point(Scene& scene, const Eigen::Vector3d& position_m, const IntensityDistribution& distribution) {
  scene.luminaires.push_back({.position_m = position_m,
                              .room_from_luminaire = room_from_luminaire(0, 0, 0),
                              .opening = {},
                              .distribution = static_cast<int>(scene.distributions.size()),
                              .output = 1,
                              .level = 1,
                              .watts = 10});
  scene.distributions.push_back(distribution);
}

std::vector<Receiver> upward_grid(double x_m, double y_m, double height_m, int columns, int rows) {
  std::vector<Receiver> receivers;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      receivers.push_back(
          {{(column + 0.5) * x_m / columns, (row + 0.5) * y_m / rows, height_m}, Eigen::Vector3d::UnitZ()});
    }
  }
  return receivers;
}

Eigen::VectorXd total_lx(const Response& response) {
  return (response.direct_lx + response.indirect_lx).rowwise().sum();
}

}  // namespace evenlit::testing
