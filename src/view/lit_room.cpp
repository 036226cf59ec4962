#include "evenlit/view/lit_room.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <utility>

#include "evenlit/field/response.hpp"
#include "luminaire_look.hpp"
#include "surface_light.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

bool has_colours(const Scene& scene) {
  return std::ranges::any_of(scene.surfaces, [](const Surface& surface) {
    return (surface.tint - Eigen::Vector3d::Ones()).cwiseAbs().maxCoeff() > 1e-9;
  });
}

/// The room as one of the three colours meets it.
Scene in_colour(Scene scene, int colour) {
  constexpr double k_most_reflectance = 0.97;
  for (Surface& surface : scene.surfaces) {
    surface.reflectance = std::min(surface.reflectance * surface.tint[colour], k_most_reflectance);
  }
  return scene;
}

Eigen::MatrixXd by_group(const Eigen::MatrixXd& by_luminaire, const std::vector<LuminaireLook>& looks,
                         Eigen::Index groups) {
  Eigen::MatrixXd sums = Eigen::MatrixXd::Zero(by_luminaire.rows(), groups);
  for (Eigen::Index i = 0; i < by_luminaire.cols(); ++i) sums.col(looks[i].group) += by_luminaire.col(i);
  return sums;
}

SurfaceLight indirect_light(const Scene& scene, const std::vector<LuminaireLook>& looks, Eigen::Index groups,
                            const Progress& progress) {
  constexpr Accuracy k_as_an_eye_tells{.share = 0.01};
  constexpr double k_grey = 0.6;  // of the time where there are colours
  Lattice lattice = lattice_on(scene);
  const auto& points = lattice.points;
  const int colours = has_colours(scene) ? 3 : 0;
  Eigen::MatrixXd lx(std::ssize(points), (1 + colours) * groups);
  const Progress of_grey = part_of(progress, 0, colours > 0 ? k_grey : 1);
  lx.leftCols(groups) = by_group(response(scene, points, k_as_an_eye_tells, of_grey).indirect_lx, looks, groups);
  for (int colour = 0; colour < colours; ++colour) {
    // Only how the three compare is taken from them, which a coarse mesh tells.
    const auto done = [&](int count) { return k_grey + (1 - k_grey) * count / colours; };
    const Response light = response(in_colour(scene, colour), points, coarse_mesh(scene),
                                    part_of(progress, done(colour), done(colour + 1)));
    lx.middleCols((1 + colour) * groups, groups) = by_group(light.indirect_lx, looks, groups);
  }
  return {std::move(lattice), lx};
}

/// An eye does not tell a hundredth of luminance: beyond five sizes of a diffuse opening the point formula is as good
/// (`OpeningDetail`). The edge of a shadow along the side of a rectangle has as many steps as the rectangle has rows of
/// pieces, that of a disc, whose pieces stand in no rows, many more.
OpeningDetail display_detail(const Opening& opening) {
  return {.point_beyond = 5, .penumbra = opening.shape == Opening::Shape::rectangle ? 12 : 6};
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

LitRoom::LitRoom(Scene scene, std::vector<LuminaireLook> looks, const Progress& progress)
    : scene_(std::move(scene)),
      looks_(std::move(looks)),
      groups_(groups_of(looks_)),
      has_colours_(has_colours(scene_)),
      visibility_(scene_) {
  if (groups_ == 0) return;
  std::vector<std::shared_ptr<const LightSource>> sources;
  for (const auto& distribution : scene_.distributions) {
    sources.push_back(std::make_shared<const LightSource>(distribution));
  }
  for (const Luminaire& luminaire : scene_.luminaires) {
    lights_.emplace_back(luminaire, sources[luminaire.distribution], display_detail(luminaire.opening));
    if (!visibility_.is_always_clear()) lights_.back().add_to(openings_, visibility_);
  }
  indirect_ = std::make_shared<const SurfaceLight>(indirect_light(scene_, looks_, groups_, progress));
}

std::vector<Eigen::ArrayXXf> LitRoom::direct_lx(std::span<const FacetRun> runs) const {
  const bool is_clear = visibility_.is_always_clear();
  std::vector<Eigen::ArrayXXf> sums;
  Figures figures;
  for (const FacetRun& run : runs) {
    sums.emplace_back(Eigen::ArrayXXf::Zero(run.facets->size(), groups_));
    if (!is_clear) add_figure(scene_.surfaces[run.surface], *run.facets, visibility_, figures);
  }
  std::vector<Figures> points(runs.size());  // of each run, made where something hides a part of it
  Eigen::ArrayXf lx;
  View view;
  for (int light = 0; light < std::ssize(lights_); ++light) {
    if (!is_clear) visibility_.look(openings_, light, figures, 0, figures.size(), view);
    for (std::size_t i = 0; i < runs.size(); ++i) {
      const Sight sight = is_clear ? Sight::clear : view.sights[i];
      if (sight == Sight::hidden) continue;
      const Facets& facets = *runs[i].facets;
      lx.resize(facets.size());
      if (sight == Sight::clear) {
        lights_[light].open_illuminances(facets, 0, facets.size(), lx.data());
      } else {
        if (points[i].size() == 0) points[i] = visibility_.figures_of(facets.points(), facets.size());
        lights_[light].illuminances(visibility_, facets, points[i], 0, facets.size(), lx.data());
      }
      sums[i].col(looks_[light].group) += lx;
    }
  }
  return sums;
}

FacetLight LitRoom::with_indirect(const FacetRun& run, const Eigen::ArrayXXf& direct_lx) const {
  thread_local LightTable table;
  indirect_->look_up(run.surface, *run.facets, table);
  const auto indirect_lx = [&](int block) { return table.middleCols(block * groups_, groups_).array(); };
  FacetLight light{.lx = direct_lx + indirect_lx(0), .rgb_lx = {}};
  if (!has_colours_) return light;
  for (int colour = 0; colour < 3; ++colour) light.rgb_lx[colour] = direct_lx + indirect_lx(1 + colour);
  return light;
}

std::vector<FacetLight> LitRoom::light_on(std::span<const FacetRun> runs) const {
  const std::vector<Eigen::ArrayXXf> direct = direct_lx(runs);
  std::vector<FacetLight> lights;
  for (std::size_t i = 0; i < runs.size(); ++i) lights.push_back(with_indirect(runs[i], direct[i]));
  return lights;
}

}  // namespace evenlit
