#pragma once

#include <functional>
#include <optional>

#include "evenlit/job/controls.hpp"

// From where a dimmer is set to the light that comes out. Settings, outputs and light are fractions, 0...1, of full.

namespace evenlit {

/// A table's value between its points: the monotone cubic of F. N. Fritsch and R. E. Carlson, "Monotone piecewise cubic
/// interpolation", SIAM Journal on Numerical Analysis 17 (1980) (from memory). It never falls and never leaves the
/// values of the points beside it; before the first and beyond the last point it keeps their values.
///
/// The slope at a point is the mean of those of the lines beside it, at most three times the lesser of them.
double table_value(const RisingTable& table, double at);

/// Output of a dimming curve at a setting.
///
/// Linear (IEC 62386-207): the setting. Square: the setting squared. Logarithmic (IEC 62386-102): level n = 254 x
/// setting, 1 or more, gives 10^((n - 1) / (253 / 3) - 1) percent; n is not rounded to whole steps here. So 0.1 % is
/// the least of it, at settings above 0 too.
double curve_output(const DimmingCurve& curve, double setting);

/// What a dimmer gives at a setting: its curve spread over the range from its low-end to its high-end trim. Setting 0
/// and those below the cut-off are off.
double dimmer_output(const Dimmer& dimmer, double setting);

/// What a driver makes of its dimmer's output: its curve, but no less than its least light while there is any output,
/// as control gear of IEC 62386-102 keeps to its minimum level (from memory). Without a dimmer the output is 1.
double driver_light(const Driver& driver, double dimmer_output);

/// Light at a setting, through dimmer and driver.
double dimmed_light(const Dimmer& dimmer, const Driver& driver, double setting);

/// Where light that never falls with the setting passes a wanted one.
struct SettingSearch {
  double below = 0;  ///< a setting whose light is no more than wanted, the highest but for rounding
  double above = 1;  ///< the one after it, whose light is more; equal to `below` where none is
};

/// @param light of a setting, never falling
SettingSearch setting_search(const std::function<double(double)>& light, double wanted);

/// The highest setting at which the light is the wanted one, to 1e-9; 0 for no light. Empty when the light leaps over
/// it or stays below it.
///
/// The highest, because light that stays the same over a range of settings is at its low end about to go out.
///
/// @param light of a setting, never falling
std::optional<double> setting_for(const std::function<double(double)>& light, double wanted);

/// How bright light looks to an eye that has adapted to full light: the square root of what a meter reads, both as
/// fractions of full (square law, IES Lighting Handbook, 9th ed. 2000, chapter on controls, from memory).
double perceived_brightness(double measured);

/// CIE 1976 lightness L*, 0...100, of a surface (CIE 15; CIE S 017:2020, 17-23-076).
///
/// @param luminance_ratio of the surface over the white that the eye takes as reference, 0 or more
double lightness(double luminance_ratio);

/// Share of the full watts that a can draws at so much light: its driver's table, at light 0 what it draws when off.
///
/// Without a table a tenth of the full watts goes to the driver whenever it is on, and the rest follows the light; off
/// it draws nothing (common practice, no source).
double power_share(const Driver& driver, double light);

}  // namespace evenlit
