#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "benches.hpp"
#include "evenlit/field/direct.hpp"
#include "field/rooms.hpp"
#include "plain_reference.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

constexpr double k_x_m = 8;
constexpr double k_y_m = 6;
constexpr double k_z_m = 2.7;
constexpr int k_plain_runs = 3;
constexpr int k_our_runs = 100;  ///< each a fraction of a millisecond

/// A beam of 38 degrees, tabulated as files do it: gamma in steps of 2.5 degrees.
IntensityDistribution rotational_beam() {
  const double power = std::log(0.5) / std::log(std::cos(19 * std::numbers::pi / 180));
  return testing::tabulated([=](double gamma) { return 1000 * std::pow(std::max(0.0, std::cos(gamma)), power); }, 90,
                            2.5);
}

/// The same, more or less of it by C plane, every 15 degrees.
IntensityDistribution table_beam() {
  IntensityDistribution beam = rotational_beam();
  const Eigen::ArrayXd along_gamma = beam.candela.col(0);
  constexpr int k_planes = 25;
  beam.c_deg.clear();
  beam.candela.resize(along_gamma.size(), k_planes);
  const Eigen::ArrayXd away = Eigen::ArrayXd::LinSpaced(along_gamma.size(), 0, 0.5);  // all planes agree at nadir
  for (int c = 0; c < k_planes; ++c) {
    beam.c_deg.push_back(15 * c);
    beam.candela.col(c) = along_gamma * (1 + away * std::cos(c % (k_planes - 1) * std::numbers::pi / 6));
  }
  return beam;
}

/// Twenty cans in five rows of four.
Scene room_with(const IntensityDistribution& beam, const Opening& opening) {
  Scene scene = testing::box_room(k_x_m, k_y_m, k_z_m);
  scene.distributions = {beam};
  for (int i = 0; i < 20; ++i) {
    scene.luminaires.push_back({.position_m = {(i % 5 + 0.5) * k_x_m / 5, (i / 5 + 0.5) * k_y_m / 4, k_z_m},
                                .room_from_luminaire = room_from_luminaire(0, 0, 0),
                                .opening = opening});
  }
  return scene;
}

/// Half of them on the work plane, half on a wall.
std::vector<Receiver> receivers(int side) {
  auto points = testing::upward_grid(k_x_m, k_y_m, 0.8, 2 * side, side);
  for (const auto& [on_plane, normal] : testing::upward_grid(k_x_m, k_z_m, 0, 2 * side, side)) {
    points.push_back({{on_plane.x(), 0, on_plane.y()}, Eigen::Vector3d::UnitY()});
  }
  return points;
}

struct DirectCase {
  std::string name;
  Scene scene;
  std::vector<Receiver> receivers;
  int raster;               ///< of the reference
  double promised_percent;  ///< the largest difference that may be, of the points' mean
  double flops;             ///< of one pair; 0 where an opening's pieces are not counted
};

/// Facets x luminaires, lx, in double precision.
Eigen::ArrayXXd plain_pairs(const DirectCase& c) {
  Eigen::ArrayXXd lx(std::ssize(c.receivers), std::ssize(c.scene.luminaires));
  for (Eigen::Index k = 0; k < lx.cols(); ++k) {
    for (Eigen::Index i = 0; i < lx.rows(); ++i) {
      const auto& [point, normal] = c.receivers[i];
      lx(i, k) = plain_illuminance(c.scene, c.scene.luminaires[k], c.raster, point, normal);
    }
  }
  return lx;
}

/// The largest difference of pairs that get at least a thousandth of what the best gets, of their own value.
double largest_share(const Eigen::ArrayXXd& off, const Eigen::ArrayXXd& plain) {
  const double least = plain.maxCoeff() / 1000;
  return (plain > least).select(off.abs() / plain.max(least), 0.0).maxCoeff();
}

}  // namespace

