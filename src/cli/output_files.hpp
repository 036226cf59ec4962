#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "input_files.hpp"

namespace evenlit {

/// A file to be written.
struct OutputFile {
  std::filesystem::path path;
  std::string bytes;
};

/// The files that are asked for.
std::vector<std::filesystem::path> paths_of(const std::vector<std::optional<std::filesystem::path>>& asked);

/// Problems that can be seen before any work is done: an output that would replace an input, another output or
/// something that is no file, or whose place cannot be written to.
Problems output_problems(const std::vector<std::filesystem::path>& paths, const InputFiles& inputs);

/// Writes every file under a temporary name beside its place, then renames them all: no file is ever half-written, and
/// none is touched unless all could be written. No temporary file is left behind, not even by Ctrl-C.
Result<std::monostate> write_all(const std::vector<OutputFile>& files);

}  // namespace evenlit
