#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

/// Content of a file in the same folder as the one being read, by its name without any path, upper or lower case; empty
/// where there is none.
using Neighbour = std::function<std::optional<std::string>(std::string_view name)>;

/// Reads an ANSI/IES LM-63 photometric data file (1986, 1991, 1995, 2002, 2019).
///
/// @param bytes     the file's content
/// @param name      for messages
/// @param neighbour finds tilt data that stand in a file of their own; without it, or where there is no such file, the
///                  tilt factor is 1
/// @return the luminaire, with a warning for every deviation that was put right
/// @errors what makes the data unusable or ambiguous, at its line
/// @source ANSI/IESNA LM-63-2002 (R2008), ANSI/IES LM-63-19
Result<Noted<PhotometricFile>> read_lm63(std::string_view bytes, std::string_view name,
                                         const Neighbour& neighbour = {});

}  // namespace evenlit
