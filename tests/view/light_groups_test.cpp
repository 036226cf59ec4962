#include "evenlit/view/light_groups.hpp"

#include <catch2/catch.hpp>

#include "evenlit/moods/colour_display.hpp"
#include "moods/controlled_job.hpp"

using namespace evenlit;
using Eigen::Vector3d;

TEST_CASE("cans of one circuit and type are a group, a can on none by type and level", "[view][exact]") {
  Job job = controlled_job();  // deep, shallow, shallow on "ceiling", deep on "entry", shallow on none at 0.5
  job.cans.push_back(job.cans.back());
  job.cans.push_back(job.cans.back());
  job.cans.back().level = 0.4;
  job.can_types[0].hole_m = 0.11;
  std::vector<int> groups;
  for (const LuminaireLook& look : luminaire_looks(job)) groups.push_back(look.group);
  CHECK(groups == std::vector<int>{0, 1, 1, 2, 3, 3, 4});
  CHECK(luminaire_looks(job)[0].hole_m == 0.11);
  CHECK_FALSE(luminaire_looks(job)[1].hole_m);
}

TEST_CASE("a group has the level of its cans", "[view][exact]") {
  const Job job = controlled_job();
  CHECK(group_levels(job, std::vector<double>{0.1, 0.2, 0.2, 1, 0.5}) == std::vector<double>{0.1, 0.2, 1, 0.5});
}

TEST_CASE("a group has the colour of its cans at their level", "[view][exact]") {
  Job job = controlled_job();
  job.can_types[0].warm_dim_k = {{0.1, 1800}, {1, 3000}};
  const Chromaticity white = black_body(3000);
  const auto tints = group_tints(job, std::vector<double>{0.1, 1, 1, 1, 0.5}, white);
  REQUIRE(tints.size() == 4);
  CHECK((tints[0] - tint(black_body(1800), white)).norm() == 0);
  CHECK(tints[1] == Vector3d::Ones());                  // the job does not say
  CHECK((tints[2] - Vector3d::Ones()).norm() < 1e-12);  // the white itself
  CHECK(tints[0].x() > 1.1);
  job.can_types[1].cct_k = 4000;
  CHECK(group_tints(job, std::vector<double>(5, 1.0), white)[1].z() > 1.1);
}
