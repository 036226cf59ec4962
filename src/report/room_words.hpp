#pragma once

#include <string>

#include "evenlit/job/job.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

// What the text and the JSON of a room say alike.

/// `LRV 55`: the light reflectance value, in percent.
std::string reflectance_text(double reflectance);

/// What a can type's light is taken from, in short: what the file calls its luminaire, or `a made beam of 60 degrees`.
std::string light_source_text(const CanType& type, const PhotometricFile& file);

/// The watts of a can at full level; empty where neither the job nor the file says.
std::optional<double> watts_of(const CanType& type, const PhotometricFile& file);

/// Whether a plan is a rectangle along the axes, as one given by its width and depth is.
bool is_upright_rectangle(const Shape& room);

/// Whether a can is below the ceiling.
bool hangs(const Can& can);

}  // namespace evenlit
