#include "evenlit/report/verdict.hpp"

#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/report/location.hpp"

namespace evenlit {
namespace {

std::string target_sentence(const Job& job, const WorkPlaneLight& light) {
  const double average_lx = light.statistics.average_lx;
  const std::string average = illuminance_both_text(average_lx, light.average_error_lx, job.units) + " on average";
  if (!job.target_lx) return "No target is set: " + average + ".";
  const std::string target = illuminance_text(*job.target_lx, 0, job.units);
  const double over_lx = average_lx - *job.target_lx;
  if (std::abs(over_lx) < light.average_error_lx) {
    return "Target too close to call: " + average + ", which the numerical error does not set apart from " + target +
           ".";
  }
  if (over_lx >= 0) {
    return "Target met: " + average + " against " + target + " wanted; " +
           percent_text(light.statistics.share_at_target.value_or(0)) + " of the plane reaches it.";
  }
  return "Target not met: " + average + " against " + target + " wanted, " + percent_text(-over_lx / *job.target_lx) +
         " short.";
}

}  // namespace

std::string verdict(const Job& job, const WorkPlaneLight& light) {
  const int darkest = light.statistics.minimum_at;
  return target_sentence(job, light) + " Darkest " + location_text(job.room, light.grid.points_m[darkest], job.units) +
         ": " + illuminance_text(light.statistics.minimum_lx, light.field.error_lx[darkest], job.units) + ".";
}

}  // namespace evenlit
