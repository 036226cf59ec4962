#include "evenlit/photometry/rotational_lookup.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstring>
#include <numbers>

#include "direction_angles.hpp"
#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

constexpr int k_block = 256;         ///< rays handled at a time, so that what is kept of them stays in the cache
constexpr int k_coarsest_bits = 7;   ///< cells of an octave: two to the power of this
constexpr int k_finest_bits = 10;    ///< 1024 cells an octave, some MB in all
constexpr int k_fewest_octaves = 8;  ///< below a half
constexpr int k_most_octaves = 60;   ///< single precision has 125
constexpr int k_mantissa_bits = 23;  ///< of single precision
constexpr double k_shared_deviation = 5e-7;  ///< what may be missed where that saves cells, as a fraction of the peak
constexpr float k_least_length2 = 1e-18F;    ///< keeps the light of a ray without length finite
constexpr double k_rim_rad = 1e-4 * std::numbers::pi / 180;  ///< a direction so little outside counts as on the rim
constexpr double k_level = 1e-30;                            ///< candelas, or these a radian, as good as none
constexpr double k_rad = std::numbers::pi / 180;

/// What a line over one cell of an octave misses at most of a table with so many candelas a radian, where the square s
/// of the angle's sine is within a range. A chord over h misses h^2 / 8 of the second derivative; that of the angle is
/// -1/4 (1 - 2 s) / (s (1 - s))^1.5, and times s^2 it has one maximum, at a quarter.
double missed(double slope, double from, double to, int bits) {
  const double s = std::clamp(0.25, from, to);
  const double curve = std::sqrt(s) * (1 - 2 * s) / std::pow(1 - s, 1.5);
  return std::abs(slope) * curve / 32 * std::exp2(-2 * bits);
}

/// Whether a table ends in light at an angle where it may not: everywhere but where two branches meet.
bool ends_in_light(double gamma_deg, double candela) {
  return candela > 0 && gamma_deg != 0 && gamma_deg != 90 && gamma_deg != 180;
}

}  // namespace

/// What goes within 45 degrees of the axis or the horizon, to one side: linear between some angles from there.
struct RotationalLookup::Branch {
  std::vector<double> angle_rad;  ///< 0 ... pi / 4
  std::vector<double> square;     ///< of its sine
  std::vector<double> candela;

  /// @param from_deg the gamma of the axis or horizon
  /// @param sign     1 where gamma grows away from it, else -1
  Branch(const IntensityDistribution& distribution, double from_deg, double sign) {
    const auto& gamma_deg = distribution.gamma_deg;
    const double to_deg = from_deg + 45 * sign;
    const bool is_lit = std::max(std::min(from_deg, to_deg), gamma_deg.front()) <
                        std::min(std::max(from_deg, to_deg), gamma_deg.back());
    std::vector<double> angle_deg{0, 45};
    for (const double gamma : gamma_deg) {
      const double angle = sign * (gamma - from_deg);
      if (angle > 0 && angle < 45) angle_deg.push_back(angle);
    }
    std::ranges::sort(angle_deg);
    IntensityDistribution in_own_frame = distribution;
    in_own_frame.axis = IntensityDistribution::Axis::vertical;
    for (const double angle : angle_deg) {
      angle_rad.push_back(angle * k_rad);
      square.push_back(std::pow(std::sin(angle * k_rad), 2));
      candela.push_back(is_lit ? intensity_at(in_own_frame, from_deg + sign * angle, 0) : 0);
    }
  }

  [[nodiscard]] bool is_dark() const { return *std::ranges::max_element(candela) <= 0; }

  /// Candelas a radian from the angle `i` to the next.
  [[nodiscard]] double slope(std::size_t i) const {
    return (candela[i + 1] - candela[i]) / (angle_rad[i + 1] - angle_rad[i]);
  }

  /// The octaves below a half that need cells of their own: two chords of what is left, of which the table takes a part
  /// without a bend, miss a root by a twelfth of it at most.
  [[nodiscard]] int octaves(double most_cd) const {
    if (is_dark()) return k_fewest_octaves;
    const double root = std::min(std::sin(angle_rad[1]), 12 * most_cd / std::max(std::abs(slope(0)), k_level));
    return std::max(k_fewest_octaves, static_cast<int>(std::ceil(-2 * std::log2(root))) - 1);
  }

