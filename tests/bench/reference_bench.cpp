#include <fmt/format.h>

#include <cmath>

#include "accuracy.hpp"
#include "benches.hpp"
#include "one_thread.hpp"
#include "plain_reference.hpp"
#include "reference/path_tracer.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

using Rows = std::vector<std::vector<std::string>>;

constexpr int k_runs = 3;

/// How far two fields differ, over the largest that both state.
double excess(const Field& ours, const Field& plain) {
  const Eigen::ArrayXd off = (ours.total_lx - plain.total_lx).array().abs();
  return (off / (ours.error_lx + plain.error_lx).array()).maxCoeff();
}

/// The plain reference knows no boxes.
bool against_plain(const std::vector<Settled>& rooms) {
  constexpr double k_fine_m = 0.175;
  Rows rows{{"", "plain, ms", "ours, ms", "ratio", "plain rms", "ours rms", "apart, of both stated"}};
  bool all_agree = true;
  for (const auto& [room, true_lx] : rooms) {
    if (room.name != "empty" && room.name != "L") continue;
    Field plain;
    Field ours;
    const double patch_m = coarse_mesh(room.scene).patch_size_m;
    const auto timings =
        alternated(k_runs, {[&] { plain.total_lx = plain_light(room.scene, room.receivers, patch_m).total_lx(); },
                            [&] { ours = full_field(response(room.scene, room.receivers)); }});
    plain.error_lx = Eigen::VectorXd::Zero(true_lx.size());
    const double apart = excess(ours, plain_field(room.scene, room.receivers, k_fine_m));
    all_agree = all_agree && apart <= 1;
    rows.push_back({room.name, milliseconds(timings[0].minimum_s), milliseconds(timings[1].minimum_s),
                    fmt::format("{:.1f} x", timings[0].minimum_s / timings[1].minimum_s),
                    percent(difference(plain, true_lx).rms), percent(difference(ours, true_lx).rms),
                    fmt::format("{:.2f}{}", apart, apart <= 1 ? "" : " FAILED")});
  }
  print_table(
      fmt::format("Ours (0.5 %) and the plain reference (cut as ours at first), one thread, least wall time of {};\n"
                  "apart: ours from plain at {} m",
                  k_runs, k_fine_m),
      rows);
  return all_agree;
}

/// One receiver in so many: the tracer's time is in proportion to their number.
Case thinned(const Case& room, std::size_t step) {
  Case result{room.name, room.scene, {}};
  for (std::size_t i = step / 2; i < room.receivers.size(); i += step) result.receivers.push_back(room.receivers[i]);
  return result;
}

double rms(const Eigen::ArrayXd& shares) { return std::sqrt(shares.square().mean()); }

void against_tracer(const std::vector<Settled>& rooms) {
  constexpr std::size_t k_step = 8;
  constexpr reference::Sampling k_sampling{.paths = 1024, .replicates = 16, .seed = 7};
  Rows rows{{"", "ours, ms", "ours rms", "tracer, s", "its rms error", "at our error, s", "ratio", "apart, rms"}};
  for (const auto& [room, true_lx] : rooms) {
    if (room.name != "empty" && room.name != "L, furnished") continue;
    const Case few = thinned(room, k_step);
    reference::TracedLight traced;
    const double share = static_cast<double>(room.receivers.size()) / static_cast<double>(few.receivers.size());
    const double tracer_s =
        share * seconds_of([&] { traced = reference::traced_light(few.scene, few.receivers, k_sampling); });
    Field ours;
    const auto timings = alternated(k_runs, {[&] { ours = full_field(response(room.scene, room.receivers)); }});
    const double our_error = difference(ours, true_lx).rms;
    const double its_error = rms(traced.standard_error_lx / traced.total_lx);
    const double equal_s = tracer_s * std::pow(its_error / our_error, 2);
    const Eigen::ArrayXd fine = true_light(few, k_true_mesh);
    rows.push_back({room.name, milliseconds(timings[0].minimum_s), percent(our_error), fmt::format("{:.1f}", tracer_s),
                    percent(its_error), fmt::format("{:.1f}", equal_s),
                    fmt::format("{:.0f} x", equal_s / timings[0].minimum_s), percent(rms(traced.total_lx / fine - 1))});
  }
  print_table(
      fmt::format(
          "Ours (0.5 %) and a path tracer on Embree at equal error, one thread, wall time. Tracer: {} x {} paths\n"
          "a receiver, one in {} of them, its time scaled to all and by its error squared; apart: it from the true",
          k_sampling.replicates, k_sampling.paths, k_step),
      rows);
}

}  // namespace

bool reference_bench(const std::vector<Settled>& rooms) {
  const OneThread limit;
  against_tracer(rooms);
  return against_plain(rooms);
}

}  // namespace evenlit::bench
