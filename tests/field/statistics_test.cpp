#include "evenlit/field/statistics.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("statistics of a handful of points", "[field][exact]") {
  Eigen::VectorXd total(5);
  total << 100, 300, 200, 500, 400;
  const Eigen::VectorXd direct = total * 0.75;
  const Statistics s = statistics(total, direct, 250);
  CHECK(s.average_lx == 300);
  CHECK(s.minimum_lx == 100);
  CHECK(s.maximum_lx == 500);
  CHECK(s.minimum_at == 0);
  CHECK(s.maximum_at == 3);
  CHECK(s.p10_lx == Approx(140));  // 0.4 of the way from the first to the second of five
  CHECK(s.p90_lx == Approx(460));
  CHECK(s.coefficient_of_variation == Approx(0.4714045208));  // sqrt(20000) / 300
  CHECK(s.uniformity_min_avg == Approx(1.0 / 3));
  CHECK(s.uniformity_min_max == 0.2);
  CHECK(s.max_min == 5.0);
  CHECK(s.share_at_target == 0.6);
  CHECK(s.direct_share == Approx(0.75));
}

TEST_CASE("a single point is its own average, minimum and percentile", "[field][exact]") {
  const Eigen::VectorXd one = Eigen::VectorXd::Constant(1, 42);
  const Statistics s = statistics(one, one, std::nullopt);
  CHECK(s.average_lx == 42);
  CHECK(s.p10_lx == 42);
  CHECK(s.p90_lx == 42);
  CHECK(s.coefficient_of_variation == 0);
  CHECK_FALSE(s.share_at_target);
}

TEST_CASE("darkness has no ratio of maximum to minimum and no uniformity to speak of", "[field][exact]") {
  const Eigen::VectorXd dark = Eigen::VectorXd::Zero(4);
  const Statistics s = statistics(dark, dark, 100);
  CHECK_FALSE(s.max_min);
  CHECK(s.uniformity_min_avg == 0);
  CHECK(s.direct_share == 0);
  CHECK(s.share_at_target == 0.0);
}

TEST_CASE("of equally dark corners the first is named, whatever rounding says", "[field][exact]") {
  Eigen::VectorXd lux(4);
  lux << 50.00001, 80, 80.00001, 50;
  const Statistics s = statistics(lux, lux, std::nullopt);
  CHECK(s.minimum_at == 0);
  CHECK(s.maximum_at == 1);
  CHECK(s.minimum_lx == 50);
}
