// Feeds arbitrary bytes to the EULUMDAT reader: whatever it accepts must be finite, and whatever it refuses must say
// why.
#include <cmath>
#include <cstdint>
#include <cstdlib>

#include "evenlit/photometry/eulumdat.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  evenlit::is_eulumdat(bytes);
  const auto read = evenlit::read_eulumdat(bytes, "fuzz.ldt");
  const bool is_sound =
      read ? std::isfinite(evenlit::lumens(read->value.distribution)) && (read->value.distribution.candela >= 0).all()
           : !read.error().empty() && !evenlit::text_of(read.error(), bytes).empty();
  if (!is_sound) std::abort();
  return 0;
}
