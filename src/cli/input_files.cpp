#include "input_files.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>
#include <optional>

namespace evenlit {
namespace {

constexpr std::size_t k_most_bytes = 64U << 20U;

/// At most one byte more than allowed; empty, with `errno` set, when the file cannot be read.
std::optional<std::string> bytes_of(const std::string& name) {
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(name.c_str(), "rb"), &std::fclose);
  if (!file) return std::nullopt;
  std::string bytes;
  std::string part(1U << 16U, '\0');
  while (bytes.size() <= k_most_bytes) {
    const std::size_t count = std::fread(part.data(), 1, part.size(), file.get());
    if (std::ferror(file.get()) != 0) return std::nullopt;
    if (count == 0) break;
    bytes.append(part, 0, count);
  }
  return bytes;
}

}  // namespace

Result<std::string_view> InputFiles::read(const std::filesystem::path& path, const Place& mentioned_at) {
  const std::string name = path.string();
  if (const auto known = content_.find(name); known != content_.end()) return known->second;

  const bool is_mentioned = mentioned_at.line > 0;
  const std::string subject = is_mentioned ? '"' + name + "\" " : "";
  std::error_code ignored;
  const auto status = std::filesystem::status(path, ignored);
  if (std::filesystem::is_directory(status)) {
    return failure(mentioned_at, subject + "is a folder", "name a file in it");
  }
  if (std::filesystem::exists(status) && !std::filesystem::is_regular_file(status)) {
    return failure(mentioned_at, subject + "is a device or a pipe", "name a file");
  }
  auto bytes = bytes_of(name);
  if (!bytes) {
    return failure(mentioned_at, subject + "cannot be read: " + std::strerror(errno),
                   is_mentioned ? "check the name; it counts from the folder of " + mentioned_at.file
                                : "check the name; it counts from the folder that you are in");
  }
  if (bytes->size() > k_most_bytes)
    return failure(mentioned_at, subject + "is larger than 64 MiB", "name the right file");
  return content_.emplace(name, std::move(*bytes)).first->second;
}

std::string InputFiles::text_of(const Problems& problems) const {
  std::string text;
  for (const auto& problem : problems) {
    const auto source = content_.find(problem.place.file);
    text += evenlit::text_of(problem, source == content_.end() ? std::string_view{} : source->second);
  }
  return text;
}

bool InputFiles::contains(const std::filesystem::path& path) const {
  return std::ranges::any_of(content_, [&](const auto& entry) {
    std::error_code ignored;
    return std::filesystem::equivalent(entry.first, path, ignored);
  });
}

}  // namespace evenlit
