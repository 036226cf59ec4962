#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "input_files.hpp"

namespace evenlit {

/// A job and the light of its can types.
struct LoadedJob {
  Job job;
  std::vector<PhotometricFile> photometry;  ///< one a can type
  Problems warnings;                        ///< what was put right in the photometric files
};

/// Reads a job file and the photometric files that it names, which stand relative to it.
Result<LoadedJob> load_job(const std::filesystem::path& path, InputFiles& files);

/// Types asked for by name that the job does not have.
///
/// @param path of the job, for messages
Problems unknown_types(const Job& job, const std::vector<std::string>& types, const std::filesystem::path& path);

}  // namespace evenlit
