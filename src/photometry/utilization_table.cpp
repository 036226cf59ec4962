#include "evenlit/photometry/utilization_table.hpp"

namespace evenlit {

UtilizationTable utilization_table(const ZonalFlux& flux, double output) {
  UtilizationTable table;
  for (Eigen::Index room = 0; room < table.coefficient.rows(); ++room) {
    for (Eigen::Index column = 0; column < table.coefficient.cols(); ++column) {
      const CavityFinishes& finishes = UtilizationTable::k_finishes[static_cast<std::size_t>(column)];
      table.coefficient(room, column) = output * coefficient_of_utilization(flux, static_cast<double>(room), finishes);
    }
  }
  return table;
}

}  // namespace evenlit
