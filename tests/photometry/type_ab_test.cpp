#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "evenlit/photometry/beam.hpp"
#include "lm63_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

enum class Type { b = 2, a = 3 };

/// A file with as many numbers as the angles ask for.
Sample sample_of(Type type, const std::string& vertical, const std::string& horizontal, const std::string& candela) {
  const auto count = [](const std::string& list) { return std::ranges::count(list, ' ') + 1; };
  Sample sample;
  sample.counts = std::to_string(count(vertical)) + ' ' + std::to_string(count(horizontal));
  sample.type_and_units = std::to_string(static_cast<int>(type)) + " 2";
  sample.vertical = vertical;
  sample.horizontal = horizontal;
  sample.candela = candela;
  return sample;
}

/// The direction of a type A or B pair of angles, from the definitions of LM-63-2002: planes that share the vertical
/// (A) or the horizontal axis (B), H clockwise.
Eigen::Vector3d direction(Type type, double v_deg, double h_deg) {
  const double v = v_deg * std::numbers::pi / 180;
  const double h = h_deg * std::numbers::pi / 180;
  if (type == Type::a) return {std::cos(v) * std::cos(h), -std::cos(v) * std::sin(h), std::sin(v)};
  return {std::sin(v), -std::cos(v) * std::sin(h), -std::cos(v) * std::cos(h)};
}

constexpr const char* k_vertical = "-90 -45 0 45 90";
constexpr const char* k_horizontal = "-90 -30 0 90";
/// V fastest; the poles agree between planes.
constexpr const char* k_candela =
    "5 10 20 30 7\n"
    "5 50 60 70 7\n"
    "5 80 95 85 7\n"
    "5 40 30 20 7\n";

}  // namespace

// Directions of the table of check values that follow from the definitions (derived, not read in the standard).
TEST_CASE("types A and B: the file's own angles give the file's own candelas", "[photometry][formula]") {
  const Type type = GENERATE(Type::a, Type::b);
  const auto d = file_of(sample_of(type, k_vertical, k_horizontal, k_candela).text()).distribution;
  CHECK(intensity_toward(d, direction(type, 0, 0)) == Approx(95).margin(1e-9));
  CHECK(intensity_toward(d, direction(type, 45, -30)) == Approx(70).margin(1e-9));
  CHECK(intensity_toward(d, direction(type, -45, 89.999)) == Approx(40).margin(1e-2));
  CHECK(intensity_toward(d, direction(type, -90, 0)) == Approx(5).margin(1e-9));
  CHECK(intensity_toward(d, direction(type, 90, 0)) == Approx(7).margin(1e-9));
  // Halfway between two angles of each list: the mean of four.
  CHECK(intensity_toward(d, direction(type, 22.5, -15)) == Approx((60 + 70 + 95 + 85) / 4.0).margin(1e-9));
  CHECK(intensity_toward(d, direction(type, 0, 120)) == 0);
}

TEST_CASE("types A and B: where the photometric axes point", "[photometry][formula]") {
  const auto a = file_of(sample_of(Type::a, k_vertical, k_horizontal, k_candela).text()).distribution;
  CHECK(intensity_at(a, 90, 0) == Approx(95).margin(1e-9));  // V 0, H 0: level, along C 0
  CHECK(intensity_at(a, 0, 0) == Approx(5).margin(1e-9));    // V -90: straight down
  CHECK(intensity_at(a, 110, 330) == Approx(intensity_toward(a, direction(Type::a, 20, 30))).margin(1e-9));
  const auto b = file_of(sample_of(Type::b, k_vertical, k_horizontal, k_candela).text()).distribution;
  CHECK(intensity_at(b, 0, 0) == Approx(95).margin(1e-9));   // V 0, H 0: straight down
  CHECK(intensity_at(b, 45, 0) == Approx(85).margin(1e-9));  // V 45, H 0
  CHECK(intensity_at(b, 30, 270) == Approx(intensity_toward(b, direction(Type::b, 0, 30))).margin(1e-9));
  CHECK(intensity_at(b, 35.5313, 306.0524) ==
        Approx(intensity_toward(b, direction(Type::b, 20, 30))).margin(1e-3));  // angles rounded to 1e-4
}

