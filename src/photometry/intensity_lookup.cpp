#include "evenlit/photometry/intensity_lookup.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <optional>

#include "direction_angles.hpp"
#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

constexpr int k_block = 256;             ///< directions handled at a time, so that their angles stay in the cache
constexpr int k_coarsest = 1 << 10;      ///< steps of the first lattice that is tried where the angles give none
constexpr int k_finest_gamma = 1 << 16;  ///< steps of the last, of one plane
constexpr int k_finest = 1 << 11;        ///< steps of the last, of many planes, and the most that angles may ask for
constexpr float k_rim_deg = 1e-4F;       ///< a direction so little outside the table counts as on its rim

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

/// Where directions lie between the lines of a lattice axis.
EVENLIT_VECTORISED
void locate_loop(const float* __restrict deg, int count, float first_deg, float span_deg, float steps_per_deg,
                 int last_cell, float wrap_deg, int* __restrict cell, float* __restrict fraction,
                 float* __restrict inside) {
  for (int i = 0; i < count; ++i) {
    const float raw = deg[i] - first_deg;
    const float from_first = raw < -k_rim_deg ? raw + wrap_deg : raw;
    inside[i] = (from_first >= -k_rim_deg && from_first <= span_deg + k_rim_deg) ? 1.0F : 0.0F;
    const float clamped = from_first > 0 ? (from_first < span_deg ? from_first : span_deg) : 0.0F;
    const float steps = clamped * steps_per_deg;
    const int whole = static_cast<int>(steps);
    const int below = whole < last_cell ? whole : last_cell;
    cell[i] = below;
    fraction[i] = steps - static_cast<float>(below);
  }
}

}  // namespace

/// Where some directions lie in the lattice.
struct IntensityLookup::Block {
  template <class T>
  using Each = std::array<T, k_block>;

  Each<float> gamma_deg, c_deg;
  Each<int> gamma_cell, c_cell;
  Each<float> gamma_fraction, c_fraction;
  Each<float> in_gamma, in_c;
};

