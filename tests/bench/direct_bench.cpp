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
  for (int i = 0; i < 20; ++i) {
    testing::add_point(scene, {(i % 5 + 0.5) * k_x_m / 5, (i / 5 + 0.5) * k_y_m / 4, k_z_m}, beam);
    scene.luminaires.back().opening = opening;
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
};

}  // namespace

bool direct_bench() {
  const Opening six_inch{.shape = Opening::Shape::disc, .width_m = 0.1524, .length_m = 0.1524};
  // A point: the same formula, so the single precision of the lookup only. A disc: the point formula beyond 25 sizes
  // (0.04 % off for a diffuse one), fewer pieces nearer, and a beam whose table has a kink every 2.5 degrees, which
  // pieces do not average exactly.
  const std::vector<DirectCase> cases{
      {"point, rotational", room_with(rotational_beam(), {}), receivers(32), 1, 1e-4},
      {"point, C-gamma table", room_with(table_beam(), {}), receivers(32), 1, 1e-4},
      {"6 in disc, rotational", room_with(rotational_beam(), six_inch), receivers(8), 24, 0.1},
      {"6 in disc, C-gamma table", room_with(table_beam(), six_inch), receivers(8), 24, 0.1},
  };
  std::vector<std::vector<std::string>> rows{{"opening, distribution", "pairs", "plain, M/s", "ours, M/s", "ratio",
                                              "spread", "differ by", "may (of the mean)"}};
  bool all_agree = true;
  for (const auto& c : cases) {
    std::vector<DirectLight> lights;
    for (const auto& luminaire : c.scene.luminaires) {
      lights.emplace_back(luminaire, std::make_shared<IntensityLookup>(c.scene.distributions[luminaire.distribution]));
    }
    const Visibility visibility(c.scene);
    Eigen::Matrix3Xd points_m(3, c.receivers.size());
    Eigen::Matrix3Xd normals(3, c.receivers.size());
    for (std::size_t i = 0; i < c.receivers.size(); ++i) {
      points_m.col(static_cast<Eigen::Index>(i)) = c.receivers[i].position_m;
      normals.col(static_cast<Eigen::Index>(i)) = c.receivers[i].normal;
    }
    Eigen::ArrayXd ours(c.receivers.size());
    Eigen::ArrayXd plain(c.receivers.size());
    constexpr int k_runs = 5;
    const auto timings =
        alternated(k_runs, {[&] {
                              for (Eigen::Index i = 0; i < plain.size(); ++i) {
                                plain[i] = 0;
                                for (const auto& luminaire : c.scene.luminaires) {
                                  plain[i] += plain_illuminance(c.scene, luminaire, c.raster, c.receivers[i].position_m,
                                                                c.receivers[i].normal);
                                }
                              }
                            },
                            [&] {
                              ours.setZero();
                              for (const auto& light : lights)
                                ours += light.illuminances(visibility, points_m, normals);
                            }});
    const double pairs = static_cast<double>(c.receivers.size() * lights.size());
    const double differ_percent = 100 * (ours - plain).abs().maxCoeff() / plain.mean();
    const bool agrees = differ_percent <= c.promised_percent;
    all_agree = all_agree && agrees;
    rows.push_back({c.name, fmt::format("{:.0f}", pairs), fmt::format("{:.3f}", 1e-6 * pairs / timings[0].minimum_s),
                    fmt::format("{:.2f}", 1e-6 * pairs / timings[1].minimum_s),
                    fmt::format("{:.1f} x", timings[0].minimum_s / timings[1].minimum_s),
                    fmt::format("{:.0f} %", 100 * timings[1].spread()), fmt::format("{:.1e} %", differ_percent),
                    fmt::format("{:.0e} %{}", c.promised_percent, agrees ? "" : " FAILED")});
  }
  print_table("Direct light, one thread: pairs of luminaire and point, in millions a second", rows);
  return all_agree;
}

}  // namespace evenlit::bench
