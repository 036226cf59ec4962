#include "product.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

constexpr int k_rows = 6;     ///< of the target whose sums stay in registers together...
constexpr int k_width = 16;   ///< ...and columns of it...
constexpr int k_narrow = 8;   ///< ...or so many where no more are left
constexpr int k_depth = 512;  ///< terms after which sums go back to memory: a panel of as many rows fits the cache

using RowPointers = std::array<const float*, k_rows>;

/// The sums of `depth` products in `k_rows` x `width` places.
///
/// @param rows  of the weights, from the first term on
/// @param panel `depth` x `width`
/// @param sums  `k_rows` x `width`
template <int width>
[[gnu::always_inline]] inline void add_up(const RowPointers& rows, const float* __restrict panel, int depth,
                                          float* __restrict sums) {
  const float* const row0 = rows[0];
  const float* const row1 = rows[1];
  const float* const row2 = rows[2];
  const float* const row3 = rows[3];
  const float* const row4 = rows[4];
  const float* const row5 = rows[5];
  float sum0[width]{}, sum1[width]{}, sum2[width]{}, sum3[width]{}, sum4[width]{}, sum5[width]{};
  for (int term = 0; term < depth; ++term) {
    const float* const values = panel + term * width;
    for (int i = 0; i < width; ++i) {
      sum0[i] += row0[term] * values[i];
      sum1[i] += row1[term] * values[i];
      sum2[i] += row2[term] * values[i];
      sum3[i] += row3[term] * values[i];
      sum4[i] += row4[term] * values[i];
      sum5[i] += row5[term] * values[i];
    }
  }
  for (int i = 0; i < width; ++i) {
    sums[i] = sum0[i];
    sums[width + i] = sum1[i];
    sums[2 * width + i] = sum2[i];
    sums[3 * width + i] = sum3[i];
    sums[4 * width + i] = sum4[i];
    sums[5 * width + i] = sum5[i];
  }
}

EVENLIT_VECTORISED
void wide_sums(const RowPointers& rows, const float* panel, int depth, float* sums) {
  add_up<k_width>(rows, panel, depth, sums);
}

EVENLIT_VECTORISED
void narrow_sums(const RowPointers& rows, const float* panel, int depth, float* sums) {
  add_up<k_narrow>(rows, panel, depth, sums);
}

/// Some rows of some columns, one after the other, with zeros beyond up to the panel's width.
void copy_panel(const RowMajorRef& columns, int first_row, int rows, int first, int count, int width, float* panel) {
  for (int row = 0; row < rows; ++row) {
    const float* const from = columns.data() + (first_row + row) * columns.outerStride() + first;
    float* const to = panel + static_cast<std::ptrdiff_t>(row) * width;
    std::copy_n(from, count, to);
    std::fill(to + count, to + width, 0.0F);
  }
}

}  // namespace

void add_product(const RowMajorRef& weights, const RowMajorRef& columns, RowMajorTarget target) {
  thread_local std::vector<float> panel(static_cast<std::size_t>(k_depth) * k_width);
  const int rows = static_cast<int>(target.rows());
  const int across = static_cast<int>(target.cols());
  const int terms = static_cast<int>(weights.cols());
  std::array<float, k_rows * k_width> sums{};
  for (int first_term = 0; first_term < terms; first_term += k_depth) {
    const int depth = std::min(k_depth, terms - first_term);
    for (int first = 0; first < across; first += k_width) {
      const int count = std::min(k_width, across - first);
      const int width = count > k_narrow ? k_width : k_narrow;
      copy_panel(columns, first_term, depth, first, count, width, panel.data());
      for (int begin = 0; begin < rows; begin += k_rows) {
        const int own_rows = std::min(k_rows, rows - begin);
        RowPointers pointers{};
        for (int row = 0; row < k_rows; ++row) {
          pointers[row] = weights.data() + (begin + std::min(row, own_rows - 1)) * weights.outerStride() + first_term;
        }
        (width == k_width ? wide_sums : narrow_sums)(pointers, panel.data(), depth, sums.data());
        for (int row = 0; row < own_rows; ++row) {
          float* const to = target.data() + (begin + row) * target.outerStride() + first;
          for (int i = 0; i < count; ++i) to[i] += sums[row * width + i];
        }
      }
    }
  }
}

}  // namespace evenlit
