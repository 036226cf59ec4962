#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/field/readings_light.hpp"
#include "evenlit/field/statistics.hpp"
#include "evenlit/job/job.hpp"

namespace evenlit {

/// Something that the job wants of a layout, and what the layout gives.
struct Want {
  enum class Kind { average, minimum, uniformity, watts, cost, task_area };

  Kind kind = Kind::average;
  std::string task_area;  ///< its name
  double wanted = 0;      ///< lx, a ratio, W, or money
  Estimate has;

  /// Whether it is a limit from above.
  [[nodiscard]] bool is_most() const { return kind == Kind::watts || kind == Kind::cost; }

  /// Whether the layout gives it, beyond the numerical error.
  [[nodiscard]] bool is_met() const;

  /// By what part of what is wanted the layout, less its numerical error, falls short of it, or goes beyond a limit; 0
  /// where it gives it, and only there.
  [[nodiscard]] double shortfall() const;
};

/// What a layout gives.
struct LayoutFigures {
  Estimate average_lx;
  Estimate minimum_lx;
  std::optional<double> watts;
  std::optional<double> cost;
  std::vector<Estimate> task_areas_lx;  ///< averages of those of the job's task areas that have a target, in its order
};

/// The job's wants, in the order of `Want::Kind`, task areas last. A limit on what is not known (watts, cost) is left
/// out.
std::vector<Want> wants_of(const Job& job, const LayoutFigures& figures);

/// The largest shortfall of all.
double shortfall(const std::vector<Want>& wants);

/// The job with only those task areas that have a target, and no points to be read.
Job with_targets_only(Job job);

}  // namespace evenlit
