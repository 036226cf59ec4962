#include "evenlit/report/photometric_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/length.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/base/utf8.hpp"
#include "evenlit/report/plain_text.hpp"
#include "significant.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr int k_widest = 100;
constexpr std::string_view k_none = "none";

/// What the maker says of the luminaire, in the order in which it is asked for.
constexpr std::array<std::pair<std::string_view, std::string_view>, 11> k_maker_texts{{
    {"MANUFAC", "Maker"},
    {"LUMCAT", "Catalogue number"},
    {"LUMINAIRE", "Luminaire"},
    {"LAMPCAT", "Lamp number"},
    {"LAMP", "Lamp"},
    {"BALLASTCAT", "Driver number"},
    {"BALLAST", "Driver"},
    {"TEST", "Test"},
    {"TESTLAB", "Laboratory"},
    {"TESTDATE", "Tested"},
    {"ISSUEDATE", "Issued"},
}};

/// Text from outside with blanks in words that no line could hold.
std::string breakable(std::string_view text) {
  constexpr int k_longest_word = 60;
  const std::string safe = printable(text);
  std::string shown;
  int word = 0;
  for (std::string_view rest = safe; !rest.empty();) {
    const auto bytes = static_cast<std::size_t>(first_code_point(rest).bytes);
    word = rest.front() == ' ' ? 0 : word + 1;
    if (word > k_longest_word) {
      shown += ' ';
      word = 1;
    }
    shown += rest.substr(0, bytes);
    rest.remove_prefix(bytes);
  }
  return shown;
}

/// A name and running text beside it, or below a name that is too long.
std::string entry(std::string_view name, std::string_view text) {
  constexpr int k_indent = 22;
  if (code_points(name) > k_indent - 3) return "  " + filled(name, k_widest - 2, 2) + entry("", text);
  const std::string lines = filled(text, k_widest - k_indent);
  std::string shown = fmt::format("  {:<{}}", name, k_indent - 2);
  for (const char c : lines.substr(0, lines.size() - 1)) {
    shown += c;
    if (c == '\n') shown += std::string(k_indent, ' ');
  }
  return shown + '\n';
}

/// Decimals with which a column of numbers shows three digits of its largest.
int column_decimals(double largest) {
  return largest > 0 ? std::clamp(2 - static_cast<int>(std::floor(std::log10(significant(largest, 3)) + 1e-12)), 0, 9)
                     : 0;
}

std::string column_text(double value, int decimals) { return fixed_text(significant(value, 3), decimals); }

std::string share_text(double fraction) { return fixed_text(100 * fraction, 1) + " %"; }

std::string angle_text(const std::optional<double>& deg) { return deg ? rounded_text(*deg) + " deg" : "none"; }

std::string in_both(double metres) { return feet_inches(metres) + " (" + metric_length(metres) + ")"; }

std::string sizes_text(const Opening& sizes) {
  using Shape = Opening::Shape;
  if (sizes.shape == Shape::point) return "a point, no sizes given";
  const std::string sides = fmt::format("{} along C 0, {} along C 90", in_both(sizes.length_m), in_both(sizes.width_m));
  std::string text = "outer sizes " + sides;
  if (sizes.shape == Shape::disc) text = "round, " + in_both(sizes.length_m) + " in diameter";
  if (sizes.shape == Shape::rectangle) text = "rectangular, " + sides;
  return sizes.height_m > 0 ? text + ", " + in_both(sizes.height_m) + " high" : text;
}

std::string lamps_text(const LampSet& lamps) {
  std::string text = std::to_string(lamps.lamps);
  if (!lamps.type.empty()) text += " x " + breakable(lamps.type);
  if (lamps.lumens) text += ", " + rounded_text(*lamps.lumens) + " lm rated";
  if (!lamps.colour.empty()) text += ", colour " + breakable(lamps.colour);
  if (!lamps.rendering.empty()) text += ", rendering " + breakable(lamps.rendering);
  if (lamps.watts) text += ", " + rounded_text(*lamps.watts) + " W";
  return text;
}

std::string lamp_entries(const PhotometricFile& file) {
  if (file.lamp_sets.size() == 1) return entry("Lamps", lamps_text(lamps_of(file)));
  std::string text;
  for (std::size_t i = 0; i < file.lamp_sets.size(); ++i) {
    const std::string used = i == file.lamp_set ? " (the one used here)" : "";
    text += entry(fmt::format("Lamp set {}", i + 1), lamps_text(file.lamp_sets[i]) + used);
  }
  return text;
}

