#include "evenlit/report/csv_grid.hpp"

#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "significant.hpp"

namespace evenlit {

std::string csv_grid(const WorkPlaneLight& light) {
  std::string csv = "x_m,y_m,height_m,illuminance_lx,illuminance_fc,direct_lx,error_lx\n";
  for (std::size_t i = 0; i < light.grid.points_m.size(); ++i) {
    const Eigen::Vector2d& point = light.grid.points_m[i];
    const auto row = static_cast<Eigen::Index>(i);
    const double total_lx = light.field.total_lx[row];
    csv += fixed_text(point.x(), 3) + ',' + fixed_text(point.y(), 3) + ',' + fixed_text(light.grid.height_m, 3) + ',' +
           significant_text(total_lx, 4) + ',' + significant_text(total_lx / k_lux_per_footcandle, 4) + ',' +
           significant_text(light.field.direct_lx[row], 4) + ',' + significant_text(light.field.error_lx[row], 2) +
           '\n';
  }
  return csv;
}

}  // namespace evenlit
