#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "evenlit/drawing/drawing.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"

namespace evenlit {

/// The ending of a file's name in small letters, with its dot.
std::string extension_of(const std::filesystem::path& path);

/// The file that an option names for a picture, PNG or SVG; anything else is a problem.
std::optional<std::filesystem::path> picture(OptionReader& reader, const std::string& option);

/// A drawing as its file's name ends: SVG, or else a PNG of a width.
OutputFile drawn(const Drawing& drawing, const std::filesystem::path& path, const std::string& title, int width_px);

}  // namespace evenlit
