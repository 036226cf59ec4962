#include "evenlit/field/readings_light.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "mesh.hpp"

namespace evenlit {
namespace {

/// The light of all receivers, as some of them are judged.
struct Lit {
  Eigen::VectorXd total_lx;
  Eigen::VectorXd error_lx;

  [[nodiscard]] Estimate value(const Reading& reading) const {
    return {reading.weights.dot(total_lx.segment(reading.first, reading.count())),
            reading.weights.cwiseAbs().dot(error_lx.segment(reading.first, reading.count()))};
  }

  [[nodiscard]] Estimate at(int receiver) const { return value({receiver, Eigen::VectorXd::Ones(1)}); }
};

/// @param first, count of the receivers that are judged together
Lit lit(const Response& response, const Eigen::VectorXd& levels, Eigen::Index first, Eigen::Index count) {
  const Field field = field_at(rows_of(response, first, count), levels);
  const Eigen::Index all = response.direct_lx.rows();
  Lit lit{Eigen::VectorXd::Zero(all), Eigen::VectorXd::Zero(all)};
  lit.total_lx.segment(first, count) = field.total_lx;
  lit.error_lx.segment(first, count) = field.error_lx;
  return lit;
}

AreaLight area_light(const AreaReading& area, const Lit& lit) {
  const Reading& average = area.average;
  const auto lux = lit.total_lx.segment(average.first, average.count());
  Eigen::Index darkest = 0;
  Eigen::Index brightest = 0;
  lux.minCoeff(&darkest);
  lux.maxCoeff(&brightest);
  AreaLight light;
  light.average_lx = lit.value(average);
  light.minimum_at = average.first + static_cast<int>(darkest);
  light.minimum_lx = lit.at(light.minimum_at);
  light.maximum_lx = lit.at(average.first + static_cast<int>(brightest));
  for (int i = 0; i < average.count(); ++i) {
    light.worst_error_lx = std::max(light.worst_error_lx, lit.at(average.first + i).error);
  }
  if (light.average_lx.value > 0) light.uniformity_min_avg = light.minimum_lx.value / light.average_lx.value;
  if (area.reflectance.size() > 0) {
    const Eigen::VectorXd weights = average.weights.cwiseProduct(area.reflectance) / std::numbers::pi;
    light.luminance_cd_m2 = lit.value({average.first, weights});
  }
  return light;
}

std::vector<AreaLight> area_lights(const std::vector<AreaReading>& areas, const Lit& lit) {
  std::vector<AreaLight> lights;
  for (const auto& area : areas) lights.push_back(area_light(area, lit));
  return lights;
}

/// The patches of the surfaces `first` up to `last` as one area.
void add_surface(Readings& readings, const Mesh& mesh, std::string name, std::size_t first, std::size_t last) {
  const int begin = mesh.surfaces[first].begin;
  const int end = mesh.surfaces[last - 1].end;
  if (begin == end) return;
  AreaReading area{.name = std::move(name),
                   .area_m2 = 0,
                   .average = {static_cast<int>(readings.receivers.size()), Eigen::VectorXd(end - begin)},
                   .reflectance = Eigen::VectorXd(end - begin)};
  for (std::size_t i = first; i < last; ++i) {
    const auto& surface = mesh.surfaces[i];
    for (int patch = surface.begin; patch < surface.end; ++patch) {
      readings.receivers.push_back({mesh.patches[patch].centre_m, surface.normal});
      area.average.weights[patch - begin] = mesh.patches[patch].area_m2;
      area.reflectance[patch - begin] = surface.reflectance;
    }
  }
  area.area_m2 = area.average.weights.sum();
  area.average.weights /= area.area_m2;
  readings.surfaces.push_back(std::move(area));
}

}  // namespace

void add_surfaces(Readings& readings, const Scene& scene) {
  const Mesh mesh = make_mesh(scene, coarse_mesh(scene).patch_size_m / 2);
  const auto& surfaces = scene.surfaces;
  for (std::size_t first = 0; first < surfaces.size();) {
    std::size_t last = first + 1;  // the faces of an obstruction follow each other and have its name
    const auto goes_on = [&] {
      return surfaces[last].part == surfaces[first].part && surfaces[last].name == surfaces[first].name;
    };
    while (last < surfaces.size() && goes_on()) ++last;
    add_surface(readings, mesh, surfaces[first].name, first, last);
    first = last;
  }
}

std::vector<Receiver> receivers_of(const Grid& grid, const Readings& readings) {
  std::vector<Receiver> receivers = upward_receivers(grid);
  receivers.insert(receivers.end(), readings.receivers.begin(), readings.receivers.end());
  return receivers;
}

Eigen::MatrixXd area_averages_lx(const Eigen::MatrixXd& light_lx, Eigen::Index points, const Readings& readings) {
  Eigen::MatrixXd averages(1 + std::ssize(readings.task_areas), light_lx.cols());
  averages.row(0) = light_lx.topRows(points).colwise().mean();
  for (Eigen::Index i = 1; i < averages.rows(); ++i) {
    const Reading& reading = readings.task_areas[static_cast<std::size_t>(i - 1)].average;
    averages.row(i) = reading.weights.transpose() * light_lx.middleRows(points + reading.first, reading.count());
  }
  return averages;
}

RoomLight room_light(const Scene& scene, const Grid& grid, std::optional<double> target_lx, Readings readings,
                     const Accuracy& accuracy, const Progress& progress) {
  const Response all = response(scene, receivers_of(grid, readings), accuracy, progress);
  return room_light(scene, grid, target_lx, std::move(readings), all);
}

RoomLight room_light(const Scene& scene, const Grid& grid, std::optional<double> target_lx, Readings readings,
                     const Response& all) {
  const auto on_plane = static_cast<Eigen::Index>(grid.points_m.size());
  const auto others = static_cast<Eigen::Index>(readings.receivers.size());
  RoomLight light{.work_plane = work_plane_light(scene, grid, target_lx, rows_of(all, 0, on_plane)), .readings = {}};
  if (others == 0) return light;
  ReadingsLight& read = light.readings;
  read.response = rows_of(all, on_plane, others);
  // Surfaces are judged apart, so that what is said of areas and points does not depend on whether they are asked for.
  const Eigen::Index asked = readings.surfaces.empty() ? others : readings.surfaces.front().average.first;
  const Eigen::VectorXd levels = levels_of(scene);
  const Lit of_job = lit(read.response, levels, 0, asked);
  read.task_areas = area_lights(readings.task_areas, of_job);
  for (const auto& point : readings.points) {
    Estimate value = of_job.value(point.value);
    value.error += point.relative_error * value.value;
    read.points.push_back(value);
  }
  read.surfaces = area_lights(readings.surfaces, lit(read.response, levels, asked, others - asked));
  read.readings = std::move(readings);
  return light;
}

}  // namespace evenlit
