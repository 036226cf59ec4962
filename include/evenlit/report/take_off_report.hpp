#pragma once

#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/wiring/wired_job.hpp"

namespace evenlit {

/// A job's cables for a terminal or a printer: each cable from box to box with its length, holes and current, the holes
/// through joists, what the boxes hold, loads and voltage, what to buy and what it costs, the work in order with what
/// to mind, and the rules with their sections. Cans are numbered from 1 in the job's order. Lines of at most 80
/// columns, a single longer word excepted.
std::string take_off_text(const WiredJob& wired, const Problems& warnings);

/// Several jobs side by side: cable, holes, pieces, hours, cost. Money in the currency of the first.
///
/// @param jobs two or more
std::string take_offs_text(const std::vector<WiredJob>& jobs, const Problems& warnings);

/// What to buy as comma-separated values, a row an item after a header row: `job,item,quantity,unit,price,cost`. Cable
/// of which no coils are told has its length in m. What has no price has none here. Jobs and items stand in double
/// quotes.
///
/// @source RFC 4180, but for the line ends
std::string take_offs_csv(const std::vector<WiredJob>& jobs);

/// All of it as JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are `"format": "evenlit wiring"` and
/// `"version"`; every number has its unit in its key (none for ratios and money); what does not exist is null.
/// Calculated numbers are rounded to six significant digits, lengths to 0.1 mm.
std::string take_offs_json(const std::vector<WiredJob>& jobs, const Problems& warnings);

}  // namespace evenlit
