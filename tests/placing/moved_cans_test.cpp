#include "evenlit/placing/moved_cans.hpp"

#include <catch2/catch.hpp>

#include "evenlit/job/read_job.hpp"

using namespace evenlit;

namespace {

/// Two cans in a room with joists at 11, 27, 43 in ... from the west wall, the first so far from it.
Job job_with_can_at(const std::string& from_west) {
  const auto job = read_job(
      "[room]\nwidth = \"12ft\"\ndepth = \"10ft\"\nceiling = \"8ft\"\n"
      "[joists]\nparallel_to = \"west\"\nfirst = \"11in\"\nspacing = \"16in\"\n"
      "[can_types.six]\nbeam = { lumens = 800, angle = 60 }\nhole = \"6-3/8in\"\n"
      "[[cans]]\ntype = \"six\"\nfrom = { west = \"" +
          from_west +
          "\", south = \"5ft\" }\n"
          "[[cans]]\ntype = \"six\"\nfrom = { west = \"67in\", south = \"5ft\" }\n",
      "den.toml");
  INFO((job ? std::string() : text_of(job.error())));
  REQUIRE(job);
  return *job;
}

}  // namespace

TEST_CASE("moved cans: which, from where, and what was in their way", "[placing][exact]") {
  const auto moved = moved_cans(job_with_can_at("28in"), job_with_can_at("35in"));
  REQUIRE(moved.size() == 1);
  CHECK(moved[0].can == 0);
  CHECK((moved[0].was_m - Eigen::Vector2d(28 * 0.0254, 60 * 0.0254)).norm() < 1e-12);
  REQUIRE_FALSE(moved[0].hits.empty());
  CHECK(moved[0].hits[0].kind == Obstacle::Kind::framing);
}

TEST_CASE("moved cans: what stays is none, what moves for its looks has nothing in its way", "[placing][exact]") {
  CHECK(moved_cans(job_with_can_at("35in"), job_with_can_at("35in")).empty());
  CHECK(moved_cans(job_with_can_at("35in"), job_with_can_at("35-1/64in")).empty());  // less than a tape shows
  const auto moved = moved_cans(job_with_can_at("35in"), job_with_can_at("36in"));
  REQUIRE(moved.size() == 1);
  CHECK(moved[0].hits.empty());
}
