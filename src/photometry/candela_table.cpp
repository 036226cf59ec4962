#include "candela_table.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <utility>

#include "evenlit/base/number.hpp"
#include "limits.hpp"

namespace evenlit {

Result<Eigen::ArrayXXd> checked_candelas(const Eigen::ArrayXXd& candela, const TableInFile& in_file,
                                         Problems& warnings) {
  constexpr double k_dark_share = 0.005;  // of the peak: as far below 0 as a meter's dark reading may be
  const double peak = candela.maxCoeff();
  const auto value_text = [&](Eigen::Index i, Eigen::Index j) {
    return fmt::format("{} {}", in_file.name, shortest_text(in_file.value(i, j)));
  };
  std::optional<std::pair<Eigen::Index, Eigen::Index>> first_negative;
  for (Eigen::Index j = 0; j < candela.cols(); ++j) {
    for (Eigen::Index i = 0; i < candela.rows(); ++i) {
      const double cd = candela(i, j);
      if (std::abs(cd) > k_largest_number) return failure(in_file.place(i, j), value_text(i, j) + " is out of range");
      if (cd >= 0) continue;
      if (peak <= 0 || cd < -k_dark_share * peak) {
        return failure(in_file.place(i, j),
                       fmt::format("{} at {} is negative", value_text(i, j), in_file.direction(i, j)));
      }
      if (!first_negative) first_negative = {i, j};
    }
  }
  if (first_negative) {
    const auto [i, j] = *first_negative;
    warnings.push_back({in_file.place(i, j), value_text(i, j) + " and any other below 0 are read as 0", ""});
  }
  if (peak <= 0) {
    warnings.push_back({in_file.place(0, 0), fmt::format("all {} are 0: there is no light", in_file.plural), ""});
  }
  return candela.max(0.0);
}

}  // namespace evenlit
