#include "evenlit/report/photometric_json.hpp"

#include "json_values.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

std::string_view name_of(Opening::Shape shape) {
  switch (shape) {
    case Opening::Shape::disc:
      return "disc";
    case Opening::Shape::rectangle:
      return "rectangle";
    case Opening::Shape::other:
      return "other";
    default:
      return "point";
  }
}

std::string_view name_of(IntensityDistribution::Axis axis) {
  switch (axis) {
    case IntensityDistribution::Axis::along_c0:
      return "along_c0";
    case IntensityDistribution::Axis::along_c90:
      return "along_c90";
    default:
      return "vertical";
  }
}

/// An array of what a function makes of each element.
template <class Range, class Function>
Json array_of(const Range& range, Function value) {
  Json array = Json::array();
  for (const auto& element : range) array.push_back(value(element));
  return array;
}

Json figures(const std::vector<double>& values) {
  return numbers(Eigen::Map<const Eigen::VectorXd>(values.data(), std::ssize(values)));
}

/// A table, an array a column.
Json columns(const Eigen::ArrayXXd& table) {
  Json array = Json::array();
  for (Eigen::Index j = 0; j < table.cols(); ++j) array.push_back(numbers(table.col(j).matrix()));
  return array;
}

Json opening(const Opening& opening) {
  return {{"shape", name_of(opening.shape)},
          {"width_m", length(opening.width_m)},
          {"length_m", length(opening.length_m)},
          {"height_m", length(opening.height_m)}};
}

Json lamp_set(const LampSet& lamps) {
  return {{"lamps", lamps.lamps},   {"type", lamps.type},           {"lumens_lm", number(lamps.lumens)},
          {"colour", lamps.colour}, {"rendering", lamps.rendering}, {"power_w", number(lamps.watts)}};
}

Json tilt(const std::optional<TiltData>& tilt) {
  if (!tilt) return nullptr;
  return {{"geometry", tilt->geometry}, {"angles_deg", figures(tilt->angles_deg)}, {"factors", figures(tilt->factors)}};
}

Json luminaire(const PhotometricFile& file) {
  return {{"file_format", file.format},
          {"keywords", array_of(file.keywords,
                                [](const auto& keyword) {
                                  return Json{{"name", keyword.first}, {"value", keyword.second}};
                                })},
          {"lamp_sets", array_of(file.lamp_sets, lamp_set)},
          {"lamp_set", file.lamp_set + 1},
          {"opening", opening(file.opening)},
          {"housing", file.housing ? opening(*file.housing) : Json(nullptr)},
          {"tilt", tilt(file.tilt)}};
}

Json beam_angles(const BeamAngles& angles) {
  return {{"beam_deg", number(angles.beam_deg)},
          {"field_deg", number(angles.field_deg)},
          {"cie_beam_deg", number(angles.cie_beam_deg)}};
}

Json light(const PhotometricSummary& summary) {
  return {{"tilt_factor", number(summary.tilt_factor)},
          {"luminaire_lm", number(summary.lumens)},
          {"lamps_lm", number(summary.lamp_lumens)},
          {"light_output_ratio", number(summary.light_output_ratio)},
          {"power_w", number(summary.watts)},
          {"efficacy_lm_w", number(summary.efficacy_lm_w)},
          {"peak",
           {{"intensity_cd", number(summary.peak.candela)},
            {"gamma_deg", number(summary.peak.gamma_deg)},
            {"c_deg", number(summary.peak.c_deg)}}},
          {"centre_beam_cd", number(summary.centre_beam_cd)},
          {"along_c0", beam_angles(summary.along)},
          {"along_c90", beam_angles(summary.across)}};
}

Json cone_row(const ConeRow& row) {
  return {{"distance_m", length(row.distance_m)},
          {"illuminance_lx", number(row.centre_lx)},
          {"beam_along_c0_m", number(row.along_m)},
          {"beam_along_c90_m", number(row.across_m)}};
}

Json zone(const Zone& zone) {
  return {{"from_deg", number(zone.from_deg)},
          {"to_deg", number(zone.to_deg)},
          {"flux_lm", number(zone.lumens)},
          {"of_luminaire_fraction", number(zone.luminaire_share)},
          {"of_lamps_fraction", number(zone.lamp_share)}};
}

Json spacing(const std::optional<SpacingCriterion>& spacing) {
  if (!spacing) return nullptr;
  return {{"along_c0", number(spacing->along)},
          {"along_c90", number(spacing->across)},
          {"diagonal", number(spacing->diagonal)}};
}

Json luminance(const std::optional<LuminanceTable>& table) {
  if (!table) return nullptr;
  return {{"gamma_deg", figures(table->gamma_deg)},
          {"c_deg", figures(table->c_deg)},
          {"luminance_cd_m2", columns(table->cd_m2)}};
}

Json utilization(const PhotometricSummary& summary) {
  Json finishes = Json::array();
  for (std::size_t i = 0; i < UtilizationTable::k_finishes.size(); ++i) {
    const CavityFinishes& of = UtilizationTable::k_finishes[i];
    finishes.push_back(
        {{"ceiling_fraction", of.ceiling},
         {"walls_fraction", of.walls},
         {"floor_fraction", of.floor},
         {"coefficients", numbers(summary.utilization.coefficient.col(static_cast<Eigen::Index>(i)).matrix())}});
  }
  Json ratios = Json::array();
  for (int ratio = 0; ratio < UtilizationTable::k_rooms; ++ratio) ratios.push_back(ratio);
  return {{"shares_of", summary.light_output_ratio ? "lamps" : "luminaire"},
          {"room_cavity_ratio", std::move(ratios)},
          {"finishes", std::move(finishes)}};
}

Json distribution(const IntensityDistribution& distribution) {
  return {{"axis", name_of(distribution.axis)},
          {"gamma_deg", figures(distribution.gamma_deg)},
          {"c_deg", figures(distribution.c_deg)},
          {"candela", columns(distribution.candela)}};
}

}  // namespace

std::string photometric_json(const PhotometricFile& file, const PhotometricSummary& summary, const Problems& warnings,
                             std::string_view name) {
  const Json report{
      {"format", "evenlit photometry"},
      {"version", k_version},
      {"name", name},
      {"luminaire", luminaire(file)},
      {"light", light(summary)},
      {"cone_of_light",
       {{"feet", array_of(summary.cone_feet, cone_row)}, {"metres", array_of(summary.cone_metres, cone_row)}}},
      {"zones", array_of(summary.zones.zones, zone)},
      {"zone_groups", array_of(summary.zones.groups, zone)},
      {"spacing_criterion", spacing(summary.spacing)},
      {"luminance", luminance(summary.luminance)},
      {"coefficients_of_utilization", utilization(summary)},
      {"distribution", distribution(file.distribution)},
      {"warnings", remarks(warnings)}};
  return json_text(report);
}

}  // namespace evenlit
