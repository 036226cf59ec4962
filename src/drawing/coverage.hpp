#pragma once

#include <Eigen/Core>
#include <span>
#include <vector>

namespace evenlit {

/// A run of pixels of one row that a shape covers equally.
struct Span {
  int y = 0;
  int x_begin = 0;
  int x_end = 0;
  float coverage = 0;  ///< of each pixel's area, 0...1
};

/// Collects outlines and says how much of every pixel they cover.
///
/// Each edge leaves, in the pixels that it crosses, the signed area to its right and its signed height; summed along a
/// row these are the exact areas. Outlines of one orientation unite (coverage stops at 1), the other orientation cuts
/// holes.
class Coverage {
 public:
  Coverage(int width, int height) : width_(width), height_(height) {}

  /// @param outline in pixels, need not lie within the image
  void add(std::span<const Eigen::Vector2d> outline);

  /// Rows from the top, left to right within a row.
  std::vector<Span> spans() const;

 private:
  struct Cell {
    int y = 0;
    int x = 0;
    double height = 0;  ///< signed, of the pieces of edges within the pixel
    double area = 0;    ///< signed, between those pieces and the pixel's right side
  };

  void add_edge(Eigen::Vector2d from, Eigen::Vector2d to);
  void add_within_columns(const Eigen::Vector2d& from, const Eigen::Vector2d& to);
  void add_within_row(int y, double x0, double y0, double x1, double y1);
  std::vector<Cell> sorted_cells() const;

  int width_;
  int height_;
  std::vector<Cell> cells_;
};

}  // namespace evenlit
