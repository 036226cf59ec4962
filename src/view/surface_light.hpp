#pragma once

#include <Eigen/Core>
#include <vector>

#include "evenlit/field/direct.hpp"
#include "evenlit/field/trapezoids.hpp"
#include "evenlit/room/receiver.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// Points x columns.
using LightTable = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Steps along a length: the first and the last are the shortest, for where surfaces meet light changes most. From each
/// end the first steps grow by equal differences, those beyond are equal.
class Steps {
 public:
  /// @param usual_m what no step is longer than
  Steps(double length_m, double usual_m);

  [[nodiscard]] int count() const { return count_; }

  /// Where `step` steps (a fraction between) lead to, as a share of the length.
  [[nodiscard]] double share_at(double step) const;

  /// How many steps lead to a share of the length.
  [[nodiscard]] double step_at(double share) const;

 private:
  [[nodiscard]] double from_end(double step) const;
  [[nodiscard]] double steps_to(double from_end) const;

  int count_ = 1;
  double half_ = 0.5;  ///< of the length, in the usual step
};

/// Points on steps both ways over a trapezoid of a surface, those on its sides among them, row by row.
struct LatticePiece {
  Trapezoid corners;
  Steps across;
  Steps up;
  Eigen::Index first = 0;  ///< its first point among all

  [[nodiscard]] int columns() const { return across.count() + 1; }
  [[nodiscard]] int rows() const { return up.count() + 1; }
};

/// Points on everything that is free of the surfaces.
struct Lattice {
  struct OnSurface {
    FaceFrame frame;
    std::vector<LatticePiece> pieces;  ///< none where nothing is free
  };
  std::vector<OnSurface> surfaces;  ///< as the scene's
  std::vector<Receiver> points;     ///< those on the sides of a piece a little inside of it
};

/// Points 25 cm apart, nearer where surfaces end, farther where they would be more than ten
/// thousand.
Lattice lattice_on(const Scene& scene);

/// Light that is known on the points of a lattice, and between them by bicubic interpolation.
class SurfaceLight {
 public:
  /// @param at_points_lx lattice points x columns
  SurfaceLight(Lattice lattice, const Eigen::MatrixXd& at_points_lx);

  /// Facets x columns, lx.
  ///
  /// @param facets on one surface
  void look_up(int surface, const Facets& facets, LightTable& lx) const;

 private:
  std::vector<Lattice::OnSurface> surfaces_;  ///< each piece's first point counted in `lx_`
  LightTable lx_;                             ///< on points of steps that are cut
};

}  // namespace evenlit