  /// How many cells of the octave from s on may share their lines: near the axis the table bends less.
  [[nodiscard]] int shared_cells(double s, int bits, double most_cd) const {
    if (square[1] < 2 * s) return 1;
    const double missed_cd = missed(slope(0), s, 2 * s, bits);
    const double times = std::log2(std::max(most_cd, k_level) / std::max(missed_cd, k_level)) / 2;
    return 1 << std::clamp(static_cast<int>(std::floor(times)), 0, bits);
  }

  /// What lines of cells of their own miss at most, cd.
  [[nodiscard]] double most_missed(int bits) const {
    double most = 0;
    for (std::size_t i = 0; i + 1 < candela.size(); ++i) {
      most = std::max(most, missed(slope(i), square[i], square[i + 1], bits));
    }
    return most;
  }
};

/// What is kept of some rays from one loop to the next. Arrays start with a cache line, so that no vector straddles
/// two.
struct alignas(64) RotationalLookup::Block {
  template <class T>
  using Each = std::array<T, k_block>;

  Each<std::int32_t> cell;
  Each<float> squared_sine;
  Each<float> lx_per_cd;
};

struct RotationalLookup::Kernels {
  [[gnu::always_inline]] static inline void locate(const Lattice& lattice, int i, float x, float y, float z,
                                                   float facing, std::int32_t* __restrict cell,
                                                   float* __restrict squared_sine, float* __restrict lx_per_cd) {
    const float across2 = x * x + y * y;
    const float up2 = z * z;
    const float length2 = across2 + up2 + k_least_length2;
    const float inverse = 1 / length2;
    const float s = smaller(across2, up2) * inverse;
    const std::int32_t key = (std::bit_cast<std::int32_t>(s) >> lattice.shift) - lattice.first_key;
    const std::int32_t in_branch = key > 0 ? key : 0;
    const std::int32_t beside_horizon = across2 > up2 ? lattice.branch_cells : 0;
    const std::int32_t upward = z * std::abs(z) > lattice.rim2 * across2 ? 2 * lattice.branch_cells : 0;
    const std::int32_t any = in_branch + beside_horizon + upward;
    cell[i] = any < lattice.last_cell ? any : lattice.last_cell;
    squared_sine[i] = s;
    lx_per_cd[i] = facing * (std::sqrt(length2) * inverse * inverse);
  }

  EVENLIT_VECTORISED
  static void locate_rays(Lattice lattice, int count, const float* __restrict x, const float* __restrict y,
                          const float* __restrict z, const float* __restrict facing, std::int32_t* __restrict cell,
                          float* __restrict squared_sine, float* __restrict lx_per_cd) {
    for (int i = 0; i < count; ++i) {
      locate(lattice, i, x[i], y[i], z[i], facing[i], cell, squared_sine, lx_per_cd);
    }
  }

  EVENLIT_VECTORISED
  static void locate_upright(Lattice lattice, const float* from, float output, int count, const float* __restrict to_x,
                             const float* __restrict to_y, const float* __restrict to_z, const float* __restrict nx,
                             const float* __restrict ny, const float* __restrict nz, std::int32_t* __restrict cell,
                             float* __restrict squared_sine, float* __restrict lx_per_cd) {
    const float from_x = from[0], from_y = from[1], from_z = from[2];
    for (int i = 0; i < count; ++i) {
      const float dx = to_x[i] - from_x;
      const float dy = to_y[i] - from_y;
      const float dz = to_z[i] - from_z;
      const float toward = -output * (dx * nx[i] + dy * ny[i] + dz * nz[i]);
      locate(lattice, i, dx, dy, dz, toward > 0 ? toward : 0, cell, squared_sine, lx_per_cd);
    }
  }

  using Eight = float __attribute__((vector_size(32)));
  using Four = float __attribute__((vector_size(16)));

  /// Two cells side by side.
  [[gnu::always_inline]] static inline void take(const Cell& low, const Cell& high, Eight& both) {
    Four one, other;
    std::memcpy(&one, &low, sizeof one);
    std::memcpy(&other, &high, sizeof other);
    both = __builtin_shufflevector(one, other, 0, 1, 2, 3, 4, 5, 6, 7);
  }

