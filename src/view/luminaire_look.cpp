#include "luminaire_look.hpp"

#include <algorithm>

namespace evenlit {

Opening shown_opening(const Luminaire& luminaire, const LuminaireLook& look) {
  constexpr double k_without_size_m = 0.1;
  if (luminaire.opening.shape != Opening::Shape::point) return luminaire.opening;
  const double diameter_m = look.hole_m.value_or(k_without_size_m);
  return {.shape = Opening::Shape::disc, .width_m = diameter_m, .length_m = diameter_m};
}

OpeningLight full_light_toward(const Scene& scene, Luminaire luminaire, const Eigen::Vector3d& point_m) {
  if (point_m == luminaire.position_m) return {};
  luminaire.level = 1;
  return light_toward(scene, luminaire, point_m);
}

double opening_cd_m2(const Scene& scene, const LuminaireLook& look, int luminaire, const Eigen::Vector3d& point_m) {
  constexpr double k_least_share = 0.05;
  Luminaire shown = scene.luminaires[luminaire];
  shown.opening = shown_opening(shown, look);
  const OpeningLight light = full_light_toward(scene, shown, point_m);
  const double least_m2 = k_least_share * opening_sizes_m(shown.opening).prod();
  return light.candela / std::max(light.projected_area_m2, least_m2);
}

Paint paint_of(const Scene& scene, const ShownFace& face) {
  constexpr double k_trim_reflectance = 0.8;
  constexpr double k_opening_reflectance = 0.3;
  if (face.surface < 0) return {};
  if (face.kind == ShownFace::Kind::trim) return {.reflectance = k_trim_reflectance};
  if (face.kind == ShownFace::Kind::opening) return {.reflectance = k_opening_reflectance};
  const Surface& surface = scene.surfaces[face.surface];
  return {surface.reflectance, surface.tint};
}

int groups_of(const std::vector<LuminaireLook>& looks) {
  int groups = 0;
  for (const LuminaireLook& look : looks) groups = std::max(groups, look.group + 1);
  return groups;
}

}  // namespace evenlit
