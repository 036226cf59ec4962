#pragma once

#include <optional>
#include <string>

#include "evenlit/base/result.hpp"
#include "evenlit/job/job.hpp"
#include "evenlit/view/camera.hpp"
#include "evenlit/view/seen_room.hpp"

namespace evenlit {

/// A picture of the room, and how it came to be.
struct ViewFacts {
  const Job& job;
  std::string viewpoint;            ///< its name
  std::optional<std::string> mood;  ///< absent: the levels of the job's cans
  const Camera& camera;
  const SeenRoom& seen;
  const Exposure& exposure;
  int pictures = 1;  ///< that share the exposure
};

/// What is seen from where, how bright it is, and how a screen shows it, for a terminal: lines of at most 80 columns.
std::string view_text(const ViewFacts& facts, const Problems& warnings);

/// The same in a sentence or two, to go into the picture's file.
std::string view_description(const ViewFacts& facts);

/// The same as JSON (RFC 8259), UTF-8, ended by a line feed. The first keys are `"format": "evenlit view"` and
/// `"version"`; every number has its unit in its key (none for ratios).
std::string view_json(const ViewFacts& facts, const Problems& warnings);

}  // namespace evenlit
