#include "evenlit/placing/layout_wish.hpp"

#include <algorithm>

#include "ceilings.hpp"
#include "evenlit/photometry/synthetic.hpp"

using namespace evenlit;

namespace {

Job two_types() {
  return job_from(
      bay_job("price = 20", "[can_types.four]\nbeam = { lumens = 600, angle = 60 }\nhole = \"4-1/4in\"\nprice = 15\n" +
                                can_at(64, 40) + can_at(160, 40)));
}

std::vector<PhotometricFile> files_of(const Job& job) {
  std::vector<PhotometricFile> files;
  for (const CanType& type : job.can_types) files.push_back(synthetic_file(*type.beam).value());
  return files;
}

WishedLayouts wished(const Job& job, const std::vector<std::string>& types) {
  return wished_layouts(job, files_of(job), 8 * 12 * k_inch, {.counts = {4, 6}, .types = types});
}

}  // namespace

TEST_CASE("layout wish: each layout comes with each type, those of a type together", "[placing][exact]") {
  const Job job = two_types();
  const std::vector<Layout> plain = wished(job, {}).choice.layouts;
  const std::vector<Layout> typed = wished(job, {"four", "six", "four"}).choice.layouts;
  REQUIRE(typed.size() == 2 * plain.size());
  for (std::size_t i = 0; i < plain.size(); ++i) {
    CHECK(plain[i].type.empty());
    CHECK(typed[i].type == "four");
    CHECK(typed[plain.size() + i].type == "six");
    CHECK(has_same_places(typed[i], plain[i]));
    CHECK(has_same_places(typed[plain.size() + i], plain[i]));
  }
}

TEST_CASE("layout wish: rules of thumb reckon with the job's own type or not at all", "[placing][exact]") {
  const Job job = two_types();
  CHECK(wished(job, {"four"}).rules.empty());
  const WishedLayouts both = wished(job, {"four", "six"});
  REQUIRE_FALSE(both.rules.empty());
  const Grid grid = work_plane_grid(job.room, job.work_plane, {}).value();
  const Comparison comparison = compared(job, files_of(job), grid, both.choice.layouts, {}).value();
  CHECK(has_several_types(comparison.rows));
  for (const RuleOfThumb& rule : both.rules) {
    const RuleResult result = result_of(rule, comparison, job.target_lx);
    if (rule.layout) CHECK(result.row->layout.type == "six");
  }
  for (const ComparedLayout& row : comparison.rows) {
    CHECK(*row.cost == row.count() * (row.layout.type == "six" ? 20 : 15));
  }
}
