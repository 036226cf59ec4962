#include <fmt/format.h>

#include <cmath>
#include <functional>

#include "accuracy.hpp"
#include "benches.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

/// No patch is cut for unevenness, so that only what is counted changes.
constexpr MeshDetail even(double patch_size_m) { return {.patch_size_m = patch_size_m, .unevenness = 1e9}; }

struct Sample {
  double size;
  double seconds;
};

/// The slope of the straight line through the logarithms, by least squares.
double exponent(const std::vector<Sample>& samples) {
  Eigen::ArrayXd x(std::ssize(samples));
  Eigen::ArrayXd y(x.size());
  for (Eigen::Index i = 0; i < x.size(); ++i) {
    x[i] = std::log(samples[i].size);
    y[i] = std::log(samples[i].seconds);
  }
  const Eigen::ArrayXd off = x - x.mean();
  return (off * y).sum() / off.square().sum();
}

Sample solved(const Case& room, const MeshDetail& detail, double size) {
  return {size, least_cost([&] { response(room.scene, room.receivers, detail); }).processor_s};
}

std::vector<Sample> by_patches() {
  const Case room = furnished_l();
  std::vector<Sample> samples;
  for (const double size_m : {0.9, 0.65, 0.47, 0.34, 0.25}) {
    Sample sample{};
    sample.seconds =
        least_cost([&] { sample.size = response(room.scene, room.receivers, even(size_m)).patches; }).processor_s;
    samples.push_back(sample);
  }
  return samples;
}

std::vector<Sample> by_receivers() {
  Case room = furnished_l();
  std::vector<Sample> samples;
  for (const double spacing_m : {0.3, 0.15, 0.075, 0.0375}) {
    respace(room, spacing_m);
    samples.push_back(solved(room, even(0.7), static_cast<double>(room.receivers.size())));
  }
  return samples;
}

std::vector<Sample> by_cans() {
  Case room = furnished_l();
  std::vector<Sample> samples;
  for (const int cans : {4, 16, 64, 256}) {
    rehang(room, cans);
    samples.push_back(solved(room, even(0.7), cans));
  }
  return samples;
}

std::vector<Sample> by_boxes() {
  std::vector<Sample> samples;
  for (const int boxes : {2, 4, 8, 16, 32}) samples.push_back(solved(cluttered_room(boxes), even(0.7), boxes));
  return samples;
}

std::vector<Sample> by_rooms() {
  std::vector<Sample> samples;
  for (const int rooms : {1, 3, 6, 12}) {
    const std::vector<Case> all = house(rooms);
    samples.push_back({static_cast<double>(rooms), least_cost([&] {
                                                     for (const Case& room : all) response(room.scene, room.receivers);
                                                   }).processor_s});
  }
  return samples;
}

std::vector<std::string> row_of(const std::string& name, const std::vector<Sample>& samples) {
  std::string sizes;
  std::string times;
  for (const auto& [size, seconds] : samples) {
    sizes += fmt::format("{:>7.0f}", size);
    times += fmt::format("{:>7}", milliseconds(seconds));
  }
  return {name, sizes, times, fmt::format("{:.2f}", exponent(samples))};
}

}  // namespace

void growth_bench() {
  print_table(
      "Growth: processor time ~ size^exponent, by least squares on logarithms; least of up to three runs.\n"
      "L furnished but for boxes (6 x 4 m, its patches grow too) and rooms (the house)",
      {{"", "sizes", "CPU ms", "exponent"},
       row_of("patches", by_patches()),
       row_of("receivers", by_receivers()),
       row_of("cans", by_cans()),
       row_of("boxes", by_boxes()),
       row_of("rooms", by_rooms())});
}

}  // namespace evenlit::bench
