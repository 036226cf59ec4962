#include <fmt/format.h>

#include <cstdlib>
#include <utility>

#include "accuracy.hpp"
#include "benches.hpp"
#include "evenlit/view/light_groups.hpp"
#include "evenlit/view/light_texture.hpp"
#include "evenlit/view/pixel_parts.hpp"
#include "evenlit/view/room_view.hpp"
#include "load_job.hpp"
#include "one_thread.hpp"
#include "reference/ray_scene.hpp"
#include "shader.hpp"
#include "surface_light.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

constexpr PictureSize k_size{1280, 720};

struct Pictured {
  std::string name;
  Job job;
  Scene scene;
  Camera camera;
};

Pictured pictured(const std::string& name) {
  InputFiles files;
  auto loaded = load_job(EVENLIT_SOURCE_DIR "/scenes/" + name + ".toml", files);
  if (!loaded) std::exit(1);
  const auto view = default_viewpoint(loaded->job);
  if (!view) std::exit(1);
  return {name, loaded->job, build_scene(loaded->job, loaded->photometry), camera_of(loaded->job.room, *view, k_size)};
}

Pictured with_colours(Pictured room) {
  room.name += ", coloured";
  for (Surface& surface : room.scene.surfaces) {
    if (surface.part == Part::floor) surface.tint = tint_of({{165, 113, 60}});
  }
  return room;
}

double million_a_second(double count, double seconds) { return 1e-6 * count / seconds; }

/// What each of Embree's rays through the middles of pixels meets, and whether every luminaire is in sight from there.
struct Rays {
  double primary_s;
  double shadow_s;
};

Rays embree(const Pictured& room) {
  constexpr double k_lift_m = 5e-5;  // rays begin above what they met
  const reference::RayScene rays(room.scene.surfaces);
  std::vector<Eigen::Vector3d> points(static_cast<std::size_t>(k_size.width) * k_size.height);
  const double primary_s = seconds_of([&] {
    for (std::size_t i = 0; i < points.size(); ++i) {
      const Eigen::Vector2d place(static_cast<double>(i % k_size.width) + 0.5,
                                  static_cast<double>(i / k_size.width) + 0.5);
      const auto hit = rays.first_hit(room.camera.eye_m, room.camera.direction(place));
      points[i] =
          hit ? Eigen::Vector3d(hit->point_m + k_lift_m * room.scene.surfaces[hit->surface].normal) : room.camera.eye_m;
    }
  });
  std::size_t seen = 0;
  const double shadow_s = seconds_of([&] {
    for (const Eigen::Vector3d& point : points) {
      for (const Luminaire& luminaire : room.scene.luminaires) {
        seen += rays.is_clear(point, luminaire.position_m) ? 1 : 0;
      }
    }
  });
  if (seen == 0) std::exit(1);
  return {primary_s, shadow_s};
}

/// One thread: parts of pixels and their direct light against rays.
std::vector<std::string> against_embree(const Pictured& room) {
  const OneThread one;
  const auto looks = luminaire_looks(room.job);
  const auto faces = shown_faces(room.scene, looks, room.camera.eye_m);
  std::vector<std::vector<PixelPart>> rows;
  const double parts_s = alternated(3, {[&] { rows = pixel_parts(faces, room.camera); }}).front().minimum_s;
  double parts = 0;
  for (const auto& row : rows) parts += static_cast<double>(row.size());

  const LitRoom lit(room.scene, looks);
  RoomView view{.size = k_size, .groups = {}, .sources = {}};
  const Eigen::ArrayXf dark = Eigen::ArrayXf::Zero(k_size.width * k_size.height);
  view.groups.assign(static_cast<std::size_t>(lit.groups()), {k_size.width, k_size.height, {dark, dark, dark}});
  const Shader shader(lit, faces, room.camera.eye_m);
  constexpr int k_rows = 16;
  const double shaded_s = alternated(3, {[&] {
                                       for (int row = 0; row < k_size.height; row += k_rows) {
                                         shader.shade(rows, row, std::min(k_size.height, row + k_rows), view);
                                       }
                                     }})
                              .front()
                              .minimum_s;
  const Rays rays = embree(room);
  const double pixels = k_size.width * k_size.height;
  const double cans = static_cast<double>(room.scene.luminaires.size());
  return {room.name,
          fmt::format("{:.1f}", million_a_second(parts, parts_s)),
          fmt::format("{:.1f}", million_a_second(pixels, rays.primary_s)),
          fmt::format("{:.1f} x", rays.primary_s / parts_s),
          fmt::format("{:.1f}", million_a_second(parts * cans, shaded_s)),
          fmt::format("{:.1f}", million_a_second(pixels * cans, rays.shadow_s)),
          fmt::format("{:.1f} x", rays.shadow_s / shaded_s)};
}

std::vector<std::string> cost_of(const Pictured& room) {
  const auto looks = luminaire_looks(room.job);
  const std::vector<ShownFace> faces = shown_faces(room.scene, looks, room.camera.eye_m);
  const Cost parts = least_cost([&] { pixel_parts(faces, room.camera); });
  const Lattice lattice = lattice_on(room.scene);
  const Cost exchange = least_cost([&] { response(room.scene, lattice.points, Accuracy{.share = 0.01}); });
  RoomView view;
  const Cost all = least_cost([&] { view = room_view(room.scene, looks, room.camera); });
  const std::vector<double> levels(view.groups.size(), 0.5);
  const std::vector<Eigen::Vector3d> tints(view.groups.size(), {1.2, 0.98, 0.6});
  const LitRoom lit(room.scene, looks);
  const Cost texture = least_cost([&] { light_texture(lit); });
  const Cost mix = least_cost([&] { mixed(view, levels, tints); });
  return {room.name,
          std::to_string(lattice.points.size()),
          milliseconds(parts.processor_s),
          milliseconds(exchange.processor_s),
          milliseconds(all.processor_s),
          milliseconds(all.wall_s),
          milliseconds(texture.processor_s),
          std::to_string(view.groups.size()),
          milliseconds(mix.processor_s)};
}

}  // namespace

void view_bench() {
  const Pictured living_room = pictured("living-room");
  const Pictured kitchen = pictured("open-kitchen");
  print_table(
      "Pictures of 1280 x 720, one thread: parts of pixels (eight lines each) and their direct light with penumbras,\n"
      "against Embree's rays: one a pixel, and from there one a can; millions a second",
      {{"", "parts", "rays", "ratio", "lit by a can", "shadow rays", "ratio"},
       against_embree(living_room),
       against_embree(kitchen)});
  print_table(
      "Pictures of 1280 x 720, ms of CPU time, and of wall time for all; the room's light texture; a mix at other "
      "levels",
      {{"", "lattice", "parts", "exchange", "all", "wall", "texture", "groups", "mix"},
       cost_of(living_room),
       cost_of(with_colours(living_room)),
       cost_of(kitchen)});
}

}  // namespace evenlit::bench
