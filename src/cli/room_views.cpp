#include "room_views.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/names.hpp"
#include "evenlit/report/light_words.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/room/scene.hpp"
#include "evenlit/view/light_groups.hpp"
#include "shown_levels.hpp"

namespace evenlit {
namespace {

constexpr int k_panel_px = 960;  // twice the width of a panel, for screens of phones

/// "work plane: 20 fc (220 lx), enough to cook"
std::string caption_line(const std::string& name, double lx, Units units) {
  return fmt::format("{}: {}, {}", printable(name), plain_illuminance(lx, units), good_for(lx));
}

std::vector<std::string> mood_caption(const Job& job, const RoomLight& light) {
  std::vector<std::string> lines{caption_line("work plane", light.work_plane.statistics.average_lx, job.units)};
  const auto& areas = light.readings.task_areas;
  for (std::size_t i = 0; i < areas.size(); ++i) {
    lines.push_back(caption_line(light.readings.readings.task_areas[i].name, areas[i].average_lx.value, job.units));
  }
  return lines;
}

/// Middle and darkest place.
std::vector<std::string> layout_caption(const Job& job, const Statistics& statistics) {
  return {caption_line("on average", statistics.average_lx, job.units),
          caption_line("darkest place", statistics.minimum_lx, job.units)};
}

/// A view whose eye is in no obstruction.
Result<Viewpoint> in_the_open(const Job& job, const Viewpoint& view) {
  const Eigen::Vector2d plan = plan_position(job.room, view.from).value();
  for (const Obstruction& box : job.obstructions) {
    const bool is_at_height = view.height_m > box.bottom_m && view.height_m < box.top_m;
    if (!is_at_height || !is_inside(corners_of(job.room, box), plan)) continue;
    return failure(view.origin.place,
                   fmt::format("the eye of view {} is inside obstruction {}", evenlit::quoted(view.name),
                               evenlit::quoted(box.name)),
                   "move it out of the obstruction, or raise its height above it");
  }
  return view;
}

}  // namespace

std::vector<SeenRoom> seen_rooms(const Job& job, const RoomView& view, const Camera& camera,
                                 const std::vector<std::vector<double>>& can_levels) {
  std::vector<SeenRoom> rooms;
  for (const std::vector<double>& levels : can_levels) rooms.push_back(seen_room(job, view, camera, levels));
  return rooms;
}

std::vector<SeenRoom> seen_rooms(const Job& job, const std::vector<PhotometricFile>& photometry, const Viewpoint& from,
                                 const PictureSize& size, const std::vector<std::vector<double>>& can_levels,
                                 const Progress& progress) {
  const Camera camera = camera_of(job.room, from, size);
  const RoomView view = room_view(build_scene(job, photometry), luminaire_looks(job), camera, progress);
  return seen_rooms(job, view, camera, can_levels);
}

Result<std::vector<PanelView>> mood_views(const Job& job, const std::vector<PhotometricFile>& photometry,
                                          const RoomMoods& moods, const Place& place, const Progress& progress) {
  const auto from = viewpoint_named(job, std::nullopt, place);
  if (!from) return tl::unexpected(from.error());
  std::vector<std::vector<double>> levels;
  for (const MoodLight& mood : moods.moods) levels.push_back(mood.can_levels);
  const std::vector<Image> images =
      displayed_together(seen_rooms(job, photometry, *from, wide_picture(k_panel_px), levels, progress));
  std::vector<PanelView> views;
  for (std::size_t i = 0; i < images.size(); ++i) {
    views.push_back({images[i], mood_caption(job, moods.moods[i].light)});
  }
  return views;
}

Result<std::vector<PanelView>> layout_views(const std::vector<LaidOut>& rooms, const Progress& progress) {
  std::vector<SeenRoom> seen;
  const auto count = static_cast<double>(rooms.size());
  for (std::size_t i = 0; i < rooms.size(); ++i) {
    const auto done = static_cast<double>(i);
    const auto from = viewpoint_named(rooms[i].job, std::nullopt, rooms[i].place);
    if (!from) return tl::unexpected(from.error());
    auto one = seen_rooms(rooms[i].job, rooms[i].photometry, *from, wide_picture(k_panel_px),
                          {own_levels(rooms[i].job)}, part_of(progress, done / count, (done + 1) / count));
    seen.push_back(std::move(one.front()));
  }
  const std::vector<Image> images = displayed_together(seen);
  std::vector<PanelView> views;
  for (std::size_t i = 0; i < images.size(); ++i) {
    views.push_back({images[i], layout_caption(rooms[i].job, rooms[i].layout.statistics)});
  }
  return views;
}

Result<Viewpoint> viewpoint_named(const Job& job, const std::optional<std::string>& name, const Place& place) {
  if (name) {
    const auto found = std::ranges::find(job.views, *name, &Viewpoint::name);
    if (found != job.views.end()) return in_the_open(job, *found);
    std::string known;
    for (const Viewpoint& view : job.views) known += (known.empty() ? "" : ", ") + evenlit::quoted(view.name);
    return failure(place, fmt::format("the job has no view {}", evenlit::quoted(*name)),
                   known.empty() ? "add it under [[views]]" : "its views are " + known);
  }
  if (!job.views.empty()) return in_the_open(job, job.views.front());
  if (auto view = default_viewpoint(job)) return *view;
  return failure(place, "no place of the room is outside of all obstructions", "add a view under [[views]]");
}

std::vector<Viewpoint> open_viewpoints(const Job& job) {
  std::vector<Viewpoint> views;
  for (const Viewpoint& view : job.views) {
    if (in_the_open(job, view)) views.push_back(view);
  }
  if (!views.empty()) return views;
  if (auto view = default_viewpoint(job)) views.push_back(*view);
  return views;
}

PictureSize wide_picture(int width_px) {
  return {width_px, std::max(1, static_cast<int>(std::lround(width_px * 9 / 16.0)))};
}

std::vector<Image> displayed_together(const std::vector<SeenRoom>& rooms) {
  const Exposure exposure = common_exposure(rooms);
  std::vector<Image> images;
  for (const SeenRoom& room : rooms) images.push_back(displayed(room.picture, exposure));
  return images;
}

}  // namespace evenlit
