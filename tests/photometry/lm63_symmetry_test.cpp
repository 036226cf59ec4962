#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "lm63_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

// LM-63-2002 and LM-63-19, type C: what the range of the horizontal angles declares about the planes that are not
// given. The intensity at C is that of the given plane which the symmetry carries C to; copies are exact, so the checks
// are too.

namespace {

/// A file of three vertical angles and the given planes, with a different intensity in each.
Sample planes_at(const std::vector<double>& c_deg, const std::function<int(double)>& candela) {
  Sample sample;
  sample.version = "IESNA:LM-63-1995\n";
  sample.counts = "3 " + std::to_string(c_deg.size());
  sample.horizontal.clear();
  sample.candela.clear();
  for (const double c : c_deg) {
    sample.horizontal += std::to_string(c) + ' ';
    sample.candela += "1000 " + std::to_string(candela(c)) + " 0\n";
  }
  return sample;
}

double at_45(const IntensityDistribution& d, double c_deg) { return intensity_at(d, 45, c_deg); }

/// Angles that no plane and no middle between planes stands at.
constexpr std::array k_probes_deg = {3.0, 40.0, 89.0, 91.0, 140.0, 179.0, 181.0, 233.0, 269.0, 271.0, 305.0, 359.0};

/// Interpolation between mirrored planes runs the other way: four roundings of values below 1000.
auto equals(double value) { return Approx(value).epsilon(0).margin(1e-12); }

}  // namespace

TEST_CASE("LM-63: one plane is rotational", "[photometry][formula]") {
  const auto d = file_of(Sample{}.text()).distribution;
  CHECK(d.c_deg == std::vector<double>{0});
  for (const double c : k_probes_deg) CHECK(at_45(d, c) == 700);
}

TEST_CASE("LM-63: 0 to 90 repeats in every quadrant", "[photometry][formula]") {
  const auto sample = planes_at({0, 22.5, 45, 90}, [](double c) { return 100 + static_cast<int>(c * 4); });
  CHECK(messages_of(sample.text()).empty());
  const auto d = file_of(sample.text()).distribution;
  CHECK(d.c_deg == std::vector<double>{0, 22.5, 45, 90, 135, 157.5, 180, 202.5, 225, 270, 315, 337.5, 360});
  CHECK(at_45(d, 22.5) == 190);
  for (const double c : k_probes_deg) {
    CAPTURE(c);
    double folded = c > 180 ? 360 - c : c;
    folded = folded > 90 ? 180 - folded : folded;
    CHECK(at_45(d, c) == equals(100 + folded * 4));
    CHECK(at_45(d, c) == equals(at_45(d, 180 - c)));
    CHECK(at_45(d, c) == equals(at_45(d, 360 - c)));
  }
}

TEST_CASE("LM-63: 0 to 180 is mirrored in the 0-180 plane", "[photometry][formula]") {
  const auto sample = planes_at({0, 30, 90, 180}, [](double c) { return 100 + static_cast<int>(c * 2); });
  CHECK(messages_of(sample.text()).empty());
  const auto d = file_of(sample.text()).distribution;
  CHECK(d.c_deg == std::vector<double>{0, 30, 90, 180, 270, 330, 360});
  for (const double c : k_probes_deg) {
    CAPTURE(c);
    CHECK(at_45(d, c) == equals(100 + 2 * (c > 180 ? 360 - c : c)));
  }
}

TEST_CASE("LM-63: 90 to 270 is mirrored in the 90-270 plane", "[photometry][formula]") {
  const auto sample = planes_at({90, 120, 180, 270}, [](double c) { return static_cast<int>(c * 2); });
  CHECK(messages_of(sample.text()).empty());
  const auto d = file_of(sample.text()).distribution;
  CHECK(d.c_deg == std::vector<double>{0, 60, 90, 120, 180, 270, 360});
  for (const double c : k_probes_deg) {
    CAPTURE(c);
    const double folded = c < 90 ? 180 - c : c > 270 ? 540 - c : c;
    CHECK(at_45(d, c) == equals(2 * folded));
  }
}

