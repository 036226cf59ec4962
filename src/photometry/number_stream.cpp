#include "number_stream.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

constexpr auto k_separates = [] {
  std::array<bool, 256> table{};
  for (const unsigned char c : {' ', '\t', '\n', '\v', '\f', '\r', ','}) table[c] = true;
  return table;
}();

bool separates(char c) { return k_separates[static_cast<unsigned char>(c)]; }

/// A number that is written as it should be but that no double can hold.
bool is_beyond_double(std::string_view token) {
  const std::size_t exponent = token.find_first_of("eE");
  if (exponent == token.npos || !number_from_text(token.substr(0, exponent))) return false;
  std::string_view digits = token.substr(exponent + 1);
  if (digits.starts_with('+') || digits.starts_with('-')) digits.remove_prefix(1);
  return !digits.empty() && std::ranges::all_of(digits, is_digit);
}

}  // namespace

std::string_view NumberStream::next() {
  int commas = 0;
  while (position_ < text_.size() && separates(text_[position_])) {
    if (text_[position_] == ',' && ++commas == 2) doubled_comma_ = std::min(doubled_comma_, position_);
    ++position_;
  }
  const std::size_t begin = position_;
  while (position_ < text_.size() && !separates(text_[position_])) ++position_;
  return text_.substr(begin, position_ - begin);
}

std::string_view NumberStream::source_part(std::string_view token) const {
  return source_.bytes().substr(offset_ + static_cast<std::size_t>(token.data() - text_.data()), token.size());
}

Result<NumberRecord> NumberStream::read(std::size_t count, std::string_view what, std::string_view product) {
  NumberRecord record{.values = {}, .begin = position_};
  record.values.reserve(std::min(count, (text_.size() - position_) / 2 + 1));
  while (record.values.size() < count) {
    const std::string_view token = next();
    if (token.empty()) {
      return failure(
          source_.place(offset_ + position_, 0),
          fmt::format("expected {}{} {}, the file ends after {}", product, count, what, record.values.size()),
          "check the declared numbers of angles, and that the file is complete");
    }
    const auto value = number_from_text(token);
    if (!value) {
      const std::string_view part = source_part(token);
      const char* const fault = is_beyond_double(token) ? "is out of range" : "is not a number";
      return failure(source_.place(part), fmt::format("{} {} (reading {})", as_written(part), fault, what));
    }
    record.values.push_back(*value);
  }
  return record;
}

Place NumberStream::place(const NumberRecord& record, std::size_t index) const {
  NumberStream again(source_, text_, offset_);
  again.position_ = record.begin;
  for (std::size_t i = 0; i < index; ++i) again.next();
  return source_.place(source_part(again.next()));
}

std::optional<Place> NumberStream::doubled_comma() const {
  if (doubled_comma_ == std::string_view::npos) return std::nullopt;
  return source_.place(offset_ + doubled_comma_, 1);
}

std::string plain_numbers(const Source& source, std::string_view part, Problems& warnings) {
  constexpr std::string_view k_no_break_space = "\xC2\xA0";
  constexpr std::string_view k_minus = "\xE2\x88\x92";
  std::string text(part);
  Recurring spaces, minuses, exponents;
  const auto replace = [&](std::size_t at, std::string_view by, Recurring& kind) {
    kind.note(source, part.substr(at, by.size()));
    text.replace(at, by.size(), by);
  };
  for (std::size_t i = 0; i < part.size(); ++i) {
    const auto byte = static_cast<unsigned char>(part[i]);
    if (byte == 'd' || byte == 'D') {
      const bool after_digits = i > 0 && (is_digit(part[i - 1]) || part[i - 1] == '.');
      const bool before_exponent =
          i + 1 < part.size() && (is_digit(part[i + 1]) || part[i + 1] == '+' || part[i + 1] == '-');
      if (after_digits && before_exponent) replace(i, "e", exponents);
    } else if (byte >= 0x80) {
      const std::string_view here = part.substr(i);
      if (here.starts_with(k_minus)) {
        replace(i, "  -", minuses);
        i += k_minus.size() - 1;
      } else if (here.starts_with(k_no_break_space)) {
        replace(i, "  ", spaces);
        i += k_no_break_space.size() - 1;
      } else if (here.front() == k_no_break_space.back()) {
        replace(i, " ", spaces);
      }
    }
  }
  spaces.report(warnings, "no-break space among the numbers, read as a space");
  minuses.report(warnings, "minus sign outside ASCII among the numbers, read as '-'");
  exponents.report(warnings, "exponent written with D, read as e");
  return text;
}

NumberCount leading_numbers(std::string_view text) {
  NumberCount count;
  while (true) {
    while (!text.empty() && separates(text.front())) text.remove_prefix(1);
    if (text.empty()) return count;
    const std::string_view token = text.substr(0, std::ranges::find_if(text, separates) - text.begin());
    if (!number_from_text(token)) {
      count.nothing_else = false;
      return count;
    }
    ++count.numbers;
    text.remove_prefix(token.size());
  }
}

}  // namespace evenlit
