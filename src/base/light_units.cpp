#include "evenlit/base/light_units.hpp"

#include <array>
#include <cmath>
#include <optional>

#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"
#include "text_scanner.hpp"

namespace evenlit {
namespace {

constexpr std::string_view k_illuminance_forms = "write lux like 300 lx, or foot-candles like 30 fc";
constexpr std::string_view k_fraction_forms =
    "write a fraction from 0 to 1 like 0.8, a percentage like 80 %, or LRV 80";

struct LightUnit {
  std::string_view name;
  double lux;
};

constexpr std::array<LightUnit, 8> k_light_units{{
    {"lx", 1},
    {"lux", 1},
    {"fc", k_lux_per_footcandle},
    {"ft-c", k_lux_per_footcandle},
    {"footcandle", k_lux_per_footcandle},
    {"footcandles", k_lux_per_footcandle},
    {"foot-candle", k_lux_per_footcandle},
    {"foot-candles", k_lux_per_footcandle},
}};

std::string_view trimmed(std::string_view text) {
  const auto start = text.find_first_not_of(' ');
  if (start == std::string_view::npos) return {};
  return text.substr(start, text.find_last_not_of(' ') - start + 1);
}

/// The number that `text` is, or that stands before `unit` in it.
std::optional<double> number_before(std::string_view text, std::string_view unit) {
  if (!text.ends_with(unit)) return std::nullopt;
  text.remove_suffix(unit.size());
  return number_from_text(trimmed(text));
}

std::optional<double> lux_from_plain(std::string_view plain) {
  for (const auto& [name, lux] : k_light_units) {
    if (const auto number = number_before(plain, name)) return *number * lux;
  }
  return std::nullopt;
}

std::optional<double> fraction_from_plain(std::string_view plain) {
  const bool is_lrv = plain.starts_with("lrv");
  if (is_lrv) plain = trimmed(plain.substr(3));
  if (const auto percent = number_before(plain, "%")) return *percent / 100;
  const auto number = number_from_text(plain);
  return is_lrv && number ? std::optional(*number / 100) : number;
}

}  // namespace

tl::expected<double, TextProblem> lux_from_text(std::string_view text) {
  const auto plain = plain_text(text);
  const auto lux = lux_from_plain(trimmed(plain));
  if (!lux && number_from_text(trimmed(plain))) {
    return tl::unexpected(TextProblem{quoted(text) + " has no unit", std::string(k_illuminance_forms)});
  }
  if (!lux || !std::isfinite(*lux)) {
    return tl::unexpected(TextProblem{quoted(text) + " is not an illuminance", std::string(k_illuminance_forms)});
  }
  if (*lux < 0) return tl::unexpected(TextProblem{quoted(text) + " is below 0", std::string(k_illuminance_forms)});
  return *lux;
}

tl::expected<double, TextProblem> fraction_from_text(std::string_view text) {
  const auto plain = plain_text(text);
  const auto fraction = fraction_from_plain(trimmed(plain));
  if (!fraction) {
    return tl::unexpected(TextProblem{quoted(text) + " is not a fraction", std::string(k_fraction_forms)});
  }
  if (*fraction < 0) return tl::unexpected(TextProblem{quoted(text) + " is below 0", std::string(k_fraction_forms)});
  if (*fraction > 1) return tl::unexpected(TextProblem{quoted(text) + " is above 1", std::string(k_fraction_forms)});
  return *fraction;
}

std::string exact_illuminance_text(double lux, Units units) {
  if (units == Units::imperial) {
    const double thousandths = std::round(lux / k_lux_per_footcandle * 1000);
    auto text = shortest_text(thousandths / 1000) + " fc";
    if (lux_from_text(text) == lux) return text;
  }
  return shortest_text(lux) + " lx";
}

}  // namespace evenlit