std::string table_text(const IntensityDistribution& d) {
  const auto range = [](const std::vector<double>& deg) {
    return fmt::format("{} to {} deg", shortest_text(deg.front()), shortest_text(deg.back()));
  };
  std::string text = fmt::format("{} angles {}", d.gamma_deg.size(), range(d.gamma_deg));
  text += d.c_deg.size() == 1 ? ", one plane" : fmt::format(" in {} planes {}", d.c_deg.size(), range(d.c_deg));
  if (is_rotational(d)) return text + " for all around";
  if (d.axis == IntensityDistribution::Axis::along_c0) return text + " around the axis along C 0 (type B)";
  if (d.axis == IntensityDistribution::Axis::along_c90) return text + " around the axis along C 90 (type B)";
  return text + " around the vertical";
}

/// Whether a keyword stands among the maker's texts.
bool is_maker_text(const PhotometricFile& file, const std::pair<std::string, std::string>& word) {
  const auto is_named = [&](const auto& text) { return text.first == word.first; };
  return std::ranges::any_of(k_maker_texts, is_named) && keyword(file, word.first).data() == word.second.data();
}

std::string luminaire_section(const PhotometricFile& file) {
  std::string text = heading("Luminaire");
  for (const auto& [name, label] : k_maker_texts) {
    if (const auto value = keyword(file, name); !value.empty()) text += entry(label, breakable(value));
  }
  text += lamp_entries(file);
  text += entry("Luminous opening", sizes_text(file.opening));
  if (file.housing) text += entry("Housing", sizes_text(*file.housing));
  text += entry("File", breakable(file.format) + ", " + table_text(file.distribution));
  text += entry("Photometry", lamps_of(file).lumens ? "relative to the rated light of the lamps"
                                                    : "absolute: of the luminaire as a whole, no lamp lumens");
  return text + paragraph("The opening is what shines, not the hole to cut: that one is in the maker's instructions.");
}

std::string plane_text(double c_deg) { return "C " + shortest_text(c_deg); }

std::string peak_rows(const Peak& peak, bool is_same_around) {
  const bool is_at_pole = peak.gamma_deg == 0 || peak.gamma_deg == 180;
  const std::string side = is_same_around ? "all around" : "toward C " + rounded_text(peak.c_deg);
  return row("Maximum intensity", rounded_text(peak.candela) + " cd") +
         row("Its angle from straight down", angle_text(peak.gamma_deg), is_at_pole ? "" : side);
}

std::string light_section(const PhotometricFile& file, const PhotometricSummary& summary) {
  const bool is_same_around = is_rotational(file.distribution);
  std::string text = heading("Light");
  text += row("Light leaving the luminaire", rounded_text(summary.lumens) + " lm");
  if (summary.light_output_ratio) {
    text += row("Light of the lamps, rated", rounded_text(*summary.lamp_lumens) + " lm");
    text += row("Light output ratio (efficiency)", share_text(*summary.light_output_ratio));
  }
  text += row("Power drawn", summary.watts ? rounded_text(*summary.watts) + " W" : "not given");
  if (summary.efficacy_lm_w) text += row("Efficacy", rounded_text(*summary.efficacy_lm_w) + " lm/W");
  text += peak_rows(summary.peak, is_same_around);
  text += row("Intensity straight down (centre)", rounded_text(summary.centre_beam_cd) + " cd");

  if (!is_same_around) text += row("Full angles, in the plane of", "C 0 - 180", "C 90 - 270");
  const auto angles = [&](std::string_view name, std::optional<double> BeamAngles::*angle) {
    return row(name, angle_text(summary.along.*angle), is_same_around ? "" : angle_text(summary.across.*angle));
  };
  text += angles("Beam angle, 50 % of maximum (IES)", &BeamAngles::beam_deg);
  text += angles("Field angle, 10 % of maximum (IES)", &BeamAngles::field_deg);
  text += angles("Beam angle, 50 % of centre (CIE)", &BeamAngles::cie_beam_deg);
  if (!is_same_around) {
    text += paragraph(
        "C planes are the luminaire's own: C 0 points where its file has it, C 90 a quarter turn on, "
        "counter-clockwise as seen from above.");
  }
  if (file.tilt) {
    text += paragraph(fmt::format("All for the luminaire aimed straight down, where the file's tilt factor is {}.",
                                  rounded_text(summary.tilt_factor)));
  }
  return text;
}

