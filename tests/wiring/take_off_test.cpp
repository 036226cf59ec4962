#include "evenlit/wiring/take_off.hpp"

#include <fmt/format.h>

#include <cmath>
#include <set>

#include "evenlit/job/wire.hpp"
#include "wired_sample.hpp"

using namespace evenlit;
using sample::k_wired_room;
using sample::wired;
using sample::with;

namespace {

// Lengths are sums of a few metres: only their rounding may differ.
constexpr double k_rounding = 1e-12;

std::vector<double> lengths_of(const TakeOff& take_off) {
  std::vector<double> lengths;
  for (const Leg& leg : take_off.legs) lengths.push_back(leg.length_m);
  return lengths;
}

std::vector<std::string> members_of(const Leg& leg) {
  std::vector<std::string> names;
  for (const Crossing& crossing : leg.route.crossings) names.push_back(crossing.member);
  return names;
}

using Names = std::vector<std::string>;

/// Cans on a line from a switch at the height of the ceiling, without slack.
std::string row_of_cans(int cans, double apart_m) {
  std::string text = with(k_wired_room, "slack = \"20 cm\"", "slack = 0");
  text = with(text, "height = \"1.2 m\"", "height = \"2.5 m\"");
  const auto first = text.find("[[cans]]");
  std::string row;
  for (int i = 1; i <= cans; ++i) {
    row += fmt::format(
        "[[cans]]\ntype = \"round\"\ncircuit = \"general\"\nfrom = {{ west = \"{} m\", south = \"1 m\" }}\n",
        i * apart_m);
  }
  return text.replace(first, text.find("[wiring]") - first, row) + "[supply]\nbreaker = 15\n";
}

}  // namespace

TEST_CASE("take-off: order, lengths and holes of a small room by hand", "[wiring][exact]") {
  const TakeOff take_off = wired(k_wired_room).job.take_off;
  // Switch (0, 1), 1.3 m down; cans 2, 3, 1 at (1, 1), (3, 1), (3, 3); 0.4 m of slack each.
  REQUIRE(take_off.circuits.size() == 1);
  CHECK(take_off.circuits[0].cans == std::vector<int>{1, 2, 0});
  CHECK(take_off.circuits[0].is_exact);
  const std::vector<double> lengths = lengths_of(take_off);
  REQUIRE(lengths.size() == 3);
  CHECK(lengths[0] == Approx(1 + 1.3 + 0.4).epsilon(k_rounding));
  CHECK(lengths[1] == Approx(2 + 0.4).epsilon(k_rounding));
  CHECK(lengths[2] == Approx(2 + 0.4).epsilon(k_rounding));
  CHECK(members_of(take_off.legs[0]) == Names{"joist 1"});
  CHECK(members_of(take_off.legs[1]) == Names{"joist 2", "joist 3"});
  CHECK(members_of(take_off.legs[2]).empty());
  CHECK(crossings(take_off) == 3);
  const auto cables = cable_lengths(Wiring{.waste = 0.1}, take_off);
  REQUIRE(cables.size() == 1);
  CHECK(cables[0].length_m == Approx(1.1 * 7.5).epsilon(k_rounding));
}

TEST_CASE("take-off: over an open attic cable runs straight and needs no hole", "[wiring][exact]") {
  std::string text = with(k_wired_room, "path = \"bays\"", "path = \"open\"");
  text = with(text, "from = { west = \"3 m\", south = \"3 m\" }", "from = { west = \"5.5 m\", south = \"3.5 m\" }");
  text = with(text, "from = { west = \"3 m\", south = \"1 m\" }", "from = { west = \"4 m\", south = \"1.5 m\" }");
  text = with(text, "from = { west = \"1 m\", south = \"1 m\" }", "from = { west = \"2.5 m\", south = \"3.5 m\" }");
  const TakeOff take_off = wired(text).job.take_off;
  // (0, 1) to (2.5, 3.5) to (4, 1.5), 1.5 and 2: 2.5; to (5.5, 3.5): 2.5.
  CHECK(take_off.circuits[0].cans == std::vector<int>{1, 2, 0});
  const std::vector<double> lengths = lengths_of(take_off);
  CHECK(lengths[0] == Approx(std::sqrt(12.5) + 1.3 + 0.4).epsilon(k_rounding));
  CHECK(lengths[1] == Approx(2.5 + 0.4).epsilon(k_rounding));
  CHECK(lengths[2] == Approx(2.5 + 0.4).epsilon(k_rounding));
  CHECK(crossings(take_off) == 0);
}

