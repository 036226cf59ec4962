#pragma once

#include <Eigen/Core>
#include <memory>
#include <vector>

#include "evenlit/photometry/intensity_lookup.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/room/visibility.hpp"

namespace evenlit {

/// A distribution made ready for many rays.
struct LightSource {
  IntensityLookup lookup;
  double lumens;
  double detail_rad;            ///< over such an angle the intensity changes by its peak at most; 1 or less
  Eigen::Matrix3Xf directions;  ///< unit vectors all around, in the table's frame...
  Eigen::ArrayXf shares;        ///< ...and the share of the lumens that leaves around each

  explicit LightSource(const IntensityDistribution& distribution);
};

/// How finely a luminous opening is divided. An opening of largest size s with a soft beam is one point beyond
/// `point_beyond` s; nearer, it is divided so that the pieces are small against the distance. For a beam whose
/// intensity changes within an angle below 1 rad, distances count times that angle. Where something may hide a part of
/// the opening, it is divided at least `penumbra`-fold.
///
/// The point formula reads high by (s / 2d)^2 on the axis of a diffuse disc: 1 % at the five sizes of the usual rule
/// (ANSI/IES LS-1, "inverse-square law", note), 0.04 % at 25.
struct OpeningDetail {
  double point_beyond = 25;
  int penumbra = 12;  ///< 12 at most
};

struct OpeningPieces;

/// Plane facets that collect light, as arrays for loops that a compiler can vectorise.
struct Facets {
  std::vector<float> x_m, y_m, z_m;
  std::vector<float> nx, ny, nz;  ///< unit normals

  [[nodiscard]] int size() const { return static_cast<int>(x_m.size()); }
  [[nodiscard]] Points points(int first = 0) const {
    return {x_m.data() + first, y_m.data() + first, z_m.data() + first};
  }
  [[nodiscard]] FacetArrays arrays(int first = 0) const {
    return {x_m.data() + first, y_m.data() + first, z_m.data() + first,
            nx.data() + first,  ny.data() + first,  nz.data() + first};
  }
  [[nodiscard]] Eigen::Vector3f point(int i) const { return {x_m[i], y_m[i], z_m[i]}; }
  [[nodiscard]] Eigen::Vector3f normal(int i) const { return {nx[i], ny[i], nz[i]}; }
  void add(const Eigen::Vector3d& point_m, const Eigen::Vector3d& normal);
  void reserve(std::size_t count);
};

/// The light straight from a luminaire at full level.
class DirectLight {
 public:
  /// @param source of the luminaire's distribution
  DirectLight(const Luminaire& luminaire, std::shared_ptr<const LightSource> source, OpeningDetail detail = {});

  /// Illuminances of facets, lx: the sum over the pieces of the opening of I(direction) cos(incidence) / d^2, each
  /// piece sending its share of the whole distribution. Pieces that something hides add nothing; nor does a point in
  /// the opening itself.
  ///
  /// @param figures the facets' points as the visibility sees them; may be empty where nothing ever hides
  /// @param lx      one a facet of begin ... end - 1
  void illuminances(const Visibility& visibility, const Facets& facets, const Figures& figures, int begin, int end,
                    float* lx) const;

  /// The same as if nothing could hide anything.
  void open_illuminances(const Facets& facets, int begin, int end, float* lx) const;

  /// Adds the opening, or its centre when it is a point, as what is hidden.
  void add_to(Figures& figures, const Visibility& visibility) const;

  /// The same luminaire in other detail.
  [[nodiscard]] DirectLight with(OpeningDetail detail) const;

  /// The light that leaves the luminaire on the front side of every surface whose free part its centre lies on, lm:
  /// what a flush luminaire sends back into the ceiling is lost.
  [[nodiscard]] double lumens_into(const Scene& scene) const;

  [[nodiscard]] Eigen::Vector3f centre() const { return luminaire_.position_m.cast<float>(); }

 private:
  struct Rays;
  struct Divided;

  void illuminances(const Visibility* visibility, const View* view, const Facets& facets, int begin, int end,
                    float* lx) const;
  void light_from_centre(const Facets& facets, int begin, int end, float* lx) const;
  /// Replaces the light from the centre where the facet is near the opening or something hides.
  void mend_light(const Visibility* visibility, const View* view, const Facets& facets, int begin, int end,
                  float* lx) const;
  [[nodiscard]] bool is_behind(const Facets& facets, int facet) const;
  void light_from_pieces(const Visibility* visibility, const View* view, const Facets& facets,
                         const std::vector<Divided>& divided, int begin, float* lx) const;
  void hide(const Visibility& visibility, const View& view, int figure, const Eigen::Vector3f& point,
            const OpeningPieces& pieces, float* lx) const;
  [[nodiscard]] int fineness_at(double distance_m) const;

  Luminaire luminaire_;
  std::shared_ptr<const LightSource> source_;
  Eigen::Matrix<float, 3, 3, Eigen::RowMajor> table_from_room_;
  OpeningDetail detail_;
  double size_m_;                           ///< largest size of the opening
  Eigen::Matrix<float, 3, 2> half_axes_m_;  ///< from the centre to the opening's edge along C 0 and C 90
};

}  // namespace evenlit
