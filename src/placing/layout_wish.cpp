#include "evenlit/placing/layout_wish.hpp"

#include <algorithm>

#include "can_pattern.hpp"
#include "evenlit/placing/around.hpp"

namespace evenlit {
namespace {

/// Each layout with each type, those of a type together; a type named twice counts once.
std::vector<Layout> with_types(const std::vector<Layout>& layouts, const std::vector<std::string>& types) {
  std::vector<Layout> all;
  for (auto type = types.begin(); type != types.end(); ++type) {
    if (std::find(types.begin(), type, *type) != type) continue;
    for (const Layout& layout : layouts) {
      all.push_back(layout);
      all.back().type = *type;
    }
  }
  return all;
}

}  // namespace

WishedLayouts wished_layouts(const Job& job, const std::vector<PhotometricFile>& photometry, double ceiling_m,
                             const LayoutWish& wish) {
  const Polygon& plan = job.room.corners_m;
  const LayoutChoice choice = layouts_to_compare(plan, ceiling_m, wish.counts, wish.spacing);
  WishedLayouts wished{
      .choice = {.without_layout = choice.without_layout, .is_wish_too_close = choice.is_wish_too_close},
      .is_none_around = wish.around_m.has_value()};
  for (const Layout& layout : choice.layouts) {
    const auto centred = wish.about ? centred_on(*wish.about, layout, plan) : layout;
    if (centred) {
      wished.choice.add(*centred);
    } else {
      wished.not_centred.push_back(layout.name);
    }
  }
  for (const int count : wish.counts) {
    if (!wish.around_m) break;
    for (const Layout& layout : around_layouts(*wish.around_m, plan, count, wish.outside_m)) {
      wished.choice.add(layout);
      wished.is_none_around = false;
    }
  }
  const auto& types = wish.types;
  if (types.empty() || std::ranges::find(types, pattern_of(job).can.type) != types.end()) {
    wished.rules = rules_of_thumb(job, photometry);
  }
  for (const RuleOfThumb& rule : wished.rules) {
    if (rule.layout) wished.choice.add(*rule.layout);
  }
  if (!types.empty()) wished.choice.layouts = with_types(wished.choice.layouts, types);
  return wished;
}

}  // namespace evenlit
