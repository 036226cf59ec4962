#pragma once

#include <Eigen/Core>
#include <functional>
#include <string>
#include <string_view>

#include "evenlit/base/result.hpp"

namespace evenlit {

/// How a file holds the values of its table, for messages. The functions take a vertical angle and a plane, as row and
/// column of the table.
struct TableInFile {
  std::string_view name;    ///< of a value
  std::string_view plural;  ///< of its name
  std::function<double(Eigen::Index, Eigen::Index)> value;
  std::function<Place(Eigen::Index, Eigen::Index)> place;
  std::function<std::string(Eigen::Index, Eigen::Index)> direction;
};

/// The candelas of a table without the small negative ones that a meter leaves in the dark. Warns of these, and of a
/// table without light.
///
/// @param candela the file's values times its factors, each vertical angle a row
/// @errors a value above `k_largest_number`, or farther below 0 than 0.5 % of the peak
Result<Eigen::ArrayXXd> checked_candelas(const Eigen::ArrayXXd& candela, const TableInFile& in_file,
                                         Problems& warnings);

}  // namespace evenlit
