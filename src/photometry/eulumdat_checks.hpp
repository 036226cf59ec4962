#pragma once

#include "eulumdat_header.hpp"
#include "eulumdat_lamps.hpp"

namespace evenlit {

/// Compares the header's flux figures with the flux of the distribution, and says what their disagreement looks like.
/// The distribution is used as it stands.
void check_eulumdat_flux(const Source& source, const EulumdatHeader& header, const EulumdatLamps& lamps,
                         std::size_t chosen, const IntensityDistribution& distribution, Problems& warnings);

/// Where all planes are stored in spite of a symmetry: warns of that, and of how far they are from it.
void check_eulumdat_symmetry(const Source& source, const EulumdatHeader& header,
                             const IntensityDistribution& distribution, Problems& warnings);

}  // namespace evenlit
