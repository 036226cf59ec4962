#include "student_t.hpp"

#include <cmath>
#include <numbers>

namespace evenlit {
namespace {

/// The chance that |t| is no more than `t`, for t >= 0.
double two_sided_probability(double t, int freedom) {
  const double angle = std::atan(t / std::sqrt(freedom));
  const double cosine = std::cos(angle);
  const bool is_odd = freedom % 2 == 1;
  // Terms c, 2/3 c^3, (2 4)/(3 5) c^5 ... of odd freedom; 1, 1/2 c^2, (1 3)/(2 4) c^4 ... of even.
  double term = is_odd ? cosine : 1;
  double sum = 0;
  for (int i = is_odd ? 2 : 1; i < freedom; i += 2) {
    sum += term;
    term *= cosine * cosine * i / (i + 1);
  }
  if (is_odd) return 2 / std::numbers::pi * (angle + std::sin(angle) * sum);
  return std::sin(angle) * sum;
}

}  // namespace

double student_t_two_sided(double inside, int freedom) {
  double below = 0;
  double above = 1;
  while (two_sided_probability(above, freedom) < inside) above *= 2;
  while (above - below > 1e-9 * above) {
    const double middle = (below + above) / 2;
    (two_sided_probability(middle, freedom) < inside ? below : above) = middle;
  }
  return above;
}

}  // namespace evenlit
