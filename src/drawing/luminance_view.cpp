#include "evenlit/drawing/luminance_view.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "evenlit/view/luminance_range.hpp"
#include "light_scale.hpp"
#include "map_sheet.hpp"

namespace evenlit {
namespace {

constexpr double k_rounding = 1e-9;  // what is round but for noise is its own round value

/// 1, 2 and 5 times powers of ten within a range, ends included.
std::vector<double> round_values(double from, double to) {
  std::vector<double> values;
  for (double power = std::floor(std::log10(from)); std::pow(10, power) <= to * (1 + k_rounding); ++power) {
    for (const double factor : {1.0, 2.0, 5.0}) {
      const double value = factor * std::pow(10, power);
      if (value >= from * (1 - k_rounding) && value <= to * (1 + k_rounding)) values.push_back(value);
    }
  }
  return values;
}

/// The picture across the sheet.
FalseColour coloured(const LuminancePicture& picture, const LuminanceScale& scale, double top) {
  const auto [left, right] = k_map_content;
  const double pixel = (right - left) / picture.width;
  const double bottom = top + pixel * picture.height;
  const Eigen::ArrayXd cd_m2 = luminances_cd_m2(picture).cast<double>();
  const Eigen::ArrayXd logs = cd_m2.max(scale.bottom_cd_m2).min(scale.top_cd_m2).log10();
  return {.field = {{left + pixel / 2, top + pixel / 2},
                    {pixel, pixel},
                    picture.width,
                    picture.height,
                    {logs.begin(), logs.end()}},
          .top = std::log10(scale.top_cd_m2),
          .clip = {{{left, top}, {right, top}, {right, bottom}, {left, bottom}}},
          .bottom = std::log10(scale.bottom_cd_m2)};
}

void add_scale(Sheet& sheet, const LuminanceScale& scale, double top) {
  const ScalePlace place{k_map_content.left, k_map_content.left + 110, k_map_content.right - 24, top, k_small_text};
  const double first = std::log10(scale.bottom_cd_m2);
  const double last = std::log10(scale.top_cd_m2);
  const double baseline = top + k_scale_height + 11 + 0.75 * k_small_text;
  std::vector<Tick> ticks;
  for (const double value : round_values(scale.bottom_cd_m2, scale.top_cd_m2)) {
    const double share = (std::log10(value) - first) / (last - first);
    ticks.push_back({place.left + share * (place.right - place.left), level_text(value)});
  }
  add_scale_bar(sheet, place, first, last, ColourMap::light);
  sheet.write("cd/m²", place.names_x, baseline, k_small_text, Weight::bold, k_dark);
  if (ticks.empty()) return;
  add_tick_row(sheet, ticks, true, {top + k_scale_height, 1, baseline, Weight::bold}, k_small_text);
}

}  // namespace

LuminanceScale luminance_scale(std::span<const LuminancePicture> pictures) {
  const LuminanceRange range = luminance_range(pictures);
  const double top_cd_m2 = round_values(range.brightest_cd_m2, 10 * range.brightest_cd_m2).front();
  const double from_cd_m2 = std::clamp(range.darkest_cd_m2, top_cd_m2 / 1000, top_cd_m2 / 10);
  return {round_values(from_cd_m2 / 10, from_cd_m2).back(), top_cd_m2};
}

Drawing luminance_view(const LuminancePicture& picture, const LuminanceScale& scale, const std::string& title) {
  Sheet sheet;
  const double top =
      add_map_heading(sheet, title, {"Luminance: how bright each surface looks from here"}, k_map_content) + 12;
  FalseColour coloured_picture = coloured(picture, scale, top);
  const double bottom = coloured_picture.clip.front().back().y();
  const Polyline rim = coloured_picture.clip.front();
  sheet.items.emplace_back(std::move(coloured_picture));
  sheet.items.emplace_back(Stroke{rim, true, 1.2, k_dark, {}});
  add_scale(sheet, scale, bottom + 36);
  return {k_map_width, std::ceil(bottom + 130), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
