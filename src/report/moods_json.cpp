#include "evenlit/moods/dimming.hpp"
#include "evenlit/report/moods_report.hpp"
#include "json_values.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

Json estimate_json(const Estimate& estimate) {
  return {{"value", number(estimate.value)}, {"error", number(estimate.error)}};
}

const char* kind_name(LevelWish::Kind kind) {
  switch (kind) {
    case LevelWish::Kind::at_least:
      return "at_least_lx";
    case LevelWish::Kind::at_most:
      return "at_most_lx";
    case LevelWish::Kind::about:
      return "about_lx";
    case LevelWish::Kind::ratio:
      break;
  }
  return "ratio";
}

Json name_or_null(const std::string& name) { return name.empty() ? Json(nullptr) : Json(name); }

Json wish_json(const WishLight& wish) {
  return {{"area", name_or_null(wish.area)},
          {"to", wish.kind == LevelWish::Kind::ratio ? name_or_null(wish.other) : Json(nullptr)},
          {"wish", kind_name(wish.kind)},
          {"wanted", number(wish.value)},
          {"has", number(wish.result.has)},
          {"off_by_fraction", number(wish.result.off_by)}};
}

Json circuit_json(const Job& job, const MoodLight& mood, std::size_t index) {
  return {{"name", job.circuits[index].name},
          {"setting", number(mood.settings[index])},
          {"light_fraction", number(mood.circuit_light[index])},
          {"perceived_fraction", number(perceived_brightness(mood.circuit_light[index]))}};
}

Json seat_json(const SeatView& view) {
  Json screens = Json::array();
  for (const ScreenImages& screen : view.screens) {
    for (const MirrorImage& image : screen.images) {
      screens.push_back({{"screen", screen.screen},
                         {"can", image.luminaire + 1},
                         {"seen_share", number(image.seen_share)},
                         {"luminance_cd_m2", number(image.reflected_cd_m2)}});
    }
  }
  return {{"name", view.seat},
          {"looks_at", view.surface},
          {"seen_luminance_cd_m2", number(view.seen_cd_m2.value)},
          {"unified_glare_rating", number(view.glare.unified_rating)},
          {"worst_can", view.glare.worst ? Json(*view.glare.worst + 1) : Json(nullptr)},
          {"mirrored", std::move(screens)}};
}

Json areas_json(const std::vector<AreaReading>& areas, const std::vector<AreaLight>& lights) {
  Json all = Json::array();
  for (std::size_t i = 0; i < areas.size(); ++i) {
    const auto& luminance = lights[i].luminance_cd_m2;
    all.push_back({{"name", areas[i].name},
                   {"average_lx", estimate_json(lights[i].average_lx)},
                   {"minimum_lx", estimate_json(lights[i].minimum_lx)},
                   {"luminance_cd_m2", luminance ? estimate_json(*luminance) : Json(nullptr)}});
  }
  return all;
}

Json mood_json(const Job& job, const RoomMoods& moods, const MoodLight& mood) {
  Json circuits = Json::array();
  for (std::size_t i = 0; i < job.circuits.size(); ++i) circuits.push_back(circuit_json(job, mood, i));
  Json wishes = Json::array();
  for (const WishLight& wish : mood.wishes) wishes.push_back(wish_json(wish));
  Json seats = Json::array();
  for (const SeatView& view : mood.seats) seats.push_back(seat_json(view));
  Json levels = Json::array();
  for (const double level : mood.can_levels) levels.push_back(number(level));
  Json split = nullptr;
  if (mood.split) {
    Json cans = Json::array();
    for (const int can : mood.split->leaving) cans.push_back(moods.dimmed[static_cast<std::size_t>(can)] + 1);
    split = {{"circuit", job.circuits[static_cast<std::size_t>(mood.split->dimmer)].name}, {"cans", std::move(cans)}};
  }
  const Statistics& plane = mood.light.work_plane.statistics;
  const ReadingsLight& read = mood.light.readings;
  return {
      {"name", mood.name},
      {"circuits", std::move(circuits)},
      {"can_levels", std::move(levels)},
      {"average_lx", number(plane.average_lx)},
      {"minimum_lx", number(plane.minimum_lx)},
      {"task_areas", areas_json(read.readings.task_areas, read.task_areas)},
      {"surfaces", areas_json(read.readings.surfaces, read.surfaces)},
      {"power_w", number(mood.watts)},
      {"energy_kwh_a_year", mood.energy ? number(mood.energy->kwh) : Json(nullptr)},
      {"cost_a_year", mood.energy ? number(mood.energy->cost) : Json(nullptr)},
      {"colour_temperature_k", mood.colour && mood.colour->tone ? number(mood.colour->tone->kelvin) : Json(nullptr)},
      {"duv", mood.colour && mood.colour->tone ? number(mood.colour->tone->duv) : Json(nullptr)},
      {"wishes", std::move(wishes)},
      {"split_that_helps", std::move(split)},
      {"seats", std::move(seats)}};
}

Json load_json(const Job& job, const DimmerLoad& load) {
  return {{"circuit", job.circuits[static_cast<std::size_t>(load.circuit)].name},
          {"load_w", number(load.watts)},
          {"most_w", number(load.most_w)},
          {"least_w", number(load.least_w)},
          {"load_va", number(load.va)},
          {"most_va", number(load.most_va)},
          {"is_too_much", load.is_too_much()},
          {"is_too_little", load.is_too_little()}};
}

}  // namespace

std::string moods_json(const Job& job, const RoomMoods& moods, const Problems& warnings) {
  Json all = Json::array();
  for (const MoodLight& mood : moods.moods) all.push_back(mood_json(job, moods, mood));
  Json loads = Json::array();
  for (const DimmerLoad& load : moods.loads) loads.push_back(load_json(job, load));
  Json branch = nullptr;
  if (moods.branch) {
    branch = {{"load_va", number(moods.branch->va)},
              {"most_va", number(moods.branch->most_va)},
              {"is_too_much", moods.branch->is_too_much()},
              {"voltage_drop_share", number(moods.branch->drop_share)}};
  }
  return json_text({{"format", "evenlit moods"},
                    {"version", k_version},
                    {"room", job.room.name},
                    {"currency", job.currency},
                    {"moods", std::move(all)},
                    {"dimmer_loads", std::move(loads)},
                    {"branch_circuit", std::move(branch)},
                    {"warnings", remarks(warnings)}});
}

}  // namespace evenlit
