#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "evenlit/photometry/distribution.hpp"

namespace evenlit {

/// The luminous opening that a photometric file declares: full sizes, m. A line is a rectangle without width.
struct Opening {
  enum class Shape { point, disc, rectangle, other };
  Shape shape = Shape::point;  ///< `other`: an ellipse or a solid, of which the sizes are the outer ones
  double width_m = 0;          ///< along C 90
  double length_m = 0;         ///< along C 0; of a disc both are its diameter
  double height_m = 0;

  friend bool operator==(const Opening&, const Opening&) = default;
};

/// What a photometric file says about a luminaire, in absolute candelas.
struct PhotometricFile {
  std::string format;  ///< `LM-63-2002`, ...
  /// In file order, UTF-8: name in upper case without brackets, and value, [MORE] lines joined to it by a blank. A line
  /// of free text has an empty name.
  std::vector<std::pair<std::string, std::string>> keywords;
  int lamps = 1;
  std::optional<double> lamp_lumens;  ///< of each lamp; absent for absolute photometry
  std::optional<double> watts;        ///< absent when the file says 0
  Opening opening;
  IntensityDistribution distribution;  ///< every factor of the file applied
};

}  // namespace evenlit
