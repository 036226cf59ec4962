#include "evenlit/moods/colour_display.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace evenlit;
using Eigen::Matrix3d;
using Eigen::Vector3d;

namespace {

Matrix3d rgb_from_xyz() {
  Matrix3d matrix;
  matrix << linear_rgb(Vector3d::UnitX()), linear_rgb(Vector3d::UnitY()), linear_rgb(Vector3d::UnitZ());
  return matrix;
}

/// Luminances of full red, green and blue: IEC 61966-2-1:1999, to six digits from its primaries.
const Vector3d k_luminances(0.212639, 0.715169, 0.072192);

}  // namespace

TEST_CASE("the screen's white is 1, 1, 1", "[moods][exact]") {
  CHECK((linear_rgb(tristimulus(k_d65, 1)) - Vector3d::Ones()).norm() < 1e-14);  // a few roundings
}

// IEC 61966-2-1:1999 prints the inverse of a matrix already rounded to four digits: apart by up to 4e-4.
TEST_CASE("the standard's matrix", "[moods][published]") {
  Matrix3d standard;
  standard << 3.2406, -1.5372, -0.4986, -0.9689, 1.8758, 0.0415, 0.0557, -0.2040, 1.0570;
  CHECK((rgb_from_xyz() - standard).cwiseAbs().maxCoeff() < 5e-4);
}

// The same derivation from the primaries by another program, to six digits.
TEST_CASE("the matrix from the primaries", "[moods][reference]") {
  Matrix3d six_digits;
  six_digits << 3.240970, -1.537383, -0.498611, -0.969244, 1.875968, 0.041555, 0.055630, -0.203977, 1.056972;
  CHECK((rgb_from_xyz() - six_digits).cwiseAbs().maxCoeff() < 6e-7);
}

// IEC 61966-2-1:1999, the formula evaluated to six digits.
TEST_CASE("encoding", "[moods][formula]") {
  struct Row {
    double linear, share;
  };
  const auto row = GENERATE(values<Row>({{0, 0},
                                         {0.001, 0.012920},
                                         {0.0031308, 0.040450},
                                         {0.01, 0.099853},
                                         {0.05, 0.247801},
                                         {0.18, 0.461356},
                                         {0.214041, 0.5},
                                         {0.5, 0.735357},
                                         {1, 1}}));
  CHECK(encoded(row.linear) == Approx(row.share).margin(8e-7));  // half a digit, and half of one of 0.214041
}

// The Bradford matrix from D65 to D50 that profiles use (B. Lindbloom; from memory), to its seven digits.
TEST_CASE("adaptation from D65 to D50", "[moods][published]") {
  const Chromaticity d65 = chromaticity_of(Vector3d(0.95047, 1, 1.08883));
  const Chromaticity d50 = chromaticity_of(Vector3d(0.96422, 1, 0.82521));
  Matrix3d published;
  published << 1.0478112, 0.0228866, -0.0501270, 0.0295424, 0.9904844, -0.0170491, -0.0092345, 0.0150436, 0.7521316;
  Matrix3d ours;
  ours << adapted(Vector3d::UnitX(), d65, d50), adapted(Vector3d::UnitY(), d65, d50),
      adapted(Vector3d::UnitZ(), d65, d50);
  CHECK((ours - published).cwiseAbs().maxCoeff() < 1e-7);
}

TEST_CASE("adaptation turns one white into the other, and back", "[moods][property]") {
  const Chromaticity warm = black_body(2700);
  const Chromaticity cool = black_body(5000);
  CHECK((adapted(tristimulus(warm, 1), warm, cool) - tristimulus(cool, 1)).norm() < 1e-14);
  const Vector3d xyz(0.3, 0.2, 0.4);
  CHECK((adapted(adapted(xyz, warm, cool), cool, warm) - xyz).norm() < 1e-14);
  CHECK((adapted(xyz, warm, warm) - xyz).norm() < 1e-14);
}

// Black bodies by the standard's four-digit matrix, the largest channel as 1, by another program; the digits of that
// matrix make up to 5e-4.
TEST_CASE("black bodies on a screen to an eye that does not adapt", "[moods][reference]") {
  struct Row {
    double kelvin, green, blue;
  };
  const auto row = GENERATE(values<Row>({{2200, 0.304147, 0.028244},
                                         {2700, 0.415396, 0.099152},
                                         {3000, 0.476885, 0.153679},
                                         {3500, 0.570542, 0.259314},
                                         {4000, 0.653649, 0.377322},
                                         {5000, 0.791710, 0.628345}}));
  const Vector3d rgb = tint(black_body(row.kelvin), k_d65);
  CHECK(rgb.y() / rgb.x() == Approx(row.green).margin(5e-4));
  CHECK(rgb.z() / rgb.x() == Approx(row.blue).margin(5e-4));
}

TEST_CASE("light of the white that the eye is used to has no tint", "[moods][exact]") {
  const double kelvin = GENERATE(1800.0, 2700.0, 4000.0, 6500.0);
  CHECK((tint(black_body(kelvin), black_body(kelvin)) - Vector3d::Ones()).norm() < 1e-13);
}

// The luminances' six digits.
TEST_CASE("tints have luminance 1, and none of their parts is below 0", "[moods][property]") {
  for (double kelvin = 1000; kelvin <= 10'000; kelvin += 250) {
    for (double white = 1500; white <= 10'000; white += 500) {
      const Vector3d rgb = tint(black_body(kelvin), black_body(white));
      CHECK(rgb.dot(k_luminances) == Approx(1).margin(5e-6));
      CHECK(rgb.minCoeff() >= -1e-15);
      if (kelvin < white) CHECK(rgb.x() > rgb.z());
      if (kelvin > white) CHECK(rgb.x() < rgb.z());
    }
  }
}
