#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "evenlit/base/polygon.hpp"

namespace evenlit {

// Layouts from a rule. Rows run along x, columns along y of the plan's bounding rectangle, in which they are spread. Of
// a plan that is no such rectangle the places outside of it are dropped, and so are those nearer to a wall than half of
// the smaller wall offset or, where the offset is given, than that. An L is not cut into rectangles.

/// Places for cans on the plan.
struct Layout {
  std::string name;
  std::string type;  ///< of the cans; empty where the job settles it
  int rows = 0;      ///< of the grid before places are dropped
  int columns = 0;
  Eigen::Vector2d spacing_m = Eigen::Vector2d::Zero();      ///< between columns, between rows; of only one what twice
                                                            ///< its wall offset is; 0 where it is uneven
  Eigen::Vector2d wall_offset_m = Eigen::Vector2d::Zero();  ///< of the outermost columns and rows from the rectangle
  std::vector<Eigen::Vector2d> positions_m;                 ///< row by row from the south
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

/// Even spacing of half the ceiling's height at most. Common practice, no source. Empty where more than 400 places
/// would be needed.
std::optional<Layout> half_height_layout(const Polygon& plan_m, double ceiling_m);

/// Whether there are several columns (axis 0) or rows (axis 1), evenly spaced.
bool has_spacing(const Layout& layout, int axis);

/// The longer spacing over the shorter.
double spacing_ratio(const Layout& layout);

/// All even layouts of which the plan keeps just so many places, those with the most nearly square spacing first. In a
/// rectangle these are the factorisations of the count, one of them a single row; elsewhere there may be none.
///
/// @param count 1 ... k_most_counted
std::vector<Layout> even_layouts(const Polygon& plan_m, int count);

/// Layouts worth comparing.
struct LayoutChoice {
  std::vector<Layout> layouts;      ///< no two with the same places
  std::vector<int> without_layout;  ///< counts for which the plan has none
};

/// For each count: the even layout with the most nearly square spacing and the next where its spacing ratio is below
/// 1.5; its rows and columns at the usual wall offset; staggered and round the walls where the spacing ratio is below
/// 1.5; five on a die. Then the rule of half the ceiling's height where it takes `k_most_counted` cans or fewer.
///
/// @param counts each 1 ... k_most_counted
LayoutChoice layouts_to_compare(const Polygon& plan_m, double ceiling_m, std::span<const int> counts);

}  // namespace evenlit
