#include <fmt/format.h>

#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/base/utf8.hpp"
#include "evenlit/report/plain_text.hpp"
#include "meter_words.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr int k_name_columns = 26;

/// A name in its column; a longer one has lines of its own above.
std::string name_cell(const std::string& name) {
  const std::string shown = printable(name);
  const int width = code_points(shown);
  if (width > k_name_columns) return paragraph(shown) + std::string(2 + k_name_columns, ' ');
  return "  " + shown + std::string(static_cast<std::size_t>(k_name_columns - width), ' ');
}

/// Both units in columns of seven, the trade's first.
std::string light_cells(double lx, Units units) {
  const std::string lux = fmt::format("{:>7}", rounded_text(lx));
  const std::string footcandles = fmt::format("{:>7}", rounded_text(lx / k_lux_per_footcandle));
  return units == Units::imperial ? footcandles + lux : lux + footcandles;
}

std::string unit_cells(Units units) {
  return units == Units::imperial ? fmt::format("{:>7}{:>7}", "fc", "lx") : fmt::format("{:>7}{:>7}", "lx", "fc");
}

std::string signed_percent(double share) {
  const std::string text = fixed_text(100 * share, 0);
  return (share > 0 && text != "0" ? "+" : "") + text + " %";
}

std::string readings_section(const MeterFacts& facts) {
  const Units units = facts.job.units;
  const MeterCheck& check = facts.check;
  std::string text = fmt::format("\n{:<{}}{:>14}{:>14}{:>12}{:>12}\n", "Readings", 2 + k_name_columns, "Predicted",
                                 "Read", "Difference", "When fitted");
  text += fmt::format("{:<{}}{}{}\n", "", 2 + k_name_columns, unit_cells(units), unit_cells(units));
  for (std::size_t i = 0; i < check.readings.size(); ++i) {
    const ComparedReading& reading = check.fit.readings[i];
    text += name_cell(check.readings[i].point.name) + light_cells(reading.predicted_lx, units) +
            light_cells(check.readings[i].lx, units);
    if (reading.deviation) {
      text += fmt::format("{:>12}{:>10}{:>2}", signed_percent(*reading.deviation), signed_percent(reading.residual),
                          reading.is_outlier ? "!" : "");
      text.erase(text.find_last_not_of(' ') + 1);
    } else {
      text += fmt::format("{:>12}", "too dark");
    }
    text += '\n';
  }
  return text + paragraph(
                    "When fitted: what is left with the light's factor and the reflectances that go with these "
                    "readings best; ! does not go with the others.");
}

std::string between(double value, double least, double most) {
  return fmt::format("{} to {}", fixed_text(value + least, 2), fixed_text(value + most, 2));
}

std::string fit_row(const std::string& name, const std::string& value, const std::string& range = {},
                    const std::string& job = {}, const std::string& remark = {}) {
  std::string text = fmt::format("  {:<32}{:>12}{:>16}{:>7}  {}", name, value, range, job, remark);
  text.erase(text.find_last_not_of(' ') + 1);
  return text + '\n';
}

std::string factor_row(const Interval& factor) {
  return fit_row("All light, over the prediction", fixed_text(factor.value, 2), between(0, factor.least, factor.most));
}

std::string scatter_row(double scatter) { return fit_row("Scatter of a reading", percent_text(scatter)); }

std::string fit_section(const MeterCheck& check) {
  if (!check.fit.factor) return {};
  const auto& [factor, scatter] = *check.fit.factor;
  std::string text = fmt::format("\n{:<34}{:>12}{:>16}\n", "Fitted", "Most likely", "95 %");
  text += factor_row(factor) + scatter_row(scatter);
  if (!check.fit.surfaces) return text;
  const FittedSurfaces& surfaces = *check.fit.surfaces;
  text += fmt::format("\n{:<34}{:>12}{:>16}{:>7}\n", "Fitted with reflectances", "Most likely", "95 %", "Job");
  text += factor_row(surfaces.factor);
  for (std::size_t i = 0; i < check.reflectance.size(); ++i) {
    const auto& [shift, is_told] = surfaces.shifts[i];
    const double job = check.reflectance[i];
    text += fit_row("Reflectance, " + surface_word(i), fixed_text(job + shift.value, 2),
                    between(job, shift.least, shift.most), fixed_text(job, 2), is_told ? "" : "not told");
  }
  return text + scatter_row(surfaces.scatter);
}

}  // namespace

std::string meter_text(const MeterFacts& facts, const Problems& warnings) {
  const MeterCheck& check = facts.check;
  const std::size_t count = check.readings.size();
  std::string text =
      filled(fmt::format("{}, {}: {} reading{}, meter within {} %.", printable(facts.job.room.name),
                         facts.mood ? "mood " + printable(*facts.mood) : std::string("the cans' own levels"), count,
                         count == 1 ? "" : "s", shortest_text(std::round(1000 * check.meter_accuracy) / 10)),
             k_columns, 2);
  text += readings_section(facts) + fit_section(check) + heading("Verdict");
  for (const std::string& each : meter_verdict(facts)) text += paragraph(each);
  text += paragraph(
      "A room is read at night or with its windows covered, other lamps off, its LEDs on for half an hour, the reader "
      "clear of the sensor (common practice).");
  return text + warning_section(warnings);
}

}  // namespace evenlit
