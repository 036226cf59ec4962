#include "evenlit/drawing/wiring_sheet.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "drawing/sheet_checks.hpp"
#include "wiring/wired_sample.hpp"

using namespace evenlit;
using sample::k_wired_room;
using sample::with;

namespace {

Drawing sheet_of(const std::string& text) {
  const sample::Wired wired = sample::wired(text);
  return wiring_sheet(wired.job, wired.scene);
}

/// A room of three circuits, a second place, a feed in the ceiling and a pendant.
std::string three_circuits() {
  std::string text = with(k_wired_room, "[can_types.round]",
                          "[circuits.other]\nswitch = true\n[circuits.third]\nswitch = true\n[can_types.round]");
  text = with(text, "circuit = \"general\"\nfrom = { west = \"3 m\", south = \"3 m\" }",
              "circuit = \"other\"\nfrom = { west = \"5 m\", south = \"3 m\" }\ndrop = \"40 cm\"");
  text = with(text, "circuit = \"general\"", "circuit = \"third\"");
  text = with(text, "waste = 0\n", "waste = 0\nfeed = { from = { west = \"2 m\", south = \"2 m\" } }\n");
  return text +
         "[[wiring.switches]]\nname = \"far\"\nwall = \"east\"\nfrom = { south = \"1 m\" }\n"
         "circuits = [\"other\", \"third\"]\nalso = { wall = \"north\", from = { west = \"4 m\" } }\n";
}

}  // namespace

TEST_CASE("wiring sheet: it says what it shows, nothing is small or off the sheet", "[drawing][exact]") {
  const Drawing drawing = sheet_of(k_wired_room);
  sample::check_sheet(drawing, 18);
  for (const char* said : {"Study", "cables from above, along the joists and square through them", "door", "3:  2.40 m",
                           "2:  2.40 m", "general", "switch box, feed", "hole through framing", "7.50 m",
                           "Holes through framing", "Most voltage lost"}) {
    INFO(said);
    CHECK(sample::says(drawing, said));
  }
  sample::check_sheet(sheet_of(three_circuits()), 18);
  CHECK(sample::says(sheet_of(three_circuits()), "always live"));
}

TEST_CASE("wiring sheet: cables are drawn to scale along their way", "[drawing][exact]") {
  const Drawing drawing = sheet_of(k_wired_room);
  // From the switch at (0, 1) through (1, 1) and (3, 1) to (3, 3): steps of 1 m, 2 m and 2 m on the sheet.
  std::vector<double> lengths;
  for (const Stroke& stroke : sample::all_of_kind<Stroke>(drawing)) {
    if (stroke.width != 3.4 || stroke.points.size() < 2 || stroke.points.front().y() > drawing.height * 0.8) continue;
    double length = 0;
    for (std::size_t i = 1; i < stroke.points.size(); ++i) length += (stroke.points[i] - stroke.points[i - 1]).norm();
    lengths.push_back(length);
  }
  REQUIRE(lengths.size() >= 3);
  CHECK(lengths[1] == Approx(2 * lengths[0]));
  CHECK(lengths[2] == Approx(2 * lengths[0]));
}

TEST_CASE("wiring sheet: an open attic has no holes", "[drawing][exact]") {
  const Drawing drawing = sheet_of(with(k_wired_room, "path = \"bays\"", "path = \"open\""));
  CHECK(sample::says(drawing, "cables from above, straight over the joists"));
  CHECK_FALSE(sample::says(drawing, "hole through framing"));
}
