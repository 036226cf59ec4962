#include "coverage.hpp"

namespace evenlit {

Coverage::Coverage(int width, int first_row, int end_row)
    : width_(width),
      first_row_(first_row),
      rows_(end_row - first_row),
      cells_a_row_(width + 2),
      words_a_row_((cells_a_row_ + 63) / 64),
      changes_(static_cast<std::size_t>(rows_) * cells_a_row_, 0.0),
      changed_(static_cast<std::size_t>(rows_) * words_a_row_, 0) {}

void Coverage::add(std::span<const Eigen::Vector2d> outline) {
  const Eigen::Vector2d above(0, first_row_);
  const double end_row = first_row_ + rows_;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Eigen::Vector2d& from = outline[i];
    const Eigen::Vector2d& to = outline[i + 1 < outline.size() ? i + 1 : 0];
    const bool is_within = std::max(from.y(), to.y()) > first_row_ && std::min(from.y(), to.y()) < end_row;
    if (is_within && from.y() != to.y()) add_edge(from - above, to - above);
  }
}

// Cuts the edge to the rows of the band, then to its columns; what lies left or right of the band is moved onto its
// side, where it still turns the coverage of the row on and off.
void Coverage::add_edge(Eigen::Vector2d from, Eigen::Vector2d to) {
  const auto at_row = [a = from, b = to](double y) {
    return Eigen::Vector2d(a.x() + (b.x() - a.x()) * (y - a.y()) / (b.y() - a.y()), y);
  };
  for (Eigen::Vector2d* end : {&from, &to}) {
    if (end->y() < 0) *end = at_row(0);
    if (end->y() > rows_) *end = at_row(rows_);
  }
  if (std::min(from.x(), to.x()) >= 0 && std::max(from.x(), to.x()) <= width_) return add_within_columns(from, to);

  const auto crossing = [&](double side) {
    return from.x() == to.x() ? 0 : std::clamp((side - from.x()) / (to.x() - from.x()), 0.0, 1.0);
  };
  const auto point = [&](double t) {
    Eigen::Vector2d p = t < 1 ? Eigen::Vector2d(from + t * (to - from)) : to;
    p.x() = std::clamp(p.x(), 0.0, static_cast<double>(width_));
    return p;
  };
  const auto [first, second] = std::minmax({crossing(0), crossing(width_)});
  add_within_columns(point(0), point(first));
  add_within_columns(point(first), point(second));
  add_within_columns(point(second), point(1));
}

void Coverage::add_within_columns(const Eigen::Vector2d& from, const Eigen::Vector2d& to) {
  if (from.y() == to.y()) return;
  const Eigen::Vector2d& top = from.y() < to.y() ? from : to;
  const Eigen::Vector2d& bottom = from.y() < to.y() ? to : from;
  const double sign = from.y() < to.y() ? 1 : -1;
  const double slope = (bottom.x() - top.x()) / (bottom.y() - top.y());
  const auto [leftmost, rightmost] = std::minmax({top.x(), bottom.x()});
  double x = top.x();
  double y = top.y();
  int row = static_cast<int>(y);
  changed_rows_.include(row, std::min(static_cast<int>(bottom.y()), rows_ - 1));
  changed_words_.include(static_cast<int>(leftmost) / 64, (static_cast<int>(rightmost) + 1) / 64);
  for (; y < bottom.y(); ++row) {
    const double next_y = std::min<double>(row + 1, bottom.y());
    const double next_x = std::clamp(top.x() + slope * (next_y - top.y()), leftmost, rightmost);
    add_within_row(row, x, next_x, sign * (next_y - y));
    x = next_x;
    y = next_y;
  }
}

void Coverage::add_within_row(int row, double x0, double x1, double height) {
  const auto leave = [&](int column, double share_of_height, double middle) {
    const double within = share_of_height * (column + 1 - middle);
    change(row, column, within);
    change(row, column + 1, share_of_height - within);
  };
  const auto [left, right] = std::minmax({x0, x1});
  const int first = static_cast<int>(left);
  if (right <= first + 1) return leave(first, height, (left + right) / 2);
  const double height_a_column = height / (right - left);
  for (int column = first; column < right; ++column) {
    const double begin = std::max<double>(column, left);
    const double end = std::min<double>(column + 1, right);
    leave(column, (end - begin) * height_a_column, (begin + end) / 2);
  }
}

void Coverage::change(int row, int x, double by) {
  changes_[static_cast<std::size_t>(row) * cells_a_row_ + x] += by;
  changed_[static_cast<std::size_t>(row) * words_a_row_ + x / 64] |= std::uint64_t{1} << (x % 64);
}

}  // namespace evenlit
