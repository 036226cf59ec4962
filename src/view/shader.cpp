#include "shader.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include "evenlit/base/srgb.hpp"
#include "luminaire_look.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

// White enamel, and a lens or a reflector that no light comes out of toward the eye: common practice, no source.
constexpr double k_trim_reflectance = 0.8;
constexpr double k_opening_reflectance = 0.3;

/// Pixels that are shaded together.
constexpr int k_tile_columns = 32;

/// An eye does not tell a hundredth of luminance: beyond five sizes of a diffuse opening the point formula is as good
/// (`OpeningDetail`). The edge of a shadow along the side of a rectangle has as many steps as the rectangle has rows of
/// pieces, that of a disc, whose pieces stand in no rows, many more.
OpeningDetail display_detail(const Opening& opening) {
  return {.point_beyond = 5, .penumbra = opening.shape == Opening::Shape::rectangle ? 12 : 6};
}

Paint paint_of(const Scene& scene, const ShownFace& face) {
  const auto of = [](double reflectance, const Vector3d& tint) {
    return Paint{static_cast<float>(reflectance / std::numbers::pi), tint.cast<float>()};
  };
  if (face.kind == ShownFace::Kind::trim) return of(k_trim_reflectance, Vector3d::Ones());
  if (face.kind == ShownFace::Kind::opening) return of(k_opening_reflectance, Vector3d::Ones());
  const Surface& surface = scene.surfaces[face.surface];
  return of(surface.reflectance, surface.tint);
}

/// As intensity over the area that is seen. Nearly edge on that of a flat opening vanishes, and what is left of the
/// light would be spread over nothing: it counts as no smaller than a twentieth of what it is from straight ahead.
float opening_cd_m2(const Scene& scene, const LuminaireLook& look, const Vector3d& eye_m, int index) {
  constexpr double k_least_share = 0.05;
  Luminaire luminaire = scene.luminaires[index];
  luminaire.opening = shown_opening(luminaire, look);
  const OpeningLight light = full_light_toward(scene, luminaire, eye_m);
  const Eigen::Vector2d sizes = opening_sizes_m(luminaire.opening);
  const double area_m2 = std::max(light.projected_area_m2, k_least_share * sizes.prod());
  return static_cast<float>(light.candela / area_m2);
}

int groups_of(const std::vector<LuminaireLook>& looks) {
  int groups = 0;
  for (const LuminaireLook& look : looks) groups = std::max(groups, look.group + 1);
  return groups;
}

/// Adds a rectangle around facets of one surface.
void add_figure(const Surface& surface, const Facets& facets, const Visibility& visibility, Figures& figures) {
  const FaceFrame frame = frame_of(surface.corners_m, surface.normal);
  Eigen::AlignedBox2d bounds;
  for (int i = 0; i < facets.size(); ++i) bounds.extend(frame.flat(facets.point(i).cast<double>()));
  const Vector3d corners[] = {frame.lifted(bounds.min()), frame.lifted({bounds.max().x(), bounds.min().y()}),
                              frame.lifted(bounds.max()), frame.lifted({bounds.min().x(), bounds.max().y()})};
  visibility.add(figures, frame.lifted(bounds.center()), bounds.diagonal().norm() / 2, corners);
}

}  // namespace

/// Parts of near pixels that show the same face.
struct Shader::Run {
  int face = 0;
  Facets facets;
  std::vector<Eigen::Index> pixels;
  std::vector<float> weights;
  Eigen::ArrayXXf direct_lx;  ///< parts x groups
};

