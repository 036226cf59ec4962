#include <catch2/catch.hpp>

#include "evenlit/base/light_units.hpp"
#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

Result<Job> job_with(const std::string& lines) { return read_job(std::string(k_sample_job) + lines, "den.toml"); }

std::string message_of(const std::string& lines) {
  const auto job = job_with(lines);
  REQUIRE_FALSE(job);
  return job.error().front().what;
}

}  // namespace

TEST_CASE("what a layout is to give is read with its units", "[job]") {
  const auto job = job_with(R"(
[wanted]
minimum = "5 fc"
uniformity = "40 %"
watts = 90
cost = 350.5
from_walls = "2ft"
symmetric = true
)");
  REQUIRE(job);
  // The foot-candle is defined by the foot; equal up to the last bit.
  CHECK(job->wanted.minimum_lx.value() == Approx(5 * k_lux_per_footcandle).epsilon(1e-15));
  CHECK(job->wanted.uniformity == 0.4);
  CHECK(job->wanted.watts == 90.0);
  CHECK(job->wanted.cost == 350.5);
  CHECK(job->wanted.from_walls_m.value() == Approx(0.6096).epsilon(1e-15));
  CHECK(job->wanted.is_symmetric);
}

TEST_CASE("a job that wants nothing in particular says so", "[job]") {
  const auto job = job_with("");
  REQUIRE(job);
  CHECK(job->wanted == Wanted{});
  CHECK(job->currency == "$");
}

TEST_CASE("what cannot be wanted is refused", "[job]") {
  CHECK(message_of("[wanted]\nuniformity = 0") == "wanted uniformity 0 is not above 0");
  CHECK(message_of("[wanted]\nuniformity = 1.2") == "wanted uniformity 1.2 is above 1");
  CHECK(message_of("[wanted]\nsymmetric = 1") == "wanted symmetric is a number, not true or false");
  CHECK(message_of("[wanted]\nminimum = 5") == "wanted minimum 5 has no unit");
  CHECK(message_of("[wanted]\ncost = -1") == "wanted cost -1 is below 0");
  CHECK(message_of("[wanted]\nevenness = 1") == "[wanted] knows no key \"evenness\"");
}
