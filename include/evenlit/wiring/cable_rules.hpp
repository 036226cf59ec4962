#pragma once

#include <optional>
#include <vector>

#include "evenlit/job/wiring.hpp"

// Rules of the National Electrical Code, NFPA 70, and of the International Residential Code that a take-off counts by.
// What is adopted, and how it is amended, differs by place.

namespace evenlit {

/// Diameter of the hole for one cable: 3/4 in; 1 in for 10 AWG. Common practice, no source.
double cable_hole_m(const CableKind& cable);

/// What a hole through the middle of a joist's depth is held against.
struct JoistHole {
  double hole_m = 0;
  double most_hole_m = 0;    ///< a third of the depth
  double edge_m = 0;         ///< of wood left above and below
  bool is_allowed = false;   ///< small enough, and 2 in or more of wood left above and below
  bool needs_plate = false;  ///< less than 1-1/4 in of wood left: a steel plate must guard the cable
};

/// @param depth_m of a solid joist
/// @source International Residential Code R502.8.1 (a third; 2 in), R802.7.1 for ceiling joists; NEC 300.4(A)(1)
///         (1-1/4 in)
JoistHole joist_hole(double depth_m, double hole_m);

/// Staples along a cable between two boxes: within 12 in of each, and no more than 4-1/2 ft apart.
///
/// @param length_m >= 0, of the cable between the boxes
/// @source NEC 334.30
int staples(double length_m);

/// Volume that one conductor takes in a box, in3.
///
/// @param awg one of `k_wires`
/// @source NEC table 314.16(B)
double conductor_volume_in3(int awg);

/// What is in a switch box, counted in conductors.
struct BoxFill {
  int conductors = 0;     ///< insulated, that come in from outside
  int clamps = 1;         ///< all inside clamps together
  int devices = 0;        ///< two for each switch or dimmer
  double grounds = 0;     ///< one for up to four, then a quarter of one for each more
  double needed_in3 = 0;  ///< volume that all of these need
  double box_in3 = 0;     ///< volume of the box; 0 where the job does not say

  [[nodiscard]] bool is_too_small() const { return box_in3 > 0 && needed_in3 > box_in3; }
};

/// @param cables  each that enters the box, all of one gauge
/// @param devices switches and dimmers
/// @source NEC 314.16(B)(1), (2), (4), (5); the quarter for each ground beyond four from memory
BoxFill box_fill(const std::vector<CableKind>& cables, int devices, const std::optional<double>& box_in3);

}  // namespace evenlit
