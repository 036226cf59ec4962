#include "evenlit/field/meter_fit.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace evenlit;

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// The same standard normal values on every machine: sums of twelve uniform ones are near enough (their tails end at 6,
/// beyond what thousands of trials meet) and need no library's own way.
class Normal {
 public:
  explicit Normal(unsigned seed) : random_(seed) {}
  double operator()() {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += uniform();
    return sum;
  }
  double uniform() { return (static_cast<double>(random_()) + 0.5) / 4294967296.0; }

 private:
  std::mt19937 random_;
};

/// Readings under a row of cans, as a sphere has them: what a can gives directly falls off with the distance, what the
/// surfaces give is nearly even and rises as 1 / (1 - mean reflectance). Every third reading faces the floor, every
/// third a wall.
struct SimpleRoom {
  Index readings = 9;
  Index cans = 4;
  double direct = 25;  ///< lx under a can
  double narrow = 30;  ///< of the cans' beams
  Eigen::Vector3d reflectance{0.2, 0.8, 0.5};

  [[nodiscard]] double direct_lx(Index reading, Index can) const {
    if (reading % 3 == 1) return 0;
    const double apart = static_cast<double>(reading) / static_cast<double>(readings - 1) -
                         static_cast<double>(can) / static_cast<double>(cans - 1);
    return (reading % 3 == 2 ? 8 : direct) / (1 + narrow * apart * apart);
  }

  [[nodiscard]] double indirect_lx(Index reading, const Shifts& shifts) const {
    const Eigen::Vector3d r = reflectance + shifts;
    const double even = 25 * r.dot(Eigen::Vector3d(0.55, 0.15, 0.3)) / (1 - (0.25 * r[0] + 0.25 * r[1] + 0.5 * r[2]));
    if (reading % 3 == 1) return even * (0.2 + 4 * r[0]) * 0.7;
    return reading % 3 == 2 ? even * (0.4 + 1.2 * r[2]) : even * (0.3 + 1.1 * r[1]);
  }

  [[nodiscard]] MeterProblem problem(double meter_accuracy) const {
    MeterProblem problem{.by_can_lx = Eigen::MatrixXd(readings, cans), .meter_accuracy = meter_accuracy};
    for (Index i = 0; i < readings; ++i) {
      for (Index k = 0; k < cans; ++k) {
        problem.by_can_lx(i, k) = direct_lx(i, k) + indirect_lx(i, Shifts::Zero()) / static_cast<double>(cans);
      }
    }
    problem.least_shift.setConstant(-0.2);
    problem.most_shift = {0.2, 0.15, 0.2};
    problem.light_lx = [room = *this](const Shifts& shifts) { return room.light_lx(shifts); };
    problem.reading_lx = light_lx(Shifts::Zero());
    return problem;
  }

  [[nodiscard]] VectorXd light_lx(const Shifts& shifts) const {
    VectorXd light(readings);
    for (Index i = 0; i < readings; ++i) {
      light[i] = indirect_lx(i, shifts);
      for (Index k = 0; k < cans; ++k) light[i] += direct_lx(i, k);
    }
    return light;
  }
};

/// Readings that all face up, of which nothing but a factor can be told.
MeterProblem plain_problem(Index readings, double meter_accuracy) {
  MeterProblem problem{.reading_lx = VectorXd::Zero(readings),
                       .by_can_lx = Eigen::MatrixXd::Constant(readings, 2, 100),
                       .meter_accuracy = meter_accuracy,
                       .least_shift = Shifts::Constant(-0.2),
                       .most_shift = Shifts::Constant(0.2)};
  for (Index i = 0; i < readings; ++i) problem.by_can_lx(i, 0) += 10 * static_cast<double>(i % 5);
  problem.light_lx = [lx = VectorXd(problem.by_can_lx.rowwise().sum())](const Shifts&) { return lx; };
  problem.reading_lx = problem.light_lx(Shifts::Zero());
  return problem;
}