TEST_CASE("LM-63: half sets that begin elsewhere are mirrored in the plane of their ends", "[photometry][formula]") {
  const auto candela = [](double c) { return 400 + static_cast<int>(std::fmod(c + 360, 360)); };
  const auto upper =
      file_of(planes_at({180, 200, 270, 360}, [](double c) { return 100 + static_cast<int>(c); }).text());
  CHECK(upper.distribution.c_deg == std::vector<double>{0, 90, 160, 180, 200, 270, 360});
  CHECK(at_45(upper.distribution, 160) == 300);
  CHECK(at_45(upper.distribution, 90) == 370);

  const auto front = file_of(planes_at({-90, -30, 0, 90}, candela).text()).distribution;
  const auto same = file_of(planes_at({270, 330, 360, 450}, candela).text()).distribution;
  CHECK(front.c_deg == std::vector<double>{0, 90, 180, 210, 270, 330, 360});
  CHECK(at_45(front, 210) == 400 + 330);
  CHECK(front == same);
}

TEST_CASE("LM-63: 0 to 360 is taken as it is", "[photometry][formula]") {
  const auto candela = [](double c) { return 100 + static_cast<int>(std::fmod(c, 360)); };
  const auto sample = planes_at({0, 90, 180, 270, 360}, candela);
  CHECK(messages_of(sample.text()).empty());
  const auto d = file_of(sample.text()).distribution;
  CHECK(d.c_deg == std::vector<double>{0, 90, 180, 270, 360});
  CHECK(at_45(d, 100) == equals(200));
  CHECK(at_45(d, 315) == equals((370 + 100) / 2.0));
}

TEST_CASE("LM-63: full sets that lack the last plane or begin elsewhere give the same light",
          "[photometry][property]") {
  const auto candela = [](double c) { return 100 + static_cast<int>(std::fmod(c + 720, 360)); };
  const auto expected = file_of(planes_at({0, 90, 180, 270, 360}, candela).text()).distribution;
  CHECK(file_of(planes_at({0, 90, 180, 270}, candela).text()).distribution == expected);
  CHECK(file_of(planes_at({-180, -90, 0, 90, 180}, candela).text()).distribution == expected);
  CHECK(file_of(planes_at({-180, -90, 0, 90}, candela).text()).distribution == expected);
  CHECK(file_of(planes_at({90, 180, 270, 360, 450}, candela).text()).distribution == expected);
  CHECK(file_of(planes_at({0.03, 90, 180, 270, 359.97}, candela).text()).distribution == expected);
  CHECK(file_of(planes_at({360, 270, 180, 90, 0}, candela).text()).distribution == expected);
}

TEST_CASE("LM-63: a full set without a plane at 0 gets the interpolated one", "[photometry][formula]") {
  const auto sample = planes_at({30, 90, 150, 210, 270, 330}, [](double c) { return 100 + static_cast<int>(c); });
  const auto d = file_of(sample.text()).distribution;
  CHECK(d.c_deg == std::vector<double>{0, 30, 90, 150, 210, 270, 330, 360});
  CHECK(at_45(d, 0) == (130 + 430) / 2.0);
  CHECK(at_45(d, 360) == (130 + 430) / 2.0);
  CHECK(at_45(d, 330) == 430);
}

TEST_CASE("LM-63: planes that are all equal make a rotational distribution", "[photometry][exact]") {
  const auto sample = planes_at({0, 45, 90}, [](double) { return 700; });
  CHECK(file_of(sample.text()).distribution == file_of(Sample{}.text()).distribution);
}

TEST_CASE("LM-63: the poles get the mean around the circle", "[photometry][formula]") {
  Sample sample;
  sample.counts = "3 3";
  sample.horizontal = "0 60 180";
  sample.candela = "100 50 0\n106 60 0\n97 70 0\n";
  const auto d = file_of(sample.text()).distribution;
  // Trapezoid over 0...180: (60 (100 + 106) + 120 (106 + 97)) / 2 / 180.
  const double mean = (60 * 206 + 120 * 203) / 2.0 / 180;
  for (Eigen::Index j = 0; j < d.candela.cols(); ++j) CHECK(d.candela(0, j) == Approx(mean).epsilon(1e-15));
  CHECK(d.candela.row(0).maxCoeff() == d.candela.row(0).minCoeff());
}
