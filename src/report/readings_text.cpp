#include "readings_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/base/utf8.hpp"
#include "evenlit/report/plain_text.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr int k_name_columns = 26;

/// A name in its column; a longer one has lines of its own above.
std::string name_cell(std::string_view name) {
  const std::string shown = printable(name);
  const int width = code_points(shown);
  if (width > k_name_columns) return paragraph(shown) + std::string(2 + k_name_columns, ' ');
  return "  " + shown + std::string(static_cast<std::size_t>(k_name_columns - width), ' ');
}

/// Both units in columns of seven, the trade's first.
std::string light_cells(const Estimate& lx, Units units) {
  const auto cell = [](const Estimate& light, double unit) {
    return fmt::format("{:>7}", rounded_text(light.value / unit, light.error / unit));
  };
  const std::string lux = cell(lx, 1);
  const std::string footcandles = cell(lx, k_lux_per_footcandle);
  return units == Units::imperial ? footcandles + lux : lux + footcandles;
}

std::string unit_cells(Units units) {
  return units == Units::imperial ? fmt::format("{:>7}{:>7}", "fc", "lx") : fmt::format("{:>7}{:>7}", "lx", "fc");
}

std::string error_cell(double error, double value) {
  return fmt::format("{:>9}", value > 0 ? error_percent_text(error / value) : "none");
}

std::string task_area_section(const ReadingsLight& light, Units units) {
  std::string text = fmt::format("\n{:<{}}{:>14}{:>14}{:>10}{:>9}\n", "Task areas", 2 + k_name_columns, "Average",
                                 "Minimum", "Minimum/", "Error");
  text += fmt::format("{:<{}}{}{}{:>10}\n", "", 2 + k_name_columns, unit_cells(units), unit_cells(units), "average");
  for (std::size_t i = 0; i < light.task_areas.size(); ++i) {
    const AreaLight& area = light.task_areas[i];
    text += name_cell(light.readings.task_areas[i].name) + light_cells(area.average_lx, units) +
            light_cells(area.minimum_lx, units) + fmt::format("{:>10}", fixed_text(area.uniformity_min_avg, 2)) +
            error_cell(area.worst_error_lx, area.average_lx.value) + '\n';
  }
  return text + paragraph("Error: the numerical one, at most, of any point over the area's average.");
}

/// What is read, in what is left of a line.
std::string kind_text(const PointReading& point) {
  constexpr int k_columns_left = 27;
  switch (point.quantity) {
    case Quantity::illuminance:
      return "illuminance";
    case Quantity::cylindrical_illuminance:
      return "mean cylindrical";
    case Quantity::luminance:
      break;
  }
  const std::string text = "luminance of " + printable(point.surface);
  return code_points(text) <= k_columns_left ? text : "luminance";
}

std::string point_section(const ReadingsLight& light, Units units) {
  std::string text = fmt::format("\n{:<{}}{}{:>9}\n", "Points", 2 + k_name_columns, unit_cells(units), "Error");
  for (std::size_t i = 0; i < light.points.size(); ++i) {
    const PointReading& point = light.readings.points[i];
    const Estimate& value = light.points[i];
    text += name_cell(point.name) +
            (point.quantity == Quantity::luminance
                 ? fmt::format("{:>14}", rounded_text(value.value, value.error) + " cd/m2")
                 : light_cells(value, units)) +
            error_cell(value.error, value.value) + "  " + kind_text(point) + '\n';
  }
  return text;
}

std::string surface_section(const ReadingsLight& light, Units units) {
  std::string text = fmt::format("\n{:<{}}{:>14}{:>14}{:>14}{:>10}\n", "Surfaces", 2 + k_name_columns, "Average",
                                 "Minimum", "Maximum", "Luminance");
  text += fmt::format("{:<{}}{}{}{}{:>10}\n", "", 2 + k_name_columns, unit_cells(units), unit_cells(units),
                      unit_cells(units), "cd/m2");
  int points = 0;
  double worst = 0;
  for (std::size_t i = 0; i < light.surfaces.size(); ++i) {
    const AreaLight& surface = light.surfaces[i];
    const Estimate& luminance = *surface.luminance_cd_m2;
    text += name_cell(light.readings.surfaces[i].name) + light_cells(surface.average_lx, units) +
            light_cells(surface.minimum_lx, units) + light_cells(surface.maximum_lx, units) +
            fmt::format("{:>10}\n", rounded_text(luminance.value, luminance.error));
    points += light.readings.surfaces[i].average.count();
    if (surface.average_lx.value > 0) worst = std::max(worst, surface.average_lx.error / surface.average_lx.value);
  }
  return text + paragraph(fmt::format("Counted at {} points; between them it may be darker or brighter. Numerical "
                                      "error of the averages: at most {}.",
                                      points, error_percent_text(worst)));
}

}  // namespace

std::string readings_sections(const ReadingsLight& light, Units units) {
  std::string text;
  if (!light.task_areas.empty()) text += task_area_section(light, units);
  if (!light.points.empty()) text += point_section(light, units);
  if (!light.surfaces.empty()) text += surface_section(light, units);
  return text;
}

}  // namespace evenlit
