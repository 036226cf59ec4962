#pragma once

#include <Eigen/Core>
#include <string>
#include <variant>
#include <vector>

#include "evenlit/base/image.hpp"
#include "evenlit/drawing/colour_map.hpp"
#include "evenlit/drawing/sampled_field.hpp"

namespace evenlit {

// A drawing is a value: a list of things to be painted one over the other. What makes it knows nothing of pixels, what
// renders it knows nothing of rooms. The origin is the top left corner, x runs right, y runs down.

struct Ink {
  Rgb colour{};
  double opacity = 1;

  friend bool operator==(const Ink&, const Ink&) = default;
};

using Polyline = std::vector<Eigen::Vector2d>;

/// Areas enclosed by outlines; an outline that runs the other way round cuts a hole.
struct Fill {
  std::vector<Polyline> outlines;
  Ink ink;

  friend bool operator==(const Fill&, const Fill&) = default;
};

/// A line along points: butt ends, round joins.
struct Stroke {
  Polyline points;
  bool closed = false;
  double width = 1;
  Ink ink;
  std::vector<double> dash;  ///< lengths painted and left out in turn, all > 0; empty for a full line

  friend bool operator==(const Stroke&, const Stroke&) = default;
};

enum class Weight { regular, bold };
enum class Anchor { left, middle, right };

/// A line of text (UTF-8) on a baseline.
struct Text {
  std::string text;
  Eigen::Vector2d at;  ///< the anchor, on the baseline
  double size = 20;    ///< of the em square
  Weight weight = Weight::regular;
  Anchor anchor = Anchor::left;
  double turn_rad = 0;  ///< about `at`, clockwise as seen
  Ink ink;
  double halo_width = 0;  ///< of the rim painted around the letters first
  Ink halo;

  friend bool operator==(const Text&, const Text&) = default;
};

/// A field painted in colours, from `bottom` to `top`; values beyond take the colours at the ends.
struct FalseColour {
  SampledField field;          ///< in the drawing's coordinates
  double top = 1;              ///< > bottom; the value of the last colour
  std::vector<Polyline> clip;  ///< outlines of the area painted
  double bottom = 0;           ///< the value of the first colour
  ColourMap colours = ColourMap::light;

  friend bool operator==(const FalseColour&, const FalseColour&) = default;
};

/// An image in an upright rectangle of its proportions.
struct Picture {
  Image image;         ///< at least a pixel
  Eigen::Vector2d at;  ///< the top left corner
  double width = 0;

  [[nodiscard]] double height() const { return width * image.height / image.width; }

  friend bool operator==(const Picture&, const Picture&) = default;
};

using DrawingItem = std::variant<Fill, Stroke, Text, FalseColour, Picture>;

struct Drawing {
  double width = 0;
  double height = 0;
  Rgb paper{255, 255, 255};
  std::vector<DrawingItem> items;  ///< painted in this order

  friend bool operator==(const Drawing&, const Drawing&) = default;
};

/// A circle as an outline for `Fill` or a closed `Stroke`, within 1/20 unit of the true one.
Polyline circle(const Eigen::Vector2d& centre, double radius);

}  // namespace evenlit
