#pragma once

#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include "evenlit/drawing/drawing.hpp"

namespace evenlit {

/// Items after others.
inline void append(std::vector<DrawingItem>& items, std::vector<DrawingItem> more) {
  items.insert(items.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

/// A drawing as it grows.
struct Sheet {
  std::vector<DrawingItem> items;

  void write(std::string text, double x, double baseline, double size, Weight weight, const Ink& ink,
             Anchor anchor = Anchor::left) {
    items.emplace_back(Text{std::move(text), {x, baseline}, size, weight, anchor, 0, ink, 0, {}});
  }

  void line(double x0, double y0, double x1, double y1, double width, const Ink& ink) {
    items.emplace_back(Stroke{{{x0, y0}, {x1, y1}}, false, width, ink, {}});
  }

  void add(std::vector<DrawingItem> more) { append(items, std::move(more)); }
};

}  // namespace evenlit
