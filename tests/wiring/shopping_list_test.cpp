#include "evenlit/wiring/shopping_list.hpp"

#include <algorithm>

#include "wired_sample.hpp"

using namespace evenlit;
using sample::k_wired_room;
using sample::wired;
using sample::with;

namespace {

int count_of(const ShoppingList& list, const std::string& what) {
  const auto found = std::ranges::find(list.items, what, &ShoppingItem::what);
  return found == list.items.end() ? 0 : found->count;
}

/// The room with a price for all that it needs.
std::string priced_room() {
  return with(k_wired_room, "waste = 0\n",
              "waste = 0\nprices = { switch_box = 3, switch = 4, cable_connector = 0.5, wire_connector = 0.25, "
              "staple = 0.125, steel_plate = 1 }\nlabour = { per_can = 0.75, per_switch = 0.5, rate = 80 }\n") +
         "[[wiring.coils]]\nlength = \"15 m\"\nprice = 30\n";
}

}  // namespace

TEST_CASE("shopping list: a small room counted by hand", "[wiring][exact]") {
  const ShoppingList list = wired(k_wired_room).job.list;
  CHECK(count_of(list, "can \"round\"") == 3);
  CHECK(count_of(list, "old-work switch box, 1 gang") == 1);
  CHECK(count_of(list, "switch") == 1);
  CHECK(count_of(list, "ceiling box") == 0);
  CHECK(count_of(list, "cable connector") == 5);  // ends in cans: 1 + 2 + 2
  CHECK(count_of(list, "wire connector") == 12);  // three in three cans and a box
  CHECK(count_of(list, "cable staple") == 8);     // 1 m, 2 m and 2 m over the ceiling; 2 m are just over 78 in
  CHECK(count_of(list, "steel plate") == 1);
  REQUIRE(list.loose.size() == 1);
  CHECK(list.loose[0].length_m == Approx(7.5).epsilon(1e-12));
  CHECK(list.has_prices);  // the cans have one
  CHECK_FALSE(list.is_complete);
  CHECK(list.priced == 60);
  CHECK_FALSE(list.hours);
  CHECK(list.total == 60.0);
}

TEST_CASE("shopping list: costs and hours by hand", "[wiring][exact]") {
  // All prices are multiples of an eighth, exact in doubles.
  const ShoppingList list = wired(priced_room()).job.list;
  CHECK(list.is_complete);
  CHECK(list.priced == 3 * 20 + 30 + 3 + 4 + 5 * 0.5 + 12 * 0.25 + 8 * 0.125 + 1);
  CHECK(list.hours == 3 * 0.75 + 0.5);
  CHECK(list.labour_cost == 80 * 2.75);
  CHECK(list.total == list.priced + 220);
}

TEST_CASE("shopping list: without a price there is no money", "[wiring][exact]") {
  const ShoppingList list = wired(with(k_wired_room, "price = 20\n", "")).job.list;
  CHECK_FALSE(list.has_prices);
  CHECK_FALSE(list.total);
  for (const ShoppingItem& item : list.items) CHECK_FALSE(item.cost());
}

TEST_CASE("shopping list: two places take two boxes, two three-way switches or a dimmer and one", "[wiring][exact]") {
  const std::string two_places =
      with(k_wired_room, "circuits = [\"general\"]",
           "circuits = [\"general\"]\nalso = { wall = \"east\", from = { south = \"1 m\" } }");
  const ShoppingList switched = wired(two_places).job.list;
  CHECK(count_of(switched, "old-work switch box, 1 gang") == 2);
  CHECK(count_of(switched, "three-way switch") == 2);
  CHECK(count_of(switched, "switch") == 0);
  const ShoppingList dimmed = wired(with(two_places, "[circuits.general]\nswitch = true",
                                         "[dimmers.knob]\n[circuits.general]\ndimmer = \"knob\""))
                                  .job.list;
  CHECK(count_of(dimmed, "three-way switch") == 1);
  CHECK(count_of(dimmed, "dimmer \"knob\", three-way") == 1);
}

TEST_CASE("shopping list: shallow joists ask for a plate on both sides of each hole", "[wiring][exact]") {
  const ShoppingList list = wired(with(k_wired_room, "joist_depth = \"235 mm\"", "joist_depth = \"3in\"")).job.list;
  CHECK(count_of(list, "steel plate") == 1 + 2 * 3);
}

TEST_CASE("shopping list: pendants, wall lights and a feed in the ceiling have boxes", "[wiring][exact]") {
  std::string text = with(k_wired_room, "from = { west = \"3 m\", south = \"3 m\" }",
                          "from = { west = \"3 m\", south = \"3 m\" }\ndrop = \"50 cm\"");
  text = with(text, "waste = 0\n", "waste = 0\nfeed = { from = { west = \"2 m\", south = \"1 m\" } }\n");
  const ShoppingList list = wired(text).job.list;
  CHECK(count_of(list, "ceiling box") == 2);
  CHECK(count_of(list, "cable connector") == 5 + 2);  // of the feed: the cable that comes and the one that goes
  CHECK(count_of(list, "wire connector") == 15);
}
