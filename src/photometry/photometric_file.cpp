#include "evenlit/photometry/photometric_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

/// The curve through the points, its end values beyond its ends.
double value_at(const std::vector<double>& ascending, const std::vector<double>& values, double at) {
  const auto above = std::ranges::upper_bound(ascending, at);
  if (above == ascending.begin()) return values.front();
  if (above == ascending.end()) return values.back();
  const auto i = static_cast<std::size_t>(above - ascending.begin());
  return std::lerp(values[i - 1], values[i], (at - ascending[i - 1]) / (ascending[i] - ascending[i - 1]));
}

Opening turned(Opening opening, int quarters) {
  if (quarters % 2 != 0) std::swap(opening.width_m, opening.length_m);
  return opening;
}

}  // namespace

const LampSet& lamps_of(const PhotometricFile& file) { return file.lamp_sets[file.lamp_set]; }

std::string_view keyword(const PhotometricFile& file, std::string_view name) {
  const auto found = std::ranges::find(file.keywords, name, &std::pair<std::string, std::string>::first);
  return found == file.keywords.end() ? std::string_view{} : found->second;
}

double tilt_factor(const PhotometricFile& file, double tilt_deg) {
  if (!file.tilt) return 1;
  const auto& angles = file.tilt->angles_deg;
  const bool ends_at_90 = angles.back() <= 90;
  return value_at(angles, file.tilt->factors, ends_at_90 && tilt_deg > 90 ? 180 - tilt_deg : tilt_deg);
}

PhotometricFile rescaled(PhotometricFile file, double lumens) {
  const double before = evenlit::lumens(file.distribution) * tilt_factor(file, 0);
  const double factor = lumens / before;
  file.distribution = scaled(std::move(file.distribution), factor);
  for (LampSet& lamps : file.lamp_sets) {
    if (lamps.lumens) *lamps.lumens *= factor;
    lamps.watts.reset();
  }
  const bool is_measured = file.generation % 100 == 0;
  const bool is_scaled = file.generation / 100 % 10 == 1;
  if (is_measured && !is_scaled) file.generation += 100;
  file.keywords.emplace_back("OTHER", fmt::format("Intensities multiplied by {}: from {} lm to {} lm, same optic",
                                                  shortest_text(std::round(factor * 1e6) / 1e6), fixed_text(before, 1),
                                                  fixed_text(lumens, 1)));
  return file;
}

PhotometricFile turned(PhotometricFile file, int quarters) {
  file.distribution = turned(file.distribution, quarters);
  file.opening = turned(file.opening, quarters);
  if (file.housing) file.housing = turned(*file.housing, quarters);
  return file;
}

}  // namespace evenlit
