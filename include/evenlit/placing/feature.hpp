#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/placing/layouts.hpp"

namespace evenlit {

/// Something in the room that people see a layout against: a fireplace, a window, an island, a beam.
struct Feature {
  Eigen::Vector2d middle_m;
  std::optional<Eigen::Vector2d> only_along;  ///< unit; the one direction in which its middle counts; empty: every one
};

/// The job's obstruction, keep-out, member or wall area of that name, the first of them in this order. Of a wall area
/// its middle counts along the wall, of a member square to it. Empty where there is none.
std::optional<Feature> feature(const Job& job, std::string_view name);

/// The names that `feature` knows.
std::vector<std::string_view> feature_names(const Job& job);

/// Whether a layout centred on the feature is held along its rows and along its columns: in the directions, or the
/// nearer one of them, in which the feature's middle counts.
std::array<bool, 2> held_axes(const Feature& feature, const Eigen::Vector2d& along);

/// The layout moved as a whole so that its middle is on the feature's, in the directions in which that counts; its
/// spacing stays. Empty where a place would be outside of the plan or on a wall.
std::optional<Layout> centred_on(const Feature& feature, Layout layout, const Polygon& plan_m);

}  // namespace evenlit
