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

/// Equal steps both ways over a trapezoid of a surface, points on its sides among them, row by row.
struct LatticePiece {
  Trapezoid corners;
  int columns = 0;
  int rows = 0;
  Eigen::Index first = 0;  ///< its first point among all

  [[nodiscard]] Eigen::Index count() const { return static_cast<Eigen::Index>(columns) * rows; }
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

/// Points some 25 cm apart, farther where there would be very many.
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
  Lattice finer_;  ///< its points left out
  LightTable lx_;  ///< on it
};

}  // namespace evenlit
