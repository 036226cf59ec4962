#include "evenlit/field/work_plane_light.hpp"

#include <cmath>

namespace evenlit {
namespace {

std::optional<double> watts_of(const Scene& scene) {
  double sum = 0;
  for (const auto& luminaire : scene.luminaires) {
    if (luminaire.level == 0) continue;
    if (!luminaire.watts) return std::nullopt;
    sum += *luminaire.watts * luminaire.level;
  }
  return sum;
}

}  // namespace

std::vector<Receiver> upward_receivers(const Grid& grid) {
  std::vector<Receiver> receivers;
  for (const auto& point : grid.points_m) {
    receivers.push_back({{point.x(), point.y(), grid.height_m}, Eigen::Vector3d::UnitZ()});
  }
  return receivers;
}

Eigen::VectorXd levels_of(const Scene& scene) {
  Eigen::VectorXd levels(scene.luminaires.size());
  for (Eigen::Index k = 0; k < levels.size(); ++k) levels[k] = scene.luminaires[k].level;
  return levels;
}

double worst_error_share(const WorkPlaneLight& light) {
  const double average_lx = light.statistics.average_lx;
  return average_lx > 0 ? light.field.error_lx.maxCoeff() / average_lx : 0;
}

WorkPlaneLight work_plane_light(const Scene& scene, const Grid& grid, std::optional<double> target_lx,
                                const Progress& progress) {
  return work_plane_light(scene, grid, target_lx, response(scene, upward_receivers(grid), Accuracy{}, progress));
}

WorkPlaneLight work_plane_light(const Scene& scene, const Grid& grid, std::optional<double> target_lx,
                                Response response) {
  const Eigen::VectorXd levels = levels_of(scene);
  WorkPlaneLight light;
  light.grid = grid;
  light.response = std::move(response);
  light.field = field_at(light.response, levels);
  light.statistics = statistics(light.field.total_lx, light.field.direct_lx, target_lx);
  light.lumen_method = lumen_method(scene, grid.height_m);
  light.floor_area_m2 = signed_area(scene.plan_m);
  light.average_error_lx = light.field.error_lx.mean();
  for (const auto& luminaire : scene.luminaires) {
    light.luminaire_lumens += lumens(scene.distributions[luminaire.distribution]) * luminaire.output * luminaire.level;
  }
  light.watts = watts_of(scene);
  return light;
}

}  // namespace evenlit
