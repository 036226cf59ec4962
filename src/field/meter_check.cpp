#include "evenlit/field/meter_check.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/names.hpp"
#include "evenlit/field/response.hpp"
#include "evenlit/room/readings.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {
namespace {

using Eigen::VectorXd;

constexpr std::array k_parts{Part::floor, Part::ceiling, Part::wall};

/// The receivers of the meter: what the job's own points would be.
Result<std::vector<Receiver>> receivers_of(const Job& job, const Scene& scene,
                                           const std::vector<MeterReading>& readings) {
  Job asked = job;
  asked.task_areas.clear();
  asked.points.clear();
  for (const MeterReading& reading : readings) asked.points.push_back(reading.point);
  auto read = readings_of(asked, scene);
  if (!read) return tl::unexpected(std::move(read.error()));
  return std::move(read->receivers);
}

Scene shifted(Scene scene, const Shifts& shifts) {
  for (Surface& surface : scene.surfaces) {
    const auto part = std::ranges::find(k_parts, surface.part) - k_parts.begin();
    if (part < shifts.size()) surface.reflectance += shifts[part];
  }
  return scene;
}

/// What the surfaces of a part have in common.
struct PartFinish {
  double average = 0;  ///< over the area
  double least = 1;
  double most = 0;
};

PartFinish finish_of(const Scene& scene, Part part) {
  PartFinish finish;
  double area_m2 = 0;
  for (const Surface& surface : scene.surfaces) {
    if (surface.part != part) continue;
    const double size_m2 = vector_area(surface.corners_m).norm();
    finish.average += size_m2 * surface.reflectance;
    finish.least = std::min(finish.least, surface.reflectance);
    finish.most = std::max(finish.most, surface.reflectance);
    area_m2 += size_m2;
  }
  finish.average /= area_m2;
  return finish;
}

/// The light at other reflectances, trying each on the same coarse mesh.
std::function<VectorXd(const Shifts&)> trial_light(const Scene& scene, const std::vector<Receiver>& receivers,
                                                   const VectorXd& levels, const VectorXd& predicted_lx) {
  MeshDetail detail = coarse_mesh(scene);
  detail.unevenness = 1;  // cut alike for all reflectances, so that differences are those of the light
  const auto coarse_lx = [=](const Scene& tried) {
    return field_at(response(tried, receivers, detail), levels).total_lx;
  };
  const VectorXd correction = predicted_lx.cwiseQuotient(coarse_lx(scene).cwiseMax(1e-12));
  return [=](const Shifts& shifts) -> VectorXd { return correction.cwiseProduct(coarse_lx(shifted(scene, shifts))); };
}

/// Light of new lamps over that of maintained ones, at all readings together.
double new_over_maintained(const Job& job, const Eigen::MatrixXd& by_can_lx) {
  double initial_lx = 0;
  for (std::size_t i = 0; i < job.cans.size(); ++i) {
    const auto type = std::ranges::find(job.can_types, job.cans[i].type, &CanType::name);
    initial_lx += by_can_lx.col(static_cast<Eigen::Index>(i)).sum() / type->light_loss_factor;
  }
  return initial_lx / by_can_lx.sum();
}

Problems remarks_on(const MeterCheck& check) {
  Problems remarks;
  int compared = 0;
  int fitted = 0;
  for (std::size_t i = 0; i < check.readings.size(); ++i) {
    const ComparedReading& reading = check.fit.readings[i];
    compared += reading.deviation ? 1 : 0;
    fitted += reading.deviation && !reading.is_outlier ? 1 : 0;
    if (reading.deviation) continue;
    remarks.push_back({check.readings[i].origin.place,
                       fmt::format("at {} less than {:.0f} lx is predicted", quoted(check.readings[i].point.name),
                                   k_least_compared_lx),
                       "too little for a meter to compare"});
  }
  if (fitted < k_fewest_for_factor) {
    remarks.push_back({check.readings.back().origin.place,
                       fmt::format("{} of the readings can be compared together: too few to tell a factor", fitted),
                       fmt::format("take {} or more, well apart", k_fewest_for_factor)});
  } else if (compared < k_fewest_for_surfaces) {
    remarks.push_back({check.readings.back().origin.place,
                       fmt::format("{} of the readings can be compared: too few to tell reflectances", compared),
                       fmt::format("take {} or more, some facing down or to a wall", k_fewest_for_surfaces)});
  }
  return remarks;
}

}  // namespace

Result<Noted<MeterCheck>> meter_check(const Job& job, const std::vector<PhotometricFile>& photometry,
                                      std::vector<MeterReading> readings, const std::vector<double>& can_levels,
                                      double meter_accuracy, const Progress& progress) {
  const Scene scene = build_scene(job, photometry);
  const auto receivers = receivers_of(job, scene, readings);
  if (!receivers) return tl::unexpected(receivers.error());
  const VectorXd levels = VectorXd::Map(can_levels.data(), static_cast<Eigen::Index>(can_levels.size()));
  const Response table = response(scene, *receivers, Accuracy{}, part_of(progress, 0, 0.5));
  const Field field = field_at(table, levels);
  if (field.total_lx.maxCoeff() < k_least_compared_lx) {
    return failure(readings.front().origin.place,
                   fmt::format("less than {:.0f} lx is predicted at every reading", k_least_compared_lx),
                   "give the cans' levels at which the readings were taken, in the job or as a mood");
  }
  MeterProblem problem{.by_can_lx = (table.direct_lx + table.indirect_lx) * levels.asDiagonal(),
                       .meter_accuracy = meter_accuracy};
  problem.reading_lx.resize(static_cast<Eigen::Index>(readings.size()));
  for (std::size_t i = 0; i < readings.size(); ++i) problem.reading_lx[static_cast<Eigen::Index>(i)] = readings[i].lx;
  MeterCheck check{.readings = std::move(readings), .meter_accuracy = meter_accuracy, .error_lx = field.error_lx};
  for (std::size_t i = 0; i < k_parts.size(); ++i) {
    constexpr double k_farthest = 0.2;
    constexpr double k_darkest = 0.02;
    constexpr double k_lightest = 0.95;
    const PartFinish finish = finish_of(scene, k_parts[i]);
    check.reflectance[i] = finish.average;
    const auto at = static_cast<Eigen::Index>(i);
    problem.least_shift[at] = std::clamp(k_darkest - finish.least, -k_farthest, 0.0);
    problem.most_shift[at] = std::clamp(k_lightest - finish.most, 0.0, k_farthest);
  }
  problem.light_lx = trial_light(scene, *receivers, levels, field.total_lx);
  check.fit = meter_fit(problem);
  if (progress) progress(1);
  check.new_over_maintained = new_over_maintained(job, problem.by_can_lx);
  Problems remarks = remarks_on(check);
  return Noted<MeterCheck>{std::move(check), std::move(remarks)};
}

}  // namespace evenlit
