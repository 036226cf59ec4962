#include "evenlit/base/number.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <limits>
#include <locale>
#include <random>

using namespace evenlit;

TEST_CASE("number: decimal texts are read", "[base][exact]") {
  CHECK(number_from_text("0") == 0.0);
  CHECK(number_from_text("12.5") == 12.5);
  CHECK(number_from_text("+.5") == 0.5);
  CHECK(number_from_text("5.") == 5.0);
  CHECK(number_from_text("-3e2") == -300.0);
  CHECK(number_from_text("1E-3") == 1e-3);
}

TEST_CASE("number: anything else is refused", "[base][exact]") {
  const auto text = GENERATE(as<std::string>{}, "", " ", " 1", "1 ", "1,5", "1.2.3", "--1", "+-1", ".", "e5", "1e",
                             "1e+", "nan", "inf", "-inf", "0x10", "1f", "1_000", "1'000", "1e400", "-1e400", "½", "१");
  CAPTURE(text);
  CHECK_FALSE(number_from_text(text).has_value());
}

TEST_CASE("number: the shortest text reads back as the same double", "[base][property]") {
  CHECK(shortest_text(0.1) == "0.1");
  CHECK(shortest_text(12) == "12");
  CHECK(shortest_text(3.81) == "3.81");
  std::mt19937_64 random(20240501);
  for (int i = 0; i < 2000; ++i) {
    const auto bits = random();
    double value = 0;
    std::memcpy(&value, &bits, sizeof value);
    if (!std::isfinite(value)) continue;
    CAPTURE(value);
    CHECK(number_from_text(shortest_text(value)) == value);
  }
  CHECK(number_from_text(shortest_text(std::numeric_limits<double>::max())) == std::numeric_limits<double>::max());
}

TEST_CASE("number: fixed decimals never show a negative zero", "[base][exact]") {
  CHECK(fixed_text(-0.004, 2) == "0.00");
  CHECK(fixed_text(-0.006, 2) == "-0.01");
  CHECK(fixed_text(-0.0, 0) == "0");
  CHECK(fixed_text(1234.5678, 1) == "1234.6");
  CHECK(fixed_text(0.05, 3) == "0.050");
}

namespace {

struct CommaForPoint : std::numpunct<char> {
  [[nodiscard]] char do_decimal_point() const override { return ','; }
};

}  // namespace

TEST_CASE("number: a locale with decimal commas changes nothing", "[base][exact]") {
  const auto before = std::locale::global(std::locale(std::locale::classic(), new CommaForPoint));
  const auto one_and_a_half = number_from_text("1.5");
  const auto with_comma = number_from_text("1,5");
  const auto shortest = shortest_text(1.5);
  const auto fixed = fixed_text(1.5, 2);
  std::locale::global(before);
  CHECK(one_and_a_half == 1.5);
  CHECK_FALSE(with_comma.has_value());
  CHECK(shortest == "1.5");
  CHECK(fixed == "1.50");
}
