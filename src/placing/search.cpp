#include "evenlit/placing/search.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "can_pattern.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/base/parallel.hpp"

namespace evenlit {
namespace {

using Kind = SearchedLayout::Kind;

/// A layout that is to be computed once more.
struct Finalist {
  Kind kind = Kind::brightest;
  Layout layout;
  double bound_lx = 0;
};

/// What a limit of the job cannot be held against.
Problems unknown_limits(const Job& job, const Candidates& candidates, const Place& place) {
  Problems problems;
  const std::string type = quoted(candidates.type);
  if (job.wanted.cost && !(candidates.price && candidates.base_cost)) {
    problems.push_back({place,
                        fmt::format("the cost is limited, but can type {} or a can that stays has no price", type),
                        "add a line like price = 24.5 to each can type, or leave out the cost in [wanted]"});
  }
  if (job.wanted.watts && !(candidates.watts && candidates.base_watts)) {
    problems.push_back(
        {place, fmt::format("the power is limited, but that of can type {} or of a can that stays is not known", type),
         "add a line like watts = 10.5 to each can type, or leave out the watts in [wanted]"});
  }
  return problems;
}

/// The finalists of one type.
std::vector<Finalist> finalists(const Job& job, const Candidates& candidates, const std::vector<int>& counts,
                                const IsStopped& is_stopped, const Progress& progress, SearchResult& result) {
  const RegularLayouts regular = regular_layouts(job, candidates, counts, is_stopped, part_of(progress, 0, 0.5));
  std::vector<FreeLayout> free(counts.size());
  parallel_for(static_cast<int>(counts.size()), [&](int i) {
    const auto& start = regular.best[static_cast<std::size_t>(i)].brightest;
    free[static_cast<std::size_t>(i)] = free_layout(job, candidates, counts[static_cast<std::size_t>(i)],
                                                    start ? std::optional(start->layout) : std::nullopt, is_stopped);
  });
  if (progress) progress(1);
  result.looked_at += regular.looked_at;
  result.is_whole = result.is_whole && regular.is_whole &&
                    std::ranges::all_of(free, [](const FreeLayout& layout) { return layout.is_whole; });

  std::vector<Finalist> all;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    const auto& [brightest, giving] = regular.best[i];
    if (brightest) all.push_back({Kind::brightest, brightest->layout});
    if (giving && !has_same_places(giving->layout, brightest->layout)) all.push_back({Kind::giving, giving->layout});
    if (free[i].found) all.push_back({Kind::free, free[i].found->layout, free[i].bound_lx});
  }
  return all;
}

/// What a layout costs, in money where that is known of all.
double price_of(const SearchedLayout& layout, bool are_prices_known) {
  return are_prices_known ? *layout.figures.cost : layout.figures.count();
}

/// Whether the first is no worse than the second in anything and better in something.
bool is_better(const SearchedLayout& a, const SearchedLayout& b, bool are_prices_known) {
  const auto merits = [&](const SearchedLayout& layout) {
    const Statistics& light = layout.figures.statistics;
    return Eigen::Vector3d(-price_of(layout, are_prices_known), light.minimum_lx, light.uniformity_min_avg);
  };
  const Eigen::Array3d ahead = merits(a) - merits(b);
  return (ahead >= 0).all() && (ahead > 0).any();
}

void mark_choices(SearchResult& result) {
  for (SearchedLayout& layout : result.layouts) {
    layout.is_choice = layout.kind != Kind::free && std::ranges::none_of(result.layouts, [&](const auto& other) {
                         return other.kind != Kind::free && is_better(other, layout, result.are_prices_known);
                       });
  }
}

std::optional<std::size_t> cheapest(const SearchResult& result) {
  std::optional<std::size_t> best;
  const auto merit = [&](std::size_t i) {
    const SearchedLayout& layout = result.layouts[i];
    return std::pair(price_of(layout, result.are_prices_known), -layout.figures.statistics.minimum_lx);
  };
  for (std::size_t i = 0; i < result.layouts.size(); ++i) {
    const auto& [kind, figures, bound_lx, is_choice] = result.layouts[i];
    if (kind == Kind::free || !figures.gives_all() || figures.misfits.value_or(0) > 0) continue;
    if (!best || merit(i) < merit(*best)) best = i;
  }
  return best;
}

}  // namespace

Result<SearchResult> search(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                            const SearchRequest& request, const Place& place, const IsStopped& is_stopped,
                            const Progress& progress) {
  SearchResult result;
  std::vector<Finalist> found;
  Problems problems;
  const std::vector<std::string> types = request.types.empty() ? std::vector{pattern_of(job).can.type} : request.types;
  const double share = 0.9 / static_cast<double>(types.size());
  for (std::size_t i = 0; i < types.size(); ++i) {
    const Progress of_type = part_of(progress, share * static_cast<double>(i), share * static_cast<double>(i + 1));
    const auto places = candidates(job, photometry, grid, types[i], part_of(of_type, 0, 0.5));
    if (!places) return tl::unexpected(places.error());
    result.step_m = places->raster.step_m;
    result.places += static_cast<int>(places->raster.places_m.size());
    if (!type_named(job, types[i]).hole_m) result.without_hole.push_back(types[i]);
    if (places->raster.places_m.empty()) {
      result.without_place.push_back(types[i]);
      continue;
    }
    for (Problem& problem : unknown_limits(job, *places, place)) problems.push_back(std::move(problem));
    if (!problems.empty()) continue;
    for (Finalist& finalist : finalists(job, *places, request.counts, is_stopped, part_of(of_type, 0.5, 1), result)) {
      found.push_back(std::move(finalist));
    }
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));

  std::vector<Layout> layouts;
  for (const Finalist& finalist : found) layouts.push_back(finalist.layout);
  const auto comparison = compared(job, photometry, grid, layouts, place, false, part_of(progress, 0.9, 1));
  if (!comparison) return tl::unexpected(comparison.error());
  result.others = comparison->others;
  std::size_t next = 0;
  for (const ComparedLayout& row : comparison->rows) {
    if (!row.moves.empty()) continue;
    if (result.layouts.empty()) {
      result.layouts.push_back({.kind = Kind::own, .figures = row});
    } else {
      const Finalist& finalist = found[next++];
      result.layouts.push_back({.kind = finalist.kind, .figures = row, .bound_lx = finalist.bound_lx});
    }
  }
  result.are_prices_known =
      std::ranges::all_of(result.layouts, [](const SearchedLayout& layout) { return layout.figures.cost.has_value(); });
  mark_choices(result);
  result.cheapest = cheapest(result);
  return result;
}

}  // namespace evenlit
