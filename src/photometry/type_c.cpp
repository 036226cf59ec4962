#include "type_c.hpp"

#include <fmt/format.h>

#include <cmath>

#include "c_planes.hpp"
#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

Result<void> check_range(const AngleList& vertical) {
  for (const std::size_t i : {std::size_t{0}, vertical.last()}) {
    if (vertical.deg[i] < 0 || vertical.deg[i] > 180) {
      return failure(vertical.place(i),
                     fmt::format("vertical angle {} is outside 0 to 180", shortest_text(vertical.deg[i])),
                     "type C counts from 0 straight down to 180 straight up");
    }
  }
  return {};
}

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

/// All planes meet at the poles, so each pole has one intensity: the mean around the circle.
void level_poles(IntensityDistribution& distribution, const AngleList& vertical, Problems& warnings) {
  const double peak = distribution.candela.maxCoeff();
  const auto& c = distribution.c_deg;
  for (const std::size_t i : {std::size_t{0}, vertical.last()}) {
    auto row = distribution.candela.row(static_cast<Eigen::Index>(i));
    const double difference = row.maxCoeff() - row.minCoeff();
    if ((vertical.deg[i] != 0 && vertical.deg[i] != 180) || difference == 0) continue;
    if (difference > 0.02 * peak) {
      warnings.push_back({vertical.place(i),
                          fmt::format("candela values at vertical angle {} differ between planes by up to {} % of the "
                                      "peak; their mean is used",
                                      shortest_text(vertical.deg[i]), fixed_text(100 * difference / peak, 1)),
                          "all planes meet there and have the same value"});
    }
    double sum = 0;
    for (Eigen::Index j = 1; j < row.size(); ++j) sum += (c[j] - c[j - 1]) / 2 * (row[j - 1] + row[j]);
    row = sum / 360;
  }
}

}  // namespace

Result<IntensityDistribution> type_c_distribution(AngleList vertical, AngleList horizontal, Eigen::ArrayXXd candela,
                                                  bool from_90_is_own, Problems& warnings) {
  const auto same_row = [&](Eigen::Index a, Eigen::Index b) { return (candela.row(a) == candela.row(b)).all(); };
  auto up = ascending(std::move(vertical), same_row, warnings);
  if (!up) return tl::unexpected(up.error());
  const auto same_column = [&](Eigen::Index a, Eigen::Index b) { return (candela.col(a) == candela.col(b)).all(); };
  auto around = ascending(std::move(horizontal), same_column, warnings);
  if (!around) return tl::unexpected(around.error());
  candela = Eigen::ArrayXXd(candela(up->index, around->index));

  snap_ends(up->deg);
  snap_ends(around->deg);
  if (const auto in_range = check_range(*up); !in_range) return tl::unexpected(in_range.error());
  complete_end(*up, candela, true, warnings);
  complete_end(*up, candela, false, warnings);

  auto circle = full_circle(*around, candela, from_90_is_own, warnings);
  if (!circle) return tl::unexpected(circle.error());
  IntensityDistribution distribution{up->deg, std::move(circle->c_deg), std::move(circle->candela)};
  level_poles(distribution, *up, warnings);
  return distribution;
}

}  // namespace evenlit
