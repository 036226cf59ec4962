#pragma once

#include <Eigen/Core>
#include <functional>
#include <string_view>
#include <vector>

#include "evenlit/base/result.hpp"

namespace evenlit {

/// The vertical or the horizontal angles of a table, with the way back to the file for messages.
struct AngleList {
  std::string_view name;  ///< `vertical` or `horizontal`
  std::vector<double> deg;
  std::vector<Eigen::Index> index;             ///< of each angle in the file
  std::function<Place(Eigen::Index)> in_file;  ///< place of an angle of the file

  Place place(std::size_t i) const { return in_file(index[i]); }
  std::size_t last() const { return deg.size() - 1; }
};

/// A list as it stands in the file.
AngleList in_file_order(std::string_view name, std::vector<double> deg, std::function<Place(Eigen::Index)> in_file);

/// The angles of a table's rows in ascending order, without repeats: what stands in strictly descending order is turned
/// around, and an angle that comes twice with the same data is kept once, both with a warning.
///
/// @param candela with a row for each angle of the file
/// @errors an order that is neither, and an angle that comes twice with different data
Result<AngleList> ascending_rows(AngleList list, const Eigen::ArrayXXd& candela, Problems& warnings);

/// The same of its columns.
Result<AngleList> ascending_columns(AngleList list, const Eigen::ArrayXXd& candela, Problems& warnings);

/// Puts a first or last angle that misses a multiple of 90 degrees by no more than 0.05 on it.
void snap_ends(std::vector<double>& ascending_deg);

}  // namespace evenlit
