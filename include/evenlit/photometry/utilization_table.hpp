#pragma once

#include <Eigen/Core>
#include <array>

#include "evenlit/photometry/zonal_cavity.hpp"

namespace evenlit {

/// Coefficients of utilization over rooms and finishes.
struct UtilizationTable {
  static constexpr int k_rooms = 11;  ///< room cavity ratios 0, 1, ... 10
  /// Effective ceiling cavity and wall reflectances, floor cavity 0.2; the last one is a black room.
  static constexpr std::array<CavityFinishes, 18> k_finishes{{{0.8, 0.7, 0.2},
                                                              {0.8, 0.5, 0.2},
                                                              {0.8, 0.3, 0.2},
                                                              {0.8, 0.1, 0.2},
                                                              {0.7, 0.7, 0.2},
                                                              {0.7, 0.5, 0.2},
                                                              {0.7, 0.3, 0.2},
                                                              {0.7, 0.1, 0.2},
                                                              {0.5, 0.5, 0.2},
                                                              {0.5, 0.3, 0.2},
                                                              {0.5, 0.1, 0.2},
                                                              {0.3, 0.5, 0.2},
                                                              {0.3, 0.3, 0.2},
                                                              {0.3, 0.1, 0.2},
                                                              {0.1, 0.5, 0.2},
                                                              {0.1, 0.3, 0.2},
                                                              {0.1, 0.1, 0.2},
                                                              {0, 0, 0}}};
  /// Room cavity ratio x finishes.
  using Coefficients = Eigen::Array<double, k_rooms, static_cast<int>(k_finishes.size())>;
  Coefficients coefficient = Coefficients::Zero();
};

/// @param output light of the luminaire over the flux that the coefficients are to be shares of: 1 for shares of its
///               own lumens, the light output ratio for shares of the lamps'
/// @source as `coefficient_of_utilization`; rows and columns as handbooks print them (from memory)
UtilizationTable utilization_table(const ZonalFlux& flux, double output = 1);

}  // namespace evenlit
