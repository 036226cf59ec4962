#include <fmt/format.h>

#include <cmath>

#include "benches.hpp"
#include "cases.hpp"
#include "mesh.hpp"
#include "plain_reference.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

using Rows = std::vector<std::vector<std::string>>;

constexpr double k_fine_m = 0.1;
constexpr double k_plain_fine_m = 0.175;

std::string percent(double share) { return fmt::format("{:.3f} %", 100 * share); }

/// How one field differs from another, as shares of the latter.
struct Difference {
  double largest;
  double rms;
  double covered;  ///< share of the receivers at which the difference is within what may be
  double worst;    ///< difference over what may be
};

Difference difference(const Eigen::VectorXd& lux, const Eigen::VectorXd& from_lx, const Eigen::VectorXd& may_lx) {
  const Eigen::ArrayXd off = (lux - from_lx).array().abs();
  const Eigen::ArrayXd share = off / from_lx.array();
  return {share.maxCoeff(), std::sqrt(share.square().mean()), (off <= may_lx.array()).cast<double>().mean(),
          (off / may_lx.array()).maxCoeff()};
}

Eigen::ArrayXd stated_share(const Field& field) { return field.error_lx.array() / field.total_lx.array(); }

/// A case, its converged light from both methods.
struct Settled {
  Case room;
  Field fine;
  Field plain_fine;
};

Settled settled(const Case& room) {
  return {room, full_field(response(room.scene, room.receivers, k_fine_m)),
          plain_field(room.scene, room.receivers, k_plain_fine_m)};
}

bool agreement(const std::vector<Settled>& cases) {
  Rows rows{{"room", "largest", "rms", "ours states", "plain states", "largest of both stated"}};
  bool all_agree = true;
  const auto compare = [&](const std::string& name, const Field& ours, const Field& plain) {
    const Difference d = difference(ours.total_lx, plain.total_lx, ours.error_lx + plain.error_lx);
    const bool agrees = d.worst <= 1;
    all_agree = all_agree && agrees;
    rows.push_back({name, percent(d.largest), percent(d.rms), percent(stated_share(ours).maxCoeff()),
                    percent(stated_share(plain).maxCoeff()),
                    fmt::format("{:.2f}{}", d.worst, agrees ? "" : " FAILED")});
  };
  for (const auto& c : cases) {
    compare(c.room.name, c.fine, c.plain_fine);
    compare("  ours at the usual patch size", full_field(response(c.room.scene, c.room.receivers)), c.plain_fine);
  }
  print_table(fmt::format("How far two independent methods agree: ours at {} m, plain at {} m, total light", k_fine_m,
                          k_plain_fine_m),
              rows);
  return all_agree;
}

void speed(const std::vector<Settled>& cases) {
  Rows rows{{"room", "cans", "points", "plain, ms", "ours, ms", "ratio", "spread", "plain off by", "rms", "ours off by",
             "rms", "stated", "mean", "covers"}};
  for (const auto& c : cases) {
    const auto& [name, scene, receivers] = c.room;
    const double patch_m = usual_patch_size_m(scene);
    Eigen::VectorXd plain;
    Field ours;
    constexpr int k_runs = 5;
    const auto timings = alternated(k_runs, {[&] { plain = plain_light(scene, receivers, patch_m).total_lx(); },
                                             [&] { ours = full_field(response(scene, receivers)); }});
    const Difference plain_off = difference(plain, c.fine.total_lx, c.fine.error_lx);
    const Difference off = difference(ours.total_lx, c.fine.total_lx, ours.error_lx);
    const Eigen::ArrayXd stated = stated_share(ours);
    rows.push_back({name, std::to_string(scene.luminaires.size()), std::to_string(receivers.size()),
                    fmt::format("{:.1f}", 1e3 * timings[0].minimum_s),
                    fmt::format("{:.1f}", 1e3 * timings[1].minimum_s),
                    fmt::format("{:.1f} x", timings[0].minimum_s / timings[1].minimum_s),
                    fmt::format("{:.0f} %", 100 * timings[1].spread()), percent(plain_off.largest),
                    percent(plain_off.rms), percent(off.largest), percent(off.rms), percent(stated.maxCoeff()),
                    percent(stated.mean()), fmt::format("{:.0f} %", 100 * off.covered)});
  }
  print_table(fmt::format("Room solve at the usual patch size, ours (with its error estimate) on all threads, plain on "
                          "one; off by: from ours at {} m",
                          k_fine_m),
              rows);
}

void convergence(const std::vector<Settled>& cases) {
  Rows rows{{"room, patch size", "patches", "ms", "off by", "rms", "stated", "mean", "covers"}};
  for (const auto& c : cases) {
    const auto& [name, scene, receivers] = c.room;
    for (const double patch_m : {0.7, 0.5, 0.35, 0.25, 0.18}) {
      Field ours;
      constexpr int k_runs = 3;
      const auto timings = alternated(k_runs, {[&] { ours = full_field(response(scene, receivers, patch_m)); }});
      const Difference off = difference(ours.total_lx, c.fine.total_lx, ours.error_lx);
      const Eigen::ArrayXd stated = stated_share(ours);
      rows.push_back({fmt::format("{}, {:.2f} m", name, patch_m), std::to_string(make_mesh(scene, patch_m).size()),
                      fmt::format("{:.1f}", 1e3 * timings[0].minimum_s), percent(off.largest), percent(off.rms),
                      percent(stated.maxCoeff()), percent(stated.mean()), fmt::format("{:.0f} %", 100 * off.covered)});
    }
  }
  print_table(fmt::format("Convergence of ours; off by: from ours at {} m", k_fine_m), rows);
}

}  // namespace

bool room_bench() {
  std::vector<Settled> cases;
  for (const auto& room :
       {six_cans("empty, cans inside", 0.7, 0.9), six_cans("empty, cans at walls", 0.3, 0.3), l_shape(), demo_job()}) {
    cases.push_back(settled(room));
  }
  const bool agree = agreement(cases);
  speed(cases);
  convergence(cases);
  return agree;
}

}  // namespace evenlit::bench
