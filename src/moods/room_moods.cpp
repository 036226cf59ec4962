#include "evenlit/moods/room_moods.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/names.hpp"
#include "evenlit/job/walls.hpp"
#include "evenlit/moods/circuits.hpp"
#include "evenlit/moods/dimming.hpp"
#include "evenlit/moods/opening_light.hpp"
#include "mood_table.hpp"

namespace evenlit {
namespace {

/// The setting whose light is nearest to a level.
double nearest_setting(const Job& job, const Circuit& circuit, double level) {
  if (const auto setting = circuit_setting(job, circuit, level)) return *setting;
  const auto light = [&](double setting) { return circuit_light(job, circuit, setting); };
  const auto [below, above] = setting_search(light, level);
  return std::abs(light(above) - level) < std::abs(light(below) - level) ? above : below;
}

Result<std::vector<double>> settings_of(const Job& job, const MoodTable& table, const Mood& mood) {
  if (const auto* settings = std::get_if<CircuitSettings>(&mood.asks)) return in_circuit_order(job, settings->of);
  if (const auto* levels = std::get_if<CircuitLevels>(&mood.asks)) {
    return settings_for(job, in_circuit_order(job, levels->of), mood.origin.place);
  }
  const std::vector<double> levels = wished_levels(job, table, std::get<Wishes>(mood.asks));
  std::vector<double> settings;
  for (std::size_t i = 0; i < levels.size(); ++i) {
    settings.push_back(nearest_setting(job, job.circuits[i], levels[i]));
  }
  return settings;
}

/// Colour of all cans at their levels; empty where that of one that is on is not known.
std::optional<MixedLight> colour_of(const Job& job, const Scene& scene) {
  std::vector<ColouredLight> lights;
  for (std::size_t i = 0; i < job.cans.size(); ++i) {
    const Luminaire& luminaire = scene.luminaires[i];
    if (luminaire.level == 0) continue;
    const CanType& type = type_of(job, job.cans[i]);
    if (!type.cct_k && type.warm_dim_k.empty()) return std::nullopt;
    const double kelvin = type.cct_k ? *type.cct_k : table_value(type.warm_dim_k, luminaire.level);
    const auto& distribution = scene.distributions[static_cast<std::size_t>(luminaire.distribution)];
    lights.push_back({lumens(distribution) * luminaire.output * luminaire.level, black_body(kelvin)});
  }
  return mixed_light(lights);
}

std::vector<WishLight> wishes_of(const Job& job, const Mood& mood, const RoomLight& light) {
  const auto* wishes = std::get_if<Wishes>(&mood.asks);
  if (wishes == nullptr) return {};
  const auto average_lx = [&](int row) {
    return row == 0 ? light.work_plane.statistics.average_lx
                    : light.readings.task_areas[static_cast<std::size_t>(row - 1)].average_lx.value;
  };
  const auto name = [&](int row) { return row == 0 ? "" : job.task_areas[static_cast<std::size_t>(row - 1)].name; };
  std::vector<WishLight> all;
  for (const LevelWish& wish : level_wishes(job, *wishes)) {
    const double has =
        wish.kind == LevelWish::Kind::ratio ? average_lx(wish.area) / average_lx(wish.other) : average_lx(wish.area);
    all.push_back({name(wish.area), name(wish.other), wish.kind, wish.value, wish_result(wish, has)});
  }
  return all;
}

/// Average luminance of a named surface, empty where it has none.
std::optional<double> surface_cd_m2(const RoomLight& light, const std::string& name) {
  const auto& surfaces = light.readings.readings.surfaces;
  const auto surface = std::ranges::find(surfaces, name, &AreaReading::name);
  if (surface == surfaces.end()) return std::nullopt;
  const auto index = static_cast<std::size_t>(surface - surfaces.begin());
  const auto& luminance = light.readings.surfaces[index].luminance_cd_m2;
  return luminance ? std::optional(luminance->value) : std::nullopt;
}

/// Average luminance of all surfaces but the floor and what stands in the room.
double background_cd_m2(const Scene& scene, const RoomLight& light) {
  double sum = 0;
  double area_m2 = 0;
  const auto& surfaces = light.readings.readings.surfaces;
  for (std::size_t i = 0; i < surfaces.size(); ++i) {
    const auto part = std::ranges::find(scene.surfaces, surfaces[i].name, &Surface::name)->part;
    const auto& luminance = light.readings.surfaces[i].luminance_cd_m2;
    if (part == Part::floor || part == Part::box || !luminance) continue;
    sum += surfaces[i].area_m2 * luminance->value;
    area_m2 += surfaces[i].area_m2;
  }
  return area_m2 > 0 ? sum / area_m2 : 0;
}

Eigen::Vector3d direction_of(const Looking& looking) {
  constexpr double k_radians = 3.14159265358979323846 / 180;
  const double tilt = looking.tilt_deg * k_radians;
  const double toward = looking.toward_deg * k_radians;
  return {std::cos(tilt) * std::cos(toward), std::cos(tilt) * std::sin(toward), std::sin(tilt)};
}

class Viewer {
 public:
  Viewer(const Job& job, const MoodTable& table, const Visibility& visibility)
      : job_(job), table_(table), visibility_(visibility) {
    for (const Screen& screen : job.screens) screens_.push_back(shiny(screen));
  }

