#pragma once

#include "evenlit/field/readings_light.hpp"

namespace evenlit::sample {

/// Invented readings: two receivers of a task area, one of a point, 37 around a point, one that is looked at, and two
/// of a surface; two cans.
inline ReadingsLight readings(const std::string& name = "desk") {
  ReadingsLight light;
  Readings& asked = light.readings;
  for (int i = 0; i < 43; ++i) asked.receivers.push_back({{1.0 + i, 2, 0.75}, Eigen::Vector3d::UnitZ()});
  asked.task_areas = {{name, 1.28, {0, Eigen::Vector2d(0.5, 0.5)}, {}}};
  asked.points = {{"pillow", Quantity::illuminance, {2, Eigen::VectorXd::Ones(1)}, {}, 0},
                  {"faces", Quantity::cylindrical_illuminance, {3, Eigen::VectorXd::Constant(37, 1.0 / 37)}, {}, 6e-4},
                  {"view", Quantity::luminance, {40, Eigen::VectorXd::Constant(1, 0.125)}, "north", 0}};
  asked.surfaces = {{"floor", 12.5, {41, Eigen::Vector2d(0.25, 0.75)}, Eigen::Vector2d(0.2, 0.2)}};

  light.response.direct_lx = Eigen::MatrixXd::Constant(43, 2, 100);
  light.response.indirect_lx = Eigen::MatrixXd::Constant(43, 2, 20);
  light.response.direct_lx(0, 1) = 300;
  light.response.first_change_lx = Eigen::MatrixXd::Zero(43, 2);
  light.response.second_change_lx = Eigen::MatrixXd::Zero(43, 2);
  light.response.direct_change_lx = light.response.first_change_lx;
  light.response.uncertain_lx = light.response.first_change_lx;
  light.response.missed = Eigen::VectorXd::Zero(light.response.first_change_lx.rows());

  AreaLight area;
  area.average_lx = {323, 2};
  area.minimum_lx = {161, 1};
  area.maximum_lx = {485, 3};
  area.worst_error_lx = 3;
  area.uniformity_min_avg = 161.0 / 323;
  light.task_areas = {area};
  light.points = {{53.8, 0.4}, {107.6, 0.9}, {13.46, 0.05}};
  area.average_lx = {215, 4};
  area.minimum_lx = {0, 0};
  area.minimum_at = 41;
  area.uniformity_min_avg = 0;
  area.luminance_cd_m2 = Estimate{13.69, 0.25};
  light.surfaces = {area};
  return light;
}

}  // namespace evenlit::sample
