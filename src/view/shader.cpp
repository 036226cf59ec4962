#include "shader.hpp"

#include <algorithm>
#include <numbers>

#include "evenlit/base/srgb.hpp"

namespace evenlit {
namespace {

/// Pixels that are shaded together.
constexpr int k_tile_columns = 32;

}  // namespace

/// Parts of near pixels that show the same face.
struct Shader::Run {
  int face = 0;
  Facets facets;
  std::vector<Eigen::Index> pixels;
  std::vector<float> weights;
};

Shader::Shader(const LitRoom& room, const std::vector<ShownFace>& faces, const Eigen::Vector3d& eye_m)
    : room_(room), faces_(faces) {
  for (const ShownFace& face : faces) {
    const bool is_opening = face.kind == ShownFace::Kind::opening;
    paints_.push_back(paint_of(room.scene(), face));
    opening_cd_m2_.push_back(is_opening ? static_cast<float>(opening_cd_m2(room.scene(), room.looks()[face.luminaire],
                                                                           face.luminaire, eye_m))
                                        : 0);
  }
}

std::vector<Shader::Run> Shader::runs_of(const std::vector<std::vector<PixelPart>>& rows, int first_row, int last_row,
                                         int width) const {
  std::vector<Run> runs;
  std::vector<std::size_t> next(static_cast<std::size_t>(last_row - first_row));  // part of each row
  for (int left = 0; left < width; left += k_tile_columns) {
    const std::size_t of_tile = runs.size();
    for (int row = first_row; row < last_row; ++row) {
      const auto& parts = rows[row];
      std::size_t& at = next[row - first_row];
      for (; at < parts.size() && parts[at].column < left + k_tile_columns; ++at) {
        const PixelPart& part = parts[at];
        auto run = std::find_if(runs.begin() + static_cast<std::ptrdiff_t>(of_tile), runs.end(),
                                [&](const Run& one) { return one.face == part.face; });
        if (run == runs.end()) run = runs.insert(run, Run{.face = part.face});
        run->facets.add(part.position_m.cast<double>(), faces_[part.face].normal);
        run->pixels.push_back(static_cast<Eigen::Index>(row) * width + part.column);
        run->weights.push_back(part.weight);
      }
    }
  }
  return runs;
}

void Shader::put_reflected(const Run& run, const FacetLight& light, RoomView& view) const {
  const auto cd_m2_per_lx = static_cast<float>(paints_[run.face].reflectance / std::numbers::pi);
  const Eigen::Vector3f tint = paints_[run.face].tint.cast<float>();
  const Eigen::Vector3f luminance_of = k_luminance_of_rgb.cast<float>();
  const bool has_colours = light.rgb_lx[0].size() > 0;
  for (Eigen::Index group = 0; group < light.lx.cols(); ++group) {
    auto& planes = view.groups[group].rgb_cd_m2;
    for (Eigen::Index i = 0; i < light.lx.rows(); ++i) {
      const float cd_m2 = run.weights[i] * cd_m2_per_lx * light.lx(i, group);
      Eigen::Vector3f rgb = Eigen::Vector3f::Ones();
      if (has_colours) {
        for (int colour = 0; colour < 3; ++colour) rgb[colour] = tint[colour] * light.rgb_lx[colour](i, group);
        const float luminance = luminance_of.dot(rgb);
        rgb = luminance > 0 ? Eigen::Vector3f(rgb / luminance) : tint;
      }
      for (int colour = 0; colour < 3; ++colour) planes[colour][run.pixels[i]] += cd_m2 * rgb[colour];
    }
  }
}

void Shader::put_opening(const Run& run, RoomView& view) const {
  auto& planes = view.groups[room_.looks()[faces_[run.face].luminaire].group].rgb_cd_m2;
  for (std::size_t i = 0; i < run.pixels.size(); ++i) {
    for (auto& plane : planes) plane[run.pixels[i]] += run.weights[i] * opening_cd_m2_[run.face];
  }
}

void Shader::shade(const std::vector<std::vector<PixelPart>>& rows, int first_row, int last_row, RoomView& view) const {
  std::vector<Run> runs = runs_of(rows, first_row, last_row, view.size.width);
  for (const Run& run : runs) {
    if (faces_[run.face].kind == ShownFace::Kind::opening) put_opening(run, view);
  }
  std::erase_if(runs, [&](const Run& run) { return faces_[run.face].surface < 0; });
  std::vector<FacetRun> lit;
  for (const Run& run : runs) lit.push_back({faces_[run.face].surface, &run.facets});
  const std::vector<FacetLight> lights = room_.light_on(lit);
  for (std::size_t i = 0; i < runs.size(); ++i) put_reflected(runs[i], lights[i], view);
}

}  // namespace evenlit
