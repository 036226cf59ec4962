#include "evenlit/photometry/intensity_lookup.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <numeric>
#include <optional>

#include "direction_angles.hpp"
#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

constexpr int k_block = 256;               ///< directions handled at a time, so that their angles stay in the cache
constexpr int k_coarsest = 1 << 10;        ///< steps of the first lattice that is tried where the angles give none
constexpr int k_finest = 1 << 11;          ///< steps of the last, and the most that angles may ask for
constexpr float k_rim_deg = 1e-4F;         ///< a direction so little outside the table counts as on its rim
constexpr float k_least_length2 = 1e-18F;  ///< keeps the light of a ray without length finite
constexpr float k_tiny = 1e-18F;           ///< keeps 0 / 0 away

/// The largest step that has a knot at each of its multiples' subset, in millionths of a degree; empty where the knots
/// are not whole millionths.
std::optional<std::int64_t> common_step(const std::vector<double>& knots_deg) {
  std::int64_t step = 0;
  for (const double knot : knots_deg) {
    const double millionths = (knot - knots_deg.front()) * 1e6;
    const double whole = std::round(millionths);
    if (std::abs(millionths - whole) > 1e-4) return std::nullopt;
    step = std::gcd(step, static_cast<std::int64_t>(whole));
  }
  return step;
}

/// The distribution in two planes at least.
IntensityDistribution in_planes(const IntensityDistribution& distribution) {
  if (distribution.c_deg.size() > 1) return distribution;
  IntensityDistribution planes = distribution;
  planes.c_deg = {0, 360};
  planes.candela = distribution.candela.replicate(1, 2);
  return planes;
}

/// Rays from a point to facets in the table's frame, and their lengths times cos(incidence) times `output`.
EVENLIT_VECTORISED
void aim(const float* frame, const float* from, float output, int count, const float* __restrict to_x,
         const float* __restrict to_y, const float* __restrict to_z, const float* __restrict nx,
         const float* __restrict ny, const float* __restrict nz, float* __restrict x, float* __restrict y,
         float* __restrict z, float* __restrict facing) {
  for (int i = 0; i < count; ++i) {
    const float dx = to_x[i] - from[0];
    const float dy = to_y[i] - from[1];
    const float dz = to_z[i] - from[2];
    const float toward = -output * (dx * nx[i] + dy * ny[i] + dz * nz[i]);
    facing[i] = toward > 0 ? toward : 0;
    x[i] = frame[0] * dx + frame[1] * dy + frame[2] * dz;
    y[i] = frame[3] * dx + frame[4] * dy + frame[5] * dz;
    z[i] = frame[6] * dx + frame[7] * dy + frame[8] * dz;
  }
}

}  // namespace

/// Where some rays run between the lines of the lattice. Arrays start with a cache line, so that no vector straddles
/// two.
struct alignas(64) IntensityLookup::Block {
  template <class T>
  using Each = std::array<T, k_block>;

  Each<std::int32_t> cell;  ///< index of the candela at the lines before, in both angles
  Each<float> along_gamma, along_c;
  Each<float> lx_per_cd;
  std::array<float, 2 * k_block> corners, next_corners;  ///< candelas at both ends of the cell, in the plane before and
                                                         ///< in the next
};

struct IntensityLookup::Kernels {
  struct Place {
    std::int32_t cell;
    float along;
    float outside_deg;  ///< a bool here would keep g++ from vectorising
  };
  /// @param angle from the lattice's first line
  [[gnu::always_inline]] static inline Place place(const Axis& axis, Angle angle) {
    const float deg = angle.axis_deg + angle.beside_deg;
    const float within = smaller(larger(deg, 0), axis.span_deg);
    const auto cell = static_cast<std::int32_t>(within * axis.steps_per_deg);
    const float axis_steps = angle.axis_deg * axis.steps_per_deg - static_cast<float>(cell);
    return {cell, axis_steps + angle.beside_deg * axis.steps_per_deg, std::abs(deg - within)};
  }