  /// Eight rays at a time: their cells are loaded whole and transposed, which takes half the time of gathering numbers.
  EVENLIT_VECTORISED
  static void intensify(const Cell* __restrict cells, int count, const std::int32_t* __restrict cell,
                        const float* __restrict squared_sine, const float* __restrict lx_per_cd, float* __restrict lx) {
    const int whole = count / 8 * 8;
    for (int i = 0; i < whole; i += 8) {
      const std::int32_t* at = cell + i;
      Eight first, second, third, fourth;
      take(cells[at[0]], cells[at[4]], first);
      take(cells[at[1]], cells[at[5]], second);
      take(cells[at[2]], cells[at[6]], third);
      take(cells[at[3]], cells[at[7]], fourth);
      const Eight low = __builtin_shufflevector(first, second, 0, 8, 1, 9, 4, 12, 5, 13);
      const Eight next_low = __builtin_shufflevector(third, fourth, 0, 8, 1, 9, 4, 12, 5, 13);
      const Eight high = __builtin_shufflevector(first, second, 2, 10, 3, 11, 6, 14, 7, 15);
      const Eight next_high = __builtin_shufflevector(third, fourth, 2, 10, 3, 11, 6, 14, 7, 15);
      const Eight bend = __builtin_shufflevector(low, next_low, 0, 1, 8, 9, 4, 5, 12, 13);
      const Eight candela = __builtin_shufflevector(low, next_low, 2, 3, 10, 11, 6, 7, 14, 15);
      const Eight before = __builtin_shufflevector(high, next_high, 0, 1, 8, 9, 4, 5, 12, 13);
      const Eight after = __builtin_shufflevector(high, next_high, 2, 3, 10, 11, 6, 7, 14, 15);
      Eight s, per_cd;
      std::memcpy(&s, squared_sine + i, sizeof s);
      std::memcpy(&per_cd, lx_per_cd + i, sizeof per_cd);
      const Eight beyond = s - bend;
      const Eight light = per_cd * (candela + beyond * (beyond < 0 ? before : after));
      std::memcpy(lx + i, &light, sizeof light);
    }
    for (int i = whole; i < count; ++i) {
      const Cell& at = cells[cell[i]];
      const float beyond = squared_sine[i] - at.bend;
      lx[i] = lx_per_cd[i] * (at.candela + beyond * (beyond < 0 ? at.before : at.after));
    }
  }
};

/// A way along a branch, from the axis or horizon on.
struct RotationalLookup::Course {
  const Branch& branch;
  std::size_t passed = 0;  ///< the branch's last angle up to here
  double s = 0;            ///< the square of the sine
  double candela = branch.candela.front();

  explicit Course(const Branch& of) : branch(of) {}

  double candela_at(double square) {
    const double angle_rad = std::asin(std::sqrt(square));
    while (passed + 2 < branch.square.size() && branch.square[passed + 1] <= square) ++passed;
    return branch.candela[passed] + branch.slope(passed) * (angle_rad - branch.angle_rad[passed]);
  }

  /// The lines from here to `end`, which is then here; empty where two bends are on the way.
  std::optional<Cell> next(double end) {
    constexpr double k_on_border = 1e-4;  // of the way; a little more than single precision tells
    const double border = k_on_border * (end - s);
    double bend = s == 0 ? end / 9 : (s + end) / 2;  // two chords of a root miss it least where they meet at a ninth
    int bends = 0;
    for (std::size_t i = passed + 1; i + 1 < branch.angle_rad.size(); ++i) {
      const double at = branch.square[i];
      if (at >= end - border) break;
      if (at <= s + border) continue;
      bend = at;
      ++bends;
    }
    if (bends > 1) return std::nullopt;
    const double bend_cd = candela_at(bend);
    const double end_cd = candela_at(end);
    const Cell lines{static_cast<float>(bend), static_cast<float>(bend_cd),
                     static_cast<float>((bend_cd - candela) / (bend - s)),
                     static_cast<float>((end_cd - bend_cd) / (end - bend))};
    s = end;
    candela = end_cd;
    return lines;
  }
};

std::optional<RotationalLookup> RotationalLookup::of(const IntensityDistribution& distribution) {
  const auto& gamma_deg = distribution.gamma_deg;
  const Eigen::ArrayXd candela = distribution.candela.col(0);
  if (distribution.c_deg.size() != 1 || ends_in_light(gamma_deg.front(), candela[0]) ||
      ends_in_light(gamma_deg.back(), candela[candela.size() - 1])) {
    return std::nullopt;
  }
  std::vector<Branch> branches{
      {distribution, 0, 1}, {distribution, 90, -1}, {distribution, 180, -1}, {distribution, 90, 1}};
  if (branches[2].is_dark() && branches[3].is_dark()) branches.erase(branches.begin() + 2, branches.end());
  for (int bits = k_coarsest_bits; bits <= k_finest_bits; ++bits) {
    auto lookup = cut(branches, candela.maxCoeff(), bits);
    if (!lookup) continue;
    constexpr auto k_rim2 = static_cast<float>(k_rim_rad * k_rim_rad);
    lookup->lattice_.rim2 = gamma_deg.back() == 90 ? k_rim2 : gamma_deg.front() == 90 ? -k_rim2 : 0;
    return lookup;
  }
  return std::nullopt;
}

