#include "evenlit/drawing/text.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/utf8.hpp"

#define STB_TRUETYPE_IMPLEMENTATION
#define STBTT_STATIC
#include <stb_truetype.h>

extern const unsigned char evenlit_font_regular[];
extern const unsigned char evenlit_font_bold[];

namespace evenlit {
namespace {

constexpr char32_t k_ellipsis = U'\u2026';

stbtt_fontinfo font(Weight weight) {
  stbtt_fontinfo info;
  stbtt_InitFont(&info, weight == Weight::bold ? evenlit_font_bold : evenlit_font_regular, 0);
  return info;
}

bool is_settable(const CodePoint& point) {
  return point.is_valid && point.value >= 0x20 && (point.value < 0x7F || point.value >= 0xA0);
}

// One code point a letter; `?` for control characters and for bytes that are not UTF-8.
std::u32string letters_of(std::string_view text) {
  std::u32string letters;
  while (!text.empty()) {
    const CodePoint point = first_code_point(text);
    letters.push_back(is_settable(point) ? point.value : U'?');
    text.remove_prefix(static_cast<std::size_t>(point.bytes));
  }
  return letters;
}

// Calls `place(glyph, x)` for each letter, x in font units from the start of the line; returns the line's width.
template <class Place>
int set_line(const stbtt_fontinfo& info, const std::u32string& text, Place&& place) {
  int x = 0;
  int previous = -1;
  for (const char32_t point : text) {
    const int glyph = stbtt_FindGlyphIndex(&info, static_cast<int>(point));
    if (previous >= 0) x += stbtt_GetGlyphKernAdvance(&info, previous, glyph);
    place(glyph, x);
    int advance = 0;
    stbtt_GetGlyphHMetrics(&info, glyph, &advance, nullptr);
    x += advance;
    previous = glyph;
  }
  return x;
}

double width_of(const stbtt_fontinfo& info, const std::u32string& text, double size) {
  const int width = set_line(info, text, [](int, int) {});
  return width * static_cast<double>(stbtt_ScaleForMappingEmToPixels(&info, static_cast<float>(size)));
}

// The outlines of one glyph in font units, curves as chords.
std::vector<Polyline> glyph_outlines(const stbtt_fontinfo& info, int glyph, int chords) {
  std::vector<Polyline> outlines;
  stbtt_vertex* vertices = nullptr;
  const int count = stbtt_GetGlyphShape(&info, glyph, &vertices);
  for (int i = 0; i < count; ++i) {
    const stbtt_vertex& v = vertices[i];
    const Eigen::Vector2d to(v.x, v.y);
    if (v.type == STBTT_vmove) {
      outlines.push_back({to});
      continue;
    }
    const Eigen::Vector2d from = outlines.back().back();
    const Eigen::Vector2d control(v.cx, v.cy);
    const Eigen::Vector2d control1(v.cx1, v.cy1);
    const int steps = v.type == STBTT_vline ? 1 : chords;
    for (int k = 1; k < steps; ++k) {
      const double t = static_cast<double>(k) / steps;
      const double s = 1 - t;
      outlines.back().push_back(v.type == STBTT_vcurve
                                    ? Eigen::Vector2d(s * s * from + 2 * s * t * control + t * t * to)
                                    : Eigen::Vector2d(s * s * s * from + 3 * s * s * t * control +
                                                      3 * s * t * t * control1 + t * t * t * to));
    }
    outlines.back().push_back(to);
  }
  stbtt_FreeShape(&info, vertices);
  return outlines;
}

}  // namespace

std::string shown_text(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    const CodePoint point = first_code_point(text);
    const auto letter = text.substr(0, static_cast<std::size_t>(point.bytes));
    shown += is_settable(point) ? letter : "?";
    text.remove_prefix(letter.size());
  }
  return shown;
}

double text_width(std::string_view text, double size, Weight weight) {
  return width_of(font(weight), letters_of(text), size);
}

std::string elided(std::string_view text, double size, Weight weight, double width) {
  if (text_width(text, size, weight) <= width) return std::string(text);
  const stbtt_fontinfo info = font(weight);
  for (std::size_t bytes = text.size(); bytes > 0; --bytes) {
    const bool within_letter = bytes < text.size() && (static_cast<unsigned char>(text[bytes]) & 0xC0) == 0x80;
    if (within_letter || text[bytes - 1] == ' ') continue;
    if (width_of(info, letters_of(text.substr(0, bytes)) + k_ellipsis, size) <= width) {
      return std::string(text.substr(0, bytes)) + "\u2026";
    }
  }
  return {};
}

std::vector<Polyline> letter_outlines(const Text& text) {
  const stbtt_fontinfo info = font(text.weight);
  const std::u32string letters = letters_of(text.text);
  const double scale = stbtt_ScaleForMappingEmToPixels(&info, static_cast<float>(text.size));
  const int chords = std::clamp(static_cast<int>(std::sqrt(text.size)), 3, 16);
  const double width = width_of(info, letters, text.size);
  const double start = text.anchor == Anchor::left ? 0 : text.anchor == Anchor::middle ? -width / 2 : -width;
  const Eigen::Vector2d along(std::cos(text.turn_rad), std::sin(text.turn_rad));
  const Eigen::Vector2d up(along.y(), -along.x());
  std::vector<Polyline> outlines;
  set_line(info, letters, [&](int glyph, int x) {
    for (Polyline& outline : glyph_outlines(info, glyph, chords)) {
      for (Eigen::Vector2d& p : outline) {
        p = (text.at + (start + (x + p.x()) * scale) * along + p.y() * scale * up).eval();
      }
      outlines.push_back(std::move(outline));
    }
  });
  return outlines;
}

}  // namespace evenlit
