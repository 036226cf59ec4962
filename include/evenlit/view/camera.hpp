#pragma once

#include <Eigen/Core>
#include <optional>

#include "evenlit/job/job.hpp"

namespace evenlit {

/// Where a picture has how many pixels; each is a square.
struct PictureSize {
  int width = 1280;
  int height = 720;
};

/// A pinhole and the plane of its picture. The horizon is level. Places in the picture are counted in pixels from its
/// upper left corner, to the right and down: the middle of the first pixel is 0.5, 0.5.
struct Camera {
  Eigen::Vector3d eye_m;
  Eigen::Vector3d forward;  ///< unit, toward the middle of the picture
  Eigen::Vector3d right;    ///< unit, level
  Eigen::Vector3d up;       ///< unit, in the picture
  PictureSize size;
  double focal_px = 1;  ///< distance of the picture from the pinhole

  /// Toward a place of the picture, so long that it goes on by 1 along `forward`.
  [[nodiscard]] Eigen::Vector3d ray(const Eigen::Vector2d& place_px) const;

  /// The same, unit.
  [[nodiscard]] Eigen::Vector3d direction(const Eigen::Vector2d& place_px) const { return ray(place_px).normalized(); }

  /// Where a point is in the picture's plane, inside the picture or beside it; empty where it is not before the eye.
  [[nodiscard]] std::optional<Eigen::Vector2d> place_px(const Eigen::Vector3d& point_m) const;
};

/// Straight up or down, the upper side of the picture is the one that a little less of tilt would show there: back when
/// the eye looks up, ahead when it looks down, by the plan direction.
///
/// @param width_deg angle from the left to the right side of the picture, below 180
Camera camera_at(const Eigen::Vector3d& eye_m, const Looking& looking, double width_deg, const PictureSize& size);

/// @param view of the room, its walls named as the room's are; one that looks at a point straight above or below its
///             eye looks as if toward 90 degrees
Camera camera_of(const Shape& room, const Viewpoint& view, const PictureSize& size);

/// A place to see the room from when the job names none: 1.6 m above the floor, or 15 cm below the ceiling where that
/// is lower, toward the middle of what is seen of the room from there and 5 degrees downwards, 85 degrees wide.
///
/// Where there is a door, 30 cm into the room before its middle: the first door of the job that leaves an eye in the
/// open there. Else of the corners of the plan the one from which most of the plan is in sight at the height of the
/// eyes, 30 cm from both of its walls. Else, where obstructions fill all corners, the place of the plan from which most
/// of it is in sight.
///
/// @return empty where every place is inside an obstruction
std::optional<Viewpoint> default_viewpoint(const Job& job);

}  // namespace evenlit
