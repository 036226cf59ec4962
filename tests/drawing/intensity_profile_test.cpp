#include "intensity_profile.hpp"

#include <catch2/catch.hpp>

#include "drawing/sample_distributions.hpp"

using namespace evenlit;

TEST_CASE("a round scale has three to five steps and reaches its top", "[drawing][property]") {
  CHECK(round_scale(833).top() == 1000);
  CHECK(round_scale(833).steps == 5);
  CHECK(round_scale(1000).top() == 1000);
  CHECK(round_scale(0).top() == 1);
  for (double top = 1e-3; top < 1e7; top *= 1.013) {
    const RoundScale scale = round_scale(top);
    CHECK(scale.steps >= 3);
    CHECK(scale.steps <= 5);
    CHECK(scale.top() >= top * (1 - 1e-9));  // but for noise in a top that is round
    CHECK(scale.top() <= 1.5 * top);
  }
}

TEST_CASE("a profile has the intensities of its plane and both sides of the data's end", "[drawing][exact]") {
  for (const auto& [name, distribution] : sample::distributions()) {
    INFO(name);
    for (const IntensityProfile& profile : intensity_profiles(distribution)) {
      CHECK(profile.points.front().angle_deg == -180);
      CHECK(profile.points.back().angle_deg == 180);
      CHECK(std::all_of(profile.points.begin(), profile.points.end(), [&](const ProfilePoint& point) {
        return point.candela == intensity_at(distribution, point.angle_deg, profile.c_deg);
      }));
    }
  }
  const IntensityProfile cut = intensity_profiles(sample::constant(55.25, 100)).at(0);
  const auto end =
      std::find_if(cut.points.begin(), cut.points.end(), [](const auto& p) { return p.angle_deg == 55.25; });
  REQUIRE(end != cut.points.end());
  CHECK(end->candela == 100);
  CHECK((end + 1)->candela == 0);
  CHECK((end + 1)->angle_deg == Approx(55.25).epsilon(0).margin(2e-6));
}

TEST_CASE("a table around a lying axis has its own peak in the profiles", "[drawing][exact]") {
  const std::vector<IntensityProfile> profiles = intensity_profiles(sample::along_c0());
  REQUIRE(profiles.size() == 1);  // both planes fall from 900 to 200 cd over 30 degrees, and end at 60
  const auto most = std::max_element(profiles[0].points.begin(), profiles[0].points.end(),
                                     [](const auto& a, const auto& b) { return a.candela < b.candela; });
  // sine and cosine of the table's right angles
  CHECK(most->candela == Approx(900).epsilon(1e-9));
  CHECK(most->angle_deg == Approx(0).margin(1e-5));
}

TEST_CASE("the reach of the light is told in both directions", "[drawing][exact]") {
  const auto up = sample::tabulated(180, [](double gamma, double) { return 500 * std::max(0.0, -std::cos(gamma)); });
  CHECK(nearest_deg(intensity_profiles(up), k_line_share) > 90);
  CHECK(farthest_deg(intensity_profiles(up), k_line_share) == 180);
  CHECK(farthest_deg(intensity_profiles(sample::constant(55, 100)), k_line_share) == 55);
  CHECK(farthest_deg(intensity_profiles(sample::constant(90, 0)), k_line_share) == 0);
}