  EVENLIT_VECTORISED
  static void locate(Axis gamma_axis, Axis c_axis, std::int32_t rows, std::int32_t dark_cell, int count,
                     const float* __restrict x, const float* __restrict y, const float* __restrict z,
                     const float* __restrict facing, std::int32_t* __restrict cell, float* __restrict along_gamma,
                     float* __restrict along_c, float* __restrict lx_per_cd) {
    for (int i = 0; i < count; ++i) {
      const float across2 = x[i] * x[i] + y[i] * y[i];
      const float length2 = across2 + z[i] * z[i] + k_least_length2;
      const float across = std::sqrt(across2);
      const float up = std::abs(z[i]);
      const float ahead = std::abs(x[i]);
      const float aside = std::abs(y[i]);
      const float most_up = larger(across, up) + k_tiny;
      const float most_aside = larger(aside, ahead) + k_tiny;
      const float inverse = 1 / (most_up * most_aside);  // one division for both angles
      const Angle from_nadir = upper_angle(-z[i], across, smaller(across, up) * (inverse * most_aside));
      const Place gamma = place(gamma_axis, {from_nadir.axis_deg - gamma_axis.first_deg, from_nadir.beside_deg});
      const Angle around = upper_angle(x[i], aside, smaller(aside, ahead) * (inverse * most_up));
      const float side = y[i] < 0 ? -1.0F : 1.0F;
      const float from_first_deg = side * (around.axis_deg + around.beside_deg) - c_axis.first_deg;
      const float turn_deg = from_first_deg < -k_rim_deg ? 360.0F : 0.0F;
      const Place c = place(c_axis, {side * around.axis_deg - c_axis.first_deg + turn_deg, side * around.beside_deg});
      const float above_horizon_deg = from_nadir.axis_deg + from_nadir.beside_deg - 90;
      const float to_pole_deg = 90 - std::abs(above_horizon_deg);  // there all planes meet
      const float outside_c_deg = c.outside_deg < to_pole_deg ? c.outside_deg : to_pole_deg;
      const float outside_deg = gamma.outside_deg > outside_c_deg ? gamma.outside_deg : outside_c_deg;
      cell[i] = outside_deg <= k_rim_deg ? c.cell * rows + gamma.cell : dark_cell;
      along_gamma[i] = gamma.along;
      along_c[i] = c.along;
      lx_per_cd[i] = facing[i] / (length2 * std::sqrt(length2));
    }
  }

  /// Each two neighbours are copied as one number of eight bytes: faster than what processors have for gathering.
  static void copy_corners(const float* __restrict lattice, int count, const std::int32_t* __restrict cell,
                           float* __restrict corners) {
    for (int i = 0; i < count; ++i) std::memcpy(corners + 2 * i, lattice + cell[i], 2 * sizeof(float));
  }

  EVENLIT_VECTORISED
  static void interpolate(int count, const float* __restrict corners, const float* __restrict next_corners,
                          const float* __restrict along_gamma, const float* __restrict along_c,
                          const float* __restrict lx_per_cd, float* __restrict lx) {
    for (int i = 0; i < count; ++i) {
      const float here = corners[2 * i] + along_gamma[i] * (corners[2 * i + 1] - corners[2 * i]);
      const float next = next_corners[2 * i] + along_gamma[i] * (next_corners[2 * i + 1] - next_corners[2 * i]);
      lx[i] = lx_per_cd[i] * (here + along_c[i] * (next - here));
    }
  }
};

IntensityLookup::IntensityLookup(const IntensityDistribution& distribution)
    : table_from_luminaire_(evenlit::table_from_luminaire(distribution.axis)),
      rotational_(RotationalLookup::of(distribution)) {
  if (rotational_) {
    deviation_ = rotational_->deviation();
    return;
  }
  const IntensityDistribution planes = in_planes(distribution);
  for (int steps = k_coarsest; steps <= k_finest; steps *= 2) {
    sample(planes, steps);
    deviation_ = deviation_of(planes);
    if (deviation_ <= k_most_deviation) return;
  }
  candela_.clear();
  deviation_ = 0;
  plain_ = distribution;
}

IntensityLookup::Axis IntensityLookup::lattice_axis(const std::vector<double>& knots_deg, int otherwise_steps) {
  const double span = knots_deg.back() - knots_deg.front();
  int steps = otherwise_steps;
  if (const auto step = common_step(knots_deg); step && span * 1e6 <= static_cast<double>(*step) * k_finest) {
    steps = static_cast<int>(std::round(span * 1e6 / static_cast<double>(*step)));
  }
  return {static_cast<float>(knots_deg.front()), static_cast<float>(span), static_cast<float>(steps / span), steps};
}

/// The distribution on the lattice's lines. As it is bilinear between its knots, so is the lattice where every knot is
/// on a line.
void IntensityLookup::sample(const IntensityDistribution& distribution, int otherwise_steps) {
  candela_.clear();
  gamma_ = lattice_axis(distribution.gamma_deg, otherwise_steps);
  c_ = lattice_axis(distribution.c_deg, otherwise_steps);
  IntensityDistribution in_own_frame = distribution;
  in_own_frame.axis = IntensityDistribution::Axis::vertical;
  const auto line_deg = [](const std::vector<double>& knots_deg, int line, int steps) {
    return std::lerp(knots_deg.front(), knots_deg.back(), static_cast<double>(line) / steps);
  };
  rows_ = gamma_.steps + 2;
  candela_.reserve(static_cast<std::size_t>(rows_) * (c_.steps + 3) + 2);
  for (int j = 0; j <= c_.steps; ++j) {
    const double c_deg = line_deg(distribution.c_deg, j, c_.steps);
    for (int i = 0; i <= gamma_.steps; ++i) {
      const double gamma_deg = line_deg(distribution.gamma_deg, i, gamma_.steps);
      candela_.push_back(static_cast<float>(intensity_at(in_own_frame, gamma_deg, c_deg)));
    }
    candela_.push_back(candela_.back());
  }
  for (int i = 0; i < rows_; ++i) candela_.push_back(candela_[candela_.size() - rows_]);
  candela_.resize(candela_.size() + rows_ + 2);
}

