#include "evenlit/placing/rules_of_thumb.hpp"

#include <algorithm>
#include <cmath>

#include "ceilings.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "evenlit/placing/layout_wish.hpp"

using namespace evenlit;

namespace {

std::vector<PhotometricFile> files_of(const Job& job) {
  std::vector<PhotometricFile> files;
  for (const CanType& type : job.can_types) files.push_back(synthetic_file(*type.beam).value());
  return files;
}

Job room(const std::string& more = "", const std::string& rest = "") {
  return job_from("target = \"15 fc\"\n" + bay_job(more, rest + can_at(64, 40)));
}

RuleOfThumb rule_of(const Job& job, const std::string& name) {
  const std::vector<RuleOfThumb> rules = rules_of_thumb(job, files_of(job));
  const auto rule = std::ranges::find(rules, name, &RuleOfThumb::name);
  REQUIRE(rule != rules.end());
  return *rule;
}

}  // namespace

TEST_CASE("rules of thumb: spacing of half the ceiling's height", "[placing][exact]") {
  // 240 in by 160 in under 8 ft: five columns, four rows.
  const RuleOfThumb rule = rule_of(room(), "half height");
  CHECK(rule.count == 20);
  REQUIRE(rule.layout);
  CHECK(rule.layout->columns == 5);
  CHECK(rule.layout->rows == 4);
}

TEST_CASE("rules of thumb: lumens by the floor's area", "[placing][exact]") {
  // 266.67 ft2: 15 lm/ft2 are 4000 lm, 4.44 cans of 900 lm; 20 lm/ft2 are 5333 lm, 5.93 cans. Of five the spacings are
  // 48 in and 160 in, of six 80 in each.
  const RuleOfThumb by_target = rule_of(room(), "target's lumens");
  CHECK(by_target.count == 5);
  CHECK(by_target.layout->positions_m.size() == 6);
  CHECK(by_target.reckoning.find("15.0 lm/ft2 on 267 ft2 are 4000 lm, at 900 lm a can") != std::string::npos);
  CHECK(rule_of(room(), "usual lumens").count == 6);
  // New cans count, and their dimmers.
  CHECK(rule_of(room("light_loss = 0.5"), "target's lumens").count == 5);
  Job dimmed = room();
  dimmed.cans[0].level = 0.5;
  CHECK(rule_of(dimmed, "target's lumens").count == 9);
}

TEST_CASE("rules of thumb: cans that stay are taken off", "[placing][exact]") {
  const std::string globe = "[can_types.globe]\nbeam = { lumens = 1000, angle = 100 }\n";
  const std::string hanging =
      "\n[[cans]]\ntype = \"globe\"\ndrop = \"2ft\"\nfrom = { west = \"120in\", south = \"80in\" }\n";
  // 4000 lm less 1000 lm are 3.33 cans.
  CHECK(rule_of(room("", globe + hanging), "target's lumens").count == 4);
  Job bright = room("", globe + hanging);
  bright.can_types[1].beam->lumens = 9000;
  const RuleOfThumb none = rule_of(bright, "target's lumens");
  CHECK(none.count == 0);
  CHECK_FALSE(none.layout);
  CHECK(none.lacks == "The cans that stay are enough by this rule.");
}

TEST_CASE("rules of thumb: the lumen method's count is the least that reaches the target", "[placing][property]") {
  for (const double target_lx : {40.0, 150.0, 300.0, 430.0}) {
    CAPTURE(target_lx);
    Job job = room();
    job.target_lx = target_lx;
    const RuleOfThumb rule = rule_of(job, "lumen method");
    REQUIRE(rule.count);
    const auto average_lx = [&](int count) {
      Job with = job;
      with.cans.assign(static_cast<std::size_t>(count), job.cans.front());
      return lumen_method(build_scene(with, files_of(with)), with.work_plane.height_m).average_lx;
    };
    CHECK(average_lx(*rule.count) >= target_lx * (1 - 1e-9));
    if (*rule.count > 1) CHECK(average_lx(*rule.count - 1) < target_lx);
  }
}

TEST_CASE("rules of thumb: without a target, or with one out of reach, they say so", "[placing][exact]") {
  Job job = room();
  job.target_lx.reset();
  for (const char* name : {"target's lumens", "lumen method"}) {
    const RuleOfThumb rule = rule_of(job, name);
    CHECK_FALSE(rule.count);
    CHECK_FALSE(rule.layout);
    CHECK(rule.lacks == "It needs a target, and none is set.");
  }
  CHECK(rule_of(job, "usual lumens").count == 6);
  job.target_lx = 5000;
  CHECK(rule_of(job, "lumen method").count.value() > k_most_counted);
  CHECK_FALSE(rule_of(job, "lumen method").layout);
  job.cans[0].level = 0;
  CHECK_FALSE(rule_of(job, "lumen method").count);
}

TEST_CASE("rules of thumb: their layouts are part of the comparison, and are set beside it", "[placing][exact]") {
  Job job = room();
  job.work_plane.spacing_m = 1;
  const std::vector<PhotometricFile> files = files_of(job);
  LayoutWish wish{.counts = {4}};
  const WishedLayouts wished = wished_layouts(job, files, 8 * 12 * k_inch, wish);
  const Comparison comparison =
      compared(job, files, work_plane_grid(job.room, job.work_plane, {}).value(), wished.choice.layouts, {}).value();
  for (const RuleOfThumb& rule : wished.rules) {
    INFO(rule.name);
    const RuleResult result = result_of(rule, comparison, job.target_lx);
    REQUIRE(rule.layout);
    REQUIRE(result.row != nullptr);
    CHECK(result.row->layout.positions_m == rule.layout->positions_m);
    CHECK(*result.above_target == Approx(result.row->statistics.average_lx / *job.target_lx - 1).margin(1e-12));
    CHECK(result.more_than_fewest.has_value() == result.row->gives_all());
    if (result.more_than_fewest) CHECK(*result.more_than_fewest == result.row->count() - *comparison.fewest);
    CHECK_FALSE(result_of(rule, comparison, std::nullopt).above_target);
  }
}
