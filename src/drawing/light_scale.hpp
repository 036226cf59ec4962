#pragma once

#include <optional>
#include <string>
#include <vector>

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

/// The same with its sign.
std::string signed_level_text(double value);

/// 1, 2 and 5 times powers of ten, from a hundredth of `top` up to less than it: lines that tell dim light apart too.
std::vector<double> levels_of_all_sizes(double top);

/// Round values as `round_levels` has them, as many as a scale or a map of a change has room for: at most five each of
/// less and of more, and 0, ascending.
std::vector<double> levels_of_change(double top);

struct LightScale {
  Units units = Units::imperial;  ///< above the bar; the other below
  double top_lx = 1;              ///< > 0
  std::optional<double> mark_lx;  ///< a line across the bar
  double bottom_lx = 0;           ///< below 0: of a change, whose numbers have signs
  ColourMap colours = ColourMap::light;
  bool is_root = false;  ///< colours go by the square root of the light, of no change

  /// What a picture paints for a light.
  [[nodiscard]] double painted(double lx) const;
};

/// Where a scale has its marks, in a unit: with the ends of the bar where they are round, in the scale's own.
std::vector<double> tick_values(const LightScale& scale, Units units);

/// A field of light as a picture paints it.
SampledField painted(SampledField field, const LightScale& scale);

/// Where the scale's parts are.
struct ScalePlace {
  double names_x = 0;  ///< of the units
  double left = 0;     ///< of the bar
  double right = 0;
  double top = 0;
  double text_size = 0;
};

inline constexpr double k_scale_height = 26;

/// Colours from the first to the last in a bar with a rim.
///
/// @param last of what is painted, > first
void add_scale_bar(Sheet& sheet, const ScalePlace& place, double first, double last, ColourMap colours);

/// A mark on a scale.
struct Tick {
  double x = 0;
  std::string text;
};

/// Where marks stand beside a bar.
struct TickPlace {
  double edge = 0;      ///< of the bar, where they start
  double outward = 1;   ///< -1 up, 1 down
  double baseline = 0;  ///< of the texts
  Weight weight = Weight::regular;
};

/// Marks from left to right, with as many of their texts as have room.
///
/// @param ticks at least one
/// @param keeps_last the last has its text whatever becomes of those before it
void add_tick_row(Sheet& sheet, const std::vector<Tick>& ticks, bool keeps_last, const TickPlace& place,
                  double text_size);

/// The colours as a bar with both units.
void add_light_scale(Sheet& sheet, const LightScale& scale, const ScalePlace& place);

}  // namespace evenlit