/// One table of the cone, in one system of units.
std::string cone_rows(const std::vector<ConeRow>& rows, Units units, bool is_same_around) {
  const auto width = [&](const std::optional<double>& metres) -> std::string {
    if (!metres) return "none";
    return units == Units::imperial ? feet_inches(*metres, 1) : fixed_text(*metres, 2) + " m";
  };
  std::string text =
      fmt::format("\n  {:>10}{:>14}{:>17}", "Distance", "Illuminance", is_same_around ? "Beam" : "Beam in C 0-180");
  text += is_same_around ? "\n" : fmt::format("{:>18}\n", "Beam in C 90-270");
  for (const ConeRow& row : rows) {
    const std::string distance = units == Units::imperial ? fixed_text(row.distance_m / k_metres_per_foot, 0) + " ft"
                                                          : fixed_text(row.distance_m, 1) + " m";
    text +=
        fmt::format("  {:>10}{:>14}{:>17}", distance, illuminance_text(row.centre_lx, 0, units), width(row.along_m));
    text += is_same_around ? "\n" : fmt::format("{:>18}\n", width(row.across_m));
  }
  return text;
}

std::string cone_section(const PhotometricFile& file, const PhotometricSummary& summary) {
  const bool is_same_around = is_rotational(file.distribution);
  const std::string title = heading("Cone of light: one luminaire when new, straight below it, nothing reflected");
  if (summary.centre_beam_cd == 0) return title + paragraph("No light goes straight down: there is no cone.");
  return title + paragraph("The beam is as wide as the light has half of the maximum intensity (IES beam angle).") +
         cone_rows(summary.cone_feet, Units::imperial, is_same_around) +
         cone_rows(summary.cone_metres, Units::metric, is_same_around);
}

std::string zone_rows(std::span<const Zone> zones, int decimals) {
  std::string text;
  for (const Zone& zone : zones) {
    text += fmt::format("  {:>3.0f} - {:>3.0f} deg{:>14}{:>18}", zone.from_deg, zone.to_deg,
                        column_text(zone.lumens, decimals) + " lm", share_text(zone.luminaire_share));
    text += zone.lamp_share ? fmt::format("{:>18}\n", share_text(*zone.lamp_share)) : "\n";
  }
  return text;
}

std::string zone_section(const PhotometricSummary& summary) {
  const std::span<const Zone> zones = summary.zones.zones;
  const int decimals = column_decimals(summary.lumens);
  constexpr double k_next_to_nothing = 1e-4;  // of the light: what rounding leaves above the horizontal
  const bool is_all_below = summary.zones.groups[4].luminaire_share <= k_next_to_nothing;
  std::string text = heading("Zonal lumens, by the angle from straight down");
  text += fmt::format("  {:<13}{:>14}{:>18}", "Zone", "Light", "Of the luminaire");
  text += summary.lamp_lumens ? fmt::format("{:>18}\n", "Of the lamps") : "\n";
  text += zone_rows(is_all_below ? zones.first(9) : zones, decimals);
  return text + '\n' + zone_rows(summary.zones.groups, decimals);
}

std::string spacing_section(const PhotometricFile& file, const PhotometricSummary& summary) {
  constexpr double k_example_m = 5.5 * k_metres_per_foot;  // an 8-foot ceiling above a counter at 2.5 ft
  std::string text = heading("Spacing criterion: largest spacing over height above the work plane");
  if (!summary.spacing) return text + paragraph("None: there is no light straight down, or most of it goes up.");
  const SpacingCriterion& spacing = *summary.spacing;
  const auto example = [](double criterion) {
    return feet_inches(criterion * k_example_m, 1) + " (" + fixed_text(criterion * k_example_m, 2) + " m) apart";
  };
  std::string sentence = fmt::format("For example, at {} above the work plane they stand at most {}",
                                     in_both(k_example_m), example(spacing.along));
  if (is_rotational(file.distribution)) {
    text += row("In a row", fixed_text(spacing.along, 1));
  } else {
    text += row("In a row along C 0", fixed_text(spacing.along, 1));
    text += row("In a row along C 90", fixed_text(spacing.across, 1));
    sentence += " along C 0 and " + example(spacing.across) + " along C 90";
  }
  text += row("In a square of four, its side", fixed_text(spacing.diagonal, 1));
  return text + paragraph(sentence + ".") +
         paragraph(
             "The direct light midway between two, and amid four, is then that straight below a single one. "
             "Definition: "
             "ANSI/IES LS-1. Procedure: from memory; the IES Lighting Handbook, 8th or 9th edition, is the place to "
             "check.");
}

