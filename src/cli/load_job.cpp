#include "load_job.hpp"

#include <algorithm>

#include "evenlit/job/read_job.hpp"
#include "evenlit/photometry/lm63.hpp"
#include "evenlit/photometry/synthetic.hpp"

namespace evenlit {
namespace {

Noted<PhotometricFile> synthetic(const SyntheticBeam& beam) {
  PhotometricFile file;
  file.format = "synthetic beam";
  file.distribution = cosine_power_beam(beam.lumens, beam.beam_angle_deg);
  return {std::move(file), {}};
}

Result<Noted<PhotometricFile>> photometry_of(const CanType& type, const std::filesystem::path& folder,
                                             InputFiles& files) {
  if (type.beam) return synthetic(*type.beam);
  const auto path = folder / type.file;
  const auto bytes = files.read(path, type.origin.place);
  if (!bytes) return tl::unexpected(bytes.error());
  auto file = read_lm63(*bytes, path.string());
  if (file && lumens(file->value.distribution) <= 0) {
    return failure(type.origin.place, "the photometric file of can type \"" + type.name + "\" holds no light",
                   "choose a file whose candelas are not all 0");
  }
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

}  // namespace evenlit