bool direct_bench(const Limits& limits) {
  const Opening six_inch{.shape = Opening::Shape::disc, .width_m = 0.1524, .length_m = 0.1524};
  // A ray: difference 3, cosine 6, square of its length 5. One plane, upright: square of the sine 3, 1 / d^3 and
  // product 4, lines 4. A C-gamma table: 1 / d^3 and product 5, turning the ray 15, each angle 20 with its square root,
  // quotient and polynomial, interpolation 12.
  constexpr double k_ray_flops = 3 + 6 + 5;
  constexpr double k_rotational_flops = k_ray_flops + 3 + 4 + 4;
  constexpr double k_table_flops = k_ray_flops + 5 + 15 + 2 * 20 + 12;
  // A point: the same formula in single precision. Coordinates of 8 m are rounded to 2.4e-7 m, which at the least
  // distance of 1.9 m is 1.3e-7 of the distance and so much of an angle; the lookup's angles are good to 1e-5 degrees,
  // 1.7e-7. Cosine and square law multiply the first by up to 4, this beam an angle by 12 tan(gamma), 4.5 where a point
  // gets most, and lines in place of arcs take up to 1.3e-6 of its peak: 2e-6 of the light of all. A disc: the point
  // formula beyond 25 sizes (0.04 % off for a diffuse one), fewer pieces nearer, and a beam whose table has a kink
  // every 2.5 degrees, which pieces do not average exactly.
  const std::vector<DirectCase> cases{
      {"point, rotational", room_with(rotational_beam(), {}), receivers(32), 1, 2e-4, k_rotational_flops},
      {"point, C-gamma table", room_with(table_beam(), {}), receivers(32), 1, 2e-4, k_table_flops},
      {"6 in disc, rotational", room_with(rotational_beam(), six_inch), receivers(8), 24, 0.1, 0},
      {"6 in disc, C-gamma table", room_with(table_beam(), six_inch), receivers(8), 24, 0.1, 0},
  };
  const double peak = 2 * limits.one_thread_multiply_adds_per_s;
  std::vector<std::vector<std::string>> rows{
      {"", "plain, M/s", "ours, M/s", "ratio", "of the peak", "of the mean", "may", "of the pair"}};
  bool all_agree = true;
  for (const auto& c : cases) {
    const auto source = std::make_shared<const LightSource>(c.scene.distributions.front());
    std::vector<DirectLight> lights;
    for (const auto& luminaire : c.scene.luminaires) lights.emplace_back(luminaire, source);
    const Visibility visibility(c.scene);
    Facets facets;
    for (const auto& receiver : c.receivers) facets.add(receiver.position_m, receiver.normal);
    Eigen::ArrayXXf ours(facets.size(), std::ssize(lights));
    Eigen::ArrayXXd plain;
    const auto our_pairs = [&] {
      for (Eigen::Index k = 0; k < ours.cols(); ++k) {
        lights[k].illuminances(visibility, facets, {}, 0, facets.size(), ours.col(k).data());
      }
    };
    const double plain_s = alternated(k_plain_runs, {[&] { plain = plain_pairs(c); }}).front().minimum_s;
    const double ours_s = alternated(k_our_runs, {our_pairs}).front().minimum_s;
    const auto pairs = static_cast<double>(plain.size());
    const double ours_per_s = pairs / ours_s;
    const Eigen::ArrayXXd off = ours.cast<double>() - plain;
    const double differ_percent = 100 * off.rowwise().sum().abs().maxCoeff() / plain.rowwise().sum().mean();
    const bool agrees = differ_percent <= c.promised_percent;
    all_agree = all_agree && agrees;
    rows.push_back({c.name, fmt::format("{:.3f}", 1e-6 * pairs / plain_s), fmt::format("{:.2f}", 1e-6 * ours_per_s),
                    fmt::format("{:.1f} x", plain_s / ours_s),
                    c.flops > 0 ? fmt::format("{:.0f} %", 100 * c.flops * ours_per_s / peak) : "-",
                    fmt::format("{:.1e} %", differ_percent),
                    fmt::format("{:.0e} %{}", c.promised_percent, agrees ? "" : " FAILED"),
                    fmt::format("{:.1e} %", 100 * largest_share(off, plain))});
  }
  print_table(
      fmt::format(
          "Direct light, one thread (its multiply-add peak {:.1f} G/s): million pairs of luminaire and point a "
          "second;\nlargest errors from double precision, of the points' mean and of each pair; least wall time of {} "
          "(plain) and {} runs",
          1e-9 * peak / 2, k_plain_runs, k_our_runs),
      rows);
  return all_agree;
}

}  // namespace evenlit::bench
