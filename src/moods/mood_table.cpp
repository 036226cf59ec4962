#include "mood_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "evenlit/base/names.hpp"
#include "evenlit/moods/circuits.hpp"

namespace evenlit {
namespace {

/// Eyes on the face of a box are not in it.
constexpr double k_touch_m = 1e-4;

/// The least setting that is not off.
constexpr double k_least_setting = 1e-9;

/// The job with two points more for each seat: the luminance that its eyes look at, and the light on them.
Job with_seat_points(const Job& job) {
  Job seen = job;
  for (const Seat& seat : job.seats) {
    NamedPoint looks{.name = seat.name, .height_m = seat.height_m, .reads = seat.looking, .origin = seat.origin};
    std::ranges::copy(seat.from, std::begin(looks.from));
    NamedPoint gets = looks;
    gets.reads = Facing{90 - seat.looking.tilt_deg, seat.looking.toward_deg};
    seen.points.push_back(looks);
    seen.points.push_back(gets);
  }
  return seen;
}

Problems seats_in_boxes(const Job& job, const Scene& scene) {
  Problems problems;
  for (const Seat& seat : job.seats) {
    const Eigen::Vector2d plan = plan_position(job.room, seat.from).value();
    const Eigen::Vector3d eyes(plan.x(), plan.y(), seat.height_m);
    for (const Box& box : scene.boxes) {
      if (!is_inside(box, eyes, k_touch_m)) continue;
      problems.push_back(
          {seat.origin.place,
           fmt::format("the eyes of seat {} are inside obstruction {}", quoted(seat.name), quoted(box.name)),
           "raise the seat's height above it, or move the seat"});
      break;
    }
  }
  return problems;
}

/// Of the work plane 0, of the task areas 1 and so on.
int row_of(const Job& job, const std::optional<std::string>& area) {
  if (!area) return 0;
  return 1 + static_cast<int>(std::ranges::find(job.task_areas, *area, &TaskArea::name) - job.task_areas.begin());
}

int circuit_of(const Job& job, const std::string& name) {
  return static_cast<int>(std::ranges::find(job.circuits, name, &Circuit::name) - job.circuits.begin());
}

/// What the cans give that no circuit dims, at their own levels.
Eigen::VectorXd base_lx(const Job& job, const MoodTable& table) {
  Eigen::VectorXd base = Eigen::VectorXd::Zero(table.areas_lx.rows());
  for (std::size_t i = 0; i < job.cans.size(); ++i) {
    if (!job.cans[i].circuit) base += table.areas_lx.col(static_cast<Eigen::Index>(i)) * job.cans[i].level;
  }
  return base;
}

double watts_of(const MoodTable& table, std::size_t can) { return table.scene.luminaires[can].watts.value_or(1); }

/// The least light that a circuit gives while it is on; a switch gives all.
double least_light(const Job& job, const Circuit& circuit) {
  if (!circuit.dimmer) return circuit_light(job, circuit, 1);
  const Dimmer& dimmer = *std::ranges::find(job.dimmers, *circuit.dimmer, &Dimmer::name);
  return circuit_light(job, circuit, std::max(dimmer.cut_off, k_least_setting));
}

bool is_off(const Mood& mood, const Circuit& circuit) {
  const auto* wishes = std::get_if<Wishes>(&mood.asks);
  return wishes != nullptr && std::ranges::find(wishes->off, circuit.name) != wishes->off.end();
}

}  // namespace

Result<MoodTable> mood_table(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                             const Progress& progress) {
  MoodTable table{.scene = build_scene(job, photometry)};
  if (auto problems = seats_in_boxes(job, table.scene); !problems.empty()) return tl::unexpected(std::move(problems));
  auto readings = readings_of(with_seat_points(job), table.scene);
  if (!readings) return tl::unexpected(std::move(readings.error()));
  table.readings = std::move(*readings);
  table.seats_first = static_cast<int>(job.points.size());
  add_surfaces(table.readings, table.scene);
  table.response = response(table.scene, receivers_of(grid, table.readings), Accuracy{}, progress);
  table.areas_lx = area_averages_lx(table.response.direct_lx + table.response.indirect_lx,
                                    static_cast<Eigen::Index>(grid.points_m.size()), table.readings);
  return table;
}

std::vector<int> dimmed_cans(const Job& job) {
  std::vector<int> dimmed;
  for (std::size_t i = 0; i < job.cans.size(); ++i) {
    if (job.cans[i].circuit) dimmed.push_back(static_cast<int>(i));
  }
  return dimmed;
}

std::vector<LevelWish> level_wishes(const Job& job, const Wishes& wishes) {
  std::vector<LevelWish> all;
  for (const Wish& wish : wishes.wishes) {
    const int area = row_of(job, wish.area);
    const auto add = [&](LevelWish::Kind kind, const std::optional<double>& value, int other = 0) {
      if (value) all.push_back({kind, area, other, *value, wish.weight});
    };
    add(LevelWish::Kind::at_least, wish.at_least_lx);
    add(LevelWish::Kind::at_most, wish.at_most_lx);
    add(LevelWish::Kind::about, wish.about_lx);
    add(LevelWish::Kind::ratio, wish.ratio, row_of(job, wish.to));
  }
  return all;
}

GroupingProblem grouping_problem(const Job& job, const MoodTable& table, const Mood* only) {
  const std::vector<int> cans = dimmed_cans(job);
  const auto count = static_cast<Eigen::Index>(cans.size());
  GroupingProblem problem{.light_lx = Eigen::MatrixXd(table.areas_lx.rows(), count),
                          .base_lx = base_lx(job, table),
                          .watts = Eigen::VectorXd(count),
                          .least = Eigen::VectorXd(count),
                          .moods = {}};
  for (Eigen::Index k = 0; k < count; ++k) {
    const auto can = static_cast<std::size_t>(cans[static_cast<std::size_t>(k)]);
    problem.light_lx.col(k) = table.areas_lx.col(static_cast<Eigen::Index>(can));
    problem.watts[k] = watts_of(table, can);
    problem.least[k] = type_of(job, job.cans[can]).dimming.least;
    if (only == nullptr) continue;
    const Circuit& circuit = job.circuits[static_cast<std::size_t>(circuit_of(job, *job.cans[can].circuit))];
    problem.least[k] = least_light(job, circuit);
    if (is_off(*only, circuit)) problem.light_lx.col(k).setZero();
  }
  for (const Mood& mood : job.moods) {
    const auto* wishes = std::get_if<Wishes>(&mood.asks);
    if (wishes != nullptr && (only == nullptr || only == &mood)) problem.moods.push_back(level_wishes(job, *wishes));
  }
  return problem;
}

std::vector<double> wished_levels(const Job& job, const MoodTable& table, const Wishes& wishes) {
  const auto circuits = static_cast<Eigen::Index>(job.circuits.size());
  LevelProblem problem{.light_lx = Eigen::MatrixXd::Zero(table.areas_lx.rows(), circuits),
                       .base_lx = base_lx(job, table),
                       .watts = Eigen::VectorXd::Zero(circuits),
                       .least = Eigen::VectorXd::Zero(circuits),
                       .most = Eigen::VectorXd::Zero(circuits),
                       .is_off = std::vector<char>(job.circuits.size()),
                       .same_as = {},
                       .wishes = level_wishes(job, wishes)};
  for (std::size_t can = 0; can < job.cans.size(); ++can) {
    if (!job.cans[can].circuit) continue;
    const int circuit = circuit_of(job, *job.cans[can].circuit);
    problem.light_lx.col(circuit) += table.areas_lx.col(static_cast<Eigen::Index>(can));
    problem.watts[circuit] += watts_of(table, can);
  }
  for (int i = 0; i < circuits; ++i) {
    const Circuit& circuit = job.circuits[static_cast<std::size_t>(i)];
    problem.most[i] = circuit_light(job, circuit, 1);
    problem.least[i] = std::min(problem.most[i], least_light(job, circuit));
    problem.same_as.push_back(i);
  }
  for (const std::string& name : wishes.off) problem.is_off[static_cast<std::size_t>(circuit_of(job, name))] = 1;
  for (const auto& names : wishes.equal) {
    std::vector<int> equal;
    for (const std::string& name : names) equal.push_back(circuit_of(job, name));
    const int first = *std::ranges::min_element(equal);
    for (const int circuit : equal) problem.same_as[static_cast<std::size_t>(circuit)] = first;
  }
  const Eigen::VectorXd levels = solved_levels(problem).levels;
  return {levels.begin(), levels.end()};
}

}  // namespace evenlit
