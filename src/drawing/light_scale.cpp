#include "light_scale.hpp"

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

void add_ticks(Sheet& sheet, const LightScale& scale, const ScalePlace& place, const Ticks& ticks) {
  const bool with_top = ticks.units == scale.units;
  const double top_value = scale.top_lx / unit_lx(ticks.units);
  const double width = place.right - place.left;
  std::vector<double> values = round_levels(top_value);
  values.insert(values.begin(), 0);
  if (with_top) values.push_back(top_value);
  sheet.write(unit_name(ticks.units), place.names_x, ticks.baseline, place.text_size, ticks.weight, k_dark);
  const auto half_width = [&](double value) {
    return text_width(level_text(value), place.text_size, ticks.weight) / 2;
  };
  double free_from = 0;
  const double last_label_from = with_top ? place.right - half_width(top_value) - 10 : 1e9;
  for (const double value : values) {
    const double x = place.left + width * value / top_value;
    sheet.line(x, ticks.edge, x, ticks.edge + 6 * ticks.outward, 1.4, k_dark);
    const double half = half_width(value);
    const bool is_last = value == values.back();
    if (x - half < free_from || (!is_last && x + half > last_label_from)) continue;
    sheet.write(level_text(value), x, ticks.baseline, place.text_size, ticks.weight, k_dark, Anchor::middle);
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

void add_light_scale(Sheet& sheet, const LightScale& scale, const ScalePlace& place) {
  const auto& [names_x, left, right, top, text_size] = place;
  const double bottom = top + k_scale_height;
  const Polyline bar{{left, top}, {right, top}, {right, bottom}, {left, bottom}};
  const SampledField ramp{{left, top}, {right - left, k_scale_height}, 2, 1, {0, scale.top_lx}};
  sheet.items.emplace_back(FalseColour{ramp, scale.top_lx, {bar}});
  sheet.items.emplace_back(Stroke{bar, true, 1.2, k_dark, {}});
  add_ticks(sheet, scale, place, {scale.units, top, -1, top - 11, Weight::bold});
  add_ticks(sheet, scale, place, {other(scale.units), bottom, 1, bottom + 11 + 0.75 * text_size, Weight::regular});
  if (scale.mark_lx && *scale.mark_lx > 0 && *scale.mark_lx < scale.top_lx) {
    const double x = left + (right - left) * *scale.mark_lx / scale.top_lx;
    sheet.line(x, top, x, bottom, 5.6, k_halo);
    sheet.line(x, top, x, bottom, 3.2, k_dark);
  }
}

}  // namespace evenlit
