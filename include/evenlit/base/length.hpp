#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace evenlit {

/// What people in the job's trade measure with; decides how lengths and illuminances are printed first.
enum class Units { imperial, metric };

/// Why a piece of text is not the quantity that was expected.
struct TextProblem {
  std::string what;
  std::string hint;
};

inline constexpr double k_metres_per_foot = 0.3048;  // exact: international yard and pound agreement, 1959
inline constexpr double k_metres_per_inch = 0.0254;  // exact: the same

/// A length as people write it: `12' 6-3/8"`, `12ft 6.375in`, `150 3/8 in`, `12' 6 3/8`, `3.81 m`, `381 cm`,
/// `3810 mm`, typographic primes too. A sign is accepted. A number other than 0 without a unit is refused.
///
/// @return metres, finite
tl::expected<double, TextProblem> metres_from_text(std::string_view text);

/// Feet, inches and a reduced fraction, rounded to the nearest 1/`denominator` in: `12' 6-3/8"`, `7"`, `0"`, `-1' 2"`.
std::string feet_inches(double metres, int denominator = 16);

/// `3.81 m`: metres to the nearest millimetre, trailing zeros dropped down to two decimals (`3.80 m`, `3.815 m`).
std::string metric_length(double metres);

/// `feet_inches` or `metric_length`.
std::string length_text(double metres, Units units);

/// A length as a tape shows it, to the nearest 1/16 in or whole millimetre: feet and inches with the inches alone
/// behind them, `12' 6-3/8" (150-3/8")`, below a foot once, `7-1/2"`; `3815 mm`.
std::string tape_reading(double metres, Units units);

/// The nearest length that a tape shows: whole 1/16 in or millimetres, the same double as that of its text.
double tape_length_m(double metres, Units units);

/// Text that `metres_from_text` turns back into exactly the same double; what the trade would write where that is
/// exact (`12ft 6-3/8in`, `3.81 m`), all digits of the metres where it is not.
std::string exact_length_text(double metres, Units units);

}  // namespace evenlit
