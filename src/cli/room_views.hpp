#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/image.hpp"
#include "evenlit/base/progress.hpp"
#include "evenlit/base/result.hpp"
#include "evenlit/drawing/panel_view.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/moods/room_moods.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "evenlit/placing/comparison.hpp"
#include "evenlit/view/seen_room.hpp"

namespace evenlit {

/// The view of the job that is asked for by name, or its first, or of a job without views the default one.
///
/// @param place of the job file
Result<Viewpoint> viewpoint_named(const Job& job, const std::optional<std::string>& name, const Place& place);

/// All of the job's views whose eye is in no obstruction; where there is none the default one.
std::vector<Viewpoint> open_viewpoints(const Job& job);

/// A picture as wide as asked for, 16 : 9.
PictureSize wide_picture(int width_px);

/// The room at each of these levels of its cans.
std::vector<SeenRoom> seen_rooms(const Job& job, const RoomView& view, const Camera& camera,
                                 const std::vector<std::vector<double>>& can_levels);

/// The same from one view.
std::vector<SeenRoom> seen_rooms(const Job& job, const std::vector<PhotometricFile>& photometry, const Viewpoint& from,
                                 const PictureSize& size, const std::vector<std::vector<double>>& can_levels,
                                 const Progress& progress = {});

/// The room in its moods as it will look, from the job's first view.
///
/// @param place of the job file
Result<std::vector<PanelView>> mood_views(const Job& job, const std::vector<PhotometricFile>& photometry,
                                          const RoomMoods& moods, const Place& place, const Progress& progress);

/// A room with some layout as it will look, with its figures.
struct LaidOut {
  Job job;
  const std::vector<PhotometricFile>& photometry;
  const ComparedLayout& layout;
  Place place;  ///< of the job file
};

/// Rooms in their layouts, from each job's first view.
Result<std::vector<PanelView>> layout_views(const std::vector<LaidOut>& rooms, const Progress& progress);

/// The pictures of rooms at one exposure.
std::vector<Image> displayed_together(const std::vector<SeenRoom>& rooms);

}  // namespace evenlit