/// How often of `trials` the factor's interval holds the true one.
double factor_coverage(Index readings, double meter_accuracy, double scatter, int trials) {
  constexpr double k_sides = 1.959964;  // 95 % of a normal distribution
  Normal normal(7);
  int held = 0;
  for (int trial = 0; trial < trials; ++trial) {
    MeterProblem problem = plain_problem(readings, meter_accuracy);
    const double truth = 0.7 + 0.6 * normal.uniform();
    const double meter = 1 + meter_accuracy / k_sides * normal();
    for (double& lx : problem.reading_lx) lx *= truth * meter * (1 + scatter * normal());
    held += meter_fit(problem).factor->value.contains(truth) ? 1 : 0;
  }
  return held / static_cast<double>(trials);
}

}  // namespace

TEST_CASE("meter fit: readings as predicted leave everything as it is", "[field][exact]") {
  const MeterFit fit = meter_fit(SimpleRoom{}.problem(0.1));
  REQUIRE(fit.factor);
  REQUIRE(fit.surfaces);
  CHECK(*fit.average == Approx(0).margin(1e-12));
  CHECK(fit.factor->value.value == Approx(1).epsilon(1e-12));
  // No scatter: what is left is the meter's accuracy.
  CHECK(fit.factor->value.least == Approx(0.9).epsilon(1e-9));
  CHECK(fit.factor->value.most == Approx(1.1).epsilon(1e-9));
  for (const FittedShift& shift : fit.surfaces->shifts) CHECK(shift.value.value == Approx(0).margin(1e-9));
  for (const ComparedReading& reading : fit.readings) {
    CHECK(reading.residual == Approx(0).margin(1e-9));
    CHECK_FALSE(reading.is_outlier);
  }
}

TEST_CASE("meter fit: a factor of all readings is found, and shifts no reflectance", "[field][exact]") {
  MeterProblem problem = SimpleRoom{}.problem(0.05);
  problem.reading_lx *= 1.12;
  const MeterFit fit = meter_fit(problem);
  CHECK(fit.factor->value.value == Approx(1.12).epsilon(1e-12));
  CHECK_FALSE(fit.factor->value.contains(1));
  CHECK(fit.surfaces->factor.value == Approx(1.12).epsilon(1e-6));
  for (const FittedShift& shift : fit.surfaces->shifts) CHECK(shift.value.value == Approx(0).margin(1e-6));
}

TEST_CASE("meter fit: other reflectances are recovered through noise, with a factor", "[field][exact]") {
  const SimpleRoom room{.readings = 240};
  const Shifts truth(0.12, -0.11, 0.08);
  Normal normal(3);
  MeterProblem problem = room.problem(0.1);
  problem.reading_lx = 0.9 * room.light_lx(truth);
  for (double& lx : problem.reading_lx) lx *= 1 + 0.01 * normal();
  const MeterFit fit = meter_fit(problem);
  REQUIRE(fit.surfaces);
  for (std::size_t i = 0; i < 3; ++i) {
    const FittedShift& shift = fit.surfaces->shifts[i];
    CAPTURE(i, shift.value.value, shift.value.least, shift.value.most);
    CHECK(shift.is_told);
    CHECK(shift.value.contains(truth[static_cast<Index>(i)]));
    // The ceiling, which does much what a factor does, is told least well: 0.02 is its standard deviation.
    CHECK(shift.value.value == Approx(truth[static_cast<Index>(i)]).margin(0.06));
  }
  CHECK(fit.surfaces->factor.value == Approx(0.9).margin(0.03));
  CHECK(fit.surfaces->scatter == Approx(0.01).margin(0.005));
}

TEST_CASE("meter fit: what the readings cannot tell stays at the job's value, with its doubt", "[field][exact]") {
  Normal normal(5);
  MeterProblem problem = plain_problem(12, 0.1);
  for (double& lx : problem.reading_lx) lx *= 0.8 * (1 + 0.03 * normal());
  const MeterFit fit = meter_fit(problem);
  REQUIRE(fit.surfaces);
  for (const FittedShift& shift : fit.surfaces->shifts) {
    CHECK_FALSE(shift.is_told);
    CHECK(shift.value.value == Approx(0).margin(1e-9));
    // Twice the doubt reaches the bounds.
    CHECK(shift.value.least == -0.2);
    CHECK(shift.value.most == 0.2);
  }
}

