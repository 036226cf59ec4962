#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

// Layouts from a rule, in the plan's own directions (`frame_of`): rows run along or square to most of its walls,
// whichever is nearer to east, columns square to them. Grids are spread over the bounding rectangle in these
// directions. Of a plan that is no such rectangle the places outside of it are dropped, and so are those nearer to a
// wall than half of the smaller wall offset or, where the offset is given, than that. `parted_layout` and
// `spaced_layout` spread over the plan's rectangles instead (`rectangles_of`).

/// One of the rectangles of a plan and its own grid.
struct LayoutPart {
  Eigen::Vector2d centre_m;
  int rows = 0;
  int columns = 0;
  Eigen::Vector2d spacing_m = Eigen::Vector2d::Zero();  ///< between columns, between rows; half of it at its sides
};

/// Places for cans on the plan.
struct Layout {
  std::string name;
  std::string type;                                  ///< of the cans; empty where the job settles it
  Eigen::Vector2d along = Eigen::Vector2d::UnitX();  ///< of its rows, unit, within 45 degrees of east
  int rows = 0;                                      ///< of the grid before places are dropped; 0 where it is none
  int columns = 0;
  Eigen::Vector2d spacing_m = Eigen::Vector2d::Zero();      ///< between columns, between rows; of only one what twice
                                                            ///< its wall offset is; 0 where it is uneven
  Eigen::Vector2d wall_offset_m = Eigen::Vector2d::Zero();  ///< of the outermost columns and rows from the rectangle
  std::vector<Eigen::Vector2d> positions_m;                 ///< row by row from the south, of each part
  std::vector<LayoutPart> parts;                            ///< several, those without cans left out, or none
  std::optional<Eigen::Vector2d> middle_m;                  ///< what it is centred on; empty: the rectangle's middle
  std::array<bool, 2> is_held{};  ///< along rows, along columns it is meant to be centred there
};

/// The usual distance of cans from walls: 30 in. Common practice, no source.
inline constexpr double k_usual_wall_offset_m = 0.762;

/// A layout from a count has at most so many cans.
inline constexpr int k_most_counted = 40;

/// Even spacing, half of it at the walls: n columns over a width w stand w/n apart, the first w/2n from the wall.
/// Common practice, no source. `rows` and `columns` are at least 1, here as below.
Layout even_layout(const Polygon& plan_m, int rows, int columns);

/// The outermost rows and columns so far from the walls, even spacing between; a single one in the middle. No places
/// where that leaves nothing to be spaced.
Layout offset_layout(const Polygon& plan_m, int rows, int columns, double wall_offset_m);

/// The outer ring of `offset_layout`.
Layout perimeter_layout(const Polygon& plan_m, int rows, int columns, double wall_offset_m);

/// `even_layout`, but every second row has a can less, each in the middle between two of the rows beside it.
Layout staggered_layout(const Polygon& plan_m, int rows, int columns);

/// Two rows of two and one in the middle.
Layout five_layout(const Polygon& plan_m);

/// The count shared among the plan's rectangles, a grid with half spacing at the sides in each. Of all shares and grids
/// those with the least mean squared distance from a point of the floor to the can in the middle of its cell: that
/// makes spacings alike, and cells as many as the area. A rectangle without cans counts as if one were at its corner.
/// Empty where the plan is one rectangle.
///
/// @param count 1 ... k_most_counted
std::optional<Layout> parted_layout(const Polygon& plan_m, int count);

/// Even spacing of so much at most, half of it at the walls, in each of the plan's rectangles; one narrower than half
/// of the spacing has none. Empty where more than 400 places would be needed, or none.
///
/// @param rule what the name tells, like `half height`
std::optional<Layout> spaced_layout(const Polygon& plan_m, double widest_m, const std::string& rule);

/// `offset_layout` with even spacing of so much at most. Empty where more than 400 places would be needed, or none.
std::optional<Layout> spaced_offset_layout(const Polygon& plan_m, double widest_m, double wall_offset_m);

/// Even spacing of half the ceiling's height at most. Common practice, no source. Empty as `spaced_layout`.
std::optional<Layout> half_height_layout(const Polygon& plan_m, double ceiling_m);

/// Whether there are several columns (axis 0) or rows (axis 1), evenly spaced.
bool has_spacing(const Layout& layout, int axis);

/// The longer spacing over the shorter.
double spacing_ratio(const Layout& layout);

/// Whether that is below 1.5.
bool is_nearly_square(const Layout& layout);

/// Whether two layouts have the same places in the same order.
bool has_same_places(const Layout& a, const Layout& b);

/// How far the outermost positions are from the sides of the plan's bounding rectangle in a layout's directions, the
/// larger of both; 0 without positions.
Eigen::Vector2d wall_offset_m(const Polygon& plan_m, const Eigen::Vector2d& along,
                              const std::vector<Eigen::Vector2d>& positions_m);

/// All even layouts of which the plan keeps just so many places, those with the most nearly square spacing first. In a
/// rectangle these are the factorisations of the count, one of them a single row; elsewhere there may be none.
///
/// @param count 1 ... k_most_counted
std::vector<Layout> even_layouts(const Polygon& plan_m, int count);

/// Layouts worth comparing.
struct LayoutChoice {
  std::vector<Layout> layouts;      ///< no two with the same places
  std::vector<int> without_layout;  ///< counts for which the plan has none
  bool is_wish_too_close = false;   ///< the spacing wished for takes more than `k_most_counted` cans: left out

  /// One more, but one whose places are known already.
  void add(const Layout& layout);
};

/// What somebody asks of the spacing.
struct SpacingWish {
  std::optional<double> widest_m;       ///< between cans
  std::optional<double> wall_offset_m;  ///< instead of the usual
};

/// For each count: shared among the plan's rectangles; the even layout with the most nearly square spacing and the next
/// where its spacing ratio is below 1.5; the single row where the room is 2.5 times as long as wide or longer; its rows
/// and columns at the usual wall offset; staggered and round the walls where the spacing ratio is below 1.5; five on a
/// die. Then the rule of half the ceiling's height and the widest spacing wished for, the latter also at the wall
/// offset wished for, where they take `k_most_counted` cans or fewer.
///
/// @param counts each 1 ... k_most_counted
LayoutChoice layouts_to_compare(const Polygon& plan_m, double ceiling_m, std::span<const int> counts,
                                const SpacingWish& wish = {});

}  // namespace evenlit
