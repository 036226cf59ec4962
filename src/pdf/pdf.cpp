#include "evenlit/pdf/pdf.hpp"

#include <cairo-ft.h>
#include <cairo-pdf.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>

#include "evenlit/drawing/rasterise.hpp"
#include "evenlit/drawing/text.hpp"

extern const unsigned char evenlit_font_regular[];
extern const unsigned evenlit_font_regular_size;
extern const unsigned char evenlit_font_bold[];
extern const unsigned evenlit_font_bold_size;

namespace evenlit {
namespace {

constexpr double k_points_per_in = 72;

template <class T, void (*release)(T*)>
struct Release {
  void operator()(T* owned) const { release(owned); }
};

using Surface = std::unique_ptr<cairo_surface_t, Release<cairo_surface_t, cairo_surface_destroy>>;
using Context = std::unique_ptr<cairo_t, Release<cairo_t, cairo_destroy>>;
using FontOptions = std::unique_ptr<cairo_font_options_t, Release<cairo_font_options_t, cairo_font_options_destroy>>;

/// Null where memory has run out.
Surface surface_of(const Image& image) {
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, image.width, image.height));
  unsigned char* bytes = cairo_image_surface_get_data(surface.get());
  if (bytes == nullptr) return nullptr;
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; y < image.height; ++y) {
    for (int x = 0; x < image.width; ++x) {
      const Rgb& pixel = image.at(x, y);
      const std::uint32_t packed = std::uint32_t{pixel.red} << 16U | std::uint32_t{pixel.green} << 8U | pixel.blue;
      std::memcpy(bytes + static_cast<std::ptrdiff_t>(y) * stride + 4 * x, &packed, sizeof packed);
    }
  }
  cairo_surface_mark_dirty(surface.get());
  return surface;
}

