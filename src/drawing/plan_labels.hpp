#pragma once

#include <optional>
#include <string>
#include <vector>

#include "free_space.hpp"

namespace evenlit {

/// A name from the job as it is written beside a mark: not longer than a fifth of a map.
std::string short_name(const std::string& name);

/// A label in the first free place around a mark; empty where all is taken.
std::optional<Text> label_beside(const std::string& label, const Disc& mark, Weight weight, const FreeSpace& space);

/// Adds a label, if there is one, and takes its space.
void add_label(const std::optional<Text>& label, FreeSpace& space, std::vector<DrawingItem>& items);

}  // namespace evenlit