TEST_CASE("types A and B: data from 0 on are mirrored", "[photometry][formula]") {
  // From memory: horizontal angles from 0 on for both, vertical ones for type B.
  const auto half = file_of(sample_of(Type::b, "0 45 90", "0 45 90", "90 50 3 70 40 3 20 10 3").text()).distribution;
  std::mt19937 random(7);
  std::uniform_real_distribution<double> angle(-90, 90);
  for (int i = 0; i < 200; ++i) {
    const double v = angle(random);
    const double h = angle(random);
    CHECK(intensity_toward(half, direction(Type::b, v, h)) ==
          Approx(intensity_toward(half, direction(Type::b, std::abs(v), std::abs(h)))).margin(1e-9));
  }
  const Sample upper = sample_of(Type::a, "0 45 90", "0 45 90", "90 50 3 70 40 3 20 10 3");
  CHECK(messages_of(upper.text()) ==
        "can.ies:9:1: vertical angles begin at 0; below the horizontal the intensity counts as 0\n");
  const auto above = file_of(upper.text()).distribution;
  CHECK(intensity_toward(above, direction(Type::a, -10, 0)) == 0);
  CHECK(intensity_toward(above, direction(Type::a, 10, -45)) ==
        Approx(intensity_toward(above, direction(Type::a, 10, 45))).margin(1e-9));
}

TEST_CASE("types A and B: short ranges end with a word", "[photometry][exact]") {
  CHECK(messages_of(sample_of(Type::b, "-90 0 90", "-40 0 40", "0 5 0 0 9 0 0 5 0").text()) ==
        "can.ies:10:1: horizontal angles begin at -40; the intensity counts as 0 before it\n"
        "can.ies:10:7: horizontal angles end at 40; the intensity counts as 0 after it\n");
  CHECK(messages_of(sample_of(Type::b, "-30 0 30", "-90 0 90", "1 5 1 1 9 1 1 5 1").text()) ==
        "can.ies:9:1: vertical angles begin at -30; from there to -90 the intensity counts as 0\n"
        "can.ies:9:7: vertical angles end at 30; from there to 90 the intensity counts as 0\n");
}

TEST_CASE("types A and B: a beam is the same whichever type tells it", "[photometry][property]") {
  // cos^4 about straight down: type B has cos V cos H for the cosine, type A sin of -V, type C cos gamma. Tables of 2
  // degrees hold a little too much light by the chords: (2 deg)^2 / 8 x the curvature of cos^4, 4, is 6e-4.
  const auto power = [](double cosine) { return 1000 * std::pow(std::max(0.0, cosine), 4); };
  std::string vertical, horizontal, b, a;
  for (int h = -90; h <= 90; h += 2) horizontal += std::to_string(h) + (h < 90 ? " " : "");
  for (int v = -90; v <= 90; v += 2) vertical += std::to_string(v) + (v < 90 ? " " : "");
  for (int h = -90; h <= 90; h += 2) {
    for (int v = -90; v <= 90; v += 2) {
      b += std::to_string(power(-direction(Type::b, v, h).z())) + ' ';
      a += std::to_string(power(-direction(Type::a, v, h).z())) + ' ';
    }
  }
  const double exact_lm = 2 * std::numbers::pi * 1000 / 5;
  const auto type_b = file_of(sample_of(Type::b, vertical, horizontal, b).text()).distribution;
  CHECK(lumens(type_b) == Approx(exact_lm).epsilon(1e-3));
  CHECK(zonal_lumens(type_b, 0, 90) == Approx(lumens(type_b)).epsilon(1e-4));  // the declared accuracy
  const double to_60 = exact_lm * (1 - std::pow(0.5, 5));
  CHECK(zonal_lumens(type_b, 0, 60) == Approx(to_60).epsilon(1e-3));
  // A covers the half of the sphere that looks along C 0.
  const auto type_a = file_of(sample_of(Type::a, vertical, horizontal, a).text()).distribution;
  CHECK(lumens(type_a) == Approx(exact_lm / 2).epsilon(1e-3));
}
