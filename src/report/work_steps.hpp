#pragma once

#include <string>
#include <vector>

#include "evenlit/report/cautions.hpp"
#include "evenlit/wiring/wired_job.hpp"

namespace evenlit {

/// A step of the work, and what to mind in it.
struct WorkStep {
  std::string text;
  std::vector<Caution> cautions;
};

/// The work in order, from the permit to the test, as this job needs it.
std::vector<WorkStep> work_steps(const WiredJob& wired);

/// An electrical or structural rule that a take-off applies.
struct WorkRule {
  std::string section;  ///< of the code
  std::string text;
};

/// To be read after every rule.
inline constexpr std::string_view k_check_edition = "check the locally adopted edition and local amendments";

/// The rules that count for this job.
std::vector<WorkRule> work_rules(const WiredJob& wired);

/// `switch "door"`, `can 3`, `feed`.
std::string stop_name(const WiredJob& wired, const Stop& stop);

}  // namespace evenlit
