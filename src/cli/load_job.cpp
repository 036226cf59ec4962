#include "load_job.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/names.hpp"
#include "evenlit/job/read_job.hpp"
#include "evenlit/photometry/synthetic.hpp"
#include "load_photometry.hpp"

namespace evenlit {
namespace {

Result<Noted<PhotometricFile>> photometry_of(const CanType& type, const std::filesystem::path& folder,
                                             InputFiles& files) {
  const Place& place = type.origin.place;
  if (type.beam) {
    return synthetic_file(*type.beam, place).map([](PhotometricFile made) {
      return Noted<PhotometricFile>{std::move(made), {}};
    });
  }
  auto file = load_photometry(folder / type.file, place, {.lamp_set = type.lamp_set, .quarters = type.quarters}, files);
  if (file && lumens(file->value.distribution) <= 0) {
    return failure(place, "the photometric file of can type \"" + type.name + "\" holds no light",
                   "choose a file whose candelas are not all 0");
  }
  if (file && type.lumens) file->value = rescaled(std::move(file->value), *type.lumens);
  return file;
}

/// Two can types that name one file share what is said about it.
void append_new(Problems& all, const Problems& more) {
  for (const auto& problem : more) {
    if (std::ranges::find(all, problem) == all.end()) all.push_back(problem);
  }
}

}  // namespace

Result<LoadedJob> load_job(const std::filesystem::path& path, InputFiles& files) {
  const auto bytes = files.read(path, whole_file(path.string()));
  if (!bytes) return tl::unexpected(bytes.error());
  auto job = read_job(*bytes, path.string());
  if (!job) return tl::unexpected(job.error());

  LoadedJob loaded{.job = std::move(*job), .photometry = {}, .warnings = {}};
  Problems problems;
  for (const auto& type : loaded.job.can_types) {
    auto file = photometry_of(type, path.parent_path(), files);
    if (!file) {
      append_new(problems, file.error());
      continue;
    }
    loaded.photometry.push_back(std::move(file->value));
    append_new(loaded.warnings, file->warnings);
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return loaded;
}

Problems unknown_types(const Job& job, const std::vector<std::string>& types, const std::filesystem::path& path) {
  std::vector<std::string_view> known;
  for (const CanType& type : job.can_types) known.push_back(type.name);
  Problems problems;
  for (const std::string& type : types) {
    if (std::ranges::find(known, type) != known.end()) continue;
    const std::string nearest = nearest_name(type, known);
    problems.push_back({whole_file(path.string()), fmt::format("the job has no can type {}", evenlit::quoted(type)),
                        nearest.empty() ? fmt::format("it has {}", fmt::join(known, ", "))
                                        : fmt::format("did you mean {}?", evenlit::quoted(nearest))});
  }
  return problems;
}

}  // namespace evenlit
