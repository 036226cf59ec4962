#pragma once

#include <span>
#include <string>

#include "evenlit/base/image.hpp"

namespace evenlit {

/// A line or more that a PNG file says of itself: programs show it beside the picture.
struct PngText {
  std::string keyword;  ///< printable ASCII, 1...79 letters, no blank first, last or next to another; `Title`,
                        ///< `Description` and some more are registered, others are free
  std::string text;     ///< UTF-8, lines end in line feeds
};

/// An image that what lies below shows through.
struct MaskedImage {
  Image image;
  std::vector<std::uint8_t> opacity;  ///< one a pixel: 0 is transparent, 255 opaque
};

/// The bytes of a PNG file, 8-bit RGB; no time stamp, so the same image and texts give the same bytes. A text in ASCII
/// is a tEXt chunk, any other an iTXt chunk; both stand before the pixels, not compressed. What no PNG file may hold,
/// NUL and broken UTF-8, shows as `?`.
///
/// @source ISO/IEC 15948:2004; 11.3.4 for texts
std::string png(const Image& image, std::span<const PngText> texts = {});

/// The bytes of a PNG file, 8-bit RGB with alpha, not premultiplied.
std::string png(const MaskedImage& masked);

}  // namespace evenlit
