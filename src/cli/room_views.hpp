#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/image.hpp"
#include "evenlit/base/result.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/view/seen_room.hpp"

namespace evenlit {

/// The view of the job that is asked for by name, or its first, or of a job without views the default one.
///
/// @param place of the job file
Result<Viewpoint> viewpoint_named(const Job& job, const std::optional<std::string>& name, const Place& place);

/// A picture as wide as asked for, 16 : 9.
PictureSize wide_picture(int width_px);

/// The pictures of rooms at one exposure.
std::vector<Image> displayed_together(const std::vector<SeenRoom>& rooms);

}  // namespace evenlit
