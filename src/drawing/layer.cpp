#include "layer.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "evenlit/drawing/text.hpp"
#include "resized.hpp"
#include "stroke_outline.hpp"

namespace evenlit {
namespace {

std::vector<Polyline> scaled(std::vector<Polyline> outlines, double scale) {
  for (Polyline& outline : outlines) {
    for (Eigen::Vector2d& point : outline) point *= scale;
  }
  return outlines;
}

Layer layer(std::vector<Polyline> outlines, Paint paint) {
  Layer made{{}, std::move(paint)};
  for (Polyline& points : outlines) {
    const bool is_finite = std::all_of(points.begin(), points.end(), [](const auto& p) { return p.allFinite(); });
    if (points.empty() || !is_finite) continue;
    const auto [top, bottom] =
        std::minmax_element(points.begin(), points.end(), [](const auto& a, const auto& b) { return a.y() < b.y(); });
    made.outlines.push_back({{}, top->y(), bottom->y()});
    made.outlines.back().points = std::move(points);
  }
  return made;
}

struct Layers {
  double scale;

  std::vector<Layer> operator()(const Fill& fill) const { return {layer(scaled(fill.outlines, scale), fill.ink)}; }

  std::vector<Layer> operator()(Stroke stroke) const {
    for (Eigen::Vector2d& point : stroke.points) point *= scale;
    for (double& length : stroke.dash) length *= scale;
    stroke.width *= scale;
    return {layer(stroke_outlines(stroke), stroke.ink)};
  }

  std::vector<Layer> operator()(Text text) const {
    text.at *= scale;
    text.size *= scale;
    std::vector<Polyline> letters = letter_outlines(text);
    std::vector<Layer> made;
    if (text.halo_width > 0) made.push_back(layer(grown(letters, scale * text.halo_width), text.halo));
    made.push_back(layer(std::move(letters), text.ink));
    return made;
  }

  std::vector<Layer> operator()(const FalseColour& picture) const {
    return {layer(scaled(picture.clip, scale), &picture)};
  }

  /// On whole pixels, so that an image of as many stays as it is.
  std::vector<Layer> operator()(const Picture& picture) const {
    const auto pixel = [&](double units) { return static_cast<int>(std::lround(scale * units)); };
    const int left = pixel(picture.at.x());
    const int top = pixel(picture.at.y());
    const int right = std::max(left + 1, pixel(picture.at.x() + picture.width));
    const int bottom = std::max(top + 1, pixel(picture.at.y() + picture.height()));
    const Polyline box{{left, top}, {right, top}, {right, bottom}, {left, bottom}};
    return {layer({box}, PlacedImage{resized(picture.image, right - left, bottom - top), left, top})};
  }
};

}  // namespace

std::vector<Layer> layers_of(const DrawingItem& item, double scale) { return std::visit(Layers{scale}, item); }

}  // namespace evenlit
