#include "room_views.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/names.hpp"

namespace evenlit {

Result<Viewpoint> viewpoint_named(const Job& job, const std::optional<std::string>& name, const Place& place) {
  if (name) {
    const auto found = std::ranges::find(job.views, *name, &Viewpoint::name);
    if (found != job.views.end()) return *found;
    std::string known;
    for (const Viewpoint& view : job.views) known += (known.empty() ? "" : ", ") + quoted(view.name);
    return failure(place, fmt::format("the job has no view {}", quoted(*name)),
                   known.empty() ? "add it under [[views]]" : "its views are " + known);
  }
  if (!job.views.empty()) return job.views.front();
  if (auto view = default_viewpoint(job)) return *view;
  return failure(place, "no place of the room is outside of all obstructions", "add a view under [[views]]");
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
