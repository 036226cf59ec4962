#include "type_c.hpp"

#include <fmt/format.h>

#include "c_planes.hpp"
#include "evenlit/base/number.hpp"
#include "table_ends.hpp"

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

}  // namespace

Result<IntensityDistribution> type_c_distribution(AngleList vertical, AngleList horizontal, Eigen::ArrayXXd candela,
                                                  bool from_90_is_own, Problems& warnings) {
  auto up = ascending_rows(std::move(vertical), candela, warnings);
  if (!up) return tl::unexpected(up.error());
  auto around = ascending_columns(std::move(horizontal), candela, warnings);
  if (!around) return tl::unexpected(around.error());
  candela = Eigen::ArrayXXd(candela(up->index, around->index));

  snap_ends(up->deg);
  snap_ends(around->deg);
  if (const auto in_range = check_range(*up); !in_range) return tl::unexpected(in_range.error());
  if (const auto completed = complete_ends(*up, candela, warnings); !completed) {
    return tl::unexpected(completed.error());
  }

  auto circle = full_circle(*around, candela, from_90_is_own, warnings);
  if (!circle) return tl::unexpected(circle.error());
  IntensityDistribution distribution{up->deg, std::move(circle->c_deg), std::move(circle->candela)};
  level_poles(distribution, *up, 0, 180, warnings);
  return distribution;
}

}  // namespace evenlit
