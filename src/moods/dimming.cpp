#include "evenlit/moods/dimming.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {
namespace {

/// Of the line from point i to the next one.
double secant(const RisingTable& table, std::size_t i) {
  return (table[i + 1].value - table[i].value) / (table[i + 1].at - table[i].at);
}

double slope(const RisingTable& table, std::size_t i) {
  if (i == 0) return secant(table, 0);
  if (i + 1 == table.size()) return secant(table, i - 1);
  const double before = secant(table, i - 1);
  const double after = secant(table, i);
  // Slopes up to three times the secant keep a cubic monotone: the square in the region of Fritsch and Carlson.
  return std::min((before + after) / 2, 3 * std::min(before, after));
}

double law_output(CurveLaw law, double setting) {
  switch (law) {
    case CurveLaw::square:
      return setting * setting;
    case CurveLaw::logarithmic: {
      constexpr double k_full_level = 254;
      constexpr double k_levels_per_decade = 253.0 / 3;
      const double level = std::max(1.0, k_full_level * setting);
      return std::pow(10, (level - k_full_level) / k_levels_per_decade);
    }
    case CurveLaw::linear:
      break;
  }
  return setting;
}

}  // namespace

double table_value(const RisingTable& table, double at) {
  const auto after = std::ranges::upper_bound(table, at, {}, &TablePoint::at);
  if (after == table.begin()) return table.front().value;
  if (after == table.end()) return table.back().value;
  const auto i = static_cast<std::size_t>(after - table.begin()) - 1;
  const auto& [start, low] = table[i];
  const auto& [end, high] = table[i + 1];
  const double width = end - start;
  const double t = (at - start) / width;
  // Cubic of Hermite, from the lower point.
  const double value = low + (high - low) * t * t * (3 - 2 * t) +
                       width * t * (1 - t) * ((1 - t) * slope(table, i) - t * slope(table, i + 1));
  return std::clamp(value, low, high);
}

double curve_output(const DimmingCurve& curve, double setting) {
  if (const auto* table = std::get_if<RisingTable>(&curve)) return table_value(*table, setting);
  return law_output(std::get<CurveLaw>(curve), setting);
}

double dimmer_output(const Dimmer& dimmer, double setting) {
  if (setting <= 0 || setting < dimmer.cut_off) return 0;
  return dimmer.low_end + (dimmer.high_end - dimmer.low_end) * curve_output(dimmer.curve, setting);
}

double driver_light(const Driver& driver, double dimmer_output) {
  if (dimmer_output <= 0) return 0;
  return std::max(driver.least, curve_output(driver.curve, dimmer_output));
}

double dimmed_light(const Dimmer& dimmer, const Driver& driver, double setting) {
  return driver_light(driver, dimmer_output(dimmer, setting));
}

SettingSearch setting_search(const std::function<double(double)>& light, double wanted) {
  if (light(1) <= wanted) return {1, 1};
  SettingSearch search;
  constexpr int k_halvings = 60;
  for (int i = 0; i < k_halvings; ++i) {
    const double middle = (search.below + search.above) / 2;
    (light(middle) <= wanted ? search.below : search.above) = middle;
  }
  return search;
}

std::optional<double> setting_for(const std::function<double(double)>& light, double wanted) {
  constexpr double k_tolerance = 1e-9;
  if (wanted <= 0) return 0;
  const auto [below, above] = setting_search(light, wanted);
  if (std::abs(light(below) - wanted) <= k_tolerance) return below;
  if (std::abs(light(above) - wanted) <= k_tolerance) return above;
  return std::nullopt;
}

double perceived_brightness(double measured) { return std::sqrt(measured); }

double lightness(double luminance_ratio) {
  constexpr double k_bend = 6.0 / 29;
  const double f = luminance_ratio > k_bend * k_bend * k_bend ? std::cbrt(luminance_ratio)
                                                              : luminance_ratio / (3 * k_bend * k_bend) + 4.0 / 29;
  return 116 * f - 16;
}

double power_share(const Driver& driver, double light) {
  if (driver.power.empty()) {
    constexpr double k_drivers_share = 0.1;
    return light <= 0 ? 0 : k_drivers_share + (1 - k_drivers_share) * light;
  }
  if (light <= 0 && driver.power.front().at > 0) return 0;
  return table_value(driver.power, light);
}

}  // namespace evenlit
