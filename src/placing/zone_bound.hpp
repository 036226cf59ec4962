#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/placing/regular_search.hpp"
#include "least_light.hpp"

namespace evenlit {

/// What may be chosen as a whole: cans, where the first of them is, and what they add to the points.
struct Choosable {
  int cans = 1;
  Eigen::Vector2d at_m;
  PointLight light;
};

/// Of no more cans, as what is written of a node is of fixed size.
inline constexpr int k_most_bounded = 8;

/// The darkest point of so many cans is no brighter than this, whatever is chosen: branch and bound over zones of the
/// plan. A node says how many choices of as many cans each of some zones has; the points are then no brighter than if
/// every choice were for each point the one of its zone that does most for that point, and their mean by `weights` no
/// more than if each were the one that does most for that. The brightest node is split: its largest zone is halved, its
/// choices shared in every way. The bound is that of the brightest node left, after so many nodes, or `found_lx` where
/// none is brighter.
///
/// @param count   1 ... k_most_bounded cans
/// @param weights of the points, padded with zeros, that add up to 1
/// @source A. H. Land, A. G. Doig, "An automatic method of solving discrete programming problems", Econometrica 28
///         (1960), for branch and bound
double zone_bound_lx(const std::vector<Choosable>& all, const PointLight& base, const PointLight& weights, int count,
                     double found_lx, const IsStopped& is_stopped);

}  // namespace evenlit
