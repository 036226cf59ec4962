#include "evenlit/drawing/rasterise.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "coverage.hpp"
#include "evenlit/drawing/colour_map.hpp"
#include "evenlit/drawing/text.hpp"
#include "stroke_outline.hpp"

namespace evenlit {
namespace {

std::uint8_t mixed(std::uint8_t below, std::uint8_t above, float share) {
  return static_cast<std::uint8_t>(static_cast<float>(below) + (static_cast<float>(above) - below) * share + 0.5F);
}

void blend(Rgb& pixel, const Rgb& colour, float share) {
  if (share == 1) {
    pixel = colour;
    return;
  }
  pixel = {mixed(pixel.red, colour.red, share), mixed(pixel.green, colour.green, share),
           mixed(pixel.blue, colour.blue, share)};
}

// The lattice points on either side of a pixel's centre and the second one's share of the value there.
struct Neighbours {
  int first = 0;
  int second = 0;
  float share = 0;
};

std::vector<Neighbours> neighbours(int pixels, double first_px, double spacing_px, int count) {
  std::vector<Neighbours> found(pixels);
  for (int i = 0; i < pixels; ++i) {
    const double at = std::clamp((i + 0.5 - first_px) / spacing_px, 0.0, static_cast<double>(count - 1));
    const int before = static_cast<int>(at);
    found[i] = {before, std::min(before + 1, count - 1), static_cast<float>(at - before)};
  }
  return found;
}

// Fewer points, no two neighbours nearer than `distance`: a halo needs no finer outline than its own width tells.
Polyline thinned(const Polyline& outline, double distance) {
  Polyline kept;
  for (const Eigen::Vector2d& point : outline) {
    if (kept.empty() || (point - kept.back()).norm() >= distance) kept.push_back(point);
  }
  return kept;
}

/// Paints a drawing's items, each scaled to pixels.
class Painter {
 public:
  Painter(Image& image, double scale) : image_(image), scale_(scale) {}

  void operator()(const Fill& fill) { paint(scaled(fill.outlines), fill.ink); }

  void operator()(Stroke stroke) {
    for (Eigen::Vector2d& point : stroke.points) point *= scale_;
    for (double& length : stroke.dash) length *= scale_;
    stroke.width *= scale_;
    paint(stroke_outlines(stroke), stroke.ink);
  }

  void operator()(Text text) {
    text.at *= scale_;
    text.size *= scale_;
    const std::vector<Polyline> letters = letter_outlines(text);
    if (text.halo_width > 0) {
      std::vector<Polyline> rim;
      for (const Polyline& outline : letters) {
        const double width = 2 * scale_ * text.halo_width;
        const std::vector<Polyline> pieces = stroke_outlines({thinned(outline, width / 4), true, width, {}, {}});
        rim.insert(rim.end(), pieces.begin(), pieces.end());
      }
      paint(rim, text.halo);
    }
    paint(letters, text.ink);
  }

  void operator()(const FalseColour& picture) {
    const SampledField& field = picture.field;
    const std::vector<Neighbours> columns =
        neighbours(image_.width, scale_ * field.first.x(), scale_ * field.spacing.x(), field.columns);
    const std::vector<Neighbours> rows =
        neighbours(image_.height, scale_ * field.first.y(), scale_ * field.spacing.y(), field.rows);
    std::vector<float> steps(field.columns);  // the field along one row of pixels, in steps of the colour map
    int steps_y = -1;
    for (const Span& span : spans(scaled(picture.clip))) {
      if (span.y != std::exchange(steps_y, span.y)) {
        const Neighbours& row = rows[span.y];
        for (int i = 0; i < field.columns; ++i) {
          const double value = field.at(i, row.first) + row.share * (field.at(i, row.second) - field.at(i, row.first));
          steps[i] = static_cast<float>(255 * std::clamp(value / picture.top, 0.0, 1.0) + 0.5);
        }
      }
      for (int x = span.x_begin; x < span.x_end; ++x) {
        const Neighbours& column = columns[x];
        const float step = steps[column.first] + column.share * (steps[column.second] - steps[column.first]);
        blend(image_.at(x, span.y), k_cividis[static_cast<std::size_t>(step)], span.coverage);
      }
    }
  }

 private:
  std::vector<Polyline> scaled(std::vector<Polyline> outlines) const {
    for (Polyline& outline : outlines) {
      for (Eigen::Vector2d& point : outline) point *= scale_;
    }
    return outlines;
  }

  std::vector<Span> spans(const std::vector<Polyline>& outlines) const {
    Coverage coverage(image_.width, image_.height);
    for (const Polyline& outline : outlines) coverage.add(outline);
    return coverage.spans();
  }

  void paint(const std::vector<Polyline>& outlines, const Ink& ink) {
    for (const Span& span : spans(outlines)) {
      const float share = span.coverage * static_cast<float>(ink.opacity);
      for (int x = span.x_begin; x < span.x_end; ++x) blend(image_.at(x, span.y), ink.colour, share);
    }
  }

  Image& image_;
  double scale_;
};

}  // namespace

Polyline circle(const Eigen::Vector2d& centre, double radius) {
  constexpr double k_sagitta = 0.05;
  const double step = 2 * std::acos(std::max(0.0, 1 - k_sagitta / std::max(radius, 2 * k_sagitta)));
  const double whole = 4 * std::acos(0.0);
  const int corners = std::max(12, static_cast<int>(std::ceil(whole / step)));
  Polyline outline;
  for (int i = 0; i < corners; ++i) {
    const double angle = whole * i / corners;
    outline.emplace_back(centre + radius * Eigen::Vector2d(std::cos(angle), std::sin(angle)));
  }
  return outline;
}

Image rasterise(const Drawing& drawing, int width_px) {
  const double scale = width_px / drawing.width;
  Image image{width_px, std::max(1, static_cast<int>(std::ceil(drawing.height * scale - 1e-6))), {}};
  image.pixels.assign(static_cast<std::size_t>(image.width) * image.height, drawing.paper);
  Painter painter(image, scale);
  for (const DrawingItem& item : drawing.items) std::visit(painter, item);
  return image;
}

}  // namespace evenlit
