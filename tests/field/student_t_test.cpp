#include "student_t.hpp"

#include <boost/math/distributions/students_t.hpp>
#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("Student's t: values of the printed tables", "[field][published]") {
  // Abramowitz and Stegun, table 26.10 (from memory), to the digits printed.
  CHECK(student_t_two_sided(0.95, 1) == Approx(12.706).margin(5e-4));
  CHECK(student_t_two_sided(0.95, 2) == Approx(4.303).margin(5e-4));
  CHECK(student_t_two_sided(0.95, 10) == Approx(2.228).margin(5e-4));
  CHECK(student_t_two_sided(0.99, 30) == Approx(2.750).margin(5e-4));
}

TEST_CASE("Student's t: as Boost.Math has it", "[field][reference]") {
  for (const double inside : {0.1, 0.5, 0.95, 0.99, 0.9999, 0.999999}) {
    for (const int freedom : {1, 2, 3, 4, 5, 10, 31, 100, 999}) {
      const double expected = boost::math::quantile(boost::math::students_t(freedom), (1 + inside) / 2);
      // Bisected to 1e-9; near 1 the chance itself is rounded to 1e-16 of 1e-6.
      CHECK(student_t_two_sided(inside, freedom) == Approx(expected).epsilon(1e-7));
    }
  }
}
