#pragma once

#include <optional>
#include <string>

#include "evenlit/base/result.hpp"
#include "evenlit/field/meter_check.hpp"
#include "evenlit/job/job.hpp"

namespace evenlit {

/// Meter readings against the prediction.
struct MeterFacts {
  const Job& job;
  const MeterCheck& check;
  std::optional<std::string> mood;  ///< in which the room was read; absent: the cans' own levels
};

/// Reading by reading, what is fitted to them, and the verdict, for a terminal: lines of at most 80 columns (a single
/// longer word excepted), illuminance in both units with the trade's first.
std::string meter_text(const MeterFacts& facts, const Problems& warnings);

/// The same as JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are `"format": "evenlit meter"` and
/// `"version"`; every number has its unit in its key (none for ratios).
std::string meter_json(const MeterFacts& facts, const Problems& warnings);

/// The readings as comma-separated values, a row each, after a header row:
/// `name,line,reading_lx,reading_fc,predicted_lx,predicted_fc,predicted_error_lx,difference,residual,outlier,`
/// `suspect_can`. What a row does not have is empty; cans count from 1.
///
/// @source RFC 4180, but for the line ends
std::string meter_csv(const MeterCheck& check);

}  // namespace evenlit
