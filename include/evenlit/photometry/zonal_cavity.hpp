#pragma once

#include <array>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// Flux of one or more luminaires by direction, lm.
struct ZonalFlux {
  std::array<double, 9> down{};  ///< in the 10-degree zones from straight down to horizontal
  double up = 0;
};

ZonalFlux zonal_flux(const IntensityDistribution& distribution);

/// All of it.
double total(const ZonalFlux& flux);

/// Share of the downward flux that strikes the work plane without a bounce, of luminaires spread evenly over the room.
///
/// @source IES Lighting Handbook, 9th ed. 2000, chapter 9: zonal multipliers (constants from memory)
double direct_ratio(const ZonalFlux& flux, double room_cavity_ratio);

/// A cavity of the zonal-cavity method, or the room itself: base, top and walls in between.
///
/// @param perimeter_m, area_m2 of the plan; any shape
/// @return 2.5 x height x perimeter / area, which is 5 h (L + W) / (L W) for a rectangle
/// @source CIE S 017:2020, term 17-29-072 "room cavity ratio"
double cavity_ratio(double height_m, double perimeter_m, double area_m2);

/// Reflectance of the plane that can stand for a whole cavity.
///
/// @source IES Lighting Handbook, 9th ed. 2000, chapter 9 (equation from memory)
double effective_cavity_reflectance(double ratio, double base_reflectance, double wall_reflectance);

/// Reflectances that bound the room cavity.
struct CavityFinishes {
  double ceiling = 0.8;
  double walls = 0.5;
  double floor = 0.2;
};

/// Share of the luminaires' flux that arrives on the work plane, all bounces counted. An empty flux gives 0.
///
/// @source IES Lighting Handbook, 9th ed. 2000, chapter 9: zonal multipliers, form factor fit and flux transfer between
///         three surfaces (equations and constants from memory)
double coefficient_of_utilization(const ZonalFlux& flux, double room_cavity_ratio, const CavityFinishes& finishes);

}  // namespace evenlit
