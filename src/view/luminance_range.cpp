#include "evenlit/view/luminance_range.hpp"

#include <cmath>
#include <cstdint>
#include <vector>

namespace evenlit {
namespace {

// A bin is a step of the leading bits of a float: 256 in an octave, so that its middle is within 0.2 %.
constexpr int k_bits_below_bin = 15;
constexpr std::size_t k_bins = std::size_t{1} << (31 - k_bits_below_bin);
constexpr float k_largest_cd_m2 = 1e30F;

std::size_t bin_of(float cd_m2) { return Eigen::numext::bit_cast<std::uint32_t>(cd_m2) >> k_bits_below_bin; }

double middle_cd_m2(std::size_t bin) {
  const std::uint32_t first = static_cast<std::uint32_t>(bin) << k_bits_below_bin;
  return Eigen::numext::bit_cast<float>(first | (1U << (k_bits_below_bin - 1)));
}

struct Histogram {
  std::vector<std::uint64_t> counts = std::vector<std::uint64_t>(k_bins);
  std::uint64_t pixels = 0;

  void add(const LuminancePicture& picture) {
    Eigen::ArrayXf cd_m2 = luminances_cd_m2(picture);
    cd_m2 = cd_m2.max(static_cast<float>(k_darkest_cd_m2)).min(k_largest_cd_m2);
    for (const float value : cd_m2) ++counts[bin_of(value)];
    pixels += static_cast<std::uint64_t>(cd_m2.size());
  }

  /// The bin up to which there are so many pixels, at least one.
  [[nodiscard]] std::size_t bin_at(double share) const {
    const double wanted = std::max(1.0, share * static_cast<double>(pixels));
    std::uint64_t passed = 0;
    std::size_t bin = 0;
    while (static_cast<double>(passed += counts[bin]) < wanted) ++bin;
    return bin;
  }

  /// The logarithmic average of the pixels up to a bin.
  [[nodiscard]] double average_cd_m2(std::size_t last) const {
    double sum = 0;
    std::uint64_t counted = 0;
    for (std::size_t bin = 0; bin <= last; ++bin) {
      if (counts[bin] == 0) continue;
      sum += static_cast<double>(counts[bin]) * std::log(middle_cd_m2(bin));
      counted += counts[bin];
    }
    return std::exp(sum / static_cast<double>(counted));
  }
};

}  // namespace

LuminanceRange luminance_range(std::span<const LuminancePicture> pictures) {
  Histogram histogram;
  for (const LuminancePicture& picture : pictures) histogram.add(picture);
  if (histogram.pixels == 0) return {};
  const std::size_t brightest = histogram.bin_at(1 - k_share_of_openings);
  return {.darkest_cd_m2 = middle_cd_m2(histogram.bin_at(k_share_of_openings)),
          .usual_cd_m2 = histogram.average_cd_m2(brightest),
          .brightest_cd_m2 = middle_cd_m2(brightest)};
}

}  // namespace evenlit
