#pragma once

#include <filesystem>

#include "evenlit/photometry/read_photometric_file.hpp"
#include "input_files.hpp"

namespace evenlit {

/// Reads a photometric file, and tilt data that it keeps in a file beside it.
///
/// @param mentioned_at where its name stands, for the message; the file itself when it was named on the command line
/// @param reading      its neighbour is found here
Result<Noted<PhotometricFile>> load_photometry(const std::filesystem::path& path, const Place& mentioned_at,
                                               PhotometricReading reading, InputFiles& files);

}  // namespace evenlit
