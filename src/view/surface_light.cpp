#include "surface_light.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "free_pieces.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// Into so many steps each step of the lattice is cut by bicubic interpolation; between these it is bilinear.
constexpr int k_finer = 4;

/// The usual spacing, or the first one wider by steps of a quarter that is within the most points; there is no end to
/// points where every piece has its four corners.
double spacing_m(const std::vector<Trapezoid>& pieces) {
  constexpr double k_usual_m = 0.25;
  constexpr int k_most_points = 10'000;
  constexpr int k_most_steps = 16;
  const auto is_few = [&](double spacing) {
    std::int64_t points = 0;
    for (const Trapezoid& piece : pieces) {
      points +=
          std::int64_t{Steps(width_m(piece), spacing).count() + 1} * (Steps(height_m(piece), spacing).count() + 1);
    }
    return points <= k_most_points;
  };
  double spacing = k_usual_m;
  for (int step = 0; step < k_most_steps && !is_few(spacing); ++step) spacing *= 1.25;
  return spacing;
}

Vector2d place_in(const Trapezoid& piece, double across, double up) {
  return (1 - up) * ((1 - across) * piece[0] + across * piece[1]) + up * ((1 - across) * piece[3] + across * piece[2]);
}

/// A point on a side of a piece is moved inside: where surfaces meet, light is hard to tell.
void add_points(const LatticePiece& piece, const FaceFrame& frame, const Vector3d& normal,
                std::vector<Receiver>& points) {
  constexpr double k_inside_m = 5e-3;
  const auto margin = [](double length_m) { return std::min(0.25, k_inside_m / length_m); };
  const double aside = margin(width_m(piece.corners));
  const double above = margin(height_m(piece.corners));
  for (int row = 0; row < piece.rows(); ++row) {
    for (int column = 0; column < piece.columns(); ++column) {
      const double across = std::clamp(piece.across.share_at(column), aside, 1 - aside);
      const double up = std::clamp(piece.up.share_at(row), above, 1 - above);
      points.push_back({frame.lifted(place_in(piece.corners, across, up)), normal});
    }
  }
}

/// Points on steps that are cut.
Eigen::Index finer(int points) { return static_cast<Eigen::Index>(k_finer) * (points - 1) + 1; }

/// From values at `count` equal steps to values at `k_finer` times as many: cubic convolution, which takes for the
/// value before the first what a parabola through the first three says.
Eigen::MatrixXd cubic_weights(int count) {
  Eigen::MatrixXd weights = Eigen::MatrixXd::Zero(finer(count), count);
  const auto add = [&](int row, int index, double weight) {
    const int last = count - 1;
    if (index >= 0 && index <= last) {
      weights(row, index) += weight;
      return;
    }
    const int edge = index < 0 ? 0 : last;
    const int inward = index < 0 ? 1 : -1;
    if (count == 2) {
      weights(row, edge) += 2 * weight;
      weights(row, edge + inward) -= weight;
    } else {
      weights(row, edge) += 3 * weight;
      weights(row, edge + inward) -= 3 * weight;
      weights(row, edge + 2 * inward) += weight;
    }
  };
  for (int row = 0; row < weights.rows(); ++row) {
    const int step = std::min(row / k_finer, count - 2);
    const double t = static_cast<double>(row - step * k_finer) / k_finer;
    add(row, step - 1, (-t + 2 * t * t - t * t * t) / 2);
    add(row, step, (2 - 5 * t * t + 3 * t * t * t) / 2);
    add(row, step + 1, (t + 4 * t * t - 3 * t * t * t) / 2);
    add(row, step + 2, (-t * t + t * t * t) / 2);
  }
  return weights;
}

/// How far across (0 ... 1) and up a trapezoid a place is; beyond that where it is beside it.
Vector2d place_on(const Trapezoid& piece, const Vector2d& flat) {
  const double up = (flat.y() - piece[0].y()) / height_m(piece);
  const double clamped = std::clamp(up, 0.0, 1.0);
  const double left = piece[0].x() + clamped * (piece[3].x() - piece[0].x());
  const double right = piece[1].x() + clamped * (piece[2].x() - piece[1].x());
  const double across = right > left ? (flat.x() - left) / (right - left) : 0.5;
  return {across, up};
}

double distance_beside(const Trapezoid& piece, const Vector2d& place) {
  const auto beyond = [](double share) { return std::max({0.0, -share, share - 1}); };
  return beyond(place.x()) * width_m(piece) + beyond(place.y()) * height_m(piece);
}

/// The piece that a place is on, or the nearest; begins with the one that the last place was on.
struct PieceFinder {
  const std::vector<LatticePiece>& pieces;
  std::size_t last = 0;

  Vector2d find(const Vector2d& flat) {
    Vector2d place = place_on(pieces[last].corners, flat);
    double least = distance_beside(pieces[last].corners, place);
    for (std::size_t i = 0; i < pieces.size() && least > 0; ++i) {
      const Vector2d other = place_on(pieces[i].corners, flat);
      const double distance = distance_beside(pieces[i].corners, other);
      if (distance >= least) continue;
      least = distance;
      place = other;
      last = i;
    }
    return place.cwiseMax(0.0).cwiseMin(1.0);
  }
};

