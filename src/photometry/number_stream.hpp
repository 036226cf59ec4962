#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "evenlit/base/result.hpp"
#include "source.hpp"

namespace evenlit {

/// A run of numbers read together, and where it began.
struct NumberRecord {
  std::vector<double> values;
  std::size_t begin = 0;  ///< offset in the stream's text
};

/// The numbers of a text in which blanks, line ends and commas only separate, so that a record may be wrapped over any
/// number of lines.
///
/// @source ANSI/IESNA LM-63-2002, delimiters
class NumberStream {
 public:
  /// @param text   what is read; as long as the part of the source it stands for, byte for byte
  /// @param offset where that part begins in the source
  NumberStream(const Source& source, std::string_view text, std::size_t offset)
      : source_(source), text_(text), offset_(offset) {}

  /// The next `count` numbers. Memory is taken for what the text can hold, whatever the count.
  ///
  /// @param what    what they are, in the plural, for the message where one is missing or is no number
  /// @param product how the count comes about, such as `37 x 5 = `, for the same message
  Result<NumberRecord> read(std::size_t count, std::string_view what, std::string_view product = {});

  /// Place of one number of a record. Reads the record again: for messages only.
  Place place(const NumberRecord& record, std::size_t index) const;

  /// The text after the numbers read so far.
  std::string_view rest() const { return text_.substr(position_); }

  /// Place of a view into the text.
  Place place(std::string_view part) const { return source_.place(source_part(part)); }

  /// Where two commas first stood without a number between them.
  std::optional<Place> doubled_comma() const;

 private:
  std::string_view next();
  std::string_view source_part(std::string_view token) const;

  const Source& source_;
  std::string_view text_;
  std::size_t offset_;
  std::size_t position_ = 0;
  std::size_t doubled_comma_ = std::string_view::npos;
};

/// The numeric part of a file with what word processors and Fortran programs leave in numbers put right, byte for
/// byte: no-break spaces to spaces, the minus sign of Unicode to a hyphen, a `D` exponent to `e`.
std::string plain_numbers(const Source& source, std::string_view part, Problems& warnings);

/// How many numbers in a row a text begins with, and whether nothing else follows them.
struct NumberCount {
  std::size_t numbers = 0;
  bool nothing_else = true;
};
NumberCount leading_numbers(std::string_view text);

}  // namespace evenlit
