#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "evenlit/base/result.hpp"

namespace evenlit {

/// An input text and the name it goes by; tells the place of every part of it. Holds views: both must outlive it.
class Source {
 public:
  Source(std::string_view bytes, std::string_view name) : bytes_(bytes), name_(name) {}

  std::string_view bytes() const { return bytes_; }

  /// Place of `size` bytes from `offset` on. Takes time in proportion to the offset: for messages only.
  Place place(std::size_t offset, std::size_t size) const;

  /// Place of a view into `bytes()`.
  Place place(std::string_view part) const { return place(offset_of(part), part.size()); }

  std::string_view name() const { return name_; }

  Place whole() const { return {.file = std::string(name_)}; }

  /// How far into `bytes()` a view of a part of them begins.
  std::size_t offset_of(std::string_view part) const { return static_cast<std::size_t>(part.data() - bytes_.data()); }

 private:
  std::string_view bytes_;
  std::string_view name_;
};

/// Takes the first line off a text: what stands before a line feed, a carriage return or the two together.
std::string_view take_line(std::string_view& rest);

/// Blanks, tabs, line ends and form feeds.
bool is_blank(char c);

bool is_digit(char c);

/// The text without blanks at either end.
std::string_view trimmed(std::string_view text);

/// ASCII letters in upper case, all else unchanged.
std::string upper_case(std::string_view text);

bool is_ascii(std::string_view text);

/// Puts messages into the order of the file that they are all about.
void sort_by_place(Problems& problems);

/// UTF-8 as it stands; any other bytes as Windows-1252, the usual 8-bit set of old files.
std::string utf8_text(std::string_view bytes);

/// A part of the input in quotes, cut after 40 characters, for a message.
std::string as_written(std::string_view part);

/// A deviation that may occur many times in one file and is reported once, at its first occurrence.
class Recurring {
 public:
  void note(const Source& source, std::string_view part);

  /// Appends one problem, with the number of occurrences in brackets where there are several.
  void report(Problems& to, std::string what, std::string hint = {}) const;

 private:
  std::optional<Place> first_;
  int count_ = 0;
};

}  // namespace evenlit