TEST_CASE("meter fit: the interval of the factor holds the truth 95 times in 100", "[field][property]") {
  // 1000 trials: the standard deviation of the share is 0.7 %, three of them 2.1 %. With few readings that scatter and
  // a meter that is off, Student's interval and the normal one in quadrature hold somewhat more than stated.
  CHECK(factor_coverage(8, 0, 0.05, 1000) == Approx(0.95).margin(0.021));
  CHECK(factor_coverage(3, 0, 0.05, 1000) == Approx(0.95).margin(0.021));
  CHECK(factor_coverage(20, 0.1, 0.03, 1000) == Approx(0.95).margin(0.021));
  CHECK(factor_coverage(8, 0.05, 0.05, 1000) == Approx(0.95).margin(0.021));
  CHECK(factor_coverage(4, 0.05, 0.08, 1000) >= 0.929);
}

TEST_CASE("meter fit: the intervals of reflectances hold truths that are as doubtful as stated", "[field][property]") {
  const SimpleRoom room{.readings = 15};
  Normal normal(11);
  constexpr int k_trials = 400;
  std::array<int, 3> held{};
  for (int trial = 0; trial < k_trials; ++trial) {
    Shifts truth;
    for (double& shift : truth) {
      do {
        shift = k_reflectance_doubt * normal();
      } while (shift < -0.2 || shift > 0.15);
    }
    MeterProblem problem = room.problem(0.1);
    problem.reading_lx = (0.8 + 0.4 * normal.uniform()) * room.light_lx(truth);
    for (double& lx : problem.reading_lx) lx *= 1 + 0.04 * normal();
    const MeterFit fit = meter_fit(problem);
    for (std::size_t i = 0; i < 3; ++i) {
      held[i] += fit.surfaces->shifts[i].value.contains(truth[static_cast<Index>(i)]) ? 1 : 0;
    }
  }
  // Of 400 trials three standard deviations are 3.3 %; truths that the bounds cut off are held more often.
  for (const int count : held) {
    CHECK(count >= (0.95 - 0.033) * k_trials);
    CHECK(count <= k_trials);
  }
}

TEST_CASE("meter fit: one reading far off is named and spoils nothing", "[field][exact]") {
  const SimpleRoom room{.readings = 12};
  for (const double off : {0.0, 0.5, 0.7, 1.5, 10.0}) {
    Normal normal(2);
    MeterProblem problem = room.problem(0.1);
    for (double& lx : problem.reading_lx) lx *= 1.05 * (1 + 0.02 * normal());
    const MeterFit clean = meter_fit(problem);
    problem.reading_lx[6] *= off;
    const MeterFit fit = meter_fit(problem);
    CAPTURE(off);
    for (std::size_t i = 0; i < fit.readings.size(); ++i) CHECK(fit.readings[i].is_outlier == (i == 6));
    // A twelfth of the readings is missing: their mean moves by some 2 % / 12.
    CHECK(fit.factor->value.value == Approx(clean.factor->value.value).margin(0.004));
    CHECK(fit.readings[6].residual == Approx(off - 1).margin(0.1 * std::max(1.0, off)));
    for (std::size_t i = 0; i < 3; ++i) {
      CHECK(fit.surfaces->shifts[i].value.value == Approx(clean.surfaces->shifts[i].value.value).margin(0.03));
    }
  }
}

