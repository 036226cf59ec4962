#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/room/receiver.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

// Whatever people read of a room's light is a fixed combination of receivers. Readings say which, before any light is
// computed: an average is then a weighted sum of rows of the response table, at any dimmer levels.

/// Consecutive receivers of a list, and how much the illuminance of each counts.
struct Reading {
  int first = 0;
  Eigen::VectorXd weights;  ///< one a receiver

  [[nodiscard]] int count() const { return static_cast<int>(weights.size()); }
};

/// A plane area: its average is the reading, its darkest receiver the minimum.
struct AreaReading {
  std::string name;
  double area_m2 = 0;
  Reading average;              ///< weights add up to 1
  Eigen::VectorXd reflectance;  ///< at each receiver; empty for an area that only counts light
};

enum class Quantity { illuminance, cylindrical_illuminance, luminance };

struct PointReading {
  std::string name;
  Quantity quantity = Quantity::illuminance;
  Reading value;              ///< lx, or cd/m2
  std::string surface;        ///< that is seen, of a luminance
  double relative_error = 0;  ///< of combining the receivers
};

struct Readings {
  std::vector<Receiver> receivers;
  std::vector<AreaReading> task_areas;
  std::vector<PointReading> points;
  std::vector<AreaReading> surfaces;
};

inline constexpr int k_most_receivers = 10'000;

/// Vertical facets of a cylindrical reading.
///
/// A facet at azimuth p catches max(0, cos(p - q)) of what arrives from azimuth q; the mean over all p is 1/pi. The
/// half-rectified cosine has, beside its first harmonic, only even ones: (2/pi) cos(2k p) / (4k^2 - 1) with alternating
/// sign. N facets at equal azimuths add up the harmonics of multiples of N; for odd N above 1 these are 2N, 4N ..., as
/// if N were twice as large. Summed up, N facets read between (a/tan a - 1) and (a/sin a - 1) beside the mean, with
/// a = pi/2N: for N = 37 between -0.060 % and +0.030 %, wherever the light comes from.
inline constexpr int k_cylinder_facets = 37;

/// The error bound that follows: a/tan a >= 1 - a^2/3 - a^4/45 ... at a = pi/74.
inline constexpr double k_cylinder_error = 6.1e-4;

/// What a job's task areas and points ask for.
///
/// Task area: the centres of the equal cells into which the area's bounding rectangle is divided along its longest
/// edge, at least 3 x 3, as far as they lie inside the area and the room and in no box. Mean cylindrical illuminance:
/// `k_cylinder_facets` vertical receivers. Luminance: reflectance / pi times the illuminance of the point that the eye
/// sees, of a diffuse surface.
///
/// @param scene of the job
/// @errors all at once: a point inside a box; a task area of which no grid point is left; more than `k_most_receivers`
/// @source EN 12464-1:2011, 3 and 4.4 (mean cylindrical illuminance, grid; from memory); CIE S 017:2020, "cylindrical
///         illuminance", "luminance"
Result<Readings> readings_of(const Job& job, const Scene& scene);

}  // namespace evenlit
