#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "evenlit/job/origin.hpp"

// What switches and dims the cans, and the moods that this is to make. Levels, settings and shares are fractions,
// 0...1.

namespace evenlit {

/// A point of a table that was measured or printed.
struct TablePoint {
  double at = 0;
  double value = 0;

  friend bool operator==(const TablePoint&, const TablePoint&) = default;
};

/// `at` rises from point to point, `value` never falls; two points or more, where the table is not absent (empty).
using RisingTable = std::vector<TablePoint>;

/// linear: output is the setting, as IEC 62386-207 has it; square: output is the setting squared; logarithmic: that of
/// IEC 62386-102.
enum class CurveLaw { linear, square, logarithmic };

/// Setting to output.
using DimmingCurve = std::variant<CurveLaw, RisingTable>;

/// What a can makes of what its dimmer gives it.
struct Driver {
  double least = 0;    ///< of full light, below which the driver does not go while it is on
  DimmingCurve curve;  ///< the dimmer's output to light
  RisingTable power;   ///< light to the share of the full watts; at light 0 what it draws when off; ends at 1, 1

  friend bool operator==(const Driver&, const Driver&) = default;
};

/// A kind of dimmer; every circuit that names it has one of its own.
struct Dimmer {
  std::string name;
  DimmingCurve curve;
  double low_end = 0;                    ///< trim: output at the lowest setting
  double high_end = 1;                   ///< trim: output at the highest setting, above `low_end`
  double cut_off = 0;                    ///< below this setting the light is out
  std::optional<double> rated_w;         ///< most load of the kind that is on it; of LED cans its LED rating
  std::optional<double> rated_va;        ///< most load
  double ganged = 1;                     ///< (0...1]: what is left of the rating beside other dimmers in one box
  std::optional<double> minimum_load_w;  ///< least load with which it works
  Origin origin;

  friend bool operator==(const Dimmer&, const Dimmer&) = default;
};

/// Cans that are switched or dimmed together.
struct Circuit {
  std::string name;
  std::optional<std::string> dimmer;  ///< absent: a switch
  Origin origin;

  friend bool operator==(const Circuit&, const Circuit&) = default;
};

/// What is wanted of a mood on an area; an absent area is the work plane.
struct Wish {
  std::optional<std::string> area;  ///< task area
  std::optional<double> at_least_lx;
  std::optional<double> at_most_lx;
  std::optional<double> about_lx;
  std::optional<double> ratio;    ///< of the average on `area` to that on `to`, above 0; then there is no illuminance
  std::optional<std::string> to;  ///< task area, another than `area`
  double weight = 1;              ///< against other wishes, above 0
  Origin origin;

  friend bool operator==(const Wish&, const Wish&) = default;
};

/// Light that the circuits are to give, on average over their cans; circuits that are not named are off.
struct CircuitLevels {
  std::map<std::string, double> of;

  friend bool operator==(const CircuitLevels&, const CircuitLevels&) = default;
};

/// Where the circuits' dimmers are set, of a switch 0 or 1; circuits that are not named are off.
struct CircuitSettings {
  std::map<std::string, double> of;

  friend bool operator==(const CircuitSettings&, const CircuitSettings&) = default;
};

/// Levels are to be found that come near to all wishes.
struct Wishes {
  std::vector<Wish> wishes;                     ///< one or more
  std::vector<std::string> off;                 ///< circuits
  std::vector<std::vector<std::string>> equal;  ///< groups of circuits of one level

  friend bool operator==(const Wishes&, const Wishes&) = default;
};

/// The light that an hour of the day or a use of the room asks for.
struct Mood {
  std::string name;
  std::variant<CircuitLevels, CircuitSettings, Wishes> asks;
  std::optional<double> hours;  ///< a day, on average over the year
  Origin origin;

  friend bool operator==(const Mood&, const Mood&) = default;
};

/// What the light costs.
struct Energy {
  std::optional<double> price;  ///< of a kWh, in the job's currency
  std::optional<double> hours;  ///< a day, of moods that do not say and of the room without moods

  friend bool operator==(const Energy&, const Energy&) = default;
};

/// The branch circuit that feeds all cans of the room.
struct Supply {
  double breaker_a = 0;
  double volts = 120;
  int wire_awg = 14;            ///< one of `k_wires`
  std::optional<double> run_m;  ///< of cable from the panel to the farthest can

  friend bool operator==(const Supply&, const Supply&) = default;
};

}  // namespace evenlit
