#pragma once

#include <string>
#include <string_view>

#include "evenlit/base/length.hpp"
#include "evenlit/moods/power.hpp"

// Plain words for light, for those who own no light meter. All words of a kind follow the quantity: more of it never
// gets words for less. Thresholds without a source are common practice.

namespace evenlit {

/// Whole, two digits at most, in both units with the trade's first: `30 fc (320 lx)`; `under 1 fc (5 lx)`.
std::string plain_illuminance(double lx, Units units);

/// What an illuminance on a level plane is good for, as a phrase: `comfortable for reading`. It goes by the lux that
/// `plain_illuminance` shows, so that word and figure never disagree.
///
/// @source IES Lighting Handbook, 9th ed. 2000, chapter 10, categories A to F: 30, 50, 100, 300, 500, 1000 lx; EN 1838,
///         escape routes: 1 lx (both from memory)
std::string_view good_for(double lx);

/// How light is spread, by minimum over average: `very even`.
///
/// @source EN 12464-1:2011: 0.6 on task areas, 0.4 around them, 0.1 beyond (from memory); 0.2: common practice
std::string_view evenness_words(double uniformity_min_avg);

/// A ratio of light to other light, to be followed by that: `a quarter of`, `about as much as`, `twice`.
///
/// @param ratio >= 0
std::string_view share_words(double ratio);

/// What glare of a unified rating is like: `hardly noticed`. Advice by CIE 117's scale, whose steps are three apart.
///
/// @param rating goes by as it is printed, whole
std::string_view glare_words(double rating);

/// Whether its words say that it disturbs, or worse.
bool is_glare_disturbing(double rating);

/// What a white light of a colour temperature looks like: `warm`.
///
/// @source EN 12464-1:2011: 3300 K, 5300 K (from memory); candlelight: common practice
std::string_view tone_words(double kelvin);

/// How light a surface looks that sends back this part of the light: `dark`, `medium`, `light`, `very light`.
std::string_view finish_words(double reflectance);

/// Whole, two digits at most: `95 W`.
std::string plain_power(double watts);

/// Power against what everybody knew: `about as much as two of the old 60 W bulbs`.
std::string power_words(double watts);

/// `about $12 a year`
std::string yearly_cost_words(double cost, const std::string& currency);

}  // namespace evenlit
