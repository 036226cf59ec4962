#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <span>
#include <utility>
#include <vector>

namespace evenlit {

/// Says how much of each pixel in a band of an image's rows outlines cover.
///
/// Each edge leaves, in the pixels that it crosses, by how much it changes the area covered there from the pixel to the
/// left; summed along a row these are the exact areas. Outlines of one orientation unite (coverage stops at 1), the
/// other orientation cuts holes.
class Coverage {
 public:
  /// @param first_row, end_row of the band within the image
  Coverage(int width, int first_row, int end_row);

  /// @param outline in pixels of the image, finite, need not lie within the band
  void add(std::span<const Eigen::Vector2d> outline);

  /// Takes the outlines away again, while calling paint(y, x_begin, x_end, coverage) for each run of pixels of one row
  /// that they cover equally, by a share of their areas above 0, at most 1.
  template <class Paint>
  void sweep(Paint&& paint);

 private:
  void add_edge(Eigen::Vector2d from, Eigen::Vector2d to);
  void add_within_columns(const Eigen::Vector2d& from, const Eigen::Vector2d& to);
  void add_within_row(int row, double x0, double x1, double height);
  void change(int row, int x, double by);

  struct Range {
    int begin = std::numeric_limits<int>::max();
    int end = 0;

    void include(int first, int last) {
      begin = std::min(begin, first);
      end = std::max(end, last + 1);
    }
  };

  int width_;
  int first_row_;
  int rows_;
  int cells_a_row_;  // the width and one more on the right for what edges there change
  int words_a_row_;
  std::vector<double> changes_;
  std::vector<std::uint64_t> changed_;  // one bit a cell
  Range changed_rows_;
  Range changed_words_;
};

template <class Paint>
void Coverage::sweep(Paint&& paint) {
  constexpr double k_invisible = 1e-6;  // far below the 1/510 that could change an 8-bit colour
  const Range words = std::exchange(changed_words_, {});
  const Range rows = std::exchange(changed_rows_, {});
  for (int row = rows.begin; row < rows.end; ++row) {
    double* const changes = &changes_[static_cast<std::size_t>(row) * cells_a_row_];
    double area = 0;
    int begin = 0;
    const auto paint_until = [&](int end) {
      if (begin < end && std::abs(area) > k_invisible) {
        paint(first_row_ + row, begin, end, static_cast<float>(std::min(std::abs(area), 1.0)));
      }
      begin = end;
    };
    for (int word = words.begin; word < words.end; ++word) {
      std::uint64_t left = std::exchange(changed_[static_cast<std::size_t>(row) * words_a_row_ + word], 0);
      for (; left != 0; left &= left - 1) {
        const int x = 64 * word + std::countr_zero(left);
        paint_until(std::min(x, width_));
        area += std::exchange(changes[x], 0);
      }
    }
    paint_until(width_);
  }
}

}  // namespace evenlit
