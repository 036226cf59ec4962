#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <variant>

#include "evenlit/base/progress.hpp"
#include "evenlit/drawing/drawing.hpp"
#include "evenlit/drawing/sampled_field.hpp"
#include "evenlit/field/response.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/grid.hpp"
#include "evenlit/room/scene.hpp"
#include "option_reader.hpp"
#include "output_files.hpp"

namespace evenlit {

/// The ending of a file's name in small letters, with its dot.
std::string extension_of(const std::filesystem::path& path);

/// The file that an option names; a name of another ending is a problem.
///
/// @param ending like `.png`
/// @param kind   what such a file is, like `PNG`
std::optional<std::filesystem::path> file_ending_in(OptionReader& reader, const std::string& option,
                                                    const std::string& ending, const std::string& kind);

/// The file that an option names for a picture, PNG or SVG; anything else is a problem.
std::optional<std::filesystem::path> picture(OptionReader& reader, const std::string& option);

/// A drawing as its file's name ends: SVG, or else a PNG of a width.
OutputFile drawn(const Drawing& drawing, const std::filesystem::path& path, const std::string& title, int width_px);

/// No two points that a map is painted from are farther apart along a wall, but in the largest rooms.
inline constexpr double k_map_m = 0.3;
inline constexpr double k_rough_map_m = 0.7;

/// The points that a map of the work plane is painted from where the grid of the figures is too coarse for a picture or
/// leaves out a margin.
std::optional<Grid> map_grid(const Job& job, const Scene& scene, const Grid& grid, double close_m = k_map_m);

/// How well a map is computed: to an accuracy, or from a room that is cut as told.
using MapDetail = std::variant<Accuracy, MeshDetail>;

/// The light on a map's points.
SampledField map_field(const Scene& scene, const Grid& map_grid, const MapDetail& detail, const Progress& progress);

}  // namespace evenlit
