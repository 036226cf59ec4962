#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/placing/doubted_light.hpp"
#include "evenlit/placing/layouts.hpp"
#include "evenlit/placing/moved_layout.hpp"
#include "evenlit/placing/wanted.hpp"

namespace evenlit {

/// A layout and what it does.
struct ComparedLayout {
  Layout layout;                ///< the job's own is called "as in the job" and has neither rows, columns nor spacing
  std::vector<PartMove> moves;  ///< of the layout in the row before, to clear what it hits; then the name ends in
                                ///< ", moved"
  bool is_straight = true;      ///< of the moves: rows and columns are as straight as they were
  bool is_spacing_even = true;  ///< of the moves: the spacing is as even as it was
  MovedLayout::Symmetry symmetry = MovedLayout::Symmetry::absent;  ///< of the moves
  std::vector<Can> cans;              ///< of the job with this layout, those that stay first
  std::vector<Luminaire> luminaires;  ///< one a can
  Field field;                        ///< on the grid's points
  Statistics statistics;              ///< on the work plane
  double average_error_lx = 0;        ///< the engine's estimate of its own numerical error
  double minimum_error_lx = 0;
  double floor_area_m2 = 0;            ///< of the room
  std::optional<double> watts;         ///< of all cans; empty where the power of one that is on is not known
  std::optional<double> cost;          ///< of all cans; empty where a price is not known
  std::vector<Want> wants;             ///< what the job wants of it, and what it gives
  std::optional<int> misfits;          ///< holes that do not fit, of all cans; empty where the type has no hole
  std::optional<LayoutDoubts> doubts;  ///< how sure all this is; empty where that was not asked (`doubts`)

  /// Whether it gives all that is wanted, and something is.
  [[nodiscard]] bool gives_all() const { return !wants.empty() && shortfall(wants) == 0; }

  [[nodiscard]] int count() const { return static_cast<int>(layout.positions_m.size()); }
};

/// Whether a layout is of another type than the first.
bool has_several_types(const std::vector<ComparedLayout>& rows);

/// Layouts side by side.
struct Comparison {
  std::string type;                   ///< of the cans that are laid out where a layout does not say
  int others = 0;                     ///< cans of the job that stay as they are in every layout
  std::vector<ComparedLayout> rows;   ///< the job's own first, a moved one after the one that it was
  std::optional<int> fewest;          ///< the smallest count of a layout that gives all that is wanted
  std::vector<std::string> left_out;  ///< layouts with a can inside of an obstruction
  std::vector<std::string> stuck;     ///< layouts that hit something and that `moved_to_fit` does not make fit, with a
                                      ///< type of their own where they have one
};

/// The light of each layout.
///
/// What is laid out are cans like most of the job's: of those that are flush with the ceiling the largest group that
/// differ in nothing but place. A layout takes that group's place, all other cans stay. If all of the job's cans hang
/// or stand lower, all stay and the layouts have cans of its first type, aimed straight down.
///
/// A layout that hits something, or lies on another can, is followed by itself as `moved_to_fit` moves it, where it
/// can.
///
/// A layout with a type of its own has cans of that type, in everything else like the job's.
///
/// All layouts are one scene: a position that several share is computed once, and `response` serves all of them.
///
/// @param job        one that `read_job` would accept
/// @param photometry one a can type, in the job's order
/// @param grid       of the job's work plane
/// @param place      of the job, for messages
/// @param layouts    whose types are the job's
/// @param may_move_single_cans `MoveRules::may_move_single_cans`
/// @errors a task area with a target that no receiver is left of; grid points times cans are more than the largest job
/// has, `k_most_grid_points` times 500
Result<Comparison> compared(const Job& job, const std::vector<PhotometricFile>& photometry, const Grid& grid,
                            const std::vector<Layout>& layouts, const Place& place, bool may_move_single_cans = false,
                            const Progress& progress = {});

/// The job with a layout in the place of the cans that `compared` lays out; those that stay come after.
Job with_layout(const Job& job, const Layout& layout);

}  // namespace evenlit
