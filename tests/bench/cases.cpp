#include "cases.hpp"

#include <cstdio>
#include <cstdlib>
#include <numbers>

#include "evenlit/room/grid.hpp"
#include "field/rooms.hpp"
#include "load_job.hpp"

namespace evenlit::bench {
namespace {

constexpr double k_work_plane_m = 0.8;
constexpr double k_ceiling_m = 2.5;

/// I0 cos^3 sends 2 pi I0 / 4 below the horizontal.
IntensityDistribution cosine_cubed(double lumens) {
  return testing::cosine_power(4 * lumens / (2 * std::numbers::pi), 3);
}

[[noreturn]] void give_up(const InputFiles& files, const Problems& problems) {
  std::fputs(files.text_of(problems).c_str(), stderr);
  std::exit(1);
}

}  // namespace

Case six_cans(const std::string& name, double x_m, double y_m) {
  constexpr double k_width_m = 4.2;
  constexpr double k_depth_m = 3.6;
  Case result{name, testing::box_room(k_width_m, k_depth_m, k_ceiling_m),
              testing::upward_grid(k_width_m, k_depth_m, k_work_plane_m, 14, 12)};
  for (const double x : {x_m, k_width_m / 2, k_width_m - x_m}) {
    for (const double y : {y_m, k_depth_m - y_m}) {
      testing::add_point(result.scene, {x, y, k_ceiling_m}, cosine_cubed(600));
    }
  }
  return result;
}

Case l_shape() {
  const Polygon plan{{0, 0}, {5.4, 0}, {5.4, 2.8}, {3.0, 2.8}, {3.0, 4.8}, {0, 4.8}};
  Case result{"L-shaped room", testing::room_over(plan, k_ceiling_m), {}};
  for (const Eigen::Vector2d& can :
       std::vector<Eigen::Vector2d>{{0.8, 0.9}, {2.6, 0.9}, {4.5, 0.7}, {0.8, 2.6}, {2.3, 2.8}, {1.5, 4.2}}) {
    testing::add_point(result.scene, {can.x(), can.y(), k_ceiling_m}, cosine_cubed(600));
  }
  for (const auto& receiver : testing::upward_grid(5.4, 4.8, k_work_plane_m, 18, 16)) {
    if (is_inside(plan, receiver.position_m.head<2>())) result.receivers.push_back(receiver);
  }
  return result;
}

std::string demo_job_path() { return EVENLIT_SOURCE_DIR "/scenes/family-room.toml"; }

Case demo_job() {
  InputFiles files;
  const auto loaded = load_job(demo_job_path(), files);
  if (!loaded) give_up(files, loaded.error());
  const auto grid = work_plane_grid(loaded->job.room, loaded->job.work_plane, whole_file(demo_job_path()));
  if (!grid) give_up(files, grid.error());
  Case result{"demo job, 8 cans", build_scene(loaded->job, loaded->photometry), {}};
  for (const auto& point : grid->points_m) {
    result.receivers.push_back({{point.x(), point.y(), grid->height_m}, Eigen::Vector3d::UnitZ()});
  }
  return result;
}

Field full_field(const Response& response) {
  return field_at(response, Eigen::VectorXd::Ones(response.direct_lx.cols()));
}

}  // namespace evenlit::bench
