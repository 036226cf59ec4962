#pragma once

#include <string>
#include <vector>

namespace evenlit {

/// What a command ends with.
enum ExitStatus {
  k_done = 0,
  k_cannot_write = 1,  ///< the input was fine, an output could not be written
  k_bad_input = 2,     ///< a mistake in the command line or in a file; nothing was written
};

/// `evenlit light`: the light on a room's work plane.
///
/// @param arguments what stands after the command's name
int light_command(const std::vector<std::string>& arguments);

}  // namespace evenlit
