#include "random_candidates.hpp"

#include <random>

#include "ceilings.hpp"

namespace evenlit {

Job random_candidates_job() {
  return job_from(
      "[room]\nwidth = \"3 m\"\ndepth = \"2.4 m\"\nceiling = \"2.4 m\"\n[can_types.six]\nbeam = { lumens = 900, angle "
      "= "
      "60 }\n" +
      can_at(40, 40));
}

Candidates random_candidates(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> unit(0, 1);
  Candidates made{.type = "six"};
  made.raster = {
      .frame = {}, .first_m = {0.3, 0.3}, .step_m = 0.3, .columns = 9, .rows = 7, .place_of = {}, .places_m = {}};
  for (int row = 0; row < made.raster.rows; ++row) {
    for (int column = 0; column < made.raster.columns; ++column) {
      const bool is_taken = unit(random) < 0.1;
      made.raster.place_of.push_back(is_taken ? Raster::k_taken : static_cast<int>(made.raster.places_m.size()));
      if (!is_taken) made.raster.places_m.emplace_back(0.3 + 0.3 * column, 0.3 + 0.3 * row);
    }
  }
  made.points = 37;
  made.light_lx.resize(made.points, std::ssize(made.raster.places_m));
  for (int point = 0; point < made.points; ++point) {
    const Eigen::Vector2d at(3 * unit(random), 2.4 * unit(random));
    for (std::size_t place = 0; place < made.raster.places_m.size(); ++place) {
      const double r2 = (made.raster.places_m[place] - at).squaredNorm() + 1;
      made.light_lx(point, static_cast<Eigen::Index>(place)) =
          static_cast<float>(100 * (0.9 + 0.2 * unit(random)) / r2);
    }
  }
  made.base_lx = Eigen::VectorXf::Constant(made.points, 2);
  made.averages_lx = made.light_lx.cast<double>().colwise().mean();
  made.base_averages_lx = Eigen::VectorXd::Constant(1, 2);
  made.watts = 9;
  made.base_watts = 0;
  made.least_apart_m = 0.35;
  return made;
}

}  // namespace evenlit
