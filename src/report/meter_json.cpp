#include "json_values.hpp"
#include "meter_words.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

Json interval(const Interval& interval, double offset = 0) {
  return {{"value", number(offset + interval.value)},
          {"least", number(offset + interval.least)},
          {"most", number(offset + interval.most)}};
}

Json reading_json(const MeterCheck& check, std::size_t index) {
  const MeterReading& read = check.readings[index];
  const ComparedReading& compared = check.fit.readings[index];
  Json json{{"name", read.point.name},
            {"line", read.origin.place.line},
            {"reading_lx", number(read.lx)},
            {"predicted_lx", number(compared.predicted_lx)},
            {"predicted_error_lx", number(check.error_lx[static_cast<Eigen::Index>(index)])},
            {"difference", number(compared.deviation)},
            {"residual", compared.deviation ? number(compared.residual) : Json(nullptr)},
            {"outlier", compared.is_outlier},
            {"suspect", nullptr}};
  if (compared.suspect) {
    json["suspect"] = {{"can", compared.suspect->can + 1}, {"missing", number(compared.suspect->missing)}};
  }
  return json;
}

Json surfaces_json(const MeterCheck& check) {
  if (!check.fit.surfaces) return nullptr;
  Json json{{"factor", interval(check.fit.surfaces->factor)}, {"scatter", number(check.fit.surfaces->scatter)}};
  for (std::size_t i = 0; i < check.reflectance.size(); ++i) {
    const auto& [shift, is_told] = check.fit.surfaces->shifts[i];
    json[surface_word(i)] = {{"reflectance", interval(shift, check.reflectance[i])},
                             {"job_reflectance", number(check.reflectance[i])},
                             {"told", is_told}};
  }
  return json;
}

}  // namespace

std::string meter_json(const MeterFacts& facts, const Problems& warnings) {
  const MeterCheck& check = facts.check;
  Json readings = Json::array();
  for (std::size_t i = 0; i < check.readings.size(); ++i) readings.push_back(reading_json(check, i));
  Json factor = nullptr;
  if (check.fit.factor)
    factor = {{"factor", interval(check.fit.factor->value)}, {"scatter", number(check.fit.factor->scatter)}};
  return json_text({{"format", "evenlit meter"},
                    {"version", k_version},
                    {"room", facts.job.room.name},
                    {"mood", facts.mood ? Json(*facts.mood) : Json(nullptr)},
                    {"meter_accuracy", number(check.meter_accuracy)},
                    {"confidence", 0.95},
                    {"readings", readings},
                    {"average_difference", number(check.fit.average)},
                    {"new_over_maintained", number(check.new_over_maintained)},
                    {"fitted_factor", factor},
                    {"fitted_surfaces", surfaces_json(check)},
                    {"verdict", meter_verdict(facts)},
                    {"warnings", remarks(warnings)}});
}

}  // namespace evenlit
