#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "eulumdat_layout.hpp"
#include "eulumdat_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

// What the symmetry indicator declares about the planes that are not stored: the intensity at C is that of the stored
// plane which the symmetry carries C to. Mirrored planes are exact copies, so the checks of planes are exact.

namespace {

std::vector<double> every(double step_deg) {
  std::vector<double> deg;
  for (int i = 0; i * step_deg < 360; ++i) deg.push_back(i * step_deg);
  return deg;
}

double at_45(const IntensityDistribution& d, double c_deg) { return intensity_at(d, 45, c_deg); }

/// Interpolation between mirrored planes runs the other way: four roundings of values below 1000.
auto equals(double value) { return Approx(value).epsilon(0).margin(1e-12); }

/// A value that tells the planes apart and falls between 200 and 236, so that the light output ratio stays near 100 %.
double own_value(double c_deg) { return 200 + c_deg / 10; }

/// The warnings about the symmetry only: what the intensities add up to is of no matter here.
IntensityDistribution distribution_of(EulumdatSample sample) { return eulumdat_file(sample.text()).distribution; }

}  // namespace

TEST_CASE("EULUMDAT: how many planes a file stores", "[photometry][formula]") {
  // Mc1 and Mc2 of the format's descriptions: 1 to Mc; 1; 1 to Mc/2 + 1; 3 Mc/4 + 1 to Mc/2 more; 1 to Mc/4 + 1.
  for (std::size_t mc = 1; mc <= 80; ++mc) {
    CAPTURE(mc);
    CHECK(stored_planes(0, mc) == mc);
    CHECK(stored_planes(1, mc) == 1U);
    CHECK(stored_planes(2, mc) == (mc % 2 == 0 ? std::optional(mc / 2 + 1) : std::nullopt));
    CHECK(stored_planes(3, mc) == (mc % 4 == 0 ? std::optional(mc / 2 + 1) : std::nullopt));
    CHECK(stored_planes(4, mc) == (mc % 4 == 0 ? std::optional(mc / 4 + 1) : std::nullopt));
  }
}

TEST_CASE("EULUMDAT: indicator 0 stores the full circle", "[photometry][formula]") {
  const auto d = distribution_of(eulumdat_planes(0, every(15), own_value));
  REQUIRE(d.c_deg.size() == 25);
  CHECK(d.c_deg.back() == 360);
  for (const double c : every(15)) CHECK(at_45(d, c) == own_value(c));
  CHECK(at_45(d, 360) == own_value(0));
  CHECK(at_45(d, 352.5) == equals((own_value(345) + own_value(0)) / 2));
}

TEST_CASE("EULUMDAT: indicator 1 is the same all around", "[photometry][formula]") {
  for (const double step : {15.0, 360.0}) {
    const auto d = distribution_of(eulumdat_planes(1, every(step), own_value));
    CHECK(d.c_deg == std::vector<double>{0});
    for (int c = 0; c <= 360; ++c) CHECK(at_45(d, c) == 200);
  }
}

TEST_CASE("EULUMDAT: indicator 2 mirrors C 0 to 180", "[photometry][formula]") {
  for (const double step : {7.5, 15.0, 30.0, 60.0, 90.0, 180.0}) {
    CAPTURE(step);
    const auto d = distribution_of(eulumdat_planes(2, every(step), own_value));
    for (const double c : every(step)) CHECK(at_45(d, c) == own_value(c > 180 ? 360 - c : c));
    for (int c = 0; c <= 180; ++c) CHECK(at_45(d, 360 - c) == equals(at_45(d, c)));
  }
}

TEST_CASE("EULUMDAT: indicator 3 stores C 270 over 0 to 90 and mirrors it", "[photometry][formula]") {
  for (const double step : {7.5, 15.0, 30.0, 90.0}) {
    CAPTURE(step);
    const auto d = distribution_of(eulumdat_planes(3, every(step), own_value));
    for (const double c : every(step)) {
      const double stored = c <= 90 || c >= 270 ? c : c < 180 ? 180 - c : 540 - c;
      CHECK(at_45(d, c) == own_value(stored == 360 ? 0 : stored));
    }
    for (int c = 0; c <= 360; ++c) CHECK(at_45(d, 180 - c) == equals(at_45(d, c)));
  }
}

TEST_CASE("EULUMDAT: indicator 4 mirrors C 0 to 90 into all quadrants", "[photometry][formula]") {
  for (const double step : {7.5, 15.0, 30.0, 90.0}) {
    CAPTURE(step);
    const auto d = distribution_of(eulumdat_planes(4, every(step), own_value));
    for (const double c : every(step)) {
      const double half = c > 180 ? 360 - c : c;
      CHECK(at_45(d, c) == own_value(half > 90 ? 180 - half : half));
    }
    for (int c = 0; c <= 360; ++c) {
      CHECK(at_45(d, 180 - c) == equals(at_45(d, c)));
      CHECK(at_45(d, -c) == equals(at_45(d, c)));
    }
  }
}

