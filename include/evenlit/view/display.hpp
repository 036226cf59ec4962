#pragma once

#include <Eigen/Core>
#include <span>

#include "evenlit/base/image.hpp"
#include "evenlit/view/luminance_picture.hpp"

namespace evenlit {

// From luminances to the pixels of a screen: as bright as the room is to an eye that has adapted to it, in the colours
// that are left of its light's once the eye has got used to them.

/// The luminance of a screen's white: an ordinary one indoors, common practice without a source.
inline constexpr double k_screen_white_cd_m2 = 150;

/// The luminance of the screen for each of the room's at which a contrast that an adapted eye can just make out in the
/// room can just be made out on the screen. It rises with the luminance that the eye is adapted to more slowly than
/// that: a dim room stays dim, but one can see in it.
///
/// @param adaptation_cd_m2 >= 0
/// @source G. Ward, "A contrast-based scalefactor for luminance display", Graphics Gems IV (1994) (from memory)
double visibility_scale(double adaptation_cd_m2);

/// A curve with a shoulder: near straight for dark, 1 for `white`. Straight altogether where `white` is 1.
///
/// @param light >= 0
/// @param white >= 1
/// @source E. Reinhard, M. Stark, P. Shirley, J. Ferwerda, "Photographic tone reproduction for digital images",
///         SIGGRAPH 2002, equation 4
double shoulder(double light, double white);

/// How fully an eye gets used to the colour of light in an average surround, 0.82 in the dark to 1.
///
/// @param adaptation_cd_m2 >= 0
/// @source degree of adaptation D of CIECAM02: CIE 159:2004 (from memory)
double colour_adaptation(double adaptation_cd_m2);

/// How luminances are shown. Pictures compare where they share it.
struct Exposure {
  double adaptation_cd_m2 = 0;                          ///< what the eye is adapted to
  double scale_m2_per_cd = 0;                           ///< from luminance to what `shoulder` takes
  double white = 1;                                     ///< what `shoulder` takes for white, >= 1
  Eigen::Vector3d light_rgb = Eigen::Vector3d::Ones();  ///< colour of the light that the eye is used to, linear, none
                                                        ///< below 0, not all 0
  double colour_adaptation = 1;                         ///< how fully it is, 0...1
};

/// What the eye makes of red, green and blue that are 1: those of the light that it is used to become nearly alike.
Eigen::Vector3d colour_gains(const Exposure& exposure);

/// The exposure for pictures that are looked at together. The eye is adapted to the usual luminance of the brightest of
/// them, which is shown at `visibility_scale`. All else is too, unless the brightest but openings would then exceed the
/// screen's white: it is shown as white and `shoulder` bends the scale to it, about the usual luminance that stays
/// where it was.
///
/// @param light_rgb colour of the rooms' mean light, as `Exposure` has it
Exposure exposure(std::span<const LuminancePicture> pictures, const Eigen::Vector3d& light_rgb);

/// The picture on a screen. Its colours are adapted by von Kries' rule to the red, green and blue of the light, for it
/// is in these that the light was multiplied with the surfaces' colours: a surface then has its own colour, with what
/// the eye leaves of the light's. Then red, green and blue are scaled alike, so that hues stay and the luminance is
/// that of the picture. What the screen
/// cannot show fades toward grey of its luminance as the root of what would be needed, and grows darker by the rest, so
/// that bright things keep some of their colour, a third of it at least. Grey levels are within 0.52 of the exact ones,
/// half a level for being whole.
///
/// @source IEC 61966-2-1:1999 (sRGB); CIE 159:2004 (incomplete adaptation, from memory)
Image displayed(const LuminancePicture& picture, const Exposure& exposure);

}  // namespace evenlit
