#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evenlit/base/result.hpp"

namespace evenlit {

struct CsvCell {
  std::string text;  ///< without quotes and the spaces around
  Place place;

  [[nodiscard]] bool is_empty() const { return text.empty(); }
};

/// The cells of a line that says something; one or more.
using CsvLine = std::vector<CsvCell>;

/// The lines of a table as spreadsheets and hands write it: separated by semicolons, tabs or commas, whichever the
/// first line that counts has outside of quotes; with any line ends, with or without a byte order mark. A cell that
/// begins with a quote ends with one, on its line; quotes elsewhere stand for themselves, as in 12' 6". Lines that are
/// empty, or begin with #, do not count.
///
/// @param name for messages
/// @errors bytes that are not UTF-8; a quote that is not closed; text behind a closing quote; very many: the first
///         hundred
/// @source RFC 4180, but for what it is lenient about
Result<std::vector<CsvLine>> csv_lines(std::string_view bytes, std::string_view name);

}  // namespace evenlit
