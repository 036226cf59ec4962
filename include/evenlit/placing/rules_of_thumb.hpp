#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "evenlit/placing/comparison.hpp"

namespace evenlit {

/// Lumens of the cans over the floor's area that people take for living areas: 20 lm/ft2. Common practice, no source.
inline constexpr double k_usual_lumens_per_ft2 = 20;

/// What a rule of thumb chooses for a room.
struct RuleOfThumb {
  std::string name;              ///< `half height`
  std::string reckoning;         ///< the rule and its figures for this room, a sentence
  std::optional<int> count;      ///< of cans by the rule; empty where it cannot tell: `lacks`
  std::optional<Layout> layout;  ///< of as many cans, or of the next count that can be spaced nearly square
  std::string lacks;             ///< why there is no count or no layout, a sentence; empty where there is
};

/// The rules of thumb, for cans like those that `compared` lays out, the others of the job staying:
///
/// - spacing of half the ceiling's height at most, half of it at the walls (common practice, no source);
/// - spacing of the photometric file's spacing criterion (`spacing_criterion`, the smallest of the three) times the
///   height above the work plane at most;
/// - as many lumens leave the cans as the target asks to arrive: 1 fc is 1 lm/ft2 (common practice, no source);
/// - `k_usual_lumens_per_ft2`;
/// - the count with which the lumen method's average is the target (`lumen_method`).
///
/// Lumens are those of new cans at their levels; the lumen method counts with the light loss. Counts are rounded up. A
/// layout is `parted_layout` where the plan is several rectangles, else the even one with the most nearly square
/// spacing of the count or, where the spacings of that differ by half or more, of the next count of which they do not.
///
/// @param photometry one a can type, in the job's order
std::vector<RuleOfThumb> rules_of_thumb(const Job& job, const std::vector<PhotometricFile>& photometry);

/// What a rule's layout does beside the rest of the comparison.
struct RuleResult {
  const ComparedLayout* row = nullptr;  ///< of the comparison; null where the rule has no layout, or it was left out
  std::optional<double> above_target;   ///< average over target less 1; empty without a target
  std::optional<int> more_than_fewest;  ///< its cans less the fewest that reach the target; empty where either does not
};

RuleResult result_of(const RuleOfThumb& rule, const Comparison& comparison, std::optional<double> target_lx);

}  // namespace evenlit
