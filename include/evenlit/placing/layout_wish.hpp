#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/placing/feature.hpp"
#include "evenlit/placing/layouts.hpp"
#include "evenlit/placing/rules_of_thumb.hpp"

namespace evenlit {

/// What somebody asks `compare` for.
struct LayoutWish {
  std::vector<int> counts;         ///< each 1 ... k_most_counted
  std::vector<std::string> types;  ///< of the job: each layout with each of them; none: that of the cans laid out
  SpacingWish spacing;
  std::optional<Polygon> around_m;  ///< a rectangle's corners, counter-clockwise: also layouts around it
  double outside_m = 0;             ///< of its edges
  std::optional<Feature> about;     ///< layouts are centred on it, as `centred_on` does
};

/// All layouts that are asked for and those of the rules of thumb. The latter, and layouts around something, are not
/// centred on a feature: they are where the rule or the thing says. Rules of thumb reckon with the type of the cans
/// that `compared` lays out: where that is not among the types asked for there are none.
struct WishedLayouts {
  LayoutChoice choice;
  std::vector<RuleOfThumb> rules;
  std::vector<std::string> not_centred;  ///< layouts of which a place would leave the room
  bool is_none_around = false;           ///< of those asked for none has all places in the room
};

/// @param photometry one a can type, in the job's order
WishedLayouts wished_layouts(const Job& job, const std::vector<PhotometricFile>& photometry, double ceiling_m,
                             const LayoutWish& wish);

}  // namespace evenlit
