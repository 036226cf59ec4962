#include "evenlit/placing/compared_job.hpp"

#include <cmath>

#include "ceilings.hpp"
#include "evenlit/photometry/synthetic.hpp"

using namespace evenlit;

namespace {

std::vector<PhotometricFile> files_of(const Job& job) {
  std::vector<PhotometricFile> files;
  for (const CanType& type : job.can_types) files.push_back(synthetic_file(*type.beam).value());
  return files;
}

}  // namespace

TEST_CASE("compared job: its row is the whole job with the light that it has alone", "[placing][property]") {
  const Job job = job_from(
      "target = \"5 fc\"\n" +
      bay_job("price = 20\nwatts = 9",
              "[can_types.globe]\nbeam = { lumens = 500, angle = 100 }\nprice = 30\nwatts = 5\n" + can_at(64, 40) +
                  "\n[[cans]]\ntype = \"globe\"\ndrop = \"2ft\"\nfrom = { west = \"120in\", south = \"80in\" }\n" +
                  can_at(160, 120)));
  const ComparedJob compared = compared_job("den", job, files_of(job), {}).value();
  const ComparedLayout& row = compared.row;
  CHECK(row.layout.name == "den");
  CHECK(row.layout.type == "six+globe");
  CHECK(row.count() == 3);
  CHECK(*row.cost == 70);
  CHECK(*row.watts == 23);
  const WorkPlaneLight light = work_plane_light(build_scene(job, files_of(job)), compared.grid, job.target_lx);
  // The order of the cans differs, and with it the rounding; the cut of the room need not be the same.
  CHECK(std::abs(row.statistics.average_lx - light.statistics.average_lx) <=
        row.average_error_lx + light.average_error_lx);
  REQUIRE(row.wants.size() == 1);
  CHECK(row.wants[0].has.value == row.statistics.average_lx);
  CHECK(comparison_of({compared, compared}).rows.size() == 2);
}

TEST_CASE("compared job: a work plane without a point is refused", "[placing][exact]") {
  Job job = job_from(bay_job("", can_at(64, 40)));
  job.work_plane.margin_m = 10;
  const auto refused = compared_job("den", job, files_of(job), whole_file("den.toml"));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().at(0).place == whole_file("den.toml"));
}
