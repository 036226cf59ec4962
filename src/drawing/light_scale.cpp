#include "light_scale.hpp"

#include <cmath>
#include <vector>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/drawing/isolux.hpp"
#include "evenlit/drawing/text.hpp"
#include "plan_view.hpp"

namespace evenlit {
namespace {

struct Ticks {
  Units units;
  double edge;     // of the bar, where they start
  double outward;  // -1 up, 1 down
  double baseline;
  Weight weight;
};

/// With the ends of the bar where they are round: in the scale's own unit.
std::vector<double> tick_values(const LightScale& scale, Units units) {
  const double top = scale.top_lx / unit_lx(units);
  const bool is_change = scale.bottom_lx < 0;
  std::vector<double> values = is_change       ? levels_of_change(top)
                               : scale.is_root ? levels_of_all_sizes(top)
                                               : round_levels(top);
  if (!is_change) values.insert(values.begin(), 0);
  if (units != scale.units) return values;
  if (is_change) values.insert(values.begin(), -top);
  values.push_back(top);
  return values;
}

double x_of(const LightScale& scale, const ScalePlace& place, double lx) {
  const double bottom = scale.painted(scale.bottom_lx);
  const double share = (scale.painted(lx) - bottom) / (scale.painted(scale.top_lx) - bottom);
  return place.left + (place.right - place.left) * share;
}

void add_ticks(Sheet& sheet, const LightScale& scale, const ScalePlace& place, const Ticks& ticks) {
  const bool with_top = ticks.units == scale.units;
  const double top_value = scale.top_lx / unit_lx(ticks.units);
  const std::vector<double> values = tick_values(scale, ticks.units);
  const auto text = [&](double value) { return scale.bottom_lx < 0 ? signed_level_text(value) : level_text(value); };
  sheet.write(unit_name(ticks.units), place.names_x, ticks.baseline, place.text_size, ticks.weight, k_dark);
  const auto half_width = [&](double value) { return text_width(text(value), place.text_size, ticks.weight) / 2; };
  double free_from = 0;
  const double last_label_from = with_top ? place.right - half_width(top_value) - 10 : 1e9;
  for (const double value : values) {
    const double x = x_of(scale, place, value * unit_lx(ticks.units));
    sheet.line(x, ticks.edge, x, ticks.edge + 6 * ticks.outward, 1.4, k_dark);
    const double half = half_width(value);
    const bool is_last = value == values.back();
    if (x - half < free_from || (!is_last && x + half > last_label_from)) continue;
    sheet.write(text(value), x, ticks.baseline, place.text_size, ticks.weight, k_dark, Anchor::middle);
    free_from = x + half + 10;
  }
}

}  // namespace

double unit_lx(Units units) { return units == Units::imperial ? k_lux_per_footcandle : 1.0; }

Units other(Units units) { return units == Units::imperial ? Units::metric : Units::imperial; }

std::string unit_name(Units units) { return units == Units::imperial ? "fc" : "lx"; }

std::string level_text(double value) {
  std::string text = rounded_text(value);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string signed_level_text(double value) {
  if (value == 0) return "0";
  return (value < 0 ? "−" : "+") + level_text(std::abs(value));
}

double LightScale::painted(double lx) const { return is_root ? std::sqrt(lx) : lx; }

SampledField painted(SampledField field, const LightScale& scale) {
  for (double& value : field.values) value = scale.painted(value);
  return field;
}

std::vector<double> levels_of_all_sizes(double top) {
  std::vector<double> levels;
  for (double decade = std::pow(10, std::floor(std::log10(top)) - 2); decade < top; decade *= 10) {
    for (const double factor : {1.0, 2.0, 5.0}) {
      const double level = factor * decade;
      if (level >= top / 100 * (1 - 1e-9) && level < top * (1 - 1e-9)) levels.push_back(level);
    }
  }
  return levels;
}

std::vector<double> levels_of_change(double top) {
  std::vector<double> levels{0};
  for (const double level : round_levels(2 * top)) {
    if (level >= top * (1 - 1e-9)) break;
    levels.push_back(level);
    levels.insert(levels.begin(), -level);
  }
  return levels;
}

void add_light_scale(Sheet& sheet, const LightScale& scale, const ScalePlace& place) {
  const auto& [names_x, left, right, top, text_size] = place;
  const double bottom = top + k_scale_height;
  const Polyline bar{{left, top}, {right, top}, {right, bottom}, {left, bottom}};
  const double first = scale.painted(scale.bottom_lx);
  const double last = scale.painted(scale.top_lx);
  const SampledField ramp{{left, top}, {right - left, k_scale_height}, 2, 1, {first, last}};
  sheet.items.emplace_back(FalseColour{ramp, last, {bar}, first, scale.colours});
  sheet.items.emplace_back(Stroke{bar, true, 1.2, k_dark, {}});
  add_ticks(sheet, scale, place, {scale.units, top, -1, top - 11, Weight::bold});
  add_ticks(sheet, scale, place, {other(scale.units), bottom, 1, bottom + 11 + 0.75 * text_size, Weight::regular});
  if (scale.mark_lx && *scale.mark_lx > 0 && *scale.mark_lx < scale.top_lx) {
    const double x = x_of(scale, place, *scale.mark_lx);
    sheet.line(x, top, x, bottom, 5.6, k_halo);
    sheet.line(x, top, x, bottom, 3.2, k_dark);
  }
}

}  // namespace evenlit
