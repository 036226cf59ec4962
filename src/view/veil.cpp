#include "evenlit/view/veil.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "evenlit/base/arc_cosine.hpp"
#include "evenlit/base/parallel.hpp"
#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

using Eigen::Array3f;
using Eigen::Vector3f;

constexpr int k_step_px = 8;         ///< of the lattice
constexpr double k_near_steps = 16;  ///< closer to an opening than this, the lattice is too coarse
constexpr double k_degrees = 180 / std::numbers::pi;

/// The formula as a polynomial in the reciprocal of the angle in degrees.
template <class Number>
struct VeilLaw {
  Number cubic, square, linear, constant;

  [[gnu::always_inline]] inline Number at(Number per_deg) const {
    return ((cubic * per_deg + square) * per_deg + linear) * per_deg + constant;
  }
};

template <class Number>
VeilLaw<Number> law_of(const Eye& eye) {
  const double ageing = 1 + std::pow(eye.age_years / 62.5, 4);
  return {10, static_cast<Number>(5 * ageing), static_cast<Number>(0.1 * eye.pigment * ageing),
          static_cast<Number>(0.0025 * eye.pigment)};
}

/// An opening in the picture's axes.
struct Seen {
  Vector3f direction;
  Array3f rgb_lx;
  float least_deg;     ///< closer than this the veil does not rise
  double near_cosine;  ///< of the angle from which the lattice will do
};

/// Picture planes a unit away: where pixels are.
struct Plane {
  float first_x, first_y, pixel;

  [[nodiscard]] float x(int column) const { return first_x + pixel * static_cast<float>(column); }
  [[nodiscard]] float y(int row) const { return first_y + pixel * static_cast<float>(row); }
};

/// The veil for each lux along a row of directions (first_x + i step, y, 1).
EVENLIT_VECTORISED
void veils(VeilLaw<float> law, const Seen& seen, float first_x, float step, float y, int count, float* __restrict out) {
  const float to_x = seen.direction.x();
  const float to_y = seen.direction.y();
  const float to_z = seen.direction.z();
  const float least_deg = seen.least_deg;
  for (int i = 0; i < count; ++i) {
    const float x = first_x + step * static_cast<float>(i);
    const float per_length = 1 / std::sqrt(x * x + y * y + 1);
    const float off_x = x * per_length - to_x;
    const float off_y = y * per_length - to_y;
    const float off_z = per_length - to_z;
    // The chord between unit vectors is twice the sine of half the angle: exact where the cosine no longer tells.
    const float sine2 = std::min(0.25F * (off_x * off_x + off_y * off_y + off_z * off_z), 1.0F);
    const float cosine = std::sqrt(1 - sine2);
    const float half_rad = std::sqrt(sine2 / (1 + cosine)) * arc_over_root(cosine);
    const float deg = static_cast<float>(2 * k_degrees) * half_rad;
    out[i] = law.at(1 / std::min(std::max(deg, least_deg), static_cast<float>(k_most_veil_angle_deg)));
  }
}

std::vector<Seen> seen_sources(const Eigen::Matrix3f& axes, double step, std::span<const GlareSource> sources) {
  std::vector<Seen> seen;
  for (const GlareSource& source : sources) {
    const Vector3f direction = axes.transpose() * source.direction;
    const double lx = source.facing_lx * direction.z();
    if (!(lx > 0)) continue;
    const double least_deg = std::clamp(source.radius_deg, k_least_veil_angle_deg, k_most_veil_angle_deg);
    const double near_rad = std::min(least_deg / k_degrees + k_near_steps * step, std::numbers::pi);
    seen.push_back(
        {direction, static_cast<float>(lx) * source.tint.array(), static_cast<float>(least_deg), std::cos(near_rad)});
  }
  return seen;
}

/// Cells of the lattice, first and behind the last.
struct Cells {
  int first = 0;
  int end = 0;

  [[nodiscard]] bool has(int cell) const { return cell >= first && cell < end; }
};

/// A row of the lattice's cells.
class Strip {
 public:
  Strip(const VeilLaw<float>& law, const Plane& plane, int width, int row)
      : law_(law), plane_(plane), cells_((width + k_step_px - 1) / k_step_px), first_row_(row * k_step_px) {}

  /// Adds what all openings throw on the pixels of the strip.
  void add(std::span<const Seen> sources, LuminancePicture& picture) const {
    std::vector<Cells> near;
    for (const Seen& seen : sources) near.push_back(near_cells(seen));
    add_far(sources, near, picture);
    for (std::size_t i = 0; i < sources.size(); ++i) add_near(sources[i], near[i], picture);
  }

 private:
  [[nodiscard]] int end_row(const LuminancePicture& picture) const {
    return std::min(first_row_ + k_step_px, picture.height);
  }

