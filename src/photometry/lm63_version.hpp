#pragma once

#include <optional>
#include <string_view>

#include "source.hpp"

namespace evenlit {

enum class Lm63Version { v1986, v1991, v1995, v2002, v2019 };

/// `LM-63-2002`, ...
std::string_view name_of(Lm63Version version);

/// The version that an identification line names; empty where the line is none. A line that is not written as the
/// standard has it is taken for the nearest version, with a warning.
///
/// @source ANSI/IESNA LM-63-2002 and ANSI/IES LM-63-19 (first line); LM-63-1995; `IESNA91` from memory
std::optional<Lm63Version> identified_version(const Source& source, std::string_view line, Problems& warnings);

}  // namespace evenlit
