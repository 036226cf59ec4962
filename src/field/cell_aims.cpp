#include "cell_aims.hpp"

#include <numeric>

#include "gauss.hpp"

namespace evenlit {

CellAims::CellAims(int order, int lines) : per_cell_(lines * lines) {
  const auto& widths = gauss_rule(order).weights;
  std::vector<double> starts{0};
  for (const double width : widths) starts.push_back(starts.back() + width);
  const auto in_cell = [&](int cell, double share) { return static_cast<float>(starts[cell] + widths[cell] * share); };
  for (int cell = 0; cell < order * order; ++cell) {
    for (int k = 0; k < per_cell_; ++k) {
      const double column = k % lines;
      const double row = k / lines;
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
    for (int k = 0; k < per_patch(); ++k) targets[axis][k] = origin + u_[k] * u + v_[k] * (v + u_[k] * uv);
  }
}

void CellAims::average(const float* at_aims, float* shares) const {
  for (int cell = 0; cell < per_patch() / per_cell_; ++cell) {
    const float* const first = at_aims + cell * per_cell_;
    shares[cell] = std::accumulate(first, first + per_cell_, 0.0F) / static_cast<float>(per_cell_);
  }
}

}  // namespace evenlit
