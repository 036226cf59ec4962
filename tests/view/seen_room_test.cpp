#include "evenlit/view/seen_room.hpp"

#include <catch2/catch.hpp>

#include "evenlit/view/light_groups.hpp"
#include "moods/controlled_job.hpp"

using namespace evenlit;

namespace {

struct Seen {
  Job job = controlled_job();
  Camera camera = camera_of(job.room, default_viewpoint(job).value(), {64, 36});
  RoomView view = room_view(scene_of(job), luminaire_looks(job), camera);

  [[nodiscard]] SeenRoom at(double level) const {
    return seen_room(job, view, camera, std::vector<double>(job.cans.size(), level));
  }
};

double mean_cd_m2(const SeenRoom& room) { return luminances_cd_m2(room.picture).cast<double>().mean(); }

}  // namespace

TEST_CASE("seen room: twice the light is twice as bright, the veil included", "[view][property]") {
  const Seen seen;
  // Single precision, about 1e-7 a step.
  CHECK(mean_cd_m2(seen.at(1)) == Approx(2 * mean_cd_m2(seen.at(0.5))).epsilon(1e-5));
  CHECK(mean_cd_m2(seen.at(1)) > 1);
}

TEST_CASE("seen room: in the dark there is nothing, and no colour", "[view][exact]") {
  const Seen seen;
  const SeenRoom dark = seen.at(0);
  CHECK(luminances_cd_m2(dark.picture).abs().maxCoeff() == 0);
  CHECK(dark.light_rgb == Eigen::Vector3d::Ones());
  const Exposure exposure = common_exposure(std::vector<SeenRoom>{dark});
  for (const Rgb& pixel : displayed(dark.picture, exposure).pixels) CHECK(pixel == Rgb{0, 0, 0});
}

TEST_CASE("seen room: the veil only adds light", "[view][property]") {
  const Seen seen;
  const std::vector<double> levels(seen.job.cans.size(), 1.0);
  const LuminancePicture bare = mixed(seen.view, group_levels(seen.job, levels), group_tints(seen.job, levels, k_d65));
  const Eigen::ArrayXf veil = luminances_cd_m2(seen.at(1).picture) - luminances_cd_m2(bare);
  CHECK(veil.minCoeff() >= 0);
}

TEST_CASE("seen room: warm cans have warm light", "[view][exact]") {
  Seen seen;
  for (CanType& type : seen.job.can_types) {
    type.warm_dim_k.clear();
    type.cct_k = 2700;
  }
  const Eigen::Vector3d light = seen.at(1).light_rgb;
  CHECK(light[0] > light[1]);
  CHECK(light[1] > light[2]);
  CHECK(k_luminance_of_rgb.dot(light) == Approx(1).epsilon(1e-12));
}

TEST_CASE("seen room: one exposure shows the dimmer picture darker", "[view][exact]") {
  const Seen seen;
  const std::vector<SeenRoom> rooms{seen.at(1), seen.at(0.1)};
  const Exposure exposure = common_exposure(rooms);
  const auto mean_level = [&](const SeenRoom& room) {
    double sum = 0;
    for (const Rgb& pixel : displayed(room.picture, exposure).pixels) sum += pixel.green;
    return sum / (64 * 36);
  };
  CHECK(mean_level(rooms[1]) < 0.6 * mean_level(rooms[0]));
}
