#include "evenlit/report/terminal_report.hpp"

#include <Eigen/Geometry>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/location.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/verdict.hpp"
#include "readings_text.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

std::string light_row(std::string_view name, double lx, double error_lx, Units units) {
  const Units other = units == Units::imperial ? Units::metric : Units::imperial;
  return row(name, illuminance_text(lx, error_lx, units), illuminance_text(lx, error_lx, other));
}

std::string room_text(const Job& job) {
  const Eigen::AlignedBox2d box = bounds_of(job.room.corners_m);
  const auto length = [&](double metres) { return length_text(metres, job.units); };
  std::string text = printable(job.room.name) + ": " + length(box.sizes().x()) + " x " + length(box.sizes().y());
  if (job.room.corners_m.size() != 4) text += " overall, " + std::to_string(job.room.corners_m.size()) + " walls";
  const Ceiling ceiling = ceiling_of(job.room);
  text += ", ceiling " + (ceiling.is_level() ? "" : length(ceiling.lowest_m) + " to ") + length(ceiling.highest_m) +
          "; " + std::to_string(job.cans.size()) + (job.cans.size() == 1 ? " can" : " cans") + "; work plane " +
          length(job.work_plane.height_m) + " above the floor.";
  return filled(text, k_columns, 2);
}

std::string grid_sentence(const Grid& grid, Units units) {
  const std::string spacing = length_text(grid.spacing_m.x(), units) + " x " + length_text(grid.spacing_m.y(), units);
  return "Counted at " + std::to_string(grid.points_m.size()) + (grid.points_m.size() == 1 ? " point" : " points") +
         " of a grid of " + spacing + "; between them it may be darker or brighter.";
}

std::string illuminance_section(const Job& job, const WorkPlaneLight& light) {
  const Statistics& s = light.statistics;
  const auto error_at = [&](int point) { return light.field.error_lx[point]; };
  std::string text = heading("Illuminance on the work plane");
  if (job.target_lx) text += light_row("Target", *job.target_lx, 0, job.units);
  text += light_row("Average", s.average_lx, light.average_error_lx, job.units);
  text += light_row("Minimum", s.minimum_lx, error_at(s.minimum_at), job.units);
  text += light_row("Maximum", s.maximum_lx, error_at(s.maximum_at), job.units);
  text += light_row("10th percentile", s.p10_lx, light.average_error_lx, job.units);
  text += light_row("90th percentile", s.p90_lx, light.average_error_lx, job.units);
  const auto location = [&](int point) { return location_text(job.room, light.grid.points_m[point], job.units); };
  text += paragraph("Minimum " + location(s.minimum_at) + ".");
  text += paragraph("Maximum " + location(s.maximum_at) + ".");
  text += paragraph(grid_sentence(light.grid, job.units));
  text += paragraph("Numerical error: at most " + error_percent_text(worst_error_share(light)) +
                    " of the average at any point.");
  return text;
}

std::string evenness_section(const WorkPlaneLight& light) {
  const Statistics& s = light.statistics;
  std::string text = heading("Evenness");
  text += row("Uniformity, minimum / average", fixed_text(s.uniformity_min_avg, 2));
  text += row("Minimum / maximum", fixed_text(s.uniformity_min_max, 2));
  text += row("Maximum / minimum", s.max_min ? rounded_text(*s.max_min) : "none: 0 lx");
  text += row("Coefficient of variation", fixed_text(s.coefficient_of_variation, 2));
  if (s.share_at_target) text += row("Plane at or above target", percent_text(*s.share_at_target));
  text += row("Light straight from the cans", percent_text(s.direct_share));
  return text;
}

std::string power_section(const WorkPlaneLight& light) {
  constexpr double k_m2_per_ft2 = k_metres_per_foot * k_metres_per_foot;
  std::string text = heading("Power");
  if (light.watts) {
    const double watts_per_m2 = *light.watts / light.floor_area_m2;
    text += row("Drawn", rounded_text(*light.watts) + " W");
    text += row("Per floor area", rounded_text(watts_per_m2 * k_m2_per_ft2) + " W/ft2",
                rounded_text(watts_per_m2) + " W/m2");
  } else {
    text += row("Drawn", "not known");
  }
  text += row("Light leaving the cans, after loss", rounded_text(light.luminaire_lumens) + " lm");
  if (light.watts.value_or(0) > 0) {
    text += row("Efficacy", rounded_text(light.luminaire_lumens / *light.watts) + " lm/W");
  }
  if (!light.watts) text += paragraph("A can type in use has no watts: add watts = ... to it in the job file.");
  return text;
}

std::string lumen_method_section(const Job& job, const WorkPlaneLight& light) {
  std::string text = heading("Lumen method (zonal cavity), to check by hand");
  text += light_row("Average", light.lumen_method.average_lx, light.average_error_lx, job.units);
  text += row("Room cavity ratio", fixed_text(light.lumen_method.room_cavity_ratio, 2));
  text += row("Coefficient of utilization", fixed_text(light.lumen_method.coefficient_of_utilization, 2));
  if (light.statistics.average_lx > 0) {
    text += row("Ratio to the calculated average",
                fixed_text(light.lumen_method.average_lx / light.statistics.average_lx, 2));
  }
  return text + paragraph(
                    "The lumen method spreads the cans evenly over an empty ceiling and aims them straight down; the "
                    "calculation above takes them where and as they are.");
}

}  // namespace

std::string terminal_report(const Job& job, const WorkPlaneLight& light, const Problems& warnings,
                            const ReadingsLight& readings) {
  return room_text(job) + illuminance_section(job, light) + evenness_section(light) +
         readings_sections(readings, job.units) + power_section(light) + lumen_method_section(job, light) +
         heading("Verdict") + paragraph(verdict(job, light)) + warning_section(warnings);
}

}  // namespace evenlit
