#include "table_ends.hpp"

#include <fmt/format.h>

#include <cmath>

#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

/// Carries the outermost candelas to the next multiple of 90 degrees where the data end no more than a step before it.
void complete_end(AngleList& vertical, Eigen::ArrayXXd& candela, bool at_start, Problems& warnings) {
  const auto& deg = vertical.deg;
  const std::size_t end = at_start ? 0 : vertical.last();
  const double step = at_start ? deg[1] - deg[0] : deg[end] - deg[end - 1];
  const double right_angles = deg[end] / 90;
  const double target = 90 * (at_start ? std::floor(right_angles) : std::ceil(right_angles));
  if (target == deg[end]) return;

  const bool is_held = std::abs(target - deg[end]) <= step;
  warnings.push_back(
      {vertical.place(end),
       fmt::format("vertical angles {} at {}; from there to {} the intensity {}", at_start ? "begin" : "end",
                   shortest_text(deg[end]), shortest_text(target), is_held ? "is held" : "counts as 0"),
       ""});
  if (!is_held) return;

  const Eigen::Index rows = candela.rows();
  Eigen::ArrayXXd longer(rows + 1, candela.cols());
  longer.middleRows(at_start ? 1 : 0, rows) = candela;
  longer.row(at_start ? 0 : rows) = candela.row(at_start ? 0 : rows - 1);
  candela = std::move(longer);
  const auto position = [at_start](auto& list) { return at_start ? list.begin() : list.end(); };
  vertical.index.insert(position(vertical.index), vertical.index[end]);
  vertical.deg.insert(position(vertical.deg), target);
}

}  // namespace

Result<void> complete_ends(AngleList& vertical, Eigen::ArrayXXd& candela, Problems& warnings) {
  if (vertical.deg.size() < 2) {
    return failure(vertical.place(0), fmt::format("the only vertical angle is {}", shortest_text(vertical.deg[0])),
                   "at least two different ones are needed");
  }
  complete_end(vertical, candela, true, warnings);
  complete_end(vertical, candela, false, warnings);
  return {};
}

void level_poles(IntensityDistribution& distribution, const AngleList& vertical, double low_pole, double high_pole,
                 Problems& warnings) {
  if (distribution.c_deg.size() == 1) return;
  const double peak = distribution.candela.maxCoeff();
  const auto& c = distribution.c_deg;
  for (const std::size_t i : {std::size_t{0}, vertical.last()}) {
    auto row = distribution.candela.row(static_cast<Eigen::Index>(i));
    const double difference = row.maxCoeff() - row.minCoeff();
    if ((vertical.deg[i] != low_pole && vertical.deg[i] != high_pole) || difference == 0) continue;
    if (difference > 0.02 * peak) {
      warnings.push_back({vertical.place(i),
                          fmt::format("candela values at vertical angle {} differ between planes by up to {} % of the "
                                      "peak; their mean is used",
                                      shortest_text(vertical.deg[i]), fixed_text(100 * difference / peak, 1)),
                          "all planes meet there and have the same value"});
    }
    double sum = 0;
    for (Eigen::Index j = 1; j < row.size(); ++j) sum += (c[j] - c[j - 1]) / 2 * (row[j - 1] + row[j]);
    row = sum / (c.back() - c.front());
  }
}

}  // namespace evenlit
