#include "evenlit/field/lumen_method.hpp"

#include <Eigen/Geometry>
#include <algorithm>

#include "evenlit/photometry/zonal_cavity.hpp"

namespace evenlit {
namespace {

ZonalFlux flux_at_levels(const Scene& scene) {
  ZonalFlux sum;
  for (const auto& luminaire : scene.luminaires) {
    const auto& distribution = scene.distributions[luminaire.distribution];
    const double factor = luminaire.output * luminaire.level;
    const ZonalFlux flux = zonal_flux(distribution);
    for (std::size_t zone = 0; zone < sum.down.size(); ++zone) sum.down[zone] += factor * flux.down[zone];
    sum.up += factor * flux.up;
  }
  return sum;
}

double area_of(const Outline& outline, const Eigen::Vector3d& normal) {
  double area = 0;
  for (std::size_t i = 1; i + 1 < outline.size(); ++i) {
    area += (outline[i] - outline[0]).cross(outline[i + 1] - outline[0]).dot(normal) / 2;
  }
  return area;
}

/// Of what boxes leave free of the walls and the areas on them; 0 where that is nothing.
double mean_wall_reflectance(const Scene& scene) {
  double area = 0;
  double sum = 0;
  for (const auto& surface : scene.surfaces) {
    if (surface.part != Part::wall && surface.part != Part::wall_area) continue;
    for (const auto& outline : surface.free_m) {
      const double part = area_of(outline, surface.normal);
      area += part;
      sum += part * surface.reflectance;
    }
  }
  return area > 0 ? sum / area : 0;
}

double mean_luminaire_height(const Scene& scene) {
  double sum = 0;
  for (const auto& luminaire : scene.luminaires) sum += luminaire.position_m.z();
  return sum / static_cast<double>(scene.luminaires.size());
}

}  // namespace

LumenMethod lumen_method(const Scene& scene, double work_plane_m) {
  const double area_m2 = signed_area(scene.plan_m);
  const double perimeter_m = perimeter(scene.plan_m);
  const double luminaire_m = mean_luminaire_height(scene);
  const double walls = mean_wall_reflectance(scene);
  LumenMethod result;
  result.room_cavity_ratio = cavity_ratio(std::max(0.0, luminaire_m - work_plane_m), perimeter_m, area_m2);
  result.ceiling_cavity_ratio = cavity_ratio(std::max(0.0, mean_ceiling_m(scene) - luminaire_m), perimeter_m, area_m2);
  result.floor_cavity_ratio = cavity_ratio(work_plane_m, perimeter_m, area_m2);
  const CavityFinishes finishes{
      .ceiling = effective_cavity_reflectance(result.ceiling_cavity_ratio, scene.surfaces[1].reflectance, walls),
      .walls = walls,
      .floor = effective_cavity_reflectance(result.floor_cavity_ratio, scene.surfaces[0].reflectance, walls)};
  const ZonalFlux flux = flux_at_levels(scene);
  result.coefficient_of_utilization = coefficient_of_utilization(flux, result.room_cavity_ratio, finishes);
  result.average_lx = total(flux) * result.coefficient_of_utilization / area_m2;
  return result;
}

}  // namespace evenlit
