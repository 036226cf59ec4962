#include "isolux_lines.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "evenlit/drawing/text.hpp"

using namespace evenlit;

namespace {

// The isolux lines of x + y on a square 400 units wide run from one side to the next across a corner or the middle.
std::vector<DrawingItem> lines_across_square(double value) {
  const Polygon square_m{{0, 0}, {1, 0}, {1, 1}, {0, 1}};
  const SampledField field_m{{0, 0}, {1, 1}, 2, 2, {0, 1, 1, 2}};
  const PlanView view{400, {0, 400}};
  FreeSpace space(view.at(square_m));
  return isolux_lines(field_m, square_m, {{value, "10", false}}, view, k_small_text, space);
}

int labels(const std::vector<DrawingItem>& items) {
  return static_cast<int>(std::count_if(items.begin(), items.end(),
                                        [](const DrawingItem& item) { return std::holds_alternative<Text>(item); }));
}

}  // namespace

TEST_CASE("an isolux line is labelled where the label does not all but hide it", "[drawing][exact]") {
  const double label = text_width("10", k_small_text, Weight::regular) + 14;  // with the gap on both sides
  REQUIRE(0.1 * 400 * std::sqrt(2) < 2 * label);
  CHECK(labels(lines_across_square(1.9)) == 0);
  CHECK(labels(lines_across_square(1.0)) == 1);
}
