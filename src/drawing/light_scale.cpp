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

double x_of(const LightScale& scale, const ScalePlace& place, double lx) {
  const double bottom = scale.painted(scale.bottom_lx);
  const double share = (scale.painted(lx) - bottom) / (scale.painted(scale.top_lx) - bottom);
  return place.left + (place.right - place.left) * share;
}

void add_ticks(Sheet& sheet, const LightScale& scale, const ScalePlace& place, Units units, const TickPlace& ticks) {
  sheet.write(unit_name(units), place.names_x, ticks.baseline, place.text_size, ticks.weight, k_dark);
  std::vector<Tick> labelled;
  for (const double value : tick_values(scale, units)) {
    labelled.push_back({x_of(scale, place, value * unit_lx(units)),
                        scale.bottom_lx < 0 ? signed_level_text(value) : level_text(value)});
  }
  add_tick_row(sheet, labelled, units == scale.units, ticks, place.text_size);
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

void add_tick_row(Sheet& sheet, const std::vector<Tick>& ticks, bool keeps_last, const TickPlace& place,
                  double text_size) {
  constexpr double k_gap = 10;
  const auto half_width = [&](const Tick& tick) { return text_width(tick.text, text_size, place.weight) / 2; };
  double free_from = 0;
  const double free_to = keeps_last ? ticks.back().x - half_width(ticks.back()) - k_gap : 1e9;
  for (const Tick& tick : ticks) {
    sheet.line(tick.x, place.edge, tick.x, place.edge + 6 * place.outward, 1.4, k_dark);
    const double half = half_width(tick);
    const bool is_last = &tick == &ticks.back();
    if (tick.x - half < free_from || (!is_last && tick.x + half > free_to)) continue;
    sheet.write(tick.text, tick.x, place.baseline, text_size, place.weight, k_dark, Anchor::middle);
    free_from = tick.x + half + k_gap;
  }
}

void add_scale_bar(Sheet& sheet, const ScalePlace& place, double first, double last, ColourMap colours) {
  const double bottom = place.top + k_scale_height;
  const Polyline bar{{place.left, place.top}, {place.right, place.top}, {place.right, bottom}, {place.left, bottom}};
  const SampledField ramp{{place.left, place.top}, {place.right - place.left, k_scale_height}, 2, 1, {first, last}};
  sheet.items.emplace_back(FalseColour{ramp, last, {bar}, first, colours});
  sheet.items.emplace_back(Stroke{bar, true, 1.2, k_dark, {}});
}

void add_light_scale(Sheet& sheet, const LightScale& scale, const ScalePlace& place) {
  const double top = place.top;
  const double bottom = top + k_scale_height;
  add_scale_bar(sheet, place, scale.painted(scale.bottom_lx), scale.painted(scale.top_lx), scale.colours);
  add_ticks(sheet, scale, place, scale.units, {top, -1, top - 11, Weight::bold});
  add_ticks(sheet, scale, place, other(scale.units),
            {bottom, 1, bottom + 11 + 0.75 * place.text_size, Weight::regular});
  if (scale.mark_lx && *scale.mark_lx > 0 && *scale.mark_lx < scale.top_lx) {
    const double x = x_of(scale, place, *scale.mark_lx);
    sheet.line(x, top, x, bottom, 5.6, k_halo);
    sheet.line(x, top, x, bottom, 3.2, k_dark);
  }
}

}  // namespace evenlit