/// The lattice agrees with the distribution on its own lines and is farthest from it at the corners between them, which
/// stand where the file's lines cross.
double IntensityLookup::deviation_of(const IntensityDistribution& distribution) const {
  const double peak = distribution.candela.maxCoeff();
  if (peak <= 0) return 0;
  const auto at = [](const Axis& axis, double deg, double first_deg) {
    const double steps = (deg - first_deg) / axis.span_deg * axis.steps;
    const int cell = std::clamp(static_cast<int>(steps), 0, axis.steps - 1);
    return std::pair(cell, steps - cell);
  };
  const auto between = [](const float* corner, double u) {
    return std::lerp(static_cast<double>(corner[0]), static_cast<double>(corner[1]), u);
  };
  double worst = 0;
  for (std::size_t j = 0; j < distribution.c_deg.size(); ++j) {
    const auto [c_cell, v] = at(c_, distribution.c_deg[j], distribution.c_deg.front());
    for (std::size_t i = 0; i < distribution.gamma_deg.size(); ++i) {
      const auto [gamma_cell, u] = at(gamma_, distribution.gamma_deg[i], distribution.gamma_deg.front());
      const float* corner = candela_.data() + static_cast<std::size_t>(c_cell) * rows_ + gamma_cell;
      const double value = std::lerp(between(corner, u), between(corner + rows_, u), v);
      worst = std::max(worst, std::abs(value - distribution.candela(i, j)));
    }
  }
  return worst / peak;
}

void IntensityLookup::illuminances(const Directions& rays_m, const float* facing_m, std::size_t count,
                                   float* lx) const {
  illuminances({rays_m.x.data(), rays_m.y.data(), rays_m.z.data(), facing_m}, static_cast<int>(count), lx);
}

void IntensityLookup::illuminances(const RayArrays& rays, int count, float* lx) const {
  if (rotational_) return rotational_->illuminances(rays, count, lx);
  if (candela_.empty()) return plain_illuminances(rays, count, lx);
  lattice_illuminances(rays, count, lx);
}

void IntensityLookup::illuminances(const PointLight& light, const FacetArrays& facets, int count, float* lx) const {
  if (rotational_ && light.table_from_room.row(2) == Eigen::RowVector3f::UnitZ()) {
    return rotational_->upright_illuminances(light.at_m, light.output, facets, count, lx);
  }
  struct alignas(64) Rays {
    std::array<float, k_block> x, y, z, facing;
  } rays;
  for (int begin = 0; begin < count; begin += k_block) {
    const int size = std::min(k_block, count - begin);
    aim(light.table_from_room.data(), light.at_m.data(), light.output, size, facets.x_m + begin, facets.y_m + begin,
        facets.z_m + begin, facets.nx + begin, facets.ny + begin, facets.nz + begin, rays.x.data(), rays.y.data(),
        rays.z.data(), rays.facing.data());
    illuminances({rays.x.data(), rays.y.data(), rays.z.data(), rays.facing.data()}, size, lx + begin);
  }
}

void IntensityLookup::lattice_illuminances(const RayArrays& rays, int count, float* lx) const {
  const auto dark_cell = static_cast<std::int32_t>(candela_.size()) - rows_ - 2;
  Block block;
  for (int begin = 0; begin < count; begin += k_block) {
    const int size = std::min(k_block, count - begin);
    Kernels::locate(gamma_, c_, rows_, dark_cell, size, rays.x_m + begin, rays.y_m + begin, rays.z_m + begin,
                    rays.facing_m + begin, block.cell.data(), block.along_gamma.data(), block.along_c.data(),
                    block.lx_per_cd.data());
    Kernels::copy_corners(candela_.data(), size, block.cell.data(), block.corners.data());
    Kernels::copy_corners(candela_.data() + rows_, size, block.cell.data(), block.next_corners.data());
    Kernels::interpolate(size, block.corners.data(), block.next_corners.data(), block.along_gamma.data(),
                         block.along_c.data(), block.lx_per_cd.data(), lx + begin);
  }
}

void IntensityLookup::plain_illuminances(const RayArrays& rays, int count, float* lx) const {
  for (int i = 0; i < count; ++i) {
    const Eigen::Vector3d ray_m(rays.x_m[i], rays.y_m[i], rays.z_m[i]);
    const double candela = intensity_toward(plain_, table_from_luminaire_.transpose() * ray_m);
    const double length2 = ray_m.squaredNorm() + k_least_length2;
    lx[i] = static_cast<float>(candela * rays.facing_m[i] / (length2 * std::sqrt(length2)));
  }
}

}  // namespace evenlit
