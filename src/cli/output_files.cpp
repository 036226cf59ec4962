#include "output_files.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>

#include "held_signals.hpp"

namespace evenlit {
namespace {

namespace fs = std::filesystem;

fs::path folder_of(const fs::path& path) { return path.has_parent_path() ? path.parent_path() : fs::path("."); }

/// The path with every link and dot resolved, so that two spellings of one place are equal.
fs::path resolved(const fs::path& path) {
  std::error_code ignored;
  return fs::weakly_canonical(folder_of(path), ignored) / path.filename();
}

/// A name that is short, so that it fits wherever the output's own name does.
fs::path temporary_beside(const fs::path& path, std::size_t number) {
  return folder_of(path) / fmt::format(".evenlit.{}.{}.part", getpid(), number);
}

/// Makes a new file; false, with `errno` set, when it cannot be written to the end.
bool write_new(const fs::path& path, const std::string& bytes) {
  std::FILE* file = std::fopen(path.c_str(), "wbx");
  if (file == nullptr) return false;
  const bool is_whole = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size();
  const int reason = errno;
  const bool is_closed = std::fclose(file) == 0;
  if (!is_whole) errno = reason;
  return is_whole && is_closed;
}

void remove_all(const std::vector<fs::path>& paths) {
  for (const auto& path : paths) {
    std::error_code ignored;
    fs::remove(path, ignored);
  }
}

}  // namespace

std::vector<std::filesystem::path> paths_of(const std::vector<std::optional<std::filesystem::path>>& asked) {
  std::vector<std::filesystem::path> paths;
  for (const auto& path : asked) {
    if (path) paths.push_back(*path);
  }
  return paths;
}

Problems output_problems(const std::vector<fs::path>& paths, const InputFiles& inputs) {
  Problems problems;
  for (auto path = paths.begin(); path != paths.end(); ++path) {
    const auto add = [&](const char* what, const char* hint) {
      problems.push_back({whole_file(path->string()), what, hint});
    };
    const auto is_same = [&](const fs::path& other) { return resolved(other) == resolved(*path); };
    std::error_code ignored;
    const auto status = fs::status(*path, ignored);
    if (inputs.contains(*path)) {
      add("this is one of the files that were read", "choose another name for the output");
    } else if (std::any_of(paths.begin(), path, is_same)) {
      add("two outputs have this name", "choose another name for one of them");
    } else if (!fs::is_directory(folder_of(*path), ignored)) {
      add("its folder does not exist", "make the folder first");
    } else if (fs::is_directory(status)) {
      add("this is a folder", "name a file in it");
    } else if (fs::exists(status) && !fs::is_regular_file(status)) {
      add("this is a device or a pipe", "name a file");
    } else if (fs::exists(status) && access(path->c_str(), W_OK) != 0) {
      add("this file is protected against writing", "choose another name for the output");
    } else if (access(folder_of(*path).c_str(), W_OK | X_OK) != 0) {
      add("its folder is protected against writing", "choose another folder");
    }
  }
  return problems;
}

Result<std::monostate> write_all(const std::vector<OutputFile>& files) {
  const HeldSignals until_done;
  std::vector<fs::path> temporaries;
  for (const auto& file : files) {
    temporaries.push_back(temporary_beside(file.path, temporaries.size()));
    if (!write_new(temporaries.back(), file.bytes)) {
      const std::string reason = std::strerror(errno);
      remove_all(temporaries);
      return failure(whole_file(file.path.string()), "cannot be written: " + reason,
                     "choose another place for it; no output was written");
    }
  }
  for (std::size_t i = 0; i < files.size(); ++i) {
    std::error_code error;
    fs::rename(temporaries[i], files[i].path, error);
    if (error) {
      remove_all(temporaries);
      return failure(whole_file(files[i].path.string()), "cannot be written: " + error.message());
    }
  }
  return std::monostate{};
}

}  // namespace evenlit
