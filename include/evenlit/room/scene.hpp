#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/polygon.hpp"
#include "evenlit/job/ceiling.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "evenlit/room/box.hpp"
#include "evenlit/room/face.hpp"

namespace evenlit {

/// What a surface is a part of.
enum class Part { floor, ceiling, wall, wall_area, box };

/// A plane, diffusely reflecting face of the room or of a box in it.
struct Surface {
  std::string name;
  Part part = Part::wall;
  Outline corners_m;            ///< counter-clockwise seen from inside the room, simple
  std::vector<Outline> free_m;  ///< outlines of what neither a box nor a wall area covers, each followed by its holes,
                                ///< which run the other way round; may be none
  Eigen::Vector3d normal;       ///< unit, into the room
  double reflectance = 0;
  Eigen::Vector3d tint = Eigen::Vector3d::Ones();  ///< linear red, green, blue of luminance 1: what it makes of white
                                                   ///< light; pictures show it, no number depends on it
};

/// A luminous opening in the room. Luminaires neither block nor reflect light.
struct Luminaire {
  Eigen::Vector3d position_m;  ///< centre of the opening
  Eigen::Matrix3d room_from_luminaire;
  Opening opening;
  int distribution = 0;         ///< index into the scene's distributions
  double output = 1;            ///< light at full level over the photometric file's: light loss and lamp tilt factors
  double level = 1;             ///< dimmer, fraction of full output
  std::optional<double> watts;  ///< at full level; empty where neither the job nor the file says
};

/// The job as geometry. Lengths in m; x and y as on the plan, z up from the floor.
struct Scene {
  Polygon plan_m;
  Ceiling ceiling;
  std::vector<Surface> surfaces;  ///< floor, ceiling (a surface for each piece of its planes), the walls in the order
                                  ///< of the plan's edges, the wall areas, the boxes' faces
  std::vector<Box> boxes;
  std::vector<IntensityDistribution> distributions;
  std::vector<Luminaire> luminaires;  ///< in the order of the job's cans
};

/// What turns the luminaire's frame into the room's: `rotation` about the vertical, then the smallest rotation that
/// carries straight down to the aim. Aimed down and with rotation 0, horizontal angle 0 points along +x of the plan,
/// and horizontal angles grow counter-clockwise seen from above. Multiples of 90 degrees are exact.
Eigen::Matrix3d room_from_luminaire(double tilt_deg, double toward_deg, double rotation_deg);

/// Puts boxes into a scene that has none: what they cover of its surfaces no longer counts, their free faces are added.
/// Boxes may touch or overlap each other and the walls; what is outside the room does not count.
void place_boxes(Scene& scene, std::vector<Box> boxes);

/// The mean height of the ceiling: the room's volume, boxes not taken off, over its floor area.
double mean_ceiling_m(const Scene& scene);

/// @param photometry one a can type, in the job's order
Scene build_scene(const Job& job, const std::vector<PhotometricFile>& photometry);

}  // namespace evenlit
