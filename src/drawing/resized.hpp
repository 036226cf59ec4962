#pragma once

#include "evenlit/base/image.hpp"

namespace evenlit {

/// The image in so many pixels each way: light averaged over what each pixel covers where it grows smaller, straight
/// between pixels where it grows larger. Of its own size it stays as it is.
Image resized(const Image& image, int width, int height);

}  // namespace evenlit
