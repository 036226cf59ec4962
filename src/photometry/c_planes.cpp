#include "c_planes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "sphere.hpp"

namespace evenlit {
namespace {

/// A plane, and the column of the table that holds its candelas.
struct Plane {
  double c_deg;
  Eigen::Index column;
};
using Planes = std::vector<Plane>;

/// The planes together with their images in the vertical plane through `axis_deg`.
Planes mirrored(Planes planes, double axis_deg) {
  const std::size_t originals = planes.size();
  for (std::size_t i = 0; i < originals; ++i) {
    const Plane plane = planes[i];
    const bool is_its_own_image = std::remainder(plane.c_deg - axis_deg, 180) == 0;
    if (!is_its_own_image) planes.push_back({2 * axis_deg - plane.c_deg, plane.column});
  }
  return planes;
}

/// The planes from 0 to 360, both stored; where none stands at 0, the one that interpolation gives there.
CPlanes closed(Planes planes, const Eigen::ArrayXXd& candela) {
  for (Plane& plane : planes) plane.c_deg = wrapped_c_deg(plane.c_deg);
  std::ranges::stable_sort(planes, {}, &Plane::c_deg);
  const auto at_the_same_angle = [](const Plane& a, const Plane& b) { return a.c_deg == b.c_deg; };
  planes.erase(std::unique(planes.begin(), planes.end(), at_the_same_angle), planes.end());

  const Plane first = planes.front();
  const Plane last = planes.back();
  Eigen::ArrayXd at_zero = candela.col(first.column);
  const bool starts_at_zero = first.c_deg == 0;
  if (!starts_at_zero) {
    const double before = 360 - last.c_deg;
    at_zero = (at_zero * before + candela.col(last.column) * first.c_deg) / (before + first.c_deg);
  }

  CPlanes circle;
  const Eigen::Index size = std::ssize(planes) + (starts_at_zero ? 1 : 2);
  circle.candela.resize(candela.rows(), size);
  const auto add = [&circle](double c_deg, const auto& column) {
    circle.candela.col(std::ssize(circle.c_deg)) = column;
    circle.c_deg.push_back(c_deg);
  };
  if (!starts_at_zero) add(0, at_zero);
  for (const Plane& plane : planes) add(plane.c_deg, candela.col(plane.column));
  add(360, at_zero);
  return circle;
}

CPlanes without_repetition(CPlanes circle) {
  const auto first = circle.candela.col(0);
  const bool all_equal = ((circle.candela.colwise() - first) == 0).all();
  if (!all_equal) return circle;
  return {{0}, Eigen::ArrayXXd(first)};
}

double median_step(const std::vector<double>& deg) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < deg.size(); ++i) steps.push_back(deg[i] - deg[i - 1]);
  const auto middle = steps.begin() + std::ssize(steps) / 2;
  std::ranges::nth_element(steps, middle);
  return *middle;
}

/// The ways in which a range of horizontal angles can stand for the full circle.
enum class Range { single, quadrant, half, full, unclosed, other };

Range range_of(const std::vector<double>& deg) {
  if (deg.size() == 1) return Range::single;
  const double span = deg.back() - deg.front();
  const bool on_axes = std::remainder(deg.front(), 90) == 0;
  if (on_axes && span == 90) return Range::quadrant;
  if (on_axes && span == 180) return Range::half;
  if (std::abs(span - 360) <= 0.05) return Range::full;
  const double gap = 360 - span;
  if (deg.size() > 2 && gap > 0 && gap < 180 && gap <= 1.5 * median_step(deg)) return Range::unclosed;
  return Range::other;
}

void warn_of_open_ends(const AngleList& horizontal, const Eigen::ArrayXXd& candela, Problems& warnings) {
  const double peak = candela.maxCoeff();
  const double difference = (candela.col(0) - candela.col(candela.cols() - 1)).abs().maxCoeff();
  if (difference <= 0.01 * peak) return;
  warnings.push_back({horizontal.place(horizontal.last()),
                      fmt::format("candela values at horizontal angles {} and {} differ by up to {} % of the peak; "
                                  "those of the first are used",
                                  shortest_text(horizontal.deg.front()), shortest_text(horizontal.deg.back()),
                                  fixed_text(100 * difference / peak, 1)),
                      ""});
}

tl::unexpected<Problems> incomplete(const AngleList& horizontal) {
  const double first = horizontal.deg.front();
  const double last = horizontal.deg.back();
  const auto what = first == 0 && last > 180 && last < 360
                        ? fmt::format("no data between the horizontal angles {} and 360", shortest_text(last))
                        : fmt::format("horizontal angles run from {} to {}", shortest_text(first), shortest_text(last));
  return failure(horizontal.place(horizontal.last()), what, "they must begin at 0 and end at 0, 90, 180 or 360");
}

}  // namespace

Result<CPlanes> full_circle(const AngleList& horizontal, const Eigen::ArrayXXd& candela, bool from_90_is_own,
                            Problems& warnings) {
  const double first = horizontal.deg.front();
  const auto warn = [&](std::string_view remedy) {
    warnings.push_back({horizontal.place(0),
                        fmt::format("horizontal angles run from {} to {}; {}", shortest_text(first),
                                    shortest_text(horizontal.deg.back()), remedy),
                        ""});
  };
  Planes planes;
  for (std::size_t i = 0; i < horizontal.deg.size(); ++i) {
    planes.push_back({horizontal.deg[i], static_cast<Eigen::Index>(i)});
  }

  switch (range_of(horizontal.deg)) {
    case Range::single:
      if (first != 0) {
        warnings.push_back(
            {horizontal.place(0),
             fmt::format("the only horizontal angle is {}; its plane is used all around", shortest_text(first)), ""});
      }
      return CPlanes{{0}, candela};
    case Range::quadrant:
      if (first != 0) warn("they are mirrored into the other quadrants");
      planes = mirrored(mirrored(std::move(planes), first), first + 90);
      break;
    case Range::half:
      if (first != 0 && !(first == 90 && from_90_is_own)) warn("they are mirrored into the other half");
      planes = mirrored(std::move(planes), first);
      break;
    case Range::full:
      if (first != 0) warn("they are turned into 0 to 360");
      warn_of_open_ends(horizontal, candela, warnings);
      planes.pop_back();
      break;
    case Range::unclosed:
      warn("the first plane closes the circle");
      break;
    case Range::other:
      return incomplete(horizontal);
  }
  return without_repetition(closed(std::move(planes), candela));
}

}  // namespace evenlit
