#include "evenlit/placing/rules_of_thumb.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "can_pattern.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/photometry/spacing_criterion.hpp"
#include "evenlit/photometry/zonal_cavity.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

constexpr double k_m2_per_ft2 = k_metres_per_foot * k_metres_per_foot;

/// What cans give.
struct Light {
  double lumens = 0;      ///< of new ones at their levels
  double average_lx = 0;  ///< by the lumen method
};

/// What of a job the rules need.
struct Room {
  const Job& job;
  double area_m2 = 0;
  double ceiling_m = 0;
  Light one;  ///< can of those that are laid out
  Light others;
  std::optional<SpacingCriterion> criterion;
};

Light light_of(const Job& job, const Scene& scene) {
  if (scene.luminaires.empty()) return {};
  Light light{.average_lx = lumen_method(scene, job.work_plane.height_m).average_lx};
  for (std::size_t i = 0; i < scene.luminaires.size(); ++i) {
    const Luminaire& luminaire = scene.luminaires[i];
    const auto type = std::ranges::find(job.can_types, job.cans[i].type, &CanType::name);
    const ZonalFlux flux = zonal_flux(scene.distributions[static_cast<std::size_t>(luminaire.distribution)]);
    light.lumens += total(flux) * luminaire.output / type->light_loss_factor * luminaire.level;
  }
  return light;
}

Room room_of(const Job& job, const std::vector<PhotometricFile>& photometry) {
  const CanPattern pattern = pattern_of(job);
  Vector2d middle = Vector2d::Zero();
  for (const Vector2d& corner : job.room.corners_m) middle += corner / static_cast<double>(job.room.corners_m.size());
  Job one = job;
  one.cans = {placed(pattern.can, job.room, middle)};
  Job others = job;
  others.cans.clear();
  for (const int can : pattern.others) others.cans.push_back(job.cans[static_cast<std::size_t>(can)]);
  const Scene scene = build_scene(one, photometry);
  return {.job = job,
          .area_m2 = signed_area(job.room.corners_m),
          .ceiling_m = mean_ceiling_m(scene),
          .one = light_of(one, scene),
          .others = light_of(others, build_scene(others, photometry)),
          .criterion =
              spacing_criterion(scene.distributions[static_cast<std::size_t>(scene.luminaires.front().distribution)])};
}

std::optional<Layout> layout_of_count(const Polygon& plan_m, int count) {
  if (auto layout = parted_layout(plan_m, count)) return layout;
  std::optional<Layout> first;
  for (int more = count; more <= k_most_counted; ++more) {
    const std::vector<Layout> layouts = even_layouts(plan_m, more);
    if (layouts.empty()) continue;
    if (!first) first = layouts.front();
    if (is_nearly_square(layouts.front())) return layouts.front();
  }
  return first;
}

const std::string k_too_many = fmt::format("More than {} cans are not laid out.", k_most_counted);

/// So many cans, which `wanted` is before it is rounded up.
RuleOfThumb with_count(RuleOfThumb rule, const Polygon& plan_m, double wanted) {
  constexpr double k_rounding = 1e-9;
  constexpr double k_most_told = 9999;
  if (!(wanted <= k_most_told)) {
    rule.lacks = "One can gives next to nothing.";
    return rule;
  }
  rule.count = static_cast<int>(std::ceil(std::max(0.0, wanted - k_rounding)));
  if (*rule.count == 0) {
    rule.lacks = "The cans that stay are enough by this rule.";
  } else if (*rule.count > k_most_counted) {
    rule.lacks = k_too_many;
  } else {
    rule.layout = layout_of_count(plan_m, *rule.count);
    if (!rule.layout) rule.lacks = "No even layout has as many cans in this plan.";
  }
  return rule;
}

RuleOfThumb with_layout(RuleOfThumb rule, std::optional<Layout> layout) {
  if (layout) rule.count = static_cast<int>(layout->positions_m.size());
  if (layout && *rule.count <= k_most_counted) {
    rule.layout = std::move(layout);
  } else {
    rule.lacks = k_too_many;
  }
  return rule;
}

RuleOfThumb half_height(const Room& room) {
  return with_layout({.name = "half height",
                      .reckoning = fmt::format("No farther apart than half the ceiling's height, {}.",
                                               length_text(room.ceiling_m / 2, room.job.units))},
                     half_height_layout(room.job.room.corners_m, room.ceiling_m));
}