  [[nodiscard]] std::vector<SeatView> views(const Scene& scene, const RoomLight& light) const {
    std::vector<SeatView> views;
    for (std::size_t i = 0; i < job_.seats.size(); ++i) views.push_back(view(scene, light, i));
    return views;
  }

 private:
  [[nodiscard]] ShinyRectangle shiny(const Screen& screen) const {
    const PlaneCorners corners = corners_of(job_.room, table_.scene.ceiling, screen);
    const Eigen::Vector3d centre = (corners[0] + corners[1] + corners[2] + corners[3]) / 4;
    return {screen.name, centre, (corners[1] + corners[2]) / 2 - centre, (corners[2] + corners[3]) / 2 - centre};
  }

  [[nodiscard]] SeatView view(const Scene& scene, const RoomLight& light, std::size_t index) const {
    const Seat& seat = job_.seats[index];
    const Eigen::Vector2d plan = plan_position(job_.room, seat.from).value();
    const Sightline sight{{plan.x(), plan.y(), seat.height_m}, direction_of(seat.looking)};
    const auto looks = static_cast<std::size_t>(table_.seats_first) + 2 * index;
    const PointReading& gets = table_.readings.points[looks + 1];
    const Eigen::VectorXd levels = levels_of(scene);
    const double indirect_lx = light.readings.response.indirect_lx.row(gets.value.first).dot(levels);
    SeatView view{.seat = seat.name,
                  .seen_cd_m2 = light.readings.points[looks],
                  .surface = table_.readings.points[looks].surface,
                  .balance = {},
                  .glare = glare(scene, visibility_, sight, indirect_lx),
                  .screens = {}};
    if (const auto surround = surface_cd_m2(light, view.surface)) {
      view.balance = luminance_balance(view.seen_cd_m2.value, *surround, background_cd_m2(scene, light));
    }
    for (const ShinyRectangle& screen : screens_) {
      ScreenImages images{.screen = screen.name, .images = mirror_images(scene, visibility_, screen, sight.eye_m)};
      std::erase_if(images.images, [&](const MirrorImage& image) {
        return light_toward(scene, scene.luminaires[static_cast<std::size_t>(image.luminaire)], image.place_m)
                   .candela <= 0;
      });
      if (!images.images.empty()) view.screens.push_back(std::move(images));
    }
    return view;
  }

