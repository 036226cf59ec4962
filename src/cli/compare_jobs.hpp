#pragma once

#include <filesystem>
#include <vector>

#include "compare_outputs.hpp"

namespace evenlit {

/// Compares whole jobs, each with its own cans: reads, computes, writes, prints.
///
/// @param paths of several job files
/// @return the program's exit status
int compare_jobs(const std::vector<std::filesystem::path>& paths, bool asks_what_if, const CompareOutputs& outputs);

}  // namespace evenlit
