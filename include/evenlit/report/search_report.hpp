#pragma once

#include <string>

#include "evenlit/base/result.hpp"
#include "evenlit/placing/search.hpp"

namespace evenlit {

/// What a search found for a terminal or a printer: one aligned table of the layouts, which is the cheapest that gives
/// all that is wanted, why cheaper ones do not, where its cans are, what cans in no rows could do, how sure the layouts
/// are where that was asked, how it was searched, and what to mind. Layouts are numbered from 1, the job's own. Lines
/// of at most 80 columns, a single longer word excepted.
std::string search_text(const Job& job, const SearchResult& result, const Problems& warnings);

/// The same as JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are `"format": "evenlit search"` and
/// `"version"`; every number has its unit in its key (none for ratios); what does not exist is null. Calculated numbers
/// are rounded to six significant digits, lengths to 0.1 mm.
std::string search_json(const Job& job, const SearchResult& result, const Problems& warnings);

/// What is wanted and what there is, as in `average 18.2 fc of 20.0 fc`.
std::string want_text(const Want& want, const Job& job);

/// An amount in the job's currency, two decimals where it is not whole: `$147`, `$24.50`.
std::string money_text(double amount, const std::string& currency);

}  // namespace evenlit