  const Job& job_;
  const MoodTable& table_;
  const Visibility& visibility_;
  std::vector<ShinyRectangle> screens_;
};

/// Of each dimmed can its circuit.
std::vector<int> circuits_of(const Job& job, const std::vector<int>& dimmed) {
  std::vector<int> circuits;
  for (const int can : dimmed) {
    const std::string& name = *job.cans[static_cast<std::size_t>(can)].circuit;
    circuits.push_back(static_cast<int>(std::ranges::find(job.circuits, name, &Circuit::name) - job.circuits.begin()));
  }
  return circuits;
}

/// A split that is worth a dimmer: where a wish is off by a tenth or more and the split takes off half of the misfit.
std::optional<Split> worthwhile_split(const Job& job, const MoodTable& table, const Mood& mood,
                                      const std::vector<WishLight>& wishes, const std::vector<int>& dimmed) {
  constexpr double k_missed = 0.1;
  const bool is_missed =
      std::ranges::any_of(wishes, [](const WishLight& wish) { return std::abs(wish.result.off_by) >= k_missed; });
  if (!is_missed || dimmed.empty()) return std::nullopt;
  const GroupingProblem problem = grouping_problem(job, table, &mood);
  const Grouping now = judged_grouping(problem, circuits_of(job, dimmed));
  std::vector<Eigen::Vector2d> positions;
  for (const int can : dimmed) {
    positions.push_back(plan_position(job.room, job.cans[static_cast<std::size_t>(can)]).value());
  }
  auto split = best_split(problem, now, positions);
  if (!split || split->grouping.misfit > now.misfit / 2) return std::nullopt;
  return split;
}

/// Why the job's cans cannot be put on so many dimmers.
Problems grouping_problems(const Job& job, int dimmers) {
  const Place place = job.moods.empty() ? Place{} : job.moods.front().origin.place;
  const bool has_wishes =
      std::ranges::any_of(job.moods, [](const Mood& mood) { return std::holds_alternative<Wishes>(mood.asks); });
  if (!has_wishes) {
    return {{place, "no mood states wishes that cans could be grouped for",
             "add one like [[moods.reading.wish]] with area and at_least"}};
  }
  if (std::ssize(dimmed_cans(job)) >= dimmers) return {};
  return {{place, fmt::format("{} dimmers for {} cans on circuits", dimmers, dimmed_cans(job).size()),
           "ask for fewer dimmers, or give more cans a circuit"}};
}

}  // namespace

Result<RoomMoods> room_moods(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                             std::optional<int> dimmers, const Progress& progress) {
  if (dimmers) {
    if (auto problems = grouping_problems(job, *dimmers); !problems.empty()) return tl::unexpected(std::move(problems));
  }
  const auto table = mood_table(job, photometry, grid, progress);
  if (!table) return tl::unexpected(table.error());
  Scene scene = table->scene;
  const Visibility visibility(scene);
  const Viewer viewer(job, *table, visibility);
  RoomMoods result{.moods = {},
                   .dimmed = dimmed_cans(job),
                   .loads = dimmer_loads(job, table->scene),
                   .branch = job.supply ? std::optional(branch_load(job, table->scene, *job.supply)) : std::nullopt};
  Problems problems;
  for (const Mood& mood : job.moods) {
    auto settings = settings_of(job, *table, mood);
    if (!settings) {
      for (Problem& problem : settings.error()) problems.push_back(std::move(problem));
      continue;
    }
    MoodLight light{.name = mood.name, .settings = std::move(*settings)};
    for (std::size_t i = 0; i < job.circuits.size(); ++i) {
      light.circuit_light.push_back(circuit_light(job, job.circuits[i], light.settings[i]));
    }
    light.can_levels = can_levels(job, light.settings);
    for (std::size_t i = 0; i < light.can_levels.size(); ++i) scene.luminaires[i].level = light.can_levels[i];
    light.light = room_light(scene, grid, job.target_lx, table->readings, table->response);
    light.watts = drawn_watts(job, table->scene, light.can_levels);
    const std::optional<double> hours = mood.hours ? mood.hours : job.energy.hours;
    if (light.watts && hours) light.energy = yearly_energy(*light.watts, *hours, job.energy.price);
    light.colour = colour_of(job, scene);
    light.wishes = wishes_of(job, mood, light.light);
    light.split = worthwhile_split(job, *table, mood, light.wishes, result.dimmed);
    light.seats = viewer.views(scene, light.light);
    result.moods.push_back(std::move(light));
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  if (dimmers) result.proposed = best_grouping(grouping_problem(job, *table), *dimmers);
  return result;
}

}  // namespace evenlit
