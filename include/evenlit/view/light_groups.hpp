#pragma once

#include <Eigen/Core>
#include <span>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/moods/colour.hpp"
#include "evenlit/view/shown_face.hpp"

namespace evenlit {

// Cans that always have the same level and the same colour are a group of light: those of one circuit and one type, and
// those on no circuit of one type and level. Groups are counted in the order of their first cans.

/// How each of the job's cans looks.
std::vector<LuminaireLook> luminaire_looks(const Job& job);

/// Levels by group.
///
/// @param can_levels one a can, as `can_levels` or a mood has them
std::vector<double> group_levels(const Job& job, std::span<const double> can_levels);

/// Tints of the groups' light by `tint`. That of a can whose colour temperature the job does not say is white.
///
/// @param white that the eye is used to
std::vector<Eigen::Vector3d> group_tints(const Job& job, std::span<const double> can_levels, const Chromaticity& white);

}  // namespace evenlit
