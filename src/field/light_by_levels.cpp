#include "evenlit/field/light_by_levels.hpp"

namespace evenlit {

LightByLevels::LightByLevels(const Response& response, Eigen::Index grid_points, const Readings& readings)
    : light_lx_(response.direct_lx + response.indirect_lx) {
  const auto areas = static_cast<Eigen::Index>(1 + readings.task_areas.size() + readings.surfaces.size());
  averages_lx_.resize(areas, light_lx_.cols());
  const auto add = [&](const Rows& rows, const Eigen::VectorXd& weights) {
    averages_lx_.row(static_cast<Eigen::Index>(areas_.size())) =
        weights.transpose() * light_lx_.middleRows(rows.first, rows.count);
    areas_.push_back(rows);
  };
  add({0, grid_points}, Eigen::VectorXd::Constant(grid_points, 1.0 / static_cast<double>(grid_points)));
  for (const auto* read : {&readings.task_areas, &readings.surfaces}) {
    for (const AreaReading& area : *read) {
      add({grid_points + area.average.first, area.average.count()}, area.average.weights);
    }
  }
}

LevelLight LightByLevels::at(const Eigen::VectorXd& levels) const {
  LevelLight light{light_lx_ * levels, averages_lx_ * levels, Eigen::VectorXd(averages_lx_.rows())};
  for (std::size_t i = 0; i < areas_.size(); ++i) {
    light.minimum_lx[static_cast<Eigen::Index>(i)] =
        light.total_lx.segment(areas_[i].first, areas_[i].count).minCoeff();
  }
  return light;
}

}  // namespace evenlit
