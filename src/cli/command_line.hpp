#pragma once

#include <cxxopts.hpp>
#include <string>
#include <vector>

#include "evenlit/base/result.hpp"

namespace evenlit {

/// What stands after a command's name, checked before cxxopts reads it: cxxopts takes the next option for a missing
/// value, the last of two equal options, and a misspelt option that has one dash for a group of letters.
///
/// @param options of the command; its program name is the place in messages, and every value is text
/// @param arguments what stands after the command's name
Result<cxxopts::ParseResult> command_line(cxxopts::Options& options, const std::vector<std::string>& arguments);

}  // namespace evenlit
