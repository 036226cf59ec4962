#include "evenlit/base/length.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numeric>
#include <optional>
#include <vector>

#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"
#include "text_scanner.hpp"

namespace evenlit {
namespace {

enum class Unit { none, foot, inch, metre, centimetre, millimetre };

struct Term {
  double number = 0;
  Unit unit = Unit::none;
};

struct UnitName {
  std::string_view name;
  Unit unit;
};

constexpr std::array<UnitName, 22> k_unit_names{{
    {"", Unit::none},
    {"ft", Unit::foot},
    {"foot", Unit::foot},
    {"feet", Unit::foot},
    {"in", Unit::inch},
    {"ins", Unit::inch},
    {"inch", Unit::inch},
    {"inches", Unit::inch},
    {"m", Unit::metre},
    {"metre", Unit::metre},
    {"metres", Unit::metre},
    {"meter", Unit::metre},
    {"meters", Unit::metre},
    {"cm", Unit::centimetre},
    {"centimetre", Unit::centimetre},
    {"centimetres", Unit::centimetre},
    {"centimeter", Unit::centimetre},
    {"centimeters", Unit::centimetre},
    {"mm", Unit::millimetre},
    {"millimetre", Unit::millimetre},
    {"millimetres", Unit::millimetre},
    {"millimeters", Unit::millimetre},
}};

std::optional<Unit> take_unit(TextScanner& scanner) {
  if (scanner.take("'")) return Unit::foot;
  if (scanner.take("\"")) return Unit::inch;
  const auto letters = scanner.take_letters();
  for (const auto& [name, unit] : k_unit_names) {
    if (letters != name) continue;
    if (!letters.empty()) scanner.take(".");  // an abbreviation's full stop
    return unit;
  }
  return std::nullopt;
}

std::optional<Term> take_term(TextScanner& scanner) {
  const auto number = scanner.take_number();
  if (!number) return std::nullopt;
  scanner.skip_spaces();
  const auto unit = take_unit(scanner);
  if (!unit) return std::nullopt;
  return Term{*number, *unit};
}

/// Correctly rounded wherever `inches` x 254 is exact, so that 12 ft and 3.6576 m are the same double.
double metres_from_inches(double inches) { return inches * 254 / 10000; }

/// One number with its unit, or whole feet and inches.
std::optional<double> metres_from_terms(const std::vector<Term>& terms) {
  const auto& [number, unit] = terms.front();
  if (terms.size() == 2) {
    const auto second = terms.back();
    const bool feet_and_inches =
        unit == Unit::foot && (second.unit == Unit::inch || second.unit == Unit::none) && number == std::floor(number);
    if (!feet_and_inches) return std::nullopt;
    return metres_from_inches(number * 12 + second.number);
  }
  if (terms.size() > 2) return std::nullopt;
  switch (unit) {
    case Unit::foot:
      return metres_from_inches(number * 12);
    case Unit::inch:
      return metres_from_inches(number);
    case Unit::metre:
      return number;
    case Unit::centimetre:
      return number / 100;
    case Unit::millimetre:
      return number / 1000;
    case Unit::none:
      break;
  }
  return number == 0 ? std::optional(0.0) : std::nullopt;
}

/// The terms of a text in plain letters, and whether a minus sign leads them; empty when it has other parts.
std::optional<std::pair<bool, std::vector<Term>>> terms_of(std::string_view plain) {
  TextScanner scanner(plain);
  scanner.skip_spaces();
  const bool is_negative = scanner.take("-");
  if (!is_negative) scanner.take("+");
  scanner.skip_spaces();

  std::vector<Term> terms;
  while (true) {
    const auto term = take_term(scanner);
    if (!term) return std::nullopt;
    terms.push_back(*term);
    scanner.skip_spaces();
    if (scanner.is_at_end()) return std::pair(is_negative, terms);
    // 12'-6" and 12' - 6": a dash that leads to the next term.
    if (scanner.take("-")) scanner.skip_spaces();
  }
}

std::optional<double> metres_from_plain(std::string_view plain) {
  const auto terms = terms_of(plain);
  const auto metres = terms ? metres_from_terms(terms->second) : std::nullopt;
  if (!metres || !std::isfinite(*metres)) return std::nullopt;
  return terms->first ? -*metres : *metres;
}

constexpr std::string_view k_forms = "write feet and inches like 12ft 6-3/8in, or metres like 3.81 m";

TextProblem not_a_length(std::string_view text, std::string_view plain) {
  if (const auto comma = text.find(','); comma != std::string_view::npos) {
    std::string with_point(text);
    with_point[comma] = '.';
    if (metres_from_plain(plain_text(with_point))) {
      return {quoted(text) + " is not a length", "write the decimals after a point: " + with_point};
    }
  }
  const auto terms = terms_of(plain);
  if (terms && terms->second.size() == 1 && terms->second.front().unit == Unit::none) {
    return {quoted(text) + " has no unit", std::string(k_forms)};
  }
  return {quoted(text) + " is not a length", std::string(k_forms)};
}

}  // namespace

tl::expected<double, TextProblem> metres_from_text(std::string_view text) {
  const auto plain = plain_text(text);
  if (const auto metres = metres_from_plain(plain)) return *metres;
  return tl::unexpected(not_a_length(text, plain));
}

namespace {

/// Whole inches and a reduced fraction, `6-3/8`; `0` before a fraction only behind feet.
std::string inches_and_fraction(double parts, int denominator, bool is_behind_feet) {
  const double inches = std::floor(parts / denominator);
  const int numerator = static_cast<int>(parts - inches * denominator);
  const int common = std::gcd(numerator, denominator);
  const bool has_whole = inches > 0 || is_behind_feet || numerator == 0;
  std::string text = has_whole ? fmt::format("{:.0f}", inches) : "";
  if (numerator == 0) return text;
  return text + fmt::format("{}{}/{}", has_whole ? "-" : "", numerator / common, denominator / common);
}

/// The length in 1/`denominator` in, without its sign, rounded.
double whole_parts(double metres, int denominator) {
  return std::round(std::abs(metres) / k_metres_per_inch * denominator);
}

std::string_view sign_of(double metres, double parts) { return metres < 0 && parts > 0 ? "-" : ""; }

/// Feet, inches and a reduced fraction, with the given marks after feet and inches.
std::string feet_inches_text(double metres, int denominator, std::string_view foot, std::string_view inch) {
  const double parts = whole_parts(metres, denominator);
  const double feet = std::floor(parts / (12.0 * denominator));
  std::string text(sign_of(metres, parts));
  if (feet > 0) text += fmt::format("{:.0f}{} ", feet, foot);
  return text.append(inches_and_fraction(parts - feet * 12 * denominator, denominator, feet > 0)).append(inch);
}

/// Inches and a reduced fraction without feet: `150-3/8"`.
std::string inches_text(double metres, int denominator) {
  const double parts = whole_parts(metres, denominator);
  return std::string(sign_of(metres, parts)) + inches_and_fraction(parts, denominator, false) + '"';
}

/// Feet and decimal inches, without trailing zeros.
std::string feet_decimal_inches_text(double metres, int decimals) {
  const double inches = std::abs(metres) / k_metres_per_inch;
  const double feet = std::floor(inches / 12);
  auto text = fixed_text(inches - feet * 12, decimals);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  if (feet > 0) text = fmt::format("{:.0f}ft {}", feet, text);
  return (metres < 0 ? "-" : "") + text + "in";
}

/// Shorter texts first; the last is always exact.
std::vector<std::string> exact_candidates(double metres, Units units) {
  std::vector<std::string> candidates;
  if (units == Units::imperial) {
    for (const int denominator : {16, 64}) candidates.push_back(feet_inches_text(metres, denominator, "ft", "in"));
    for (const int decimals : {1, 2, 3, 4}) candidates.push_back(feet_decimal_inches_text(metres, decimals));
  } else if (std::abs(metres) < 1) {
    candidates.push_back(shortest_text(std::round(metres * 1e6) / 1e3) + " mm");
  }
  candidates.push_back(shortest_text(metres) + " m");
  return candidates;
}

}  // namespace

std::string feet_inches(double metres, int denominator) { return feet_inches_text(metres, denominator, "'", "\""); }

std::string metric_length(double metres) {
  auto text = fixed_text(metres, 3);
  if (text.ends_with('0')) text.pop_back();
  return text + " m";
}

std::string length_text(double metres, Units units) {
  return units == Units::imperial ? feet_inches(metres) : metric_length(metres);
}

namespace {

constexpr int k_tape_denominator = 16;

}  // namespace

double tape_length_m(double metres, Units units) {
  if (units == Units::metric) return std::round(metres * 1000) / 1000;
  return metres_from_inches(std::round(metres / k_metres_per_inch * k_tape_denominator) / k_tape_denominator);
}

std::string tape_reading(double metres, Units units) {
  if (units == Units::metric) return fixed_text(metres * 1000, 0) + " mm";
  const std::string feet_and_inches = feet_inches(metres, k_tape_denominator);
  const std::string inches = inches_text(metres, k_tape_denominator);
  return inches == feet_and_inches ? inches : feet_and_inches + " (" + inches + ")";
}

std::string exact_length_text(double metres, Units units) {
  const auto candidates = exact_candidates(metres, units);
  for (const auto& candidate : candidates) {
    if (metres_from_text(candidate) == metres) return candidate;
  }
  return candidates.back();
}

}  // namespace evenlit
