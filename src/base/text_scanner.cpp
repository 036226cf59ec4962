#include "text_scanner.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

constexpr std::string_view k_digits = "0123456789";
constexpr std::string_view k_letters = "abcdefghijklmnopqrstuvwxyz";

constexpr std::array<std::pair<std::string_view, std::string_view>, 28> k_plain{{
    {"′", "'"},    {"’", "'"},    {"‘", "'"},    {"″", "\""},   {"”", "\""},     {"“", "\""},     {"''", "\""},
    {"−", "-"},    {"–", "-"},    {"‐", "-"},    {"‑", "-"},    {"\u00a0", " "}, {"\u202f", " "}, {"\u2009", " "},
    {"⁄", "/"},    {"½", " 1/2"}, {"¼", " 1/4"}, {"¾", " 3/4"}, {"⅛", " 1/8"},   {"⅜", " 3/8"},   {"⅝", " 5/8"},
    {"⅞", " 7/8"}, {"⅓", " 1/3"}, {"⅔", " 2/3"}, {"⅙", " 1/6"}, {"⅚", " 5/6"},   {"⅕", " 1/5"},   {"\t", " "},
}};

}  // namespace

std::string plain_text(std::string_view text) {
  std::string plain;
  while (!text.empty()) {
    const auto* found =
        std::find_if(k_plain.begin(), k_plain.end(), [&](const auto& pair) { return text.starts_with(pair.first); });
    if (found != k_plain.end()) {
      plain += found->second;
      text.remove_prefix(found->first.size());
    } else {
      const char c = text.front();
      plain += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      text.remove_prefix(1);
    }
  }
  return plain;
}

void TextScanner::skip_spaces() { take_all_of(" "); }

bool TextScanner::take(std::string_view expected) {
  if (!rest_.starts_with(expected)) return false;
  rest_.remove_prefix(expected.size());
  return true;
}

std::string_view TextScanner::take_letters() { return take_all_of(k_letters); }

std::string_view TextScanner::take_all_of(std::string_view set) {
  const auto taken = rest_.substr(0, rest_.find_first_not_of(set));
  rest_.remove_prefix(taken.size());
  return taken;
}

std::optional<double> TextScanner::take_fraction() {
  const auto start = rest_;
  const auto numerator = number_from_text(take_all_of(k_digits));
  if (numerator && take("/")) {
    const auto denominator = number_from_text(take_all_of(k_digits));
    if (denominator && *denominator > 0) return *numerator / *denominator;
  }
  rest_ = start;
  return std::nullopt;
}

std::optional<double> TextScanner::take_decimal() {
  const auto start = rest_;
  take_all_of("0123456789.");
  if (take("e")) {
    if (!take("-")) take("+");
    take_all_of(k_digits);
  }
  const auto number = number_from_text(start.substr(0, start.size() - rest_.size()));
  if (!number) rest_ = start;
  return number;
}

std::optional<double> TextScanner::take_number() {
  if (const auto fraction = take_fraction()) return fraction;

  // A whole number and a fraction, or else a decimal number.
  const auto start = rest_;
  const auto whole = number_from_text(take_all_of(k_digits));
  take_all_of(" ");
  if (take("-")) take_all_of(" ");
  const bool is_apart = rest_.size() < start.size();
  if (const auto fraction = whole && is_apart ? take_fraction() : std::nullopt) return *whole + *fraction;
  rest_ = start;
  return take_decimal();
}

}  // namespace evenlit
