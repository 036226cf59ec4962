#pragma once

#include <optional>
#include <string>
#include <string_view>
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

/// Lamps that a luminaire is measured or sold with.
struct LampSet {
  int lamps = 1;
  std::string type;              ///< as the file describes them; may be empty
  std::optional<double> lumens;  ///< rated, of all lamps together; absent for absolute photometry
  std::string colour;            ///< colour temperature or appearance, as written
  std::string rendering;         ///< colour rendering group or index, as written
  std::optional<double> watts;   ///< drawn with this set, ballast or driver included; absent when the file says 0

  friend bool operator==(const LampSet&, const LampSet&) = default;
};

/// How the light of a lamp depends on the aim of the luminaire.
struct TiltData {
  int geometry = 1;                ///< 1 lamp upright, 2 lying along the tilt axis, 3 lying across it
  std::vector<double> angles_deg;  ///< of the luminaire from straight down, ascending
  std::vector<double> factors;     ///< of all intensities, as many

  friend bool operator==(const TiltData&, const TiltData&) = default;
};

/// What a photometric file says about a luminaire, in absolute candelas.
struct PhotometricFile {
  std::string format;  ///< `LM-63-2002`, `EULUMDAT`, ...
  /// In file order, UTF-8: name in upper case without brackets, and value, [MORE] lines joined to it by a blank. A line
  /// of free text has an empty name. What EULUMDAT has lines for goes by the LM-63 keyword of the same meaning.
  std::vector<std::pair<std::string, std::string>> keywords;
  int generation = 1;                 ///< LM-63-2019 file generation type, in units of its fifth decimal; 1: undefined
  std::vector<LampSet> lamp_sets{1};  ///< alternatives, at least one
  std::size_t lamp_set = 0;           ///< the one that the distribution is for
  Opening opening;
  std::optional<Opening> housing;  ///< outer sizes of the luminaire
  std::optional<TiltData> tilt;
  IntensityDistribution distribution;  ///< every factor of the file applied but the tilt factor

  friend bool operator==(const PhotometricFile&, const PhotometricFile&) = default;
};

/// The lamps that the distribution is for.
const LampSet& lamps_of(const PhotometricFile& file);

/// Value of the first keyword of that name, or empty.
std::string_view keyword(const PhotometricFile& file, std::string_view name);

/// Factor of all intensities of a luminaire that is aimed so far from straight down: linear between the tilt angles of
/// the file, its end values beyond them, 1 without tilt data. Where the angles end at 90, more is counted back from
/// 180.
///
/// @param tilt_deg 0...180
/// @source IES LM-63-1986, tilt records (reading of the angles from memory)
double tilt_factor(const PhotometricFile& file, double tilt_deg);

/// The file with the same optic at another flux: intensities and lamp lumens scaled, watts forgotten, the change told
/// in a keyword and, of a measured luminaire, in the file generation type.
///
/// @param lumens of the luminaire, > 0; the file's own must not be 0
PhotometricFile rescaled(PhotometricFile file, double lumens);

/// The file with its luminaire turned about the vertical, counter-clockwise seen from above, by `quarters` x 90
/// degrees: the distribution, the opening and the housing.
PhotometricFile turned(PhotometricFile file, int quarters);

}  // namespace evenlit
