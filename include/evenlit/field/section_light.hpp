#pragma once

#include <Eigen/Core>

#include "evenlit/base/progress.hpp"
#include "evenlit/room/cross_section.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// The light along a section on the work plane, at the luminaires' levels, reflections included.
struct SectionLight {
  CrossSection section;
  Eigen::VectorXd total_lx;  ///< of all luminaires, one a station
  Eigen::VectorXd alone_lx;  ///< of the one that the section goes through
};

SectionLight section_light(const Scene& scene, CrossSection section, const Progress& progress = {});

}  // namespace evenlit
