#include "pictures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "evenlit/drawing/png.hpp"
#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/drawing/svg.hpp"
#include "evenlit/field/work_plane_light.hpp"

namespace evenlit {

std::string extension_of(const std::filesystem::path& path) {
  std::string extension = path.extension().string();
  for (char& c : extension) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return extension;
}

std::optional<std::filesystem::path> file_ending_in(OptionReader& reader, const std::string& option,
                                                    const std::string& ending, const std::string& kind) {
  const auto path = reader.text(option);
  if (path && extension_of(*path) != ending) {
    reader.problem(fmt::format("--{} {} is no {} file", option, *path, kind), "end the name in " + ending);
  }
  return path;
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

std::optional<Grid> map_grid(const Job& job, const Scene& scene, const Grid& grid, double close_m) {
  constexpr double k_most_a_side = 60;
  if (grid.spacing_m.maxCoeff() <= close_m && job.work_plane.margin_m == 0) return std::nullopt;
  const double longer_side_m = grid.spacing_m.cwiseProduct(Eigen::Vector2d(grid.columns, grid.rows)).maxCoeff();
  const WorkPlane close{.height_m = job.work_plane.height_m,
                        .spacing_m = std::max(close_m, longer_side_m / k_most_a_side),
                        .margin_m = 0};
  auto points = work_plane_grid(job.room, close, {}, scene.boxes);
  return points ? std::optional(std::move(*points)) : std::nullopt;
}

SampledField map_field(const Scene& scene, const Grid& map_grid, const MapDetail& detail, const Progress& progress) {
  const std::vector<Receiver> points = upward_receivers(map_grid);
  const Response table =
      std::visit([&](const auto& wanted) { return response(scene, points, wanted, progress); }, detail);
  return sampled_field(map_grid, field_at(table, levels_of(scene)).total_lx);
}

}  // namespace evenlit
