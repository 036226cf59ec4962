#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace evenlit {

// A library would do this as well, but not in parts: these are made side by side and joined to one stream. And a picture
// of areas and lines needs less of a search than bytes of any kind.

/// A part of a deflate stream, which ends on a whole byte without ending the stream.
///
/// @param bytes the part's, after what the reader has read already, as far as it is worth looking for repeats
/// @param begin of the part within `bytes`
/// @param near  distances at which a repeat is likely: a pixel back, a row back; others are found by chance
/// @source RFC 1951 (1996)
std::string deflated_part(std::span<const std::uint8_t> bytes, std::size_t begin, std::span<const std::size_t> near);

/// An empty part that ends the stream.
inline constexpr std::string_view k_deflate_end{"\x01\x00\x00\xFF\xFF", 5};

}  // namespace evenlit