Shader::Shader(const Scene& scene, const std::vector<LuminaireLook>& looks, const std::vector<ShownFace>& faces,
               const Vector3d& eye_m, const SurfaceLight& indirect, bool has_colours)
    : scene_(scene),
      looks_(looks),
      faces_(faces),
      indirect_(indirect),
      visibility_(scene),
      has_colours_(has_colours),
      groups_(groups_of(looks)) {
  for (const ShownFace& face : faces) {
    const bool is_opening = face.kind == ShownFace::Kind::opening;
    paints_.push_back(paint_of(scene, face));
    opening_cd_m2_.push_back(is_opening ? opening_cd_m2(scene, looks[face.luminaire], eye_m, face.luminaire) : 0);
  }
  std::vector<std::shared_ptr<const LightSource>> sources;
  for (const auto& distribution : scene.distributions) {
    sources.push_back(std::make_shared<const LightSource>(distribution));
  }
  for (const Luminaire& luminaire : scene.luminaires) {
    lights_.emplace_back(luminaire, sources[luminaire.distribution], display_detail(luminaire.opening));
    if (!visibility_.is_always_clear()) lights_.back().add_to(openings_, visibility_);
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

void Shader::add_direct(std::vector<Run>& runs) const {
  const bool is_clear = visibility_.is_always_clear();
  Figures figures;
  for (Run& run : runs) {
    run.direct_lx.setZero(run.facets.size(), groups_);
    if (!is_clear) add_figure(scene_.surfaces[faces_[run.face].surface], run.facets, visibility_, figures);
  }
  std::vector<Figures> points(runs.size());  // of each run, made where something hides a part of it
  Eigen::ArrayXf lx;
  View view;
  for (int light = 0; light < std::ssize(lights_); ++light) {
    if (!is_clear) visibility_.look(openings_, light, figures, 0, figures.size(), view);
    for (std::size_t i = 0; i < runs.size(); ++i) {
      const Sight sight = is_clear ? Sight::clear : view.sights[i];
      if (sight == Sight::hidden) continue;
      const Facets& facets = runs[i].facets;
      lx.resize(facets.size());
      if (sight == Sight::clear) {
        lights_[light].open_illuminances(facets, 0, facets.size(), lx.data());
      } else {
        if (points[i].size() == 0) points[i] = visibility_.figures_of(facets.points(), facets.size());
        lights_[light].illuminances(visibility_, facets, points[i], 0, facets.size(), lx.data());
      }
      runs[i].direct_lx.col(looks_[light].group) += lx;
    }
  }
}

void Shader::put_reflected(const Run& run, RoomView& view) const {
  thread_local LightTable indirect_lx;
  indirect_.look_up(faces_[run.face].surface, run.facets, indirect_lx);
  const Paint& paint = paints_[run.face];
  const Eigen::Vector3f luminance_of = k_luminance_of_rgb.cast<float>();
  for (int group = 0; group < groups_; ++group) {
    auto& planes = view.groups[group].rgb_cd_m2;
    for (Eigen::Index i = 0; i < run.direct_lx.rows(); ++i) {
      const float direct_lx = run.direct_lx(i, group);
      const float cd_m2 = run.weights[i] * paint.cd_m2_per_lx * (direct_lx + indirect_lx(i, group));
      Eigen::Vector3f rgb = Eigen::Vector3f::Ones();
      if (has_colours_) {
        const auto by_colour = [&](int colour) { return indirect_lx(i, (colour + 1) * groups_ + group); };
        const Eigen::Vector3f light_lx(by_colour(0), by_colour(1), by_colour(2));
        rgb = paint.tint.cwiseProduct(Eigen::Vector3f::Constant(direct_lx) + light_lx);
        const float luminance = luminance_of.dot(rgb);
        rgb = luminance > 0 ? Eigen::Vector3f(rgb / luminance) : paint.tint;
      }
      for (int colour = 0; colour < 3; ++colour) planes[colour][run.pixels[i]] += cd_m2 * rgb[colour];
    }
  }
}

void Shader::put_opening(const Run& run, RoomView& view) const {
  auto& planes = view.groups[looks_[faces_[run.face].luminaire].group].rgb_cd_m2;
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
  add_direct(runs);
  for (const Run& run : runs) put_reflected(run, view);
}

}  // namespace evenlit