RuleOfThumb by_criterion(const Room& room) {
  RuleOfThumb rule{.name = "spacing criterion"};
  const double height_m = room.ceiling_m - room.job.work_plane.height_m;
  if (!room.criterion || height_m <= 0) {
    rule.reckoning = "The can's spacing criterion times its height above the work plane.";
    rule.lacks = room.criterion ? "The work plane is not below the ceiling." : "This can has none.";
    return rule;
  }
  const double criterion = std::min({room.criterion->along, room.criterion->across, room.criterion->diagonal});
  rule.reckoning = fmt::format(
      "No farther apart than the can's spacing criterion, {}, times its height above the work plane, {}: {}.",
      fixed_text(criterion, 2), length_text(height_m, room.job.units),
      length_text(criterion * height_m, room.job.units));
  return with_layout(std::move(rule), spaced_layout(room.job.room.corners_m, criterion * height_m, "criterion"));
}

std::string lumens_text(double lumens) { return rounded_text(lumens) + " lm"; }

std::string area_text(const Room& room) {
  const bool is_imperial = room.job.units == Units::imperial;
  return is_imperial ? rounded_text(room.area_m2 / k_m2_per_ft2) + " ft2" : rounded_text(room.area_m2) + " m2";
}

std::string per_area_text(double lumens_per_m2, Units units) {
  return units == Units::imperial ? rounded_text(lumens_per_m2 * k_m2_per_ft2) + " lm/ft2"
                                  : rounded_text(lumens_per_m2) + " lm/m2";
}

std::string shares_text(const Room& room, double wanted_lumens) {
  return fmt::format("{} on {} are {}{}, at {} a can", per_area_text(wanted_lumens / room.area_m2, room.job.units),
                     area_text(room), lumens_text(wanted_lumens),
                     room.others.lumens > 0 ? fmt::format(", {} of them from the cans that stay",
                                                          lumens_text(std::min(wanted_lumens, room.others.lumens)))
                                            : "",
                     lumens_text(room.one.lumens));
}

RuleOfThumb by_lumens(const Room& room, std::string name, const std::string& why, double lumens_per_m2) {
  const double lumens = lumens_per_m2 * room.area_m2;
  return with_count({.name = std::move(name), .reckoning = fmt::format("{}: {}.", why, shares_text(room, lumens))},
                    room.job.room.corners_m, (lumens - room.others.lumens) / room.one.lumens);
}

RuleOfThumb without_target(std::string name, std::string reckoning) {
  return {.name = std::move(name), .reckoning = std::move(reckoning), .lacks = "It needs a target, and none is set."};
}

RuleOfThumb by_target_lumens(const Room& room) {
  const std::string name = "target's lumens";
  const std::string why = room.job.units == Units::imperial ? "As many lumens as shall arrive, 1 fc being 1 lm/ft2"
                                                            : "As many lumens as shall arrive, 1 lx being 1 lm/m2";
  if (!room.job.target_lx) return without_target(name, why + ".");
  return by_lumens(room, name, why, *room.job.target_lx);
}

RuleOfThumb by_usual_lumens(const Room& room) {
  return by_lumens(room, "usual lumens", "What is usual in living areas", k_usual_lumens_per_ft2 / k_m2_per_ft2);
}

RuleOfThumb by_lumen_method(const Room& room) {
  const std::string name = "lumen method";
  if (!room.job.target_lx) return without_target(name, "The zonal-cavity average is the target.");
  return with_count(
      {.name = name,
       .reckoning = fmt::format("The zonal-cavity average is the target, {}{}, at {} a can.",
                                illuminance_text(*room.job.target_lx, 0, room.job.units),
                                room.others.average_lx > 0
                                    ? ", with " + illuminance_text(room.others.average_lx, 0, room.job.units) +
                                          " of it from the cans that stay"
                                    : "",
                                illuminance_text(room.one.average_lx, 0, room.job.units))},
      room.job.room.corners_m, (*room.job.target_lx - room.others.average_lx) / room.one.average_lx);
}

}  // namespace

std::vector<RuleOfThumb> rules_of_thumb(const Job& job, const std::vector<PhotometricFile>& photometry) {
  const Room room = room_of(job, photometry);
  return {half_height(room), by_criterion(room), by_target_lumens(room), by_usual_lumens(room), by_lumen_method(room)};
}

RuleResult result_of(const RuleOfThumb& rule, const Comparison& comparison, std::optional<double> target_lx) {
  RuleResult result;
  if (!rule.layout) return result;
  const auto row = std::ranges::find_if(comparison.rows, [&](const ComparedLayout& each) {
    return each.moves.empty() && each.layout.type == comparison.type && has_same_places(each.layout, *rule.layout);
  });
  if (row == comparison.rows.end()) return result;
  result.row = &*row;
  if (target_lx) result.above_target = row->statistics.average_lx / *target_lx - 1;
  if (comparison.fewest && row->gives_all()) result.more_than_fewest = row->count() - *comparison.fewest;
  return result;
}

}  // namespace evenlit
