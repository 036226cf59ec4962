#pragma once

#include <string_view>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/lm63.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

struct PhotometricReading {
  int lamp_set = 1;     ///< which of several alternatives the intensities are for, counted from 1
  int quarters = 0;     ///< the luminaire is turned by so many times 90 degrees, counter-clockwise seen from above
  bool strict = false;  ///< every warning is an error
  Neighbour neighbour;  ///< finds tilt data that stand in a file of their own
};

/// Reads a photometric file, LM-63 or EULUMDAT, whichever its content is.
///
/// @param bytes the file's content
/// @param name  for messages; its extension does not matter
/// @return the luminaire, with a warning for every deviation that was put right
/// @errors what makes the data unusable or ambiguous, at its line; a lamp set that the file does not have
Result<Noted<PhotometricFile>> read_photometric_file(std::string_view bytes, std::string_view name,
                                                     const PhotometricReading& reading = {});

}  // namespace evenlit