TEST_CASE("take-off: a bay's way turns once, square to the joists", "[wiring][property]") {
  const Job job = wired(k_wired_room).job.job;
  const CeilingRoutes routes(job);
  for (double x = 0.1; x < 6; x += 0.73) {
    for (double y = 0.1; y < 4; y += 0.57) {
      const Eigen::Vector2d from(0.2, 1.3);
      const Route there = routes.between(from, {x, y});
      const Route back = routes.between({x, y}, from);
      CHECK(there.length_m == Approx(std::abs(x - 0.2) + std::abs(y - 1.3)).epsilon(k_rounding));
      CHECK(back.length_m == Approx(there.length_m).epsilon(k_rounding));
      // Joists at 0.5, 1.5 ...: those between the two ends.
      CHECK(static_cast<int>(there.crossings.size()) ==
            std::abs(static_cast<int>(std::floor(x + 0.5)) - static_cast<int>(std::floor(0.2 + 0.5))));
      CHECK(back.crossings.size() == there.crossings.size());
    }
  }
}

TEST_CASE("take-off: a single member is gone round where a way has fewer holes", "[wiring][exact]") {
  // Blocking across the bay of x = 2 at y = 2: from (2, 1) to (4, 3) the cable first goes through joists, then along.
  const std::string text = with(k_wired_room, "[circuits.general]",
                                "[[members]]\nname = \"blocking\"\nstart = { west = \"1.5 m\", south = \"2 m\" }\n"
                                "end = { west = \"2.5 m\", south = \"2 m\" }\nthickness = \"38 mm\"\n"
                                "[circuits.general]");
  const CeilingRoutes routes(wired(text).job.job);
  const Route round = routes.between({2, 1}, {4, 3});
  CHECK(round.crossings.size() == 2);
  CHECK(round.points_m[1] == Eigen::Vector2d(4, 1));
  const Route through = routes.between({2, 1}, {2, 3});
  REQUIRE(through.crossings.size() == 1);
  CHECK(through.crossings[0].member == "blocking");
  CHECK(through.crossings[0].at_m == Eigen::Vector2d(2, 2));
}

TEST_CASE("take-off: three-way switches have cable of three wires between them, the cans hang on the second",
          "[wiring][exact]") {
  const TakeOff take_off =
      wired(
          with(k_wired_room, "circuits = [\"general\"]",
               "circuits = [\"general\"]\nalso = { wall = \"east\", from = { south = \"1 m\" }, height = \"1.2 m\" }"))
          .job.take_off;
  REQUIRE(take_off.legs.size() == 4);
  CHECK(take_off.legs[0].cable == CableKind{14, 3});
  CHECK(take_off.legs[0].length_m == Approx(6 + 2 * 1.3 + 0.4).epsilon(k_rounding));
  CHECK(take_off.legs[0].route.crossings.size() == 6);
  CHECK(take_off.legs[1].from.kind == Stop::Kind::second_box);
  CHECK(take_off.circuits[0].cans.size() == 3);
  // The feed and the three wires in one box, the three wires and the cable to the cans in the other: 2 + 3 wires,
  // clamps, a device of two and the grounds, of 2 cubic inches each.
  REQUIRE(take_off.boxes.size() == 2);
  for (const FilledBox& box : take_off.boxes) CHECK(box.fill.needed_in3 == 18);
}

TEST_CASE("take-off: a feed in the ceiling goes down to the switch, another switch is fed from the first",
          "[wiring][exact]") {
  std::string text = with(k_wired_room, "[can_types.round]", "[circuits.other]\nswitch = true\n[can_types.round]");
  text = with(text, "circuit = \"general\"", "circuit = \"other\"");
  text = with(text, "waste = 0\n", "waste = 0\nfeed = { from = { west = \"2 m\", south = \"1 m\" } }\n");
  text +=
      "[[wiring.switches]]\nname = \"far\"\nwall = \"east\"\nfrom = { south = \"1 m\" }\nheight = \"1.5 m\"\n"
      "circuits = [\"other\"]\n";
  const TakeOff take_off = wired(text).job.take_off;
  REQUIRE(take_off.legs.size() == 5);
  // From (2, 1) it is 2 holes to either the west and 4 to the east; west first, then all across.
  CHECK(take_off.legs[0].from.kind == Stop::Kind::feed);
  CHECK(take_off.legs[0].to.index == 0);
  CHECK(take_off.legs[0].length_m == Approx(2 + 1.3 + 0.4).epsilon(k_rounding));
  CHECK(take_off.legs[1].length_m == Approx(6 + 1.3 + 1.0 + 0.4).epsilon(k_rounding));
  // All three cans of 12 VA lie beyond the feed, one beyond the second switch; 120 V.
  CHECK(take_off.legs[0].amperes.value() == Approx(0.3).epsilon(k_rounding));
  CHECK(take_off.legs[1].amperes.value() == Approx(0.1).epsilon(k_rounding));
}