IntensityLookup::IntensityLookup(const IntensityDistribution& distribution)
    : table_from_luminaire_(evenlit::table_from_luminaire(distribution.axis)) {
  const int finest = distribution.c_deg.size() == 1 ? k_finest_gamma : k_finest;
  for (int steps = k_coarsest; steps <= finest; steps *= 2) {
    sample(distribution, steps);
    deviation_ = deviation_of(distribution);
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
  if (distribution.c_deg.size() > 1) c_ = lattice_axis(distribution.c_deg, otherwise_steps);
  IntensityDistribution in_own_frame = distribution;
  in_own_frame.axis = IntensityDistribution::Axis::vertical;
  const auto line_deg = [](const std::vector<double>& knots_deg, int line, int steps) {
    return std::lerp(knots_deg.front(), knots_deg.back(), static_cast<double>(line) / steps);
  };
  candela_.reserve(static_cast<std::size_t>(gamma_.steps + 1) * (c_.steps + 1));
  for (int j = 0; j <= c_.steps; ++j) {
    const double c_deg = c_.steps == 0 ? 0 : line_deg(distribution.c_deg, j, c_.steps);
    for (int i = 0; i <= gamma_.steps; ++i) {
      const double gamma_deg = line_deg(distribution.gamma_deg, i, gamma_.steps);
      candela_.push_back(static_cast<float>(intensity_at(in_own_frame, gamma_deg, c_deg)));
    }
  }
}

/// The lattice agrees with the distribution on its own lines and is farthest from it at the corners between them, which
/// stand where the file's lines cross.
double IntensityLookup::deviation_of(const IntensityDistribution& distribution) const {
  const double peak = distribution.candela.maxCoeff();
  if (peak <= 0) return 0;
  const auto at = [](const Axis& axis, double deg, double first_deg) {
    const double steps = axis.steps == 0 ? 0 : (deg - first_deg) / axis.span_deg * axis.steps;
    const int cell = std::clamp(static_cast<int>(steps), 0, std::max(0, axis.steps - 1));
    return std::pair(cell, steps - cell);
  };
  double worst = 0;
  for (std::size_t j = 0; j < distribution.c_deg.size(); ++j) {
    const auto [c_cell, v] = at(c_, distribution.c_deg[j], distribution.c_deg.front());
    for (std::size_t i = 0; i < distribution.gamma_deg.size(); ++i) {
      const auto [gamma_cell, u] = at(gamma_, distribution.gamma_deg[i], distribution.gamma_deg.front());
      const float* corner = candela_.data() + static_cast<std::size_t>(c_cell) * (gamma_.steps + 1) + gamma_cell;
      const float* next = c_.steps == 0 ? corner : corner + gamma_.steps + 1;
      const double value = std::lerp(std::lerp(corner[0], corner[1], u), std::lerp(next[0], next[1], u), v);
      worst = std::max(worst, std::abs(value - distribution.candela(i, j)));
    }
  }
  return worst / peak;
}

void IntensityLookup::toward(const Directions& directions, std::size_t count, float* candela) const {
  if (candela_.empty()) return toward_plainly(directions, count, candela);
  Block block;
  for (std::size_t begin = 0; begin < count; begin += k_block) {
    const int size = static_cast<int>(std::min<std::size_t>(k_block, count - begin));
    locate(directions, begin, size, block);
    float* out = candela + begin;
    if (c_.steps == 0) {
      for (int i = 0; i < size; ++i) {
        const float* corner = candela_.data() + block.gamma_cell[i];
        out[i] = block.in_gamma[i] * (corner[0] + block.gamma_fraction[i] * (corner[1] - corner[0]));
      }
      continue;
    }
    const int rows = gamma_.steps + 1;
    for (int i = 0; i < size; ++i) {
      const float* corner = candela_.data() + static_cast<std::ptrdiff_t>(block.c_cell[i]) * rows + block.gamma_cell[i];
      const float u = block.gamma_fraction[i];
      const float here = corner[0] + u * (corner[1] - corner[0]);
      const float next = corner[rows] + u * (corner[rows + 1] - corner[rows]);
      out[i] = block.in_gamma[i] * block.in_c[i] * (here + block.c_fraction[i] * (next - here));
    }
  }
}

void IntensityLookup::locate(const Directions& directions, std::size_t begin, int count, Block& block) const {
  const bool single = c_.steps == 0;
  direction_angles(directions.x.data() + begin, directions.y.data() + begin, directions.z.data() + begin, count,
                   block.gamma_deg.data(), single ? nullptr : block.c_deg.data());
  locate_loop(block.gamma_deg.data(), count, gamma_.first_deg, gamma_.span_deg, gamma_.steps_per_deg, gamma_.steps - 1,
              0, block.gamma_cell.data(), block.gamma_fraction.data(), block.in_gamma.data());
  if (single) return;
  locate_loop(block.c_deg.data(), count, c_.first_deg, c_.span_deg, c_.steps_per_deg, c_.steps - 1, 360,
              block.c_cell.data(), block.c_fraction.data(), block.in_c.data());
  if (c_.span_deg == 360) return;
  for (int i = 0; i < count; ++i) {  // at the poles all planes meet
    if (block.gamma_deg[i] <= k_rim_deg || block.gamma_deg[i] >= 180 - k_rim_deg) block.in_c[i] = 1;
  }
}

void IntensityLookup::toward_plainly(const Directions& directions, std::size_t count, float* candela) const {
  for (std::size_t i = 0; i < count; ++i) {
    const Eigen::Vector3d in_table(directions.x[i], directions.y[i], directions.z[i]);
    const Eigen::Vector3d in_luminaire = table_from_luminaire_.transpose() * in_table;
    candela[i] = static_cast<float>(intensity_toward(plain_, in_luminaire));
  }
}

}  // namespace evenlit
