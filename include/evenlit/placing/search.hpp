#pragma once

#include "evenlit/placing/comparison.hpp"
#include "evenlit/placing/free_search.hpp"

namespace evenlit {

/// What a search is to look at.
struct SearchRequest {
  std::vector<std::string> types;  ///< of the job; none: that of the cans that `compared` lays out
  std::vector<int> counts;         ///< each 1 ... k_most_counted
};

/// A layout that a search has found, with its light as accurate as that of every other result.
struct SearchedLayout {
  enum class Kind {
    own,        ///< the job's
    brightest,  ///< in rows and columns, with the brightest darkest point
    giving,     ///< the same among those that give all light that is wanted, where it is another one
    free        ///< in no rows
  };

  Kind kind = Kind::own;
  ComparedLayout figures;
  double bound_lx = 0;     ///< of `free`: no so many cans on the raster make the darkest point brighter
  bool is_choice = false;  ///< of those not `free` none is better in one of money, darkest point and uniformity and no
                           ///< worse in the others; money is the number of cans where a price is not known
};

struct SearchResult {
  std::vector<SearchedLayout> layouts;  ///< the job's own first; then by type, count and kind
  std::optional<std::size_t> cheapest;  ///< of those not `free` that give all that is wanted and fit; of equal ones the
                                        ///< one with the brightest darkest point
  int others = 0;                       ///< `Comparison::others`
  bool are_prices_known = false;        ///< of all cans of all layouts
  double step_m = 0;                    ///< of the raster
  int places = 0;                       ///< that fit, of all types
  std::int64_t looked_at = 0;           ///< regular layouts
  std::vector<std::string> without_hole;   ///< types of which the job tells none: only the plan was minded
  std::vector<std::string> without_place;  ///< types that fit nowhere
  bool is_whole = true;                    ///< false where it was stopped
};

/// The best layouts of the job's cans: for each type and count the best in rows and columns, of all there are, and the
/// best found in no rows, with a bound. What is found in the light of a coarsely cut room is computed once more as
/// `compared` does.
///
/// Cans of the job that are not laid out stay, as in `compared`.
///
/// @param photometry one a can type, in the job's order
/// @param grid       of the job's work plane
/// @param place      of the job, for messages
/// @errors a limit on cost and a can type without a price, or on power and a type of unknown power; those of `compared`
Result<SearchResult> search(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                            const SearchRequest& request, const Place& place, const IsStopped& is_stopped = {},
                            const Progress& progress = {});

}  // namespace evenlit
