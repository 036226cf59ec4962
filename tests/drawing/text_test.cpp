#include "evenlit/drawing/text.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

namespace {

Text text_at_origin(std::string text, Anchor anchor = Anchor::left, double turn_rad = 0) {
  return {std::move(text), {0, 0}, 100, Weight::regular, anchor, turn_rad, {}, 0, {}};
}

struct Extent {
  Eigen::Vector2d low{1e9, 1e9};
  Eigen::Vector2d high{-1e9, -1e9};
};

Extent extent(const Text& text) {
  Extent found;
  for (const Polyline& outline : letter_outlines(text)) {
    for (const Eigen::Vector2d& point : outline) {
      found.low = found.low.cwiseMin(point);
      found.high = found.high.cwiseMax(point);
    }
  }
  return found;
}

}  // namespace

TEST_CASE("a capital stands on the baseline and is as high as the cap height says", "[drawing][property]") {
  const Extent h = extent(text_at_origin("H"));
  CHECK(h.high.y() == Approx(0).margin(0.1));
  // k_cap_height is stated to two decimals of an em of 100
  CHECK(-h.low.y() == Approx(100 * k_cap_height).margin(0.5));
}

TEST_CASE("the width of a text grows with its size and holds its letters", "[drawing][property]") {
  const double width = text_width("isolux 30", 100, Weight::regular);
  // the font scale is a single-precision number
  CHECK(text_width("isolux 30", 50, Weight::regular) == Approx(width / 2).epsilon(1e-6));
  const Extent letters = extent(text_at_origin("isolux 30"));
  CHECK(letters.low.x() >= 0);
  CHECK(letters.high.x() <= width);
  CHECK(letters.high.x() > 0.95 * width);
  CHECK(text_width("", 100, Weight::bold) == 0);
}

TEST_CASE("anchors place a text left of, around and right of a point", "[drawing][property]") {
  const double width = text_width("lx", 100, Weight::regular);
  const double left = extent(text_at_origin("lx")).low.x();
  CHECK(extent(text_at_origin("lx", Anchor::middle)).low.x() == Approx(left - width / 2));
  CHECK(extent(text_at_origin("lx", Anchor::right)).low.x() == Approx(left - width));
}

TEST_CASE("a quarter turn clockwise makes a text run down", "[drawing][property]") {
  const Extent level = extent(text_at_origin("lx"));
  const Extent turned = extent(text_at_origin("lx", Anchor::left, std::acos(0.0)));
  // sine and cosine of pi/2 are exact to 1e-16; coordinates are below 1000
  CHECK(turned.high.y() == Approx(level.high.x()).margin(1e-9));
  CHECK(turned.high.x() == Approx(-level.low.y()).margin(1e-9));
}

TEST_CASE("control characters and broken UTF-8 show as question marks", "[drawing][exact]") {
  const auto mark = letter_outlines(text_at_origin("a?b"));
  CHECK(letter_outlines(text_at_origin("a\x1b"
                                       "b")) == mark);
  CHECK(letter_outlines(text_at_origin("a\xC2\x85"
                                       "b")) == mark);
}

TEST_CASE("text that is too long ends in an ellipsis and fits", "[drawing][property]") {
  const std::string name = "north wall of the alcöve";
  CHECK(elided(name, 20, Weight::regular, 1000) == name);
  for (double width = 0; width < 300; width += 7) {
    const std::string shown = elided(name, 20, Weight::regular, width);
    CHECK(text_width(shown, 20, Weight::regular) <= width);
  }
  CHECK(elided("north", 20, Weight::regular, 40) == "no\u2026");
  CHECK(elided("north", 20, Weight::regular, 5).empty());
}