std::optional<RotationalLookup> RotationalLookup::cut(const std::vector<Branch>& branches, double peak, int bits) {
  const double most_shared_cd = k_shared_deviation * peak;
  int octaves = k_fewest_octaves;
  double most_missed = most_shared_cd;
  for (const Branch& branch : branches) {
    octaves = std::max(octaves, branch.octaves(most_shared_cd));
    most_missed = std::max(most_missed, branch.most_missed(bits));
  }
  if (octaves > k_most_octaves || most_missed > k_most_deviation * peak) return std::nullopt;

  RotationalLookup lookup;
  lookup.deviation_ = peak > 0 ? most_missed / peak : 0;
  const int branch_cells = (octaves << bits) + 2;
  lookup.cells_.reserve(branches.size() * branch_cells + 1);
  for (const Branch& branch : branches) {
    if (!lookup.append(branch, bits, octaves, most_shared_cd)) return std::nullopt;
  }
  lookup.cells_.push_back({});
  const int shift = k_mantissa_bits - bits;
  const auto first_end = static_cast<float>(std::exp2(-octaves - 1));
  lookup.lattice_ = {.shift = shift,
                     .first_key = (std::bit_cast<std::int32_t>(first_end) >> shift) - 1,
                     .branch_cells = branch_cells,
                     .last_cell = static_cast<int>(lookup.cells_.size()) - 1};
  return lookup;
}

/// Appends the cells of a branch: what is below all octaves, the octaves', and one for a half and what rounds to more.
/// False where two bends meet in one.
bool RotationalLookup::append(const Branch& branch, int bits, int octaves, double most_shared_cd) {
  const int octave_cells = 1 << bits;
  const int cells = (octaves << bits) + 1;
  if (branch.is_dark()) {
    cells_.resize(cells_.size() + cells + 1);
    return true;
  }
  const auto end_of = [&](int cell) {
    return std::ldexp(1 + std::ldexp(cell % octave_cells, -bits), cell / octave_cells - octaves - 1);
  };
  Course course(branch);
  int shared = 1;
  for (int cell = 0; cell < cells; cell += shared) {
    if (cell % octave_cells == 1) shared = branch.shared_cells(course.s, bits, most_shared_cd);
    const auto lines = course.next(end_of(cell + shared - 1));
    if (!lines) return false;
    cells_.insert(cells_.end(), shared, *lines);
  }
  const float slope = cells_.back().after;
  cells_.push_back({static_cast<float>(course.s), static_cast<float>(course.candela), slope, slope});
  return true;
}

void RotationalLookup::illuminances(const RayArrays& rays, int count, float* lx) const {
  Block block;
  for (int begin = 0; begin < count; begin += k_block) {
    const int size = std::min(k_block, count - begin);
    Kernels::locate_rays(lattice_, size, rays.x_m + begin, rays.y_m + begin, rays.z_m + begin, rays.facing_m + begin,
                         block.cell.data(), block.squared_sine.data(), block.lx_per_cd.data());
    Kernels::intensify(cells_.data(), size, block.cell.data(), block.squared_sine.data(), block.lx_per_cd.data(),
                       lx + begin);
  }
}

void RotationalLookup::upright_illuminances(const Eigen::Vector3f& from_m, float output, const FacetArrays& facets,
                                            int count, float* lx) const {
  Block block;
  for (int begin = 0; begin < count; begin += k_block) {
    const int size = std::min(k_block, count - begin);
    Kernels::locate_upright(lattice_, from_m.data(), output, size, facets.x_m + begin, facets.y_m + begin,
                            facets.z_m + begin, facets.nx + begin, facets.ny + begin, facets.nz + begin,
                            block.cell.data(), block.squared_sine.data(), block.lx_per_cd.data());
    Kernels::intensify(cells_.data(), size, block.cell.data(), block.squared_sine.data(), block.lx_per_cd.data(),
                       lx + begin);
  }
}

}  // namespace evenlit