std::string luminance_section(const PhotometricFile& file, const PhotometricSummary& summary) {
  std::string text = heading("Average luminance of the luminous opening by the angle from straight down, cd/m2");
  if (!summary.luminance) return text + paragraph("None: the file gives no opening that has an area from the side.");
  const LuminanceTable& table = *summary.luminance;
  const double largest = table.cd_m2.maxCoeff();
  text += fmt::format("  {:<16}", "Angle");
  for (const double c_deg : table.c_deg) {
    text += fmt::format("{:>10}", table.c_deg.size() == 1 ? "all around" : plane_text(c_deg));
  }
  text += '\n';
  for (Eigen::Index i = 0; i < table.cd_m2.rows(); ++i) {
    text += fmt::format("  {:<16}", shortest_text(table.gamma_deg[i]) + " deg");
    for (const double luminance : table.cd_m2.row(i))
      text += fmt::format("{:>10}", rounded_text(luminance, largest / 1e3));
    text += '\n';
  }
  return file.opening.height_m > 0
             ? text + paragraph("The area seen is that of the outer sizes: base and sides, of a box unless round.")
             : text;
}

/// A line of the table of coefficients, the columns of one ceiling close together.
template <class Cell>
std::string utilization_line(std::string_view name, Cell cell) {
  std::string line = fmt::format("  {:<9}", name);
  double ceiling = UtilizationTable::k_finishes[0].ceiling;
  for (std::size_t i = 0; i < UtilizationTable::k_finishes.size(); ++i) {
    if (UtilizationTable::k_finishes[i].ceiling != ceiling) line += "  ";
    ceiling = UtilizationTable::k_finishes[i].ceiling;
    line += fmt::format("{:>4}", cell(i));
  }
  return line + '\n';
}

std::string utilization_section(const PhotometricSummary& summary) {
  const auto& finishes = UtilizationTable::k_finishes;
  const auto percent = [](double fraction) { return fixed_text(100 * fraction, 0); };
  std::string text = heading(fmt::format("Coefficients of utilization, percent of the light of the {}",
                                         summary.light_output_ratio ? "lamps" : "luminaire"));
  text += utilization_line("Ceiling", [&](std::size_t i) { return percent(finishes[i].ceiling); });
  text += utilization_line("Walls", [&](std::size_t i) { return percent(finishes[i].walls); });
  for (int room = 0; room < UtilizationTable::k_rooms; ++room) {
    text += utilization_line(fmt::format("RCR {:>2}", room), [&](std::size_t i) {
      return percent(summary.utilization.coefficient(room, static_cast<Eigen::Index>(i)));
    });
  }
  return text + paragraph(
                    "RCR: room cavity ratio, 2.5 x height above the work plane x perimeter / area of the room. "
                    "Reflectances in percent, of the ceiling cavity and the walls; of the floor cavity 20, in the last "
                    "column 0. IES Lighting Handbook, 9th ed. 2000, chapter 9, equations and constants from memory.");
}

std::string keyword_section(const PhotometricFile& file) {
  std::string text;
  for (const auto& word : file.keywords) {
    if (is_maker_text(file, word)) continue;
    text += word.first.empty() ? entry("", breakable(word.second))
                               : entry(fmt::format("[{}]", breakable(word.first)), breakable(word.second));
  }
  return text.empty() ? text : heading("More of what the file says") + text;
}

}  // namespace

std::string photometric_report(const PhotometricFile& file, const PhotometricSummary& summary, const Problems& warnings,
                               std::string_view name) {
  return filled(breakable(name), k_widest, 2) + luminaire_section(file) + light_section(file, summary) +
         cone_section(file, summary) + zone_section(summary) + spacing_section(file, summary) +
         luminance_section(file, summary) + utilization_section(summary) + keyword_section(file) +
         warning_section(warnings);
}

}  // namespace evenlit