cairo_status_t append_bytes(void* bytes, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

/// The drawing fonts, opened from memory; null where memory has run out.
struct Fonts {
  cairo_font_face_t* regular = nullptr;
  cairo_font_face_t* bold = nullptr;

  [[nodiscard]] cairo_font_face_t* of(Weight weight) const { return weight == Weight::bold ? bold : regular; }
};

cairo_font_face_t* face(FT_Library library, const unsigned char* bytes, unsigned size) {
  FT_Face opened = nullptr;
  if (FT_New_Memory_Face(library, bytes, static_cast<FT_Long>(size), 0, &opened) != 0) return nullptr;
  return cairo_ft_font_face_create_for_ft_face(opened, 0);
}

/// Opened once and never closed: Cairo keeps what it has made of a font for the next document.
const Fonts& fonts() {
  static const Fonts opened = [] {
    FT_Library library = nullptr;
    if (FT_Init_FreeType(&library) != 0) return Fonts{};
    return Fonts{face(library, evenlit_font_regular, evenlit_font_regular_size),
                 face(library, evenlit_font_bold, evenlit_font_bold_size)};
  }();
  return opened;
}

void set_ink(cairo_t* context, const Ink& ink) {
  constexpr double k_full = 255;
  const auto& [red, green, blue] = ink.colour;
  cairo_set_source_rgba(context, red / k_full, green / k_full, blue / k_full, ink.opacity);
}

void trace(cairo_t* context, const Polyline& line, bool is_closed) {
  if (!std::ranges::all_of(line, [](const auto& point) { return point.allFinite(); })) return;
  cairo_new_sub_path(context);
  for (const Eigen::Vector2d& point : line) cairo_line_to(context, point.x(), point.y());
  if (is_closed) cairo_close_path(context);
}

/// Paints the items of a drawing.
struct Painter {
  cairo_t* context;

  void operator()(const Fill& fill) const {
    for (const Polyline& outline : fill.outlines) trace(context, outline, true);
    set_ink(context, fill.ink);
    cairo_fill(context);
  }

  void operator()(const Stroke& stroke) const {
    trace(context, stroke.points, stroke.closed);
    set_ink(context, stroke.ink);
    cairo_set_line_width(context, stroke.width);
    cairo_set_dash(context, stroke.dash.data(), static_cast<int>(stroke.dash.size()), 0);
    cairo_stroke(context);
  }

  void operator()(const Text& text) const {
    const std::string shown = shown_text(text.text);
    if (shown.empty() || !text.at.allFinite()) return;
    cairo_save(context);
    cairo_set_font_face(context, fonts().of(text.weight));
    cairo_set_font_size(context, text.size);
    cairo_text_extents_t extents;
    cairo_text_extents(context, shown.c_str(), &extents);
    const double share = text.anchor == Anchor::left ? 0 : text.anchor == Anchor::middle ? 0.5 : 1;
    cairo_translate(context, text.at.x(), text.at.y());
    cairo_rotate(context, text.turn_rad);
    if (text.halo_width > 0) {
      cairo_move_to(context, -share * extents.x_advance, 0);
      cairo_text_path(context, shown.c_str());
      set_ink(context, text.halo);
      cairo_set_line_width(context, 2 * text.halo_width);
      cairo_set_dash(context, nullptr, 0, 0);
      cairo_stroke(context);
    }
    cairo_move_to(context, -share * extents.x_advance, 0);
    set_ink(context, text.ink);
    cairo_show_text(context, shown.c_str());
    cairo_restore(context);
  }

  void operator()(const FalseColour& picture) const {
    const auto painted = pixels(picture);
    if (!painted) return;
    const auto& [box, image] = *painted;
    const Surface surface = surface_of(image);
    if (!surface) return;
    cairo_save(context);
    for (const Polyline& outline : picture.clip) trace(context, outline, true);
    cairo_clip(context);
    cairo_translate(context, box.min().x(), box.min().y());
    cairo_scale(context, box.sizes().x() / image.width, box.sizes().x() / image.width);
    cairo_set_source_surface(context, surface.get(), 0, 0);
    cairo_paint(context);
    cairo_restore(context);
  }

  void operator()(const Picture& picture) const {
    const Surface surface = surface_of(picture.image);
    if (!surface) return;
    cairo_save(context);
    cairo_translate(context, picture.at.x(), picture.at.y());
    const double unit_px = picture.width / picture.image.width;
    cairo_scale(context, unit_px, unit_px);
    cairo_set_source_surface(context, surface.get(), 0, 0);
    cairo_paint(context);
    cairo_restore(context);
  }
};

/// Width and height in points.
Eigen::Vector2d size_pt(Paper paper) {
  constexpr double k_points_per_mm = k_points_per_in / 25.4;
  if (paper == Paper::a4) return {210 * k_points_per_mm, 297 * k_points_per_mm};
  return {8.5 * k_points_per_in, 11 * k_points_per_in};
}

void paint_sheet(cairo_t* context, const Drawing& drawing, double units_per_in, Paper paper) {
  const double scale = k_points_per_in / units_per_in;
  const Eigen::Vector2d margin_pt = (size_pt(paper) - scale * Eigen::Vector2d(drawing.width, drawing.height)) / 2;
  cairo_save(context);
  cairo_translate(context, margin_pt.x(), margin_pt.y());
  cairo_scale(context, scale, scale);
  cairo_set_line_join(context, CAIRO_LINE_JOIN_ROUND);
  set_ink(context, {drawing.paper});
  cairo_rectangle(context, 0, 0, drawing.width, drawing.height);
  cairo_fill(context);
  for (const DrawingItem& item : drawing.items) std::visit(Painter{context}, item);
  cairo_restore(context);
  cairo_show_page(context);
}

}  // namespace

Result<std::string> pdf(const std::vector<Drawing>& sheets, double units_per_in, Paper paper,
                        const std::string& title) {
  std::string bytes;
  cairo_status_t status = CAIRO_STATUS_NO_MEMORY;
  if (fonts().regular != nullptr && fonts().bold != nullptr) {
    const Eigen::Vector2d size = size_pt(paper);
    const Surface surface(cairo_pdf_surface_create_for_stream(append_bytes, &bytes, size.x(), size.y()));
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, shown_text(title).c_str());
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "");
    const Context context(cairo_create(surface.get()));
    const FontOptions options(cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(context.get(), options.get());
    for (const Drawing& sheet : sheets) paint_sheet(context.get(), sheet, units_per_in, paper);
    status = cairo_status(context.get());
    cairo_surface_finish(surface.get());
    if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(surface.get());
  }
  if (status == CAIRO_STATUS_SUCCESS) return bytes;
  return failure(whole_file("evenlit"), std::string("the PDF cannot be made: ") + cairo_status_to_string(status),
                 "print the HTML instead");
}

}  // namespace evenlit
