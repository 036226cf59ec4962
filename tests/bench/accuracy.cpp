#include "accuracy.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

#include "evenlit/field/direct.hpp"

namespace evenlit::bench {
namespace {

Eigen::VectorXd fine_direct_light(const Case& room) {
  constexpr OpeningDetail k_detail{.point_beyond = 100, .penumbra = 12};
  const Visibility visibility(room.scene);
  Facets facets;
  for (const auto& receiver : room.receivers) facets.add(receiver.position_m, receiver.normal);
  const Figures figures = visibility.figures_of(facets.points(), facets.size());
  Eigen::VectorXf lx(facets.size());
  Eigen::VectorXd sum = Eigen::VectorXd::Zero(facets.size());
  for (const auto& luminaire : room.scene.luminaires) {
    const auto source = std::make_shared<const LightSource>(room.scene.distributions[luminaire.distribution]);
    DirectLight(luminaire, source, k_detail).illuminances(visibility, facets, figures, 0, facets.size(), lx.data());
    sum += lx.cast<double>();
  }
  return sum;
}

}  // namespace

Field full_field(const Response& response) {
  return field_at(response, Eigen::VectorXd::Ones(response.direct_lx.cols()));
}

Eigen::VectorXd true_light(const Case& room, const MeshDetail& detail) {
  const Eigen::VectorXd indirect = response(room.scene, room.receivers, detail).indirect_lx.rowwise().sum();
  return indirect + fine_direct_light(room);
}

Difference difference(const Field& field, const Eigen::VectorXd& true_lx) {
  const Eigen::ArrayXd off = (field.total_lx - true_lx).array().abs();
  const Eigen::ArrayXd share = off / true_lx.array();
  std::vector<double> sorted(share.begin(), share.end());
  std::ranges::sort(sorted);
  return {.usual = sorted[static_cast<std::size_t>(0.95 * static_cast<double>(sorted.size() - 1))],
          .largest = sorted.back(),
          .rms = std::sqrt(share.square().mean()),
          .stated = (field.error_lx.array() / field.total_lx.array()).mean(),
          .covered = (off <= field.error_lx.array()).cast<double>().mean()};
}

std::string percent(double share) { return fmt::format("{:.3f} %", 100 * share); }

std::string milliseconds(double seconds) { return fmt::format("{:.{}f}", 1e3 * seconds, seconds < 0.1 ? 1 : 0); }

}  // namespace evenlit::bench