/// The first steps, in the usual one: each is longer than the one before by the same.
constexpr double k_first = 0.08;
constexpr double k_growing_steps = 5;
constexpr double k_growth = (1 - k_first) / (2 * k_growing_steps);
constexpr double k_grown = k_growing_steps * (k_first + k_growing_steps * k_growth);

}  // namespace

Steps::Steps(double length_m, double usual_m)
    : count_(std::max(1, static_cast<int>(std::ceil(2 * steps_to(length_m / usual_m / 2) - 1e-9)))),
      half_(from_end(0.5 * count_)) {}

double Steps::from_end(double step) const {
  if (step > k_growing_steps) return k_grown + step - k_growing_steps;
  return step * (k_first + step * k_growth);
}

double Steps::steps_to(double from_end) const {
  if (from_end > k_grown) return k_growing_steps + from_end - k_grown;
  return (std::sqrt(k_first * k_first + 4 * k_growth * from_end) - k_first) / (2 * k_growth);
}

double Steps::share_at(double step) const {
  const double nearer = std::min(step, count_ - step);
  const double share = from_end(nearer) / (2 * half_);
  return step <= 0.5 * count_ ? share : 1 - share;
}

double Steps::step_at(double share) const {
  const double steps = steps_to(std::min(share, 1 - share) * 2 * half_);
  return share <= 0.5 ? steps : count_ - steps;
}

Lattice lattice_on(const Scene& scene) {
  std::vector<FaceFrame> frames;
  std::vector<std::vector<Trapezoid>> pieces;
  std::vector<Trapezoid> all;
  for (const Surface& surface : scene.surfaces) {
    frames.push_back(frame_of(surface.corners_m, surface.normal));
    pieces.push_back(without_slivers(free_pieces(surface.free_m, frames.back())));
    all.insert(all.end(), pieces.back().begin(), pieces.back().end());
  }
  const double spacing = spacing_m(all);
  Lattice lattice;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    Lattice::OnSurface& on = lattice.surfaces.emplace_back(Lattice::OnSurface{frames[i], {}});
    for (const Trapezoid& corners : pieces[i]) {
      on.pieces.push_back({.corners = corners,
                           .across = {width_m(corners), spacing},
                           .up = {height_m(corners), spacing},
                           .first = std::ssize(lattice.points)});
      add_points(on.pieces.back(), on.frame, scene.surfaces[i].normal, lattice.points);
    }
  }
  return lattice;
}

SurfaceLight::SurfaceLight(Lattice lattice, const Eigen::MatrixXd& at_points_lx)
    : surfaces_(std::move(lattice.surfaces)) {
  using Grid = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  Eigen::Index all = 0;
  for (const auto& on : surfaces_) {
    for (const LatticePiece& piece : on.pieces) all += finer(piece.columns()) * finer(piece.rows());
  }
  lx_.resize(all, at_points_lx.cols());
  Eigen::Index first = 0;
  for (auto& on : surfaces_) {
    for (LatticePiece& piece : on.pieces) {
      const Eigen::MatrixXd along = cubic_weights(piece.columns());
      const Eigen::MatrixXd up = cubic_weights(piece.rows());
      const Eigen::Index count = along.rows() * up.rows();
      const Eigen::Index points = static_cast<Eigen::Index>(piece.columns()) * piece.rows();
      for (Eigen::Index column = 0; column < at_points_lx.cols(); ++column) {
        const Eigen::VectorXd own = at_points_lx.col(column).segment(piece.first, points);
        const Grid grid = up * Eigen::Map<const Grid>(own.data(), piece.rows(), piece.columns()) * along.transpose();
        lx_.col(column).segment(first, count) =
            Eigen::Map<const Eigen::VectorXd>(grid.data(), count).cwiseMax(0.0).cast<float>();
      }
      piece.first = first;
      first += count;
    }
  }
}

void SurfaceLight::look_up(int surface, const Facets& facets, LightTable& lx) const {
  lx.setZero(facets.size(), lx_.cols());
  const Lattice::OnSurface& on = surfaces_[surface];
  if (on.pieces.empty()) return;
  PieceFinder finder{on.pieces};
  for (int i = 0; i < facets.size(); ++i) {
    const Vector2d place = finder.find(on.frame.flat(facets.point(i).cast<double>()));
    const LatticePiece& piece = on.pieces[finder.last];
    const double x = k_finer * piece.across.step_at(place.x());
    const double y = k_finer * piece.up.step_at(place.y());
    const auto columns = finer(piece.columns());
    const auto column = std::min(static_cast<Eigen::Index>(x), columns - 2);
    const auto row = std::min(static_cast<Eigen::Index>(y), finer(piece.rows()) - 2);
    const auto across = static_cast<float>(x - static_cast<double>(column));
    const auto up = static_cast<float>(y - static_cast<double>(row));
    const Eigen::Index corner = piece.first + row * columns + column;
    lx.row(i) = (1 - up) * ((1 - across) * lx_.row(corner) + across * lx_.row(corner + 1)) +
                up * ((1 - across) * lx_.row(corner + columns) + across * lx_.row(corner + columns + 1));
  }
}

}  // namespace evenlit
