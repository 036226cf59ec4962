#include "cell_aims.hpp"

#include <algorithm>

#include "evenlit/base/vectorised.hpp"
#include "gauss.hpp"

namespace evenlit {
namespace {

/// One coordinate of a quadrilateral's bilinear map: origin + u du + v (dv + u duv).
struct Bilinear {
  float origin, du, dv, duv;
};

EVENLIT_VECTORISED
void place_axis(const float* __restrict u, const float* __restrict v, const Bilinear& map, int count,
                float* __restrict to) {
  const Bilinear m = map;
  for (int k = 0; k < count; ++k) to[k] = m.origin + u[k] * m.du + v[k] * (m.dv + u[k] * m.duv);
}

/// The mean of each column of `rows` x `columns` numbers.
EVENLIT_VECTORISED
void mean_columns(const float* __restrict numbers, int rows, int columns, float* __restrict means) {
  std::fill_n(means, columns, 0.0F);
  for (int row = 0; row < rows; ++row) {
    for (int i = 0; i < columns; ++i) means[i] += numbers[row * columns + i];
  }
  for (int i = 0; i < columns; ++i) means[i] /= static_cast<float>(rows);
}

}  // namespace

CellAims::CellAims(int order, int lines) : per_cell_(lines * lines) {
  const auto& widths = gauss_rule(order).weights;
  std::vector<double> starts{0};
  for (const double width : widths) starts.push_back(starts.back() + width);
  const auto in_cell = [&](int cell, double share) { return static_cast<float>(starts[cell] + widths[cell] * share); };
  for (int k = 0; k < per_cell_; ++k) {
    const double column = k % lines;
    const double row = k / lines;
    for (int cell = 0; cell < order * order; ++cell) {
      u_.push_back(in_cell(cell % order, (column + (row + 0.5) / lines) / lines));
      v_.push_back(in_cell(cell / order, (row + (column + 0.5) / lines) / lines));
    }
  }
}

void CellAims::place(const Quad& quad, float* x, float* y, float* z) const {
  float* const targets[] = {x, y, z};
  for (int axis = 0; axis < 3; ++axis) {
    const auto origin = static_cast<float>(quad[0][axis]);
    const auto u = static_cast<float>(quad[1][axis] - quad[0][axis]);
    const auto v = static_cast<float>(quad[3][axis] - quad[0][axis]);
    const auto uv = static_cast<float>(quad[2][axis] - quad[1][axis] - quad[3][axis] + quad[0][axis]);
    place_axis(u_.data(), v_.data(), {origin, u, v, uv}, per_patch(), targets[axis]);
  }
}

void CellAims::average(const float* at_aims, float* shares) const {
  mean_columns(at_aims, per_cell_, per_patch() / per_cell_, shares);
}

}  // namespace evenlit
