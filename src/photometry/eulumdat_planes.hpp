#pragma once

#include <vector>

#include "c_planes.hpp"
#include "eulumdat_layout.hpp"

namespace evenlit {

/// Which C planes the columns of the table are.
struct TablePlanes {
  int symmetry = 0;         ///< as in the header, or 0 where all planes are stored
  std::vector<double> deg;  ///< ascending, within -90...360; the first so many columns of the table
};

/// Reads the planes off the list of C angles. A plane at 360 is left out, since it is the first again.
///
/// @errors angles out of order or out of range, and planes that do not stand where the symmetry needs them
Result<TablePlanes> table_planes(const Source& source, const EulumdatHeader& header, const EulumdatLayout& layout,
                                 const EulumdatNumbers& numbers, Problems& warnings);

/// The planes of the full circle. Mirrored planes are exact copies.
///
/// @param candela vertical angles x planes
Result<CPlanes> full_circle(TablePlanes planes, Eigen::ArrayXXd candela, const EulumdatNumbers& numbers);

}  // namespace evenlit
