#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>

#include "evenlit/base/result.hpp"

namespace evenlit {

/// The files that a command has read, by the names that messages call them; kept so that a message can show the line it
/// speaks of, and so that no output replaces an input.
class InputFiles {
 public:
  /// The content of a regular file of at most 64 MiB. The view lives as long as this object.
  ///
  /// @param mentioned_at where the name stands, for the message; the file itself when it was named on the command line
  Result<std::string_view> read(const std::filesystem::path& path, const Place& mentioned_at);

  /// The problems as shown to a person, each with the line it is about.
  [[nodiscard]] std::string text_of(const Problems& problems) const;

  /// Whether the path leads to a file that was read.
  [[nodiscard]] bool contains(const std::filesystem::path& path) const;

 private:
  std::map<std::string, std::string> content_;
};

}  // namespace evenlit
