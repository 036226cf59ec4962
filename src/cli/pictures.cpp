#include "pictures.hpp"

#include <fmt/format.h>

#include <cctype>

#include "evenlit/drawing/png.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/drawing/svg.hpp"

namespace evenlit {

std::string extension_of(const std::filesystem::path& path) {
  std::string extension = path.extension().string();
  for (char& c : extension) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return extension;
}

std::optional<std::filesystem::path> picture(OptionReader& reader, const std::string& option) {
  const auto path = reader.text(option);
  if (!path) return std::nullopt;
  const std::string extension = extension_of(*path);
  if (extension != ".png" && extension != ".svg") {
    reader.problem(fmt::format("--{} {} is neither a PNG nor an SVG file", option, *path),
                   "end the name in .png or .svg");
  }
  return *path;
}

OutputFile drawn(const Drawing& drawing, const std::filesystem::path& path, const std::string& title, int width_px) {
  return {path, extension_of(path) == ".svg" ? svg(drawing, title) : png(rasterise(drawing, width_px))};
}

}  // namespace evenlit
