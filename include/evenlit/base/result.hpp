#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace evenlit {

/// Where in an input a problem stands. Lines and columns count from 1, columns in code points;
/// line 0 means the file as a whole.
struct Place {
  std::string file;  ///< name for messages only
  int line = 0;
  int column = 0;
  int width = 1;  ///< code points to underline

  friend bool operator==(const Place&, const Place&) = default;
};

/// The file as a whole.
Place whole_file(std::string_view name);

/// One thing that is wrong with an input, in words for the person who wrote it.
struct Problem {
  Place place;
  std::string what;  ///< what is wrong, with the value that was read
  std::string hint;  ///< what to write instead; may be empty

  friend bool operator==(const Problem&, const Problem&) = default;
};

using Problems = std::vector<Problem>;

/// A value, or every independent problem that keeps it from existing, in file order (never empty).
template <class T>
using Result = tl::expected<T, Problems>;

/// A value together with remarks about how it was read.
template <class T>
struct Noted {
  T value;
  Problems warnings;
};

/// A single-problem failure, to return from a function whose type is `Result<T>`.
tl::unexpected<Problems> failure(Place place, std::string what, std::string hint = {});

/// The problem as it is shown to a person: `file:line:column: what`, the source line with the place underlined
/// where `source` (the whole input text) is given, and the hint. Every line of it ends in a line feed.
///
/// Control characters of the input are shown as `?` (a tab as a space), so that a message never moves a terminal's
/// cursor; of a line longer than 120 code points only the part around the place is shown.
std::string text_of(const Problem& problem, std::string_view source = {});

/// All problems, one after the other, as `text_of` shows them.
std::string text_of(const Problems& problems, std::string_view source = {});

}  // namespace evenlit
