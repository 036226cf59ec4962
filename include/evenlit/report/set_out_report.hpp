#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evenlit/base/document.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/placing/moved_cans.hpp"
#include "evenlit/placing/set_out.hpp"

namespace evenlit {

/// All that a crew needs to know to mark, probe, cut and wire a job's cans: tables of tape readings to the nearest 1/16
/// in (whole millimetre in metric jobs), each rounded by itself, checks of squareness, holes and what is beside them,
/// and at each step what to mind.
///
/// @param set_out of the job
/// @param moved   cans that an earlier plan had elsewhere: where, and what was in their way
Document set_out_document(const Job& job, const SetOut& set_out, const std::vector<MovedCan>& moved = {});

/// A document for a terminal: lines of at most 80 columns, a single longer word excepted. Boxes to be ticked are left
/// out.
std::string document_text(const Document& document);

/// A document as a page of HTML that stands alone, without scripts, that prints on Letter and A4: black on white, large
/// type, heads of tables repeated on each sheet, no row broken.
///
/// @param picture_svg an SVG as `svg` makes it, shown below the title
/// @param picture_width as CSS has it, like `7.25in`
/// @source WHATWG HTML Living Standard; W3C CSS Paged Media Module Level 3
std::string document_html(const Document& document, std::string_view picture_svg, std::string_view picture_width);

}  // namespace evenlit
