#include <catch2/catch.hpp>
#include <random>

#include "evenlit/moods/colour_display.hpp"
#include "pictured.hpp"

using namespace evenlit;
using Eigen::Vector3d;

namespace {

constexpr PictureSize k_size{200, 100};  // more than one block of pixels

/// Two groups of coloured light between 0 and 300 cd/m2, some of it none at all.
RoomView random_view() {
  std::mt19937_64 random(9);
  std::uniform_real_distribution<float> unit(0, 1);
  RoomView view{.size = k_size, .groups = {}, .sources = {}};
  for (int group = 0; group < 2; ++group) {
    LuminancePicture picture{k_size.width, k_size.height, {}};
    for (auto& plane : picture.rgb_cd_m2) {
      plane.resize(k_size.width * k_size.height);
      for (float& value : plane) value = unit(random) < 0.1F ? 0 : 300 * unit(random);
    }
    view.groups.push_back(picture);
  }
  return view;
}

const std::vector<Vector3d> k_white(2, Vector3d::Ones());
const std::vector<Vector3d> k_tinted{tint(black_body(1800), black_body(2700)),
                                     tint(black_body(5000), black_body(2700))};

float largest_difference(const LuminancePicture& a, const LuminancePicture& b) {
  float largest = 0;
  for (int i = 0; i < 3; ++i) largest = std::max(largest, (a.rgb_cd_m2[i] - b.rgb_cd_m2[i]).abs().maxCoeff());
  return largest;
}

}  // namespace

// All within single precision of some hundred cd/m2.
constexpr float k_rounding_cd_m2 = 1e-3F;

TEST_CASE("a mix in white light is the sum of levels times pictures", "[view][exact]") {
  const RoomView view = random_view();
  const LuminancePicture picture = mixed(view, std::vector<double>{0.25, 0.5}, k_white);
  LuminancePicture sum = view.groups[0];
  for (int i = 0; i < 3; ++i) sum.rgb_cd_m2[i] = 0.25 * view.groups[0].rgb_cd_m2[i] + 0.5 * view.groups[1].rgb_cd_m2[i];
  CHECK(largest_difference(picture, sum) < k_rounding_cd_m2);
}

TEST_CASE("a mix is linear in the levels, in any colours", "[view][property]") {
  const RoomView view = random_view();
  const LuminancePicture first = mixed(view, std::vector<double>{1, 0}, k_tinted);
  const LuminancePicture second = mixed(view, std::vector<double>{0, 1}, k_tinted);
  const LuminancePicture both = mixed(view, std::vector<double>{0.3, 0.7}, k_tinted);
  LuminancePicture sum = first;
  for (int i = 0; i < 3; ++i) sum.rgb_cd_m2[i] = 0.3 * first.rgb_cd_m2[i] + 0.7 * second.rgb_cd_m2[i];
  CHECK(largest_difference(both, sum) < k_rounding_cd_m2);
}

TEST_CASE("colours of light change no luminance", "[view][property]") {
  const RoomView view = random_view();
  const std::vector<double> levels{0.6, 0.9};
  const Eigen::ArrayXf white = luminances_cd_m2(mixed(view, levels, k_white));
  const LuminancePicture tinted = mixed(view, levels, k_tinted);
  CHECK((luminances_cd_m2(tinted) - white).abs().maxCoeff() < k_rounding_cd_m2);
  CHECK(largest_difference(tinted, mixed(view, levels, k_white)) > 10);
  // Red light on what reflects blue alone.
  const std::vector<Vector3d> red{{1 / 0.2126, 0, 0}, {1 / 0.2126, 0, 0}};
  const LuminancePicture in_red = mixed(view, levels, red);
  CHECK((luminances_cd_m2(in_red) - white).abs().maxCoeff() < k_rounding_cd_m2);
}

TEST_CASE("grey surfaces take the colour of the light", "[view][exact]") {
  RoomView view = random_view();
  for (auto& group : view.groups) group.rgb_cd_m2[1] = group.rgb_cd_m2[2] = group.rgb_cd_m2[0];
  const LuminancePicture picture = mixed(view, std::vector<double>{1, 0}, k_tinted);
  for (int i = 0; i < 3; ++i) {
    const Eigen::ArrayXf expected = static_cast<float>(k_tinted[0][i]) * view.groups[0].rgb_cd_m2[0];
    // Tints have luminance 1 by the primaries' own luminances, of which `k_luminance_of_rgb` has four digits.
    CHECK(((picture.rgb_cd_m2[i] - expected).abs() <= 2e-4F * expected + k_rounding_cd_m2).all());
  }
}
