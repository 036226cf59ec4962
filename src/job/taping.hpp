#pragma once

#include <string_view>
#include <utility>
#include <vector>

#include "evenlit/job/job.hpp"
#include "toml_json.hpp"
#include "toml_layout.hpp"

namespace evenlit {

/// What measures and is measured from.
struct TapedRoom {
  Shape shape;
  Units units = Units::imperial;
};

/// The room and the units of a job file, whatever else is wrong with it.
Result<TapedRoom> taped_room(const TomlValue& document, std::string_view name);

/// The lengths to write so that a thing stands at a place of the plan: its centre, or the middle of its corners'
/// bounds.
///
/// What is taped from two walls stays taped from these; what is on a wall goes along it, as near as it can; what has
/// corners is shifted whole. Lengths are such as a tape shows; what is right already is not among them.
///
/// @param thing that `path` leads to
/// @errors no place that could be moved, walls and lengths that are none, a place behind one of the walls
Result<std::vector<std::pair<TomlPath, Json>>> lengths_to_move(const TomlValue& thing, const TomlPath& path,
                                                               const TapedRoom& room, const Eigen::Vector2d& to_m);

/// The tape measurements of a place from the two walls that are nearest to it, face it and meet at a good angle, that
/// across the plan first.
///
/// Empty where no two walls can be measured from.
///
/// @param place_m in the room
std::optional<Json> taped_from(const TapedRoom& room, const Eigen::Vector2d& place_m);

}  // namespace evenlit
