#pragma once

#include <optional>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit {

/// An off-axis peak, as luminaires have it that throw their light to the sides: the intensity rises from the centre to
/// the peak and falls from there on.
struct Batwing {
  double peak_deg = 0;         ///< of the peak from straight down; less than half the beam angle
  double centre_fraction = 1;  ///< intensity straight down over the peak's, 0...1

  friend bool operator==(const Batwing&, const Batwing&) = default;
};

/// A rotationally symmetric beam made by formula.
///
/// With w(gamma) = -ln cos(90 gamma / cut-off), counted from its value at the peak, the intensity is
/// exp(-ln 2 (w / w_half)^q) of the peak from the peak outwards. It is half at half the beam angle; q = 1 gives the
/// powers of the cosine where the cut-off is at 90 degrees, and a field angle chooses the q that makes it a tenth
/// there. Inside the peak of a batwing it rises with the square of the sine.
struct SyntheticBeam {
  double lumens = 0;                      ///< > 0
  double beam_angle_deg = 0;              ///< full angle between the outermost directions of half the peak, 5...150
  std::optional<double> field_angle_deg;  ///< the same of a tenth
  double cut_off_deg = 90;                ///< from straight down; there is no light beyond, at most 180
  std::optional<Batwing> batwing;

  friend bool operator==(const SyntheticBeam&, const SyntheticBeam&) = default;
};

/// The beam's distribution: exactly its lumens and, within rounding, its angles.
///
/// Tabulated so that the chords stay within 0.0001 of the peak from the curve; the directions that are asked for are
/// knots. As chords hold a little too much light, the peak is up to 0.1 % off the one of the formula.
///
/// @param place for messages
/// @errors values out of range, and angles that no smooth beam has together
Result<IntensityDistribution> synthetic_beam(const SyntheticBeam& beam, const Place& place = {});

/// The beam as a photometric file would have it, absolute, a point.
Result<PhotometricFile> synthetic_file(const SyntheticBeam& beam, const Place& place = {});

}  // namespace evenlit
