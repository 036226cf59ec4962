#include "free_space.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("a label keeps off the walls", "[drawing][exact]") {
  const Polygon sheet{{0, 0}, {100, 0}, {100, 100}, {0, 100}};
  const FreeSpace space(sheet);
  CHECK(space.is_free({{{50, 50}, 46}}));
  CHECK_FALSE(space.is_free({{{50, 50}, 48}}));  // 2 units from the outline are too near
  CHECK_FALSE(space.is_free({{{120, 50}, 5}}));
}
