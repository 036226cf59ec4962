#include "face_points.hpp"

#include <Eigen/Geometry>
#include <boost/math/quadrature/gauss.hpp>

#include "triangles.hpp"

namespace evenlit::reference {
namespace {

constexpr int k_order = 10;

struct Node {
  double place;  ///< 0...1
  double weight;
};

/// Gauss-Legendre on 0...1.
std::vector<Node> unit_rule() {
  using Rule = boost::math::quadrature::gauss<double, k_order>;
  std::vector<Node> nodes;
  for (int i = 0; i < k_order / 2; ++i) {
    const double place = Rule::abscissa()[i];
    const double weight = Rule::weights()[i] / 2;
    nodes.push_back({(1 - place) / 2, weight});
    nodes.push_back({(1 + place) / 2, weight});
  }
  return nodes;
}

/// Equal and similar triangles, `parts` to a side.
std::vector<Triangle> divided(const Triangle& t, int parts) {
  const auto at = [&](int i, int j) -> Eigen::Vector3d {
    return t[0] + (i * (t[1] - t[0]) + j * (t[2] - t[0])) / parts;
  };
  std::vector<Triangle> result;
  for (int i = 0; i < parts; ++i) {
    for (int j = 0; i + j < parts; ++j) {
      result.push_back({at(i, j), at(i + 1, j), at(i, j + 1)});
      if (i + j + 1 < parts) result.push_back({at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)});
    }
  }
  return result;
}

}  // namespace

FacePoints face_points(const std::vector<Surface>& surfaces, int parts) {
  const auto rule = unit_rule();
  FacePoints points;
  std::vector<double> area_m2;
  const auto add = [&](const Triangle& t, const Eigen::Vector3d& normal, int surface) {
    const Eigen::Vector3d u = t[1] - t[0];
    const Eigen::Vector3d v = t[2] - t[1];
    const double twice_m2 = u.cross(v).norm();
    for (const auto& out : rule) {
      for (const auto& aside : rule) {
        points.receivers.push_back({t[0] + out.place * (u + aside.place * v), normal});
        points.surface.push_back(surface);
        area_m2.push_back(twice_m2 * out.weight * out.place * aside.weight);
      }
    }
  };
  for (int i = 0; i < static_cast<int>(surfaces.size()); ++i) {
    for (const auto& whole : triangles(surfaces[i].corners_m, surfaces[i].normal)) {
      for (const auto& part : divided(whole, parts)) add(part, surfaces[i].normal, i);
    }
  }
  points.area_m2 = Eigen::Map<const Eigen::VectorXd>(area_m2.data(), std::ssize(area_m2));
  return points;
}

double sum_over(const FacePoints& points, const Eigen::VectorXd& values, int surface) {
  double sum = 0;
  for (Eigen::Index i = 0; i < values.size(); ++i) {
    if (surface < 0 || points.surface[i] == surface) sum += values[i] * points.area_m2[i];
  }
  return sum;
}

double mean_over(const FacePoints& points, const Eigen::VectorXd& values, int surface) {
  return sum_over(points, values, surface) / sum_over(points, Eigen::VectorXd::Ones(values.size()), surface);
}

}  // namespace evenlit::reference
