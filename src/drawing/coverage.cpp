#include "coverage.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {
namespace {

constexpr double k_invisible = 1e-6;  // coverage; far below the 1/510 that could change an 8-bit colour

float clamped_coverage(double area) { return static_cast<float>(std::min(std::abs(area), 1.0)); }

}  // namespace

void Coverage::add(std::span<const Eigen::Vector2d> outline) {
  for (std::size_t i = 0; i < outline.size(); ++i) add_edge(outline[i], outline[(i + 1) % outline.size()]);
}

// Cuts the edge to the rows of the image, then to its columns; what lies left or right of the image is moved onto its
// side, where it still turns the coverage of the row on and off.
void Coverage::add_edge(Eigen::Vector2d from, Eigen::Vector2d to) {
  if (!from.allFinite() || !to.allFinite() || from.y() == to.y()) return;
  if (std::max(from.y(), to.y()) <= 0 || std::min(from.y(), to.y()) >= height_) return;
  const auto at_row = [a = from, b = to](double y) {
    return Eigen::Vector2d(a.x() + (b.x() - a.x()) * (y - a.y()) / (b.y() - a.y()), y);
  };
  for (Eigen::Vector2d* end : {&from, &to}) {
    if (end->y() < 0) *end = at_row(0);
    if (end->y() > height_) *end = at_row(height_);
  }
  const auto crossing = [&](double side) {
    return from.x() == to.x() ? 0 : std::clamp((side - from.x()) / (to.x() - from.x()), 0.0, 1.0);
  };
  const double left = crossing(0);
  const double right = crossing(width_);
  const auto point = [&](double t) {
    Eigen::Vector2d p = t < 1 ? Eigen::Vector2d(from + t * (to - from)) : to;
    p.x() = std::clamp(p.x(), 0.0, static_cast<double>(width_));
    return p;
  };
  const Eigen::Vector2d first_cut = point(std::min(left, right));
  const Eigen::Vector2d second_cut = point(std::max(left, right));
  add_within_columns(point(0), first_cut);
  add_within_columns(first_cut, second_cut);
  add_within_columns(second_cut, point(1));
}

void Coverage::add_within_columns(const Eigen::Vector2d& from, const Eigen::Vector2d& to) {
  const double slope = to.y() == from.y() ? 0 : (to.x() - from.x()) / (to.y() - from.y());
  const double step = to.y() > from.y() ? 1 : -1;
  const double leftmost = std::min(from.x(), to.x());
  const double rightmost = std::max(from.x(), to.x());
  Eigen::Vector2d p = from;
  while (p.y() != to.y()) {
    const double boundary = step > 0 ? std::floor(p.y()) + 1 : std::ceil(p.y()) - 1;
    const bool last = (boundary - to.y()) * step >= 0;
    const double x = std::clamp(from.x() + slope * (boundary - from.y()), leftmost, rightmost);
    const Eigen::Vector2d q = last ? to : Eigen::Vector2d(x, boundary);
    add_within_row(static_cast<int>(std::floor(std::min(p.y(), q.y()))), p.x(), p.y(), q.x(), q.y());
    p = q;
  }
}

void Coverage::add_within_row(int y, double x0, double y0, double x1, double y1) {
  const auto leave = [&](int column, double left, double right, double height) {
    cells_.push_back({y, column, height, height * (column + 1 - (left + right) / 2)});
  };
  const int first = static_cast<int>(std::floor(std::min(x0, x1)));
  const int last = std::max(first, static_cast<int>(std::ceil(std::max(x0, x1))) - 1);
  if (first == last) return leave(first, x0, x1, y1 - y0);
  const double height_per_column = (y1 - y0) / std::abs(x1 - x0);
  for (int column = first; column <= last; ++column) {
    const double left = std::max<double>(column, std::min(x0, x1));
    const double right = std::min<double>(column + 1, std::max(x0, x1));
    leave(column, left, right, (right - left) * height_per_column);
  }
}

std::vector<Coverage::Cell> Coverage::sorted_cells() const {
  if (cells_.empty()) return {};
  const auto [top, bottom] =
      std::minmax_element(cells_.begin(), cells_.end(), [](const Cell& a, const Cell& b) { return a.y < b.y; });
  const int first = top->y;
  const int rows = bottom->y - first + 1;
  std::vector<int> begin(static_cast<std::size_t>(rows) + 1, 0);
  for (const Cell& cell : cells_) ++begin[cell.y - first + 1];
  for (int row = 0; row < rows; ++row) begin[row + 1] += begin[row];
  std::vector<Cell> sorted(cells_.size());
  std::vector<int> next = begin;
  for (const Cell& cell : cells_) sorted[next[cell.y - first]++] = cell;
  for (int row = 0; row < rows; ++row) {
    std::sort(sorted.begin() + begin[row], sorted.begin() + begin[row + 1],
              [](const Cell& a, const Cell& b) { return a.x < b.x; });
  }
  return sorted;
}

std::vector<Span> Coverage::spans() const {
  std::vector<Span> spans;
  const auto emit = [&](int y, int x_begin, int x_end, double area) {
    x_end = std::min(x_end, width_);
    if (x_begin < x_end && std::abs(area) > k_invisible) spans.push_back({y, x_begin, x_end, clamped_coverage(area)});
  };
  const std::vector<Cell> cells = sorted_cells();
  double height = 0;  // of all edges to the left within the row
  for (std::size_t i = 0; i < cells.size();) {
    const Cell& pixel = cells[i];
    if (i == 0 || cells[i - 1].y != pixel.y) height = 0;
    double area = height;
    for (; i < cells.size() && cells[i].y == pixel.y && cells[i].x == pixel.x; ++i) {
      area += cells[i].area;
      height += cells[i].height;
    }
    emit(pixel.y, pixel.x, pixel.x + 1, area);
    const bool more = i < cells.size() && cells[i].y == pixel.y;
    emit(pixel.y, pixel.x + 1, more ? cells[i].x : width_, height);
  }
  return spans;
}

}  // namespace evenlit
