#pragma once

#include <optional>

#include "evenlit/photometry/photometric_file.hpp"
#include "lm63_version.hpp"
#include "number_stream.hpp"

namespace evenlit {

/// What the thirteen numbers before the angles say.
struct Lm63Header {
  char type = 'C';
  int lamps = 1;
  std::optional<double> lamp_lumens;  ///< of each lamp; absent for absolute photometry
  int generation = 1;                 ///< LM-63-2019 file generation type, in units of its fifth decimal
  double candela_factor = 1;          ///< product of every factor in the header
  std::size_t verticals = 0;
  std::size_t horizontals = 0;
  Opening opening;
  std::optional<double> watts;
};

inline constexpr std::size_t k_header_numbers = 13;

/// @errors every number of the header that cannot be used
/// @source ANSI/IESNA LM-63-2002 and ANSI/IES LM-63-19 clause 5 (read at second hand); IES LM-63-1986 for the
///         ballast-lamp photometric factor
Result<Lm63Header> decode_header(const NumberStream& stream, const NumberRecord& record, Lm63Version version,
                                 Problems& warnings);

/// Place of the lumens per lamp, for remarks about the flux.
Place lamp_lumens_place(const NumberStream& stream, const NumberRecord& record);

}  // namespace evenlit
