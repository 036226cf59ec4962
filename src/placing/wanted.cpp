#include "evenlit/placing/wanted.hpp"

#include <algorithm>

namespace evenlit {

bool Want::is_met() const { return is_most() ? has.value <= wanted : has.value - wanted >= has.error; }

double Want::shortfall() const {
  if (is_met()) return 0;
  if (wanted == 0) return 1;
  return is_most() ? has.value / wanted - 1 : 1 - (has.value - has.error) / wanted;
}

std::vector<Want> wants_of(const Job& job, const LayoutFigures& figures) {
  std::vector<Want> wants;
  const auto add = [&](Want::Kind kind, const std::optional<double>& wanted, const std::optional<Estimate>& has) {
    if (wanted && has) wants.push_back({.kind = kind, .wanted = *wanted, .has = *has});
  };
  const auto exact = [](const std::optional<double>& value) -> std::optional<Estimate> {
    if (!value) return std::nullopt;
    return Estimate{*value, 0};
  };
  const auto& [average, minimum, watts, cost, task_areas] = figures;
  add(Want::Kind::average, job.target_lx, average);
  add(Want::Kind::minimum, job.wanted.minimum_lx, minimum);
  if (average.value > 0) {
    const double uniformity = minimum.value / average.value;
    add(Want::Kind::uniformity, job.wanted.uniformity,
        Estimate{uniformity, (minimum.error + uniformity * average.error) / average.value});
  } else {
    add(Want::Kind::uniformity, job.wanted.uniformity, Estimate{});
  }
  add(Want::Kind::watts, job.wanted.watts, exact(watts));
  add(Want::Kind::cost, job.wanted.cost, exact(cost));
  std::size_t next = 0;
  for (const TaskArea& area : job.task_areas) {
    if (!area.target_lx) continue;
    wants.push_back({Want::Kind::task_area, area.name, *area.target_lx, task_areas[next++]});
  }
  return wants;
}

double shortfall(const std::vector<Want>& wants) {
  double most = 0;
  for (const Want& want : wants) most = std::max(most, want.shortfall());
  return most;
}

Job with_targets_only(Job job) {
  std::erase_if(job.task_areas, [](const TaskArea& area) { return !area.target_lx; });
  job.points.clear();
  return job;
}

}  // namespace evenlit
