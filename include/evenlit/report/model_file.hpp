#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evenlit/job/job.hpp"
#include "evenlit/view/camera.hpp"
#include "evenlit/view/display.hpp"
#include "evenlit/view/lit_room.hpp"
#include "evenlit/view/room_model.hpp"

namespace evenlit {

/// A mood of the job: levels of its cans, fractions of full output.
struct ModelMood {
  std::string name;
  std::vector<double> can_levels;
};

/// A place from which the room is first seen.
struct ModelView {
  std::string name;
  Camera camera;
  double width_deg = 75;
};

/// What a model of a lit room holds.
struct ModelFacts {
  const Job& job;
  const LitRoom& room;
  const RoomModel& model;
  std::vector<double> can_levels;  ///< the job's own
  std::vector<ModelMood> moods;
  Exposure exposure;                       ///< for the job's own levels
  std::optional<Exposure> moods_exposure;  ///< for all moods together; where there are some
  std::vector<ModelView> views;
};

/// The room as a binary glTF 2.0 file, which any program for models opens; what makes light of it stands in the root's
/// `extras.evenlit`.
///
/// Coordinates of corners, and all in the extras, are those of the plan, m, z up; the root node turns them to glTF's y
/// up. A mesh, a node and a material for each face of the model, in its order; `extras` of a mesh tell what it is, of a
/// material its reflectance and tint (`baseColorFactor` is their product, none above 1). TEXCOORD_0 is the place in the
/// light textures, 0...1 from their first row and column; openings that lie on no surface have none.
///
/// `groups` names for each group of light a buffer view with its light texture, width x height texels, row by row:
/// red, green, blue and alpha as halves (IEC 60559 binary16, little-endian), 8 bytes a texel, as a texture RGBA16F
/// takes them. Red, green and blue are `LightTexture::groups_lx`, alpha is 1. What a point of a face shows is the sum
/// over the groups of level x illuminance x reflectance / pi (cd/m2), in the colour of tint of the group x tint of the
/// material x texel, as `mixed` has it; on an opening also level x its luminance by the angle of the eye from its aim,
/// in the tint of its group. `exposures` say how that is shown (`displayed`).
///
/// @source Khronos Group, glTF 2.0 Specification (ISO/IEC 12113:2022) (from memory)
std::string room_model_glb(const ModelFacts& facts);

}  // namespace evenlit
