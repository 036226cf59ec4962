#include "evenlit/drawing/rasterise.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "coverage.hpp"
#include "evenlit/base/parallel.hpp"
#include "layer.hpp"

namespace evenlit {
namespace {

/// A colour that takes the place of a share of what lies below.
class Glaze {
 public:
  Glaze(const Rgb& colour, float share)
      : above_(static_cast<std::uint32_t>(share * k_whole + 0.5F)),
        red_(colour.red * above_ + k_whole / 2),
        green_(colour.green * above_ + k_whole / 2),
        blue_(colour.blue * above_ + k_whole / 2) {}

  void cover(Rgb& pixel) const {
    const std::uint32_t below = k_whole - above_;
    pixel = {static_cast<std::uint8_t>((pixel.red * below + red_) / k_whole),
             static_cast<std::uint8_t>((pixel.green * below + green_) / k_whole),
             static_cast<std::uint8_t>((pixel.blue * below + blue_) / k_whole)};
  }

 private:
  static constexpr std::uint32_t k_whole = 1 << 16;

  std::uint32_t above_;
  std::uint32_t red_;
  std::uint32_t green_;
  std::uint32_t blue_;
};

// The lattice points on either side of a pixel's centre and the second one's share of the value there.
struct Neighbours {
  int first = 0;
  int second = 0;
  float share = 0;
};

Neighbours neighbours(int pixel, double first_px, double spacing_px, int count) {
  const double at = std::clamp((pixel + 0.5 - first_px) / spacing_px, 0.0, static_cast<double>(count - 1));
  const int before = static_cast<int>(at);
  return {before, std::min(before + 1, count - 1), static_cast<float>(at - before)};
}

/// Rows of an image that are painted on their own.
class Band {
 public:
  Band(Image& image, double scale, int first_row, int end_row)
      : image_(image),
        scale_(scale),
        first_row_(first_row),
        end_row_(end_row),
        coverage_(image.width, first_row, end_row) {}

  void paint(const Layer& layer) {
    for (const Outline& outline : layer.outlines) {
      if (outline.bottom > first_row_ && outline.top < end_row_) coverage_.add(outline.points);
    }
    std::visit([&](const auto& what) { paint_covered(what); }, layer.paint);
  }

 private:
  void paint_covered(const Ink& ink) {
    coverage_.sweep([&](int y, int x_begin, int x_end, float coverage) {
      const Glaze glaze(ink.colour, coverage * static_cast<float>(ink.opacity));
      for (int x = x_begin; x < x_end; ++x) glaze.cover(image_.at(x, y));
    });
  }

  void paint_covered(const PlacedImage& placed) {
    coverage_.sweep([&](int y, int x_begin, int x_end, float coverage) {
      for (int x = x_begin; x < x_end; ++x) {
        Glaze(placed.image.at(x - placed.left, y - placed.top), coverage).cover(image_.at(x, y));
      }
    });
  }

  void paint_covered(const FalseColour* picture) {
    const SampledField& field = picture->field;
    std::vector<Neighbours> columns(image_.width);
    for (int x = 0; x < image_.width; ++x) {
      columns[x] = neighbours(x, scale_ * field.first.x(), scale_ * field.spacing.x(), field.columns);
    }
    const std::array<Rgb, 256>& colours = evenlit::colours(picture->colours);
    const double range = picture->top - picture->bottom;
    std::vector<float> steps(field.columns);  // the field along one row of pixels, in steps of the colour map
    int steps_y = -1;
    coverage_.sweep([&](int y, int x_begin, int x_end, float coverage) {
      if (y != std::exchange(steps_y, y)) {
        const Neighbours row = neighbours(y, scale_ * field.first.y(), scale_ * field.spacing.y(), field.rows);
        for (int i = 0; i < field.columns; ++i) {
          const double value = field.at(i, row.first) + row.share * (field.at(i, row.second) - field.at(i, row.first));
          steps[i] = static_cast<float>(255 * std::clamp((value - picture->bottom) / range, 0.0, 1.0) + 0.5);
        }
      }
      for (int x = x_begin; x < x_end; ++x) {
        const Neighbours& column = columns[x];
        const float step = steps[column.first] + column.share * (steps[column.second] - steps[column.first]);
        const Rgb& colour = colours[static_cast<std::size_t>(step)];
        if (coverage == 1) {
          image_.at(x, y) = colour;
        } else {
          Glaze(colour, coverage).cover(image_.at(x, y));
        }
      }
    });
  }

  Image& image_;
  double scale_;
  int first_row_;
  int end_row_;
  Coverage coverage_;
};

Image blank(int width, int height, const Rgb& paper) {
  Image image{width, height, {}};
  image.pixels.reserve(static_cast<std::size_t>(width) * height);
  const std::vector<Rgb> row(width, paper);  // copied whole, which is faster than pixel by pixel
  for (int y = 0; y < height; ++y) image.pixels.insert(image.pixels.end(), row.begin(), row.end());
  return image;
}

// The picture's pixels with nothing else around them.
Drawing alone(FalseColour picture, const Eigen::AlignedBox2d& box) {
  picture.field.first -= box.min();
  const Eigen::Vector2d size = box.sizes();
  picture.clip = {{{0, 0}, {size.x(), 0}, {size.x(), size.y()}, {0, size.y()}}};
  return {size.x(), size.y(), {255, 255, 255}, {std::move(picture)}};
}

}  // namespace

Image rasterise(const Drawing& drawing, int width_px) {
  const double scale = width_px / drawing.width;
  const int height_px = std::max(1, static_cast<int>(std::ceil(drawing.height * scale - 1e-6)));
  Image image = blank(width_px, height_px, drawing.paper);

  std::vector<std::vector<Layer>> layers(drawing.items.size());
  parallel_for(static_cast<int>(layers.size()), [&](int i) { layers[i] = layers_of(drawing.items[i], scale); });

  constexpr int k_rows_a_band = 32;
  parallel_for((image.height + k_rows_a_band - 1) / k_rows_a_band, [&](int i) {
    Band band(image, scale, i * k_rows_a_band, std::min((i + 1) * k_rows_a_band, image.height));
    for (const std::vector<Layer>& item : layers) {
      for (const Layer& layer : item) band.paint(layer);
    }
  });
  return image;
}

std::optional<PixelPicture> pixels(const FalseColour& picture) {
  Eigen::AlignedBox2d box;
  for (const Polyline& outline : picture.clip) {
    if (!std::ranges::all_of(outline, [](const auto& point) { return point.allFinite(); })) continue;
    for (const Eigen::Vector2d& point : outline) box.extend(point);
  }
  if (box.isEmpty() || !(box.sizes().minCoeff() > 0)) return std::nullopt;
  const int width_px = std::clamp(static_cast<int>(std::ceil(box.sizes().x())), 1, k_widest_image_px);
  return PixelPicture{box, rasterise(alone(picture, box), width_px)};
}

}  // namespace evenlit