TEST_CASE("meter fit: usual scatter raises few false alarms, and small ones none", "[field][property]") {
  Normal normal(13);
  int alarms = 0;
  constexpr int k_trials = 500;
  for (int trial = 0; trial < k_trials; ++trial) {
    MeterProblem problem = SimpleRoom{.readings = 12}.problem(0.1);
    for (double& lx : problem.reading_lx) lx *= 1 + 0.05 * normal();
    for (const ComparedReading& reading : meter_fit(problem).readings) alarms += reading.is_outlier ? 1 : 0;
  }
  // The test is at 1 % of the trials; residuals of a fit are not quite independent: twice that.
  CHECK(alarms <= 0.02 * k_trials);
  MeterProblem close = plain_problem(10, 0.1);
  close.reading_lx[4] *= 1.09;
  for (const ComparedReading& reading : meter_fit(close).readings) CHECK_FALSE(reading.is_outlier);
}

TEST_CASE("meter fit: a dead can is suspected where a reading is too low, none where it is too high",
          "[field][exact]") {
  const SimpleRoom room{.readings = 13, .cans = 5, .direct = 80, .narrow = 600};
  for (const double missing : {1.0, 0.6}) {
    MeterProblem problem = room.problem(0.1);
    problem.reading_lx -= missing * problem.by_can_lx.col(2);
    const MeterFit fit = meter_fit(problem);
    REQUIRE(fit.readings[6].is_outlier);
    REQUIRE(fit.readings[6].suspect);
    CHECK(fit.readings[6].suspect->can == 2);
    // What the can lacks everywhere is in part taken for the factor.
    CHECK(fit.readings[6].suspect->missing == Approx(missing).margin(0.15));
  }
  MeterProblem problem = room.problem(0.1);
  problem.reading_lx[6] *= 1.6;
  const MeterFit high = meter_fit(problem);
  CHECK(high.readings[6].is_outlier);
  CHECK_FALSE(high.readings[6].suspect);
}

TEST_CASE("meter fit: few readings, and dark ones", "[field][exact]") {
  for (const Index count : {1, 2}) {
    const MeterFit fit = meter_fit(plain_problem(count, 0.1));
    CHECK(*fit.average == Approx(0).margin(1e-12));
    CHECK_FALSE(fit.factor);
    CHECK_FALSE(fit.surfaces);
  }
  CHECK(meter_fit(plain_problem(3, 0.1)).factor);
  CHECK_FALSE(meter_fit(plain_problem(5, 0.1)).surfaces);
  CHECK(meter_fit(plain_problem(6, 0.1)).surfaces);

  MeterProblem dark = plain_problem(7, 0.1);
  dark.by_can_lx.row(2) *= 1e-3;
  const MeterFit fit = meter_fit(dark);
  CHECK_FALSE(fit.readings[2].deviation);
  CHECK_FALSE(fit.readings[2].is_outlier);
  CHECK(fit.factor->value.value == Approx(1));
  dark.by_can_lx.setZero();
  CHECK_FALSE(meter_fit(dark).average);
}

TEST_CASE("meter fit: no reading makes a result that is no number", "[field][property]") {
  Normal normal(17);
  for (int trial = 0; trial < 500; ++trial) {
    MeterProblem problem = SimpleRoom{.readings = 1 + trial % 12}.problem(0.1 * normal.uniform());
    if (problem.reading_lx.size() == 1) continue;
    for (double& lx : problem.reading_lx) lx = normal.uniform() < 0.5 ? 0 : 200'000 * std::pow(normal.uniform(), 8);
    const MeterFit fit = meter_fit(problem);
    bool is_finite = std::isfinite(*fit.average);
    for (const ComparedReading& reading : fit.readings) is_finite = is_finite && std::isfinite(reading.residual);
    const auto check = [&](const Interval& interval) {
      is_finite = is_finite && std::isfinite(interval.value) && std::isfinite(interval.least) &&
                  std::isfinite(interval.most) && interval.contains(interval.value);
    };
    if (fit.factor) check(fit.factor->value);
    if (fit.surfaces) {
      check(fit.surfaces->factor);
      for (const FittedShift& shift : fit.surfaces->shifts) check(shift.value);
    }
    CHECK(is_finite);
  }
}
