#include "evenlit/view/light_groups.hpp"

#include <algorithm>

#include "evenlit/moods/circuits.hpp"
#include "evenlit/moods/colour_display.hpp"
#include "evenlit/moods/dimming.hpp"

namespace evenlit {
namespace {

bool are_alike(const Can& a, const Can& b) {
  return a.type == b.type && a.circuit == b.circuit && (a.circuit || a.level == b.level);
}

/// The first can of each group, as an index.
std::vector<std::size_t> first_cans(const Job& job) {
  std::vector<std::size_t> firsts;
  for (std::size_t i = 0; i < job.cans.size(); ++i) {
    const bool is_new =
        std::ranges::none_of(firsts, [&](std::size_t first) { return are_alike(job.cans[first], job.cans[i]); });
    if (is_new) firsts.push_back(i);
  }
  return firsts;
}

Eigen::Vector3d tint_at(const CanType& type, double level, const Chromaticity& white) {
  if (!type.cct_k && type.warm_dim_k.empty()) return Eigen::Vector3d::Ones();
  return tint(black_body(type.cct_k ? *type.cct_k : table_value(type.warm_dim_k, level)), white);
}

}  // namespace

std::vector<LuminaireLook> luminaire_looks(const Job& job) {
  const std::vector<std::size_t> firsts = first_cans(job);
  std::vector<LuminaireLook> looks;
  for (const Can& can : job.cans) {
    const auto own = std::ranges::find_if(firsts, [&](std::size_t first) { return are_alike(job.cans[first], can); });
    looks.push_back({.group = static_cast<int>(own - firsts.begin()), .hole_m = type_of(job, can).hole_m});
  }
  return looks;
}

std::vector<double> group_levels(const Job& job, std::span<const double> can_levels) {
  std::vector<double> levels;
  for (const std::size_t first : first_cans(job)) levels.push_back(can_levels[first]);
  return levels;
}

std::vector<Eigen::Vector3d> group_tints(const Job& job, std::span<const double> can_levels,
                                         const Chromaticity& white) {
  std::vector<Eigen::Vector3d> tints;
  for (const std::size_t first : first_cans(job)) {
    tints.push_back(tint_at(type_of(job, job.cans[first]), can_levels[first], white));
  }
  return tints;
}

}  // namespace evenlit