TEST_CASE("take-off: the voltage is lost piece by piece", "[wiring][exact]") {
  const std::string text =
      with(k_wired_room, "waste = 0\n", "waste = 0\nfeed = { switch = \"door\", run = \"10 m\" }\n") +
      "[supply]\nbreaker = 15\n";
  const TakeOff take_off = wired(text).job.take_off;
  const double ohm_per_m = 3.07 / 304.8;  // NEC chapter 9, table 8
  const double volts = 2 * ohm_per_m * (10 * 0.3 + 2.7 * 0.3 + 2.4 * 0.2 + 2.4 * 0.1);
  CHECK(take_off.circuits[0].drop_share.value() == Approx(volts / 120).epsilon(k_rounding));
  CHECK(take_off.run_drop_v.value() == Approx(2 * ohm_per_m * 3).epsilon(k_rounding));
}

TEST_CASE("take-off: 3 A over 60 ft of 14 AWG lose 1.1052 V", "[wiring][published]") {
  // 2 x 3.07 ohm / 1000 ft x 3 A x 60 ft, NEC chapter 9, table 8: exact in four decimals.
  CHECK(voltage_drop_v(wire_of(14).value(), 3, 60 * k_metres_per_foot) == Approx(1.1052).epsilon(1e-9));
}

TEST_CASE("take-off: equal loads equally spaced lose (n + 1) / 2n of what they would at the end", "[wiring][formula]") {
  for (const int cans : {1, 2, 3, 5, 8}) {
    const double apart_m = 0.5;
    const TakeOff take_off = wired(row_of_cans(cans, apart_m)).job.take_off;
    const double lumped_v = voltage_drop_v(wire_of(14).value(), cans * 12.0 / 120, cans * apart_m);
    CHECK(take_off.circuits[0].drop_share.value() * 120 ==
          Approx((cans + 1) / (2.0 * cans) * lumped_v).epsilon(k_rounding));
  }
}

TEST_CASE("take-off: what is not known is not told", "[wiring][exact]") {
  const TakeOff take_off = wired(with(k_wired_room, "va = 12\n", "")).job.take_off;
  CHECK_FALSE(take_off.circuits[0].va);
  CHECK_FALSE(take_off.circuits[0].drop_share);
  CHECK_FALSE(take_off.legs[0].amperes);
  CHECK_FALSE(take_off.branch);
  CHECK(take_off.legs[0].length_m == Approx(2.7).epsilon(k_rounding));
}

TEST_CASE("take-off: a breaker too large for the cable is told", "[wiring][published]") {
  // NEC 240.4(D): 15 A for 14 AWG, 20 A for 12 AWG.
  const auto limit = [](const std::string& cable, int breaker) {
    return wired(with(k_wired_room, "path = \"bays\"", "cable = \"" + cable + "\"\npath = \"bays\"") +
                 fmt::format("[supply]\nbreaker = {}\n", breaker))
        .job.take_off.most_breaker_a;
  };
  CHECK(limit("14/2", 20) == 15.0);
  CHECK_FALSE(limit("14/2", 15));
  CHECK_FALSE(limit("12/2", 20));
}

TEST_CASE("take-off: engineered joists have no limit of ours, and cans on no switch are left out", "[wiring][exact]") {
  const TakeOff solid = wired(k_wired_room).job.take_off;
  REQUIRE(solid.hole);
  CHECK(solid.hole->is_allowed);
  CHECK(solid.left_out.empty());
  std::string text = with(k_wired_room, "path = \"bays\"", "framing = \"engineered\"\npath = \"bays\"");
  text = with(text, "circuit = \"general\"\n", "");
  const TakeOff engineered = wired(text).job.take_off;
  CHECK_FALSE(engineered.hole);
  CHECK(engineered.left_out == std::vector<int>{0});
  CHECK(engineered.circuits[0].cans == std::vector<int>{1, 2});
}

TEST_CASE("take-off: a luminaire on a wall has its way down", "[wiring][exact]") {
  const std::string text = with(k_wired_room, "from = { west = \"3 m\", south = \"3 m\" }",
                                "from = { west = \"3 m\", south = \"3 m\" }\nheight = \"1.5 m\"");
  CHECK(wired(text).job.take_off.legs[2].length_m == Approx(2 + 1.0 + 0.4).epsilon(k_rounding));
}

TEST_CASE("take-off: every can that a switch has is wired once", "[wiring][property]") {
  for (const int cans : {1, 4, 11}) {
    const WiredJob job = wired(row_of_cans(cans, 0.5)).job;
    std::multiset<int> ends;
    for (const Leg& leg : job.take_off.legs) {
      if (leg.to.kind == Stop::Kind::can) ends.insert(leg.to.index);
    }
    CHECK(static_cast<int>(ends.size()) == cans);
    CHECK(std::set<int>(ends.begin(), ends.end()).size() == ends.size());
  }
}
