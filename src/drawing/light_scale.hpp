#pragma once

#include <optional>
#include <string>

#include "evenlit/base/length.hpp"
#include "sheet.hpp"

namespace evenlit {

/// One foot-candle or one lux, in lx.
double unit_lx(Units units);

Units other(Units units);

/// `fc` or `lx`.
std::string unit_name(Units units);

/// A number that someone chose, without needless zeros.
std::string level_text(double value);

struct LightScale {
  Units units = Units::imperial;  ///< above the bar; the other below
  double top_lx = 1;              ///< > 0
  std::optional<double> mark_lx;  ///< a line across the bar
};

/// Where the scale's parts are.
struct ScalePlace {
  double names_x = 0;  ///< of the units
  double left = 0;     ///< of the bar
  double right = 0;
  double top = 0;
  double text_size = 0;
};

inline constexpr double k_scale_height = 26;

/// The colours of `colour_map` as a bar with both units.
void add_light_scale(Sheet& sheet, const LightScale& scale, const ScalePlace& place);

}  // namespace evenlit
