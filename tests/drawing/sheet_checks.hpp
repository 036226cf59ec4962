#pragma once

#include <catch2/catch.hpp>

#include "drawing/sample_distributions.hpp"
#include "evenlit/drawing/text.hpp"

namespace evenlit::sample {

inline bool is_finite(const Polyline& line) {
  return std::all_of(line.begin(), line.end(), [](const Eigen::Vector2d& p) { return p.allFinite(); });
}

inline bool is_on_sheet(const Drawing& drawing, const Polyline& line) {
  return std::all_of(line.begin(), line.end(), [&](const Eigen::Vector2d& p) {
    return p.minCoeff() >= 0 && p.x() <= drawing.width && p.y() <= drawing.height;
  });
}

/// No text below a size or off the sheet, nothing at a place that is not finite.
inline void check_sheet(const Drawing& drawing, double smallest_text) {
  CHECK(std::isfinite(drawing.height));
  for (const Text& text : all_of_kind<Text>(drawing)) {
    INFO(text.text);
    CHECK(text.size >= smallest_text);
    for (const Polyline& outline : letter_outlines(text)) CHECK(is_on_sheet(drawing, outline));
  }
  for (const Stroke& stroke : all_of_kind<Stroke>(drawing)) CHECK(is_finite(stroke.points));
  for (const Fill& fill : all_of_kind<Fill>(drawing)) {
    CHECK(std::all_of(fill.outlines.begin(), fill.outlines.end(), is_finite));
  }
  for (const FalseColour& picture : all_of_kind<FalseColour>(drawing)) {
    const std::vector<double>& values = picture.field.values;
    CHECK(std::all_of(values.begin(), values.end(), [](double value) { return std::isfinite(value); }));
  }
}

}  // namespace evenlit::sample
