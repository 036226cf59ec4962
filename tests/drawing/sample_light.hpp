#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/field/work_plane_light.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit::sample {

// Invented rooms with made-up smooth light, for what only shows results and must not depend on the engine.

struct Lit {
  Job job;
  Scene scene;
  WorkPlaneLight light;
};

inline constexpr double k_foot = 0.3048;

inline Polygon rectangle(double width_m, double depth_m) {
  return {{0, 0}, {width_m, 0}, {width_m, depth_m}, {0, depth_m}};
}

inline Grid grid_over(const Polygon& plan_m, double spacing_m, double height_m) {
  Eigen::Vector2d size(0, 0);
  for (const Eigen::Vector2d& corner : plan_m) size = size.cwiseMax(corner);
  Grid grid;
  grid.height_m = height_m;
  grid.columns = static_cast<int>(std::ceil(size.x() / spacing_m - 1e-9));
  grid.rows = static_cast<int>(std::ceil(size.y() / spacing_m - 1e-9));
  grid.spacing_m = {size.x() / grid.columns, size.y() / grid.rows};
  grid.first_m = grid.spacing_m / 2;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const Eigen::Vector2d point = grid.first_m + grid.spacing_m.cwiseProduct(Eigen::Vector2d(column, row));
      const bool inside = is_inside(plan_m, point);
      grid.point_of_cell.push_back(inside ? static_cast<int>(grid.points_m.size()) : -1);
      if (inside) grid.points_m.push_back(point);
    }
  }
  return grid;
}

// Each can throws a smooth hump of light, plus an even glow; statistics are summed here by the plainest means.
inline Lit lit_room(const std::string& name, const Polygon& plan_m, const std::vector<std::string>& wall_names,
                    const std::vector<Eigen::Vector2d>& cans_m, double spacing_m) {
  Lit lit;
  Job& job = lit.job;
  job.room = {name, plan_m, wall_names, 8 * k_foot};
  job.target_lx = 30 / (k_foot * k_foot);
  CanType type;
  type.name = "downlight";
  type.beam = SyntheticBeam{900, 60};
  type.watts = 9.5;
  type.hole_m = 6 * 0.0254;
  job.can_types = {type};

  lit.scene.plan_m = plan_m;
  lit.scene.ceiling = ceiling_of(job.room);
  WorkPlaneLight& light = lit.light;
  light.grid = grid_over(plan_m, spacing_m, job.work_plane.height_m);
  const int points = static_cast<int>(light.grid.points_m.size());
  const int cans = static_cast<int>(cans_m.size());
  light.response.direct_lx.resize(points, cans);
  light.response.indirect_lx.resize(points, cans);
  light.response.first_change_lx = Eigen::MatrixXd::Zero(points, cans);
  light.response.second_change_lx = Eigen::MatrixXd::Constant(points, cans, 0.05);
  light.response.direct_change_lx = light.response.first_change_lx;
  light.response.uncertain_lx = light.response.first_change_lx;
  light.response.missed = Eigen::VectorXd::Zero(light.response.first_change_lx.rows());
  for (int c = 0; c < cans; ++c) {
    Can can;
    can.type = type.name;
    can.from[0] = {wall_names.back(), cans_m[c].x()};
    can.from[1] = {wall_names.front(), cans_m[c].y()};
    job.cans.push_back(can);
    Luminaire luminaire;
    luminaire.position_m = {cans_m[c].x(), cans_m[c].y(), 8 * k_foot};
    luminaire.room_from_luminaire.setIdentity();
    luminaire.opening = {Opening::Shape::disc, 0.13, 0.13, 0};
    luminaire.watts = 9.5;
    lit.scene.luminaires.push_back(luminaire);
    for (int p = 0; p < points; ++p) {
      const double distance2 = (light.grid.points_m[p] - cans_m[c]).squaredNorm();
      light.response.direct_lx(p, c) = 260 / std::pow(1 + distance2 / 2.6, 2.5);
      light.response.indirect_lx(p, c) = 9;
    }
  }
  light.field.direct_lx = light.response.direct_lx.rowwise().sum();
  light.field.total_lx = light.field.direct_lx + light.response.indirect_lx.rowwise().sum();
  light.field.error_lx = 0.003 * light.field.total_lx;

  Statistics& s = light.statistics;
  const Eigen::VectorXd& total = light.field.total_lx;
  s.average_lx = total.mean();
  s.minimum_lx = total.minCoeff(&s.minimum_at);
  s.maximum_lx = total.maxCoeff(&s.maximum_at);
  std::vector<double> sorted(total.begin(), total.end());
  std::sort(sorted.begin(), sorted.end());
  s.p10_lx = sorted[points / 10];
  s.p90_lx = sorted[points * 9 / 10];
  s.coefficient_of_variation = std::sqrt((total.array() - s.average_lx).square().mean()) / s.average_lx;
  s.uniformity_min_avg = s.minimum_lx / s.average_lx;
  s.uniformity_min_max = s.minimum_lx / s.maximum_lx;
  s.max_min = s.maximum_lx / s.minimum_lx;
  s.share_at_target = (total.array() >= *job.target_lx).cast<double>().mean();
  s.direct_share = light.field.direct_lx.mean() / s.average_lx;
  light.lumen_method.room_cavity_ratio = 3.6;
  light.lumen_method.coefficient_of_utilization = 0.81;
  light.lumen_method.average_lx = 1.06 * s.average_lx;
  light.floor_area_m2 = signed_area(plan_m);
  light.watts = 9.5 * cans;
  light.luminaire_lumens = 900.0 * cans;
  light.average_error_lx = 0.002 * s.average_lx;
  return lit;
}

inline std::vector<Eigen::Vector2d> rows_of_cans(double width_m, double depth_m, int across, int down) {
  std::vector<Eigen::Vector2d> cans;
  for (int row = 0; row < down; ++row) {
    for (int column = 0; column < across; ++column) {
      cans.emplace_back(width_m * (column + 0.5) / across, depth_m * (row + 0.5) / down);
    }
  }
  return cans;
}

inline Lit rectangular_room(const std::string& name, double width_ft, double depth_ft, int across, int down,
                            double spacing_m) {
  const double width_m = width_ft * k_foot;
  const double depth_m = depth_ft * k_foot;
  return lit_room(name, rectangle(width_m, depth_m), {"south", "east", "north", "west"},
                  rows_of_cans(width_m, depth_m, across, down), spacing_m);
}

inline Lit living_room() { return rectangular_room("Living room", 18, 13, 4, 2, 0.1); }

inline Lit l_shaped_room() {
  Polygon plan{{0, 0}, {20, 0}, {20, 8}, {11, 8}, {11, 16}, {0, 16}};
  for (Eigen::Vector2d& corner : plan) corner *= k_foot;
  std::vector<Eigen::Vector2d> cans;
  for (const auto& [x, y] :
       {std::pair{3.0, 3.0}, {3.0, 8.0}, {3.0, 13.0}, {8.0, 13.0}, {8.0, 8.0}, {8.0, 3.0}, {13.0, 4.0}, {17.5, 4.0}}) {
    cans.emplace_back(x * k_foot, y * k_foot);
  }
  return lit_room("Kitchen with eating nook", plan, {"south", "east", "nook north", "nook east", "north", "west"}, cans,
                  0.1);
}

}  // namespace evenlit::sample