  /// From the first to the last cell whose corners are too close to an opening.
  [[nodiscard]] Cells near_cells(const Seen& seen) const {
    const float to_middle = 0.5F * k_step_px * plane_.pixel;
    Cells near;
    for (int cell = 0; cell < cells_; ++cell) {
      const Vector3f to(plane_.x(cell * k_step_px) + to_middle, plane_.y(first_row_) + to_middle, 1);
      if (to.normalized().dot(seen.direction) < seen.near_cosine) continue;
      if (near.end == 0) near.first = cell;
      near.end = cell + 1;
    }
    return near;
  }

  /// At the corners of the cells on one side, for each lux, opening by opening.
  [[nodiscard]] Eigen::ArrayXXf at_corners(std::span<const Seen> sources, int row) const {
    Eigen::ArrayXXf corners(cells_ + 1, static_cast<Eigen::Index>(sources.size()));
    for (std::size_t i = 0; i < sources.size(); ++i) {
      veils(law_, sources[i], plane_.first_x, k_step_px * plane_.pixel, plane_.y(row), cells_ + 1,
            corners.col(static_cast<Eigen::Index>(i)).data());
    }
    return corners;
  }

  void add_far(std::span<const Seen> sources, const std::vector<Cells>& near, LuminancePicture& picture) const {
    const Eigen::ArrayXXf above = at_corners(sources, first_row_);
    const Eigen::ArrayXXf below = at_corners(sources, first_row_ + k_step_px);
    for (int cell = 0; cell < cells_; ++cell) {
      Array3f corners[2][2] = {{Array3f::Zero(), Array3f::Zero()}, {Array3f::Zero(), Array3f::Zero()}};
      for (std::size_t i = 0; i < sources.size(); ++i) {
        if (near[i].has(cell)) continue;
        const auto source = static_cast<Eigen::Index>(i);
        for (const int side : {0, 1}) {
          corners[0][side] += above(cell + side, source) * sources[i].rgb_lx;
          corners[1][side] += below(cell + side, source) * sources[i].rgb_lx;
        }
      }
      add_cell(cell, corners, picture);
    }
  }

  /// Straight between the corners of a cell.
  void add_cell(int cell, const Array3f (&corners)[2][2], LuminancePicture& picture) const {
    const int first = cell * k_step_px;
    const int count = std::min(k_step_px, picture.width - first);
    for (int row = first_row_; row < end_row(picture); ++row) {
      const float down = static_cast<float>(row - first_row_) / k_step_px;
      const Array3f left = corners[0][0] + down * (corners[1][0] - corners[0][0]);
      const Array3f right = corners[0][1] + down * (corners[1][1] - corners[0][1]);
      const Array3f step = (right - left) / k_step_px;
      for (int channel = 0; channel < 3; ++channel) {
        float* out = &picture.rgb_cd_m2[channel][row * picture.width + first];
        for (int i = 0; i < count; ++i) out[i] += left[channel] + static_cast<float>(i) * step[channel];
      }
    }
  }

  void add_near(const Seen& seen, const Cells& near, LuminancePicture& picture) const {
    const int first = near.first * k_step_px;
    const int count = std::min(near.end * k_step_px, picture.width) - first;
    if (count <= 0) return;
    Eigen::ArrayXf per_lx(count);
    for (int row = first_row_; row < end_row(picture); ++row) {
      veils(law_, seen, plane_.x(first), plane_.pixel, plane_.y(row), count, per_lx.data());
      for (int channel = 0; channel < 3; ++channel) {
        picture.rgb_cd_m2[channel].segment(row * picture.width + first, count) += seen.rgb_lx[channel] * per_lx;
      }
    }
  }

  VeilLaw<float> law_;
  Plane plane_;
  int cells_;
  int first_row_;
};

}  // namespace

double veil_cd_m2_per_lx(double angle_deg, const Eye& eye) {
  return law_of<double>(eye).at(1 / std::clamp(angle_deg, k_least_veil_angle_deg, k_most_veil_angle_deg));
}

LuminancePicture veiled(LuminancePicture picture, const Eigen::Matrix3f& axes, double tan_half_width,
                        std::span<const GlareSource> sources, const Eye& eye) {
  if (picture.width == 0) return picture;
  const double pixel = 2 * tan_half_width / picture.width;
  const std::vector<Seen> seen = seen_sources(axes, k_step_px * pixel, sources);
  if (seen.empty()) return picture;
  const Plane plane{static_cast<float>((1 - picture.width) * pixel / 2),
                    static_cast<float>((1 - picture.height) * pixel / 2), static_cast<float>(pixel)};
  const VeilLaw<float> law = law_of<float>(eye);
  parallel_for((picture.height + k_step_px - 1) / k_step_px,
               [&](int row) { Strip(law, plane, picture.width, row).add(seen, picture); });
  return picture;
}

}  // namespace evenlit