TEST_CASE("EULUMDAT: planes need not be equidistant, and keep the angles of their list", "[photometry][exact]") {
  // Symmetric to both planes, so that every indicator's planes stand at the computed places.
  const std::vector<double> c_deg = {0, 10.3, 33.3, 90, 146.7, 169.7, 180, 190.3, 213.3, 270, 326.7, 349.7};
  for (const int symmetry : {0, 2, 3, 4}) {
    CAPTURE(symmetry);
    const auto d = distribution_of(eulumdat_planes(symmetry, c_deg, own_value));
    REQUIRE(d.c_deg.size() == 13);
    // A mirrored angle such as 180 - 33.3 is rounded once more: half a unit of 360's last place.
    for (std::size_t i = 0; i < c_deg.size(); ++i) CHECK(d.c_deg[i] == Approx(c_deg[i]).epsilon(0).margin(1e-13));
    CHECK(d.c_deg[1] == 10.3);
    CHECK(d.c_deg[2] == 33.3);
  }
}

TEST_CASE("EULUMDAT: every way to store a symmetric luminaire gives the same light", "[photometry][property]") {
  const auto symmetric = [](double c) {
    const double half = c > 180 ? 360 - c : c;
    return own_value(half > 90 ? 180 - half : half);
  };
  const auto expected = distribution_of(eulumdat_planes(0, every(15), symmetric));
  for (const int symmetry : {2, 3, 4}) {
    CAPTURE(symmetry);
    CHECK(distribution_of(eulumdat_planes(symmetry, every(15), symmetric)) == expected);
  }

  auto all_planes = eulumdat_planes(0, every(15), symmetric);
  for (const std::string indicator : {"2", "3", "4"}) {
    CAPTURE(indicator);
    all_planes.line(3) = indicator;
    CHECK(distribution_of(all_planes) == expected);
  }
  auto closed = eulumdat_planes(0, every(15), symmetric);
  closed.line(4) = "25";
  closed.c_deg.push_back("360");
  closed.intensities.insert(closed.intensities.end(), closed.intensities.begin(), closed.intensities.begin() + 3);
  CHECK(distribution_of(closed) == expected);

  for (const int symmetry : {2, 3, 4}) {
    CAPTURE(symmetry);
    const auto usual = eulumdat_planes(symmetry, every(15), symmetric);
    auto closed_list = usual;
    closed_list.line(4) = "25";
    closed_list.c_deg.push_back("360");
    CHECK(distribution_of(closed_list) == expected);

    auto short_list = usual;
    std::erase_if(short_list.c_deg, [&](const std::string& c) {
      const int deg = std::stoi(c);
      return symmetry == 2 ? deg > 180 : symmetry == 4 ? deg > 90 : deg > 90 && deg < 270;
    });
    CHECK(distribution_of(short_list) == expected);

    short_list.line(4) = std::to_string(short_list.c_deg.size());
    if (symmetry != 3) CHECK(distribution_of(short_list) == expected);
  }

  auto from_270 = eulumdat_planes(3, every(15), symmetric);
  std::rotate(from_270.c_deg.begin(), from_270.c_deg.begin() + 18, from_270.c_deg.end());
  REQUIRE(from_270.c_deg.front() == "270");
  CHECK(distribution_of(from_270) == expected);
  from_270.c_deg.resize(13);
  CHECK(distribution_of(from_270) == expected);
}

TEST_CASE("EULUMDAT: a circle that begins elsewhere than at 0 keeps its planes", "[photometry][exact]") {
  std::vector<double> c_deg = every(30);
  for (double& c : c_deg) c += 7.5;
  const auto d = distribution_of(eulumdat_planes(0, c_deg, own_value));
  CHECK(d.c_deg.front() == 0);
  CHECK(d.c_deg.back() == 360);
  for (const double c : c_deg) CHECK(at_45(d, c) == own_value(c));
  // Between the planes at 337.5 and 7.5, a quarter of the way from the second.
  CHECK(at_45(d, 0) == equals(0.75 * own_value(7.5) + 0.25 * own_value(337.5)));
}

TEST_CASE("EULUMDAT: the poles get the mean around the circle", "[photometry][formula]") {
  auto sample = eulumdat_planes(0, every(90), own_value);
  for (std::size_t plane = 0; plane < 4; ++plane) sample.intensities[3 * plane] = std::to_string(300 + plane);
  const auto d = distribution_of(sample);
  for (Eigen::Index j = 0; j < d.candela.cols(); ++j) CHECK(d.candela(0, j) == equals(301.5));
}
