#include "load_photometry.hpp"

#include <strings.h>

namespace evenlit {
namespace {

/// The file of that name in a folder, upper or lower case; empty where there is none.
std::optional<std::filesystem::path> find_in(const std::filesystem::path& folder, const std::string& name) {
  std::error_code ignored;
  for (const auto& entry : std::filesystem::directory_iterator(folder, ignored)) {
    if (strcasecmp(entry.path().filename().c_str(), name.c_str()) == 0) return folder / entry.path().filename();
  }
  return std::nullopt;
}

}  // namespace

Result<Noted<PhotometricFile>> load_photometry(const std::filesystem::path& path, const Place& mentioned_at,
                                               PhotometricReading reading, InputFiles& files) {
  const auto bytes = files.read(path, mentioned_at);
  if (!bytes) return tl::unexpected(bytes.error());
  reading.neighbour = [&](std::string_view name) -> std::optional<std::string> {
    const auto folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
    const auto found = find_in(folder, std::string(name));
    if (!found) return std::nullopt;
    const auto content = files.read(path.has_parent_path() ? *found : found->filename(), mentioned_at);
    return content ? std::optional(std::string(*content)) : std::nullopt;
  };
  return read_photometric_file(*bytes, path.string(), reading);
}

}  // namespace evenlit
