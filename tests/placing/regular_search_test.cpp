#include "evenlit/placing/regular_search.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "ceilings.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "random_candidates.hpp"

using namespace evenlit;

namespace {

/// Positions on the raster, as numbers of its cells.
std::set<std::pair<int, int>> cells_of(const Candidates& candidates, const Layout& layout) {
  std::set<std::pair<int, int>> cells;
  for (const Eigen::Vector2d& position : layout.positions_m) {
    const Eigen::Vector2d cell = (position - candidates.raster.first_m) / candidates.raster.step_m;
    cells.emplace(static_cast<int>(std::lround(cell.x())), static_cast<int>(std::lround(cell.y())));
  }
  return cells;
}

/// The least light of cans in some cells, summed up plainly; empty where one cannot be there.
std::optional<double> plain_minimum_lx(const Candidates& candidates, const std::set<std::pair<int, int>>& cells) {
  Eigen::VectorXd light = candidates.base_lx.cast<double>();
  for (const auto& [column, row] : cells) {
    const int place = candidates.raster.at(column, row);
    if (place < 0) return std::nullopt;
    light += candidates.light_lx.col(place).cast<double>();
  }
  return light.minCoeff();
}

/// The best of all grids of rows x columns by trying every one, as `regular_layouts` describes them.
double plain_best_lx(const Candidates& candidates, int count, bool is_symmetric) {
  const Raster& raster = candidates.raster;
  const int least = static_cast<int>(std::ceil(k_least_apart_m / raster.step_m - 1e-9));
  double best = -1;
  for (int columns = 1; columns <= count; ++columns) {
    if (count % columns != 0) continue;
    const int rows = count / columns;
    for (int dx = columns == 1 ? 0 : least; dx < raster.columns; ++dx) {
      for (int dy = rows == 1 ? 0 : least; dy < raster.rows; ++dy) {
        if (columns > 1 && rows > 1 && std::max(dx, dy) > 2 * std::min(dx, dy)) continue;
        for (int x = 0; x + dx * (columns - 1) < raster.columns; ++x) {
          for (int y = 0; y + dy * (rows - 1) < raster.rows; ++y) {
            const int right = raster.columns - 1 - x - dx * (columns - 1);
            const int above = raster.rows - 1 - y - dy * (rows - 1);
            if (columns > 1 && std::max(x, right) > dx) continue;
            if (rows > 1 && std::max(y, above) > dy) continue;
            if (is_symmetric && (x != right || y != above)) continue;
            std::set<std::pair<int, int>> cells;
            for (int i = 0; i < columns; ++i) {
              for (int j = 0; j < rows; ++j) cells.emplace(x + i * dx, y + j * dy);
            }
            best = std::max(best, plain_minimum_lx(candidates, cells).value_or(-1));
          }
        }
        if (rows == 1) break;
      }
      if (columns == 1) break;
    }
  }
  return best;
}

}  // namespace

TEST_CASE("regular search: no grid that brute force finds is brighter", "[placing][property]") {
  const bool is_symmetric = GENERATE(false, true);
  Job job = random_candidates_job();
  job.wanted.is_symmetric = is_symmetric;
  for (unsigned seed = 0; seed < 12; ++seed) {
    const Candidates candidates = random_candidates(seed);
    const std::vector<int> counts{1, 2, 3, 4, 6};
    const RegularLayouts found = regular_layouts(job, candidates, counts);
    CHECK(found.is_whole);
    for (std::size_t i = 0; i < counts.size(); ++i) {
      CAPTURE(seed, counts[i], is_symmetric);
      const double best_lx = plain_best_lx(candidates, counts[i], is_symmetric);
      const auto& brightest = found.best[i].brightest;
      REQUIRE(brightest.has_value() == (best_lx >= 0));
      if (!brightest) continue;
      // Sums in single precision: a few parts in ten million.
      CHECK(brightest->minimum_lx == Approx(best_lx).epsilon(1e-6));
      CHECK(plain_minimum_lx(candidates, cells_of(candidates, brightest->layout)).value() ==
            Approx(best_lx).epsilon(1e-6));
    }
  }
}

