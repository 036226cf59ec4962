#pragma once

#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/placing/compared_job.hpp"
#include "evenlit/placing/comparison.hpp"
#include "evenlit/placing/layout_wish.hpp"

namespace evenlit {

/// Layouts side by side for a terminal or a printer: one aligned table of their light, one of their places, the
/// moves and what they do to the light, which has the fewest cans and which costs least, what rules of thumb would have
/// chosen, how sure the layouts are where that was asked, and what to mind. A cost takes the place of the tenth
/// percentile, several types those of the share at the target and of the power. Light and lengths in the units of the job's trade, the
/// verdict in both. Lines of at most 80 columns, a single longer word excepted.
///
/// @param wished what `compared` was given
std::string comparison_text(const Job& job, const Comparison& comparison, const WishedLayouts& wished,
                            const Problems& warnings);

/// The same as JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are `"format": "evenlit compare"` and
/// `"version"`; every number has its unit in its key (none for ratios); what does not exist is null. Calculated numbers
/// are rounded to six significant digits, lengths to 0.1 mm.
std::string comparison_json(const Job& job, const Comparison& comparison, const WishedLayouts& wished,
                            const Problems& warnings);

/// The same as comma-separated values, a row a layout after a header row:
/// `layout,cans,rows,columns,spacing_x_m,spacing_y_m,wall_offset_x_m,wall_offset_y_m,average_lx,average_fc,`
/// `average_error_lx,minimum_lx,minimum_fc,uniformity,p10_lx,p10_fc,share_at_target,watts,watts_per_m2,watts_per_ft2,`
/// `misfits,type,cost`. What a row does not have is empty. Light and power have four significant digits, errors two,
/// lengths go to the millimetre. Layouts and types stand in double quotes.
///
/// @source RFC 4180, but for the line ends
std::string comparison_csv(const Comparison& comparison);

/// Whole jobs side by side for a terminal or a printer: the table of their light, what each takes and gives of what it
/// wants itself, how sure it is where that was asked, and what to mind. Light and lengths in the units of the first
/// job. Lines of at most 80 columns, a single longer word excepted.
///
/// @param jobs at least one
std::string jobs_text(const std::vector<ComparedJob>& jobs, const Problems& warnings);

/// The same as JSON, `comparison_json`'s rows with what is said of the job before. The first keys are `"format":
/// "evenlit compare jobs"` and `"version"`.
std::string jobs_json(const std::vector<ComparedJob>& jobs, const Problems& warnings);

}  // namespace evenlit
