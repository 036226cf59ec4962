#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <random>
#include <utility>

#include "benches.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/field/light_by_levels.hpp"
#include "evenlit/field/readings_light.hpp"
#include "evenlit/moods/grouping.hpp"
#include "load_job.hpp"
#include "one_thread.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

using Kind = LevelWish::Kind;

std::string microseconds(double seconds) { return fmt::format("{:.1f}", 1e6 * seconds); }

LoadedJob living_room() {
  InputFiles files;
  auto loaded = load_job(EVENLIT_SOURCE_DIR "/scenes/living-room.toml", files);
  if (!loaded) std::exit(1);
  return std::move(*loaded);
}

/// Processor time of one call of some work that is short, s.
double cost_of_one(int calls, const std::function<void(int)>& work) {
  const Cost all = least_cost([&] {
    for (int call = 0; call < calls; ++call) work(call);
  });
  return all.processor_s / calls;
}

void level_change_bench(const Limits& limits) {
  const LoadedJob loaded = living_room();
  const Job& job = loaded.job;
  Scene scene = build_scene(job, loaded.photometry);
  const auto grid = work_plane_grid(job.room, job.work_plane, {}, scene.boxes);
  auto readings = readings_of(job, scene);
  if (!grid || !readings) std::exit(1);
  add_surfaces(*readings, scene);
  const std::vector<Receiver> receivers = receivers_of(*grid, *readings);
  Response table;
  const Cost solve = least_cost([&] { table = response(scene, receivers); });
  const LightByLevels light(table, static_cast<Eigen::Index>(grid->points_m.size()), *readings);
  const Eigen::VectorXd full = levels_of(scene);
  double seen_lx = 0;  // what is computed is used, so that none of it is left out
  const auto level = [](int call) { return 0.01 * (1 + call % 100); };
  const double sums_s =
      cost_of_one(20'000, [&](int call) { seen_lx += light.at(level(call) * full).minimum_lx.sum(); });
  const double all_s = cost_of_one(200, [&](int call) {
    for (Luminaire& luminaire : scene.luminaires) luminaire.level = level(call);
    seen_lx += room_light(scene, *grid, job.target_lx, *readings, table).work_plane.statistics.average_lx;
  });
  if (!(seen_lx > 0)) std::exit(1);
  const double bytes = 8.0 * static_cast<double>(table.direct_lx.size());
  const double memory_s = bytes / limits.read_bytes_per_s;
  const auto row = [&](const std::string& name, double seconds) {
    return std::vector<std::string>{name, microseconds(seconds), fmt::format("{:.1f} x", seconds / memory_s),
                                    fmt::format("{:.0f} x", solve.processor_s / seconds)};
  };
  print_table(
      fmt::format("A dimmer moves in the living room: {} receivers, {} cans, {:.0f} kB of light of each on each; CPU "
                  "time,\nagainst reading these from memory, and how many a fresh solve takes",
                  receivers.size(), table.direct_lx.cols(), 1e-3 * bytes),
      {{"", "us", "of reading", "in a solve"},
       row("sums: points, averages, minima", sums_s),
       row("all that is said of the room", all_s),
       row("a fresh solve", solve.processor_s)});
}

/// A number in 0...1 that is the same on every machine.
double unit(std::mt19937& random) { return static_cast<double>(random()) / 4294967296.0; }

/// Light of cans on areas of a room of 5 m x 4 m, all at random places, as points throw it, and as much again by way
/// of the walls.
Eigen::MatrixXd random_light_lx(std::mt19937& random, int areas, int cans) {
  constexpr double k_height_m = 1.7;
  constexpr double k_candela = 400;
  const auto place = [&] { return Eigen::Vector2d(5 * unit(random), 4 * unit(random)); };
  std::vector<Eigen::Vector2d> at;
  for (int can = 0; can < cans; ++can) at.push_back(place());
  Eigen::MatrixXd light(areas, cans);
  for (int area = 0; area < areas; ++area) {
    const Eigen::Vector2d from = place();
    for (int can = 0; can < cans; ++can) {
      const double square_m2 = (at[static_cast<std::size_t>(can)] - from).squaredNorm() + k_height_m * k_height_m;
      light(area, can) = 10 + k_candela * k_height_m * k_height_m / (square_m2 * square_m2);
    }
  }
  return light;
}

/// A wish for each area, most of them for 2 to 25 fc, some for a ratio to the next area.
std::vector<LevelWish> random_wishes(std::mt19937& random, int areas) {
  std::vector<LevelWish> wishes;
  for (int area = 0; area < areas; ++area) {
    const auto kind = static_cast<Kind>(random() % 4);
    const double value = kind == Kind::ratio ? 0.5 + 2 * unit(random) : k_lux_per_footcandle * (2 + 23 * unit(random));
    wishes.push_back({.kind = kind, .area = area, .other = (area + 1) % areas, .value = value});
  }
  return wishes;
}

LevelProblem random_levels(unsigned seed, int areas, int circuits) {
  std::mt19937 random(seed);
  LevelProblem problem{.light_lx = random_light_lx(random, areas, circuits),
                       .base_lx = Eigen::VectorXd::Zero(areas),
                       .watts = Eigen::VectorXd::Constant(circuits, 10),
                       .least = Eigen::VectorXd::Constant(circuits, 0.1),
                       .most = Eigen::VectorXd::Ones(circuits),
                       .is_off = std::vector<char>(static_cast<std::size_t>(circuits)),
                       .same_as = {},
                       .wishes = random_wishes(random, areas)};
  for (int circuit = 0; circuit < circuits; ++circuit) problem.same_as.push_back(circuit);
  return problem;
}

GroupingProblem random_grouping(unsigned seed, int areas, int cans, int moods) {
  std::mt19937 random(seed);
  GroupingProblem problem{.light_lx = random_light_lx(random, areas, cans),
                          .base_lx = Eigen::VectorXd::Zero(areas),
                          .watts = Eigen::VectorXd::Constant(cans, 10),
                          .least = Eigen::VectorXd::Constant(cans, 0.05),
                          .moods = {}};
  for (int mood = 0; mood < moods; ++mood) problem.moods.push_back(random_wishes(random, areas));
  return problem;
}

/// Usual and longest processor time of problems.
std::vector<std::string> row_of(const std::string& name, std::vector<double> seconds, const std::string& exact) {
  std::ranges::sort(seconds);
  const auto text = [](double of_one_s) { return fmt::format("{:.2f}", 1e3 * of_one_s); };
  return {name, std::to_string(seconds.size()), text(seconds[seconds.size() / 2]), text(seconds.back()), exact};
}

void search_of_levels_bench() {
  constexpr unsigned k_problems = 20;
  std::vector<double> levels_s;
  for (unsigned seed = 0; seed < k_problems; ++seed) {
    const LevelProblem problem = random_levels(seed, 12, 8);
    levels_s.push_back(cost_of_one(20, [&](int) { static_cast<void>(solved_levels(problem)); }));
  }
  std::vector<std::vector<std::string>> rows{{"", "problems", "usual ms", "longest ms", "proven best"},
                                             row_of("levels of 8 circuits, 12 areas", levels_s, "-")};
  for (const auto& [dimmers, areas] : {std::pair{3, 6}, {4, 6}, {3, 12}, {4, 12}}) {
    std::vector<double> grouping_s;
    int exact = 0;
    for (unsigned seed = 0; seed < k_problems; ++seed) {
      const GroupingProblem problem = random_grouping(seed, areas, 12, 3);
      Grouping best;
      grouping_s.push_back(least_cost([&] { best = best_grouping(problem, dimmers); }).processor_s);
      if (best.is_exact) ++exact;
    }
    rows.push_back(row_of(fmt::format("12 cans on {} dimmers, {} areas, 3 moods", dimmers, areas), grouping_s,
                          std::to_string(exact)));
  }
  print_table("Levels and dimmers for what moods wish, random rooms; CPU time", rows);
}

}  // namespace

void moods_bench(const Limits& limits) {
  const OneThread limit;
  level_change_bench(limits);
  search_of_levels_bench();
}

}  // namespace evenlit::bench
