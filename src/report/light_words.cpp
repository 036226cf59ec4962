#include "evenlit/report/light_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/search_report.hpp"

namespace evenlit {
namespace {

/// Words for values from here on.
struct Step {
  double from = 0;
  std::string_view words;
};

constexpr double k_disturbing_rating = 20;

/// The words of the last step that the value reaches.
std::string_view words_of(std::span<const Step> steps, double value) {
  std::string_view words = steps.front().words;
  for (const Step& step : steps) {
    if (value >= step.from) words = step.words;
  }
  return words;
}

/// To two digits, none after the point.
double plain_number(double value) {
  if (value < 10) return std::round(value);
  const double unit = std::pow(10.0, std::floor(std::log10(value)) - 1);
  return std::round(value / unit) * unit;
}

std::string plain_cell(double value, std::string_view unit) {
  if (value > 0 && value < 1) return fmt::format("under 1 {}", unit);
  return fmt::format("{} {}", fixed_text(plain_number(value), 0), unit);
}

}  // namespace

std::string plain_illuminance(double lx, Units units) {
  const std::string lux = plain_cell(lx, "lx");
  const std::string footcandles = plain_cell(lx / k_lux_per_footcandle, "fc");
  return units == Units::imperial ? fmt::format("{} ({})", footcandles, lux) : fmt::format("{} ({})", lux, footcandles);
}

std::string_view good_for(double lx) {
  static constexpr std::array k_steps{
      Step{0, "dark"},
      Step{1, "enough to find the way"},
      Step{30, "enough to relax and talk"},
      Step{100, "enough to eat, play and tidy up"},
      Step{300, "comfortable for reading"},
      Step{500, "bright enough to read small print"},
      Step{1000, "bright enough for fine work such as sewing"},
  };
  return words_of(k_steps, lx < 1 ? lx : plain_number(lx));
}

std::string_view evenness_words(double uniformity_min_avg) {
  static constexpr std::array k_steps{
      Step{0, "bright pools, dark corners"},
      Step{0.1, "bright pools, darker between"},
      Step{0.2, "brighter and darker places"},
      Step{0.4, "fairly even"},
      Step{0.6, "very even"},
  };
  return words_of(k_steps, uniformity_min_avg);
}

std::string_view share_words(double ratio) {
  struct Told {
    double ratio = 0;
    std::string_view words;
  };
  static constexpr std::array k_told{
      Told{1.0 / 20, "hardly any of"},
      Told{1.0 / 10, "a tenth of"},
      Told{1.0 / 5, "a fifth of"},
      Told{1.0 / 4, "a quarter of"},
      Told{1.0 / 3, "a third of"},
      Told{1.0 / 2, "half of"},
      Told{2.0 / 3, "two thirds of"},
      Told{3.0 / 4, "three quarters of"},
      Told{1, "about as much as"},
      Told{1.5, "one and a half times"},
      Told{2, "twice"},
      Told{3, "three times"},
      Told{4, "four times"},
      Told{5, "five times"},
      Told{10, "many times"},
  };
  std::string_view words = k_told.front().words;
  for (std::size_t i = 1; i < k_told.size(); ++i) {
    // Half way as the eye counts: by ratios.
    if (ratio >= std::sqrt(k_told[i - 1].ratio * k_told[i].ratio)) words = k_told[i].words;
  }
  return words;
}

bool is_glare_disturbing(double rating) { return std::round(rating) >= k_disturbing_rating; }

std::string_view glare_words(double rating) {
  static constexpr std::array k_steps{
      Step{0, "hardly noticed"},
      Step{14, "acceptable"},
      Step{k_disturbing_rating, "disturbs"},
      Step{28, "hard to bear"},
  };
  return words_of(k_steps, std::round(rating));
}

std::string_view tone_words(double kelvin) {
  static constexpr std::array k_steps{
      Step{0, "very warm, like candlelight"},
      Step{2200, "warm"},
      Step{3300, "neutral white"},
      Step{5300, "cool"},
  };
  return words_of(k_steps, kelvin);
}

std::string_view finish_words(double reflectance) {
  static constexpr std::array k_steps{
      Step{0, "dark"},
      Step{0.25, "medium"},
      Step{0.5, "light"},
      Step{0.75, "very light"},
  };
  return words_of(k_steps, reflectance);
}

std::string plain_power(double watts) { return plain_cell(watts, "W"); }

std::string power_words(double watts) {
  constexpr double k_old_bulb_w = 60;
  static constexpr std::array k_words{"one",  "one and a half",  "two", "two and a half", "three", "three and a half",
                                      "four", "four and a half", "five"};
  const double bulbs = watts / k_old_bulb_w;
  if (bulbs < 0.375) return "less than half of one old 60 W bulb";
  if (bulbs < 0.75) return "about half of one old 60 W bulb";
  const double halves = std::max(2.0, std::round(2 * bulbs));
  const std::string count = halves - 2 < k_words.size() ? std::string(k_words[static_cast<std::size_t>(halves) - 2])
                                                        : fixed_text(plain_number(bulbs), 0);
  return halves == 2 ? "about as much as one old 60 W bulb"
                     : fmt::format("about as much as {} of the old 60 W bulbs", count);
}

std::string yearly_cost_words(double cost, const std::string& currency) {
  if (cost < 1) return fmt::format("less than {} a year", money_text(1, currency));
  return fmt::format("about {} a year", money_text(plain_number(cost), currency));
}

}  // namespace evenlit