TEST_CASE("regular search: of those that give what is wanted the brightest, where any does", "[placing][property]") {
  Job job = random_candidates_job();
  const Candidates candidates = random_candidates(7);
  const std::vector<int> counts{4};
  const auto free_choice = regular_layouts(job, candidates, counts).best.front();
  REQUIRE(free_choice.brightest);
  CHECK(free_choice.giving->layout.positions_m == free_choice.brightest->layout.positions_m);

  // More light on average than the layout with the brightest darkest point has.
  const auto average_lx = [&](const Layout& layout) {
    double sum = candidates.base_averages_lx[0];
    for (const auto& [column, row] : cells_of(candidates, layout)) {
      sum += candidates.averages_lx(0, candidates.raster.at(column, row));
    }
    return sum;
  };
  job.target_lx = average_lx(free_choice.brightest->layout) * 1.002;
  const auto wanted = regular_layouts(job, candidates, counts).best.front();
  CHECK(wanted.brightest->layout.positions_m == free_choice.brightest->layout.positions_m);
  REQUIRE(wanted.giving);
  CHECK(average_lx(wanted.giving->layout) >= *job.target_lx);
  CHECK(wanted.giving->minimum_lx <= wanted.brightest->minimum_lx);

  job.target_lx = 1e6;
  CHECK_FALSE(regular_layouts(job, candidates, counts).best.front().giving);
}

TEST_CASE("regular search: stopped at once it says that it has not seen all", "[placing][exact]") {
  const Job job = random_candidates_job();
  const RegularLayouts found = regular_layouts(job, random_candidates(1), {4}, [] { return true; });
  CHECK_FALSE(found.is_whole);
  CHECK(found.looked_at == 0);
  CHECK_FALSE(found.best.front().brightest);
}

TEST_CASE("regular search: a row of cosine-power cans has the spacing that a dense scan finds", "[placing][formula]") {
  // A dark corridor, one row along its middle line: the point laws alone. I = I0 cos^m with half of I0 at half of the
  // beam angle, E = I cos / r2 (IES Lighting Handbook, 9th ed. 2000, chapter 9, from memory).
  Job job = job_from(
      "[room]\nwidth = \"24ft\"\ndepth = \"4ft\"\nceiling = \"8ft\"\n[finishes]\nfloor = 0\nceiling = 0\nwalls = 0\n"
      "[work_plane]\nspacing = \"6in\"\n[can_types.six]\nbeam = { lumens = 900, angle = 80 }\nhole = \"6in\"\n" +
      can_at(24, 24) + "[wanted]\nsymmetric = true\n");
  const int count = GENERATE(3, 4, 6);
  const auto file = synthetic_file(*job.can_types.front().beam).value();
  const Grid grid = work_plane_grid(job.room, job.work_plane, {}).value();
  const Candidates places = candidates(job, {file}, grid, "six").value();
  const auto best = regular_layouts(job, places, {count}).best.front().brightest;
  REQUIRE(best);
  REQUIRE(best->layout.rows == 1);

  const double m = std::log(0.5) / std::log(std::cos(40 * std::numbers::pi / 180));
  const double above_m = 96 * k_inch - job.work_plane.height_m;
  const auto relative_light = [&](const Eigen::Vector2d& point, const Eigen::Vector2d& can) {
    const double r2 = (point - can).squaredNorm() + above_m * above_m;
    return std::pow(above_m / std::sqrt(r2), m + 1) / r2;
  };
  const auto least = [&](double spacing_m, double y_m) {
    double least = 1e9;
    for (const Eigen::Vector2d& point : grid.points_m) {
      double sum = 0;
      for (int i = 0; i < count; ++i) {
        sum += relative_light(point, {144 * k_inch + (i - (count - 1) / 2.0) * spacing_m, y_m});
      }
      least = std::min(least, sum);
    }
    return least;
  };
  double best_spacing_m = 0;
  for (double spacing_m = 0.61; spacing_m * (count - 1) < 24 * 12 * k_inch - 1.2; spacing_m += 0.001) {
    if (least(spacing_m, 24 * k_inch) > least(best_spacing_m, 24 * k_inch)) best_spacing_m = spacing_m;
  }
  // The raster's step is 2 in, of which an even number of cans about the middle line takes every second spacing.
  CHECK(std::abs(best->layout.spacing_m.x() - best_spacing_m) <= (count % 2 == 0 ? 2 : 1) * 2 * k_inch);
  // At the top, where the change is of second order, that costs little: measured, under 2 %.
  CHECK(least(best->layout.spacing_m.x(), 24 * k_inch) >= 0.97 * least(best_spacing_m, 24 * k_inch));
}
