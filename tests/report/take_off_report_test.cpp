#include "evenlit/report/take_off_report.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "evenlit/base/utf8.hpp"
#include "lines.hpp"
#include "wiring/wired_sample.hpp"
#include "work_steps.hpp"

using namespace evenlit;
using sample::k_wired_room;
using sample::wired;
using sample::with;

namespace {

/// Words in one line, so that it does not matter where lines break.
std::string flowing(const std::string& text) {
  std::istringstream words(text);
  std::string flow;
  for (std::string word; words >> word;) flow += (flow.empty() ? "" : " ") + word;
  return flow;
}

std::string flowing_report(const std::string& text) { return flowing(take_off_text(wired(text).job, {})); }

void check_columns(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(code_points(line) <= 80);
  }
}

std::size_t at_of(const std::string& text, const std::string& part) {
  INFO(part);
  const auto at = text.find(part);
  REQUIRE(at != std::string::npos);
  return at;
}

}  // namespace

TEST_CASE("the report of wiring: cables, holes, boxes, loads and what to buy", "[report][exact]") {
  const std::string text = take_off_text(wired(k_wired_room).job, {});
  CHECK(text.starts_with("Study: 3 cans on 1 circuit, 1 switch box, 7.50 m of 14/2 cable with ground.\n"));
  CHECK(line_with(text, "can 2  ") ==
        "    1  door                   can 2                  14/2   2.70 m     1   0.30");
  const std::string flow = flowing(text);
  CHECK_THAT(flow, Catch::Contains("3 holes through framing joist 1 (cable 1); joist 2 (cable 2); joist 3 (cable 2)."));
  CHECK_THAT(flow, Catch::Contains("(IRC R502.8.1, R802.7.1: check the locally adopted edition"));
  CHECK_THAT(flow, Catch::Contains("2 cables, 1 device; counts 4 for wires, 1 for clamps, 2 for devices, 1 for "
                                   "grounds, 2.00 cu in each: 16.00 cu in. Choose a box"));
  // 2 x 3.07 ohm / 1000 ft x (0.3 A x 2.7 m + 0.2 A x 2.4 m + 0.1 A x 2.4 m) of 120 V: 0.0257 %.
  CHECK_THAT(flow, Catch::Contains("general: cans 2, 3, 1; 36.0 VA, 0.03 % of the voltage lost at can 1."));
  CHECK_THAT(line_with(text, "can \"round\""), Catch::EndsWith("         3        $20        $60"));
  check_columns(text);
}

TEST_CASE("the report of wiring: what must not be is written in capitals", "[report][exact]") {
  const std::string boxed = with(k_wired_room, "circuits = [\"general\"]", "circuits = [\"general\"]\nbox = 14");
  CHECK_THAT(flowing_report(boxed), Catch::Contains("16.00 cu in of 14.00: TOO SMALL."));
  CHECK_THAT(flowing_report(with(k_wired_room, "\"235 mm\"", "\"3-1/2in\"")), Catch::Contains("NO HOLE:"));
  CHECK_THAT(flowing_report(with(k_wired_room, "path = \"bays\"", "path = \"bays\"\nframing = \"engineered\"")),
             Catch::Contains("ENGINEERED MEMBERS: bore none of them without the maker's written word"));
  CHECK_THAT(flowing_report(k_wired_room + "[supply]\nbreaker = 20\n"), Catch::Contains("BREAKER TOO LARGE: 14 AWG"));
  CHECK_THAT(flowing_report(with(k_wired_room, "va = 12", "va = 700") + "[supply]\nbreaker = 15\n"),
             Catch::Contains("Branch circuit: 2100 VA of 1440 VA: TOO MUCH."));
  CHECK_THAT(
      flowing_report(with(k_wired_room, "waste = 0", "waste = 0\nfeed = { switch = \"door\", run = \"900 m\" }")),
      Catch::Contains("MORE THAN THE 3 % ADVISED"));
  CHECK_THAT(flowing_report(with(k_wired_room, "circuit = \"general\"\n", "")), Catch::Contains("NOT COUNTED"));
}

TEST_CASE("the report of wiring: the work is in order and cautions stand where they belong", "[report][exact]") {
  const std::string flow = flowing_report(k_wired_room);
  const std::string work = flow.substr(at_of(flow, "Order of work"));
  std::size_t before = 0;
  for (const char* step : {"permit", "instructions of cans", "Switch the circuit off and test", "Mark the centres",
                           "Cut the holes", "Bore the joists", "Cut in the switch boxes", "Connect the cans",
                           "Set the housings", "Connect the switches", "switch the circuit on"}) {
    const std::size_t at = at_of(work, step);
    CHECK(at > before);
    before = at;
  }
  // Before anything is cut: dead, locked, the tester proven; old wiring and ceilings; no joist.
  const std::size_t cutting = at_of(work, "Cut the holes");
  for (const char* caution : {"prove it dead", "Lock the breaker off", "Prove the tester on a live source before and",
                              "Aluminium wires", "asbestos", "Cut no joist", "licensed electrician"}) {
    CHECK(at_of(work, caution) < cutting);
  }
  CHECK(at_of(work, "Cover the eyes") > cutting);
}

TEST_CASE("the report of wiring: every rule has its section and says to check the edition", "[report][exact]") {
  const auto job = wired(k_wired_room).job;
  const std::string flow = flowing(take_off_text(job, {}));
  CHECK_THAT(flow, Catch::Contains("Rules: check the locally adopted edition and local amendments"));
  for (const WorkRule& rule : work_rules(job)) {
    CHECK_THAT(rule.section, Catch::StartsWith("NEC ") || Catch::StartsWith("IRC "));
    CHECK_THAT(flow, Catch::Contains(rule.section + ": "));
  }
  for (const char* section : {"314.16(B)", "404.2(C)", "334.30", "300.4(A)(1)", "410.116", "240.4(D)", "R502.8.1"}) {
    CHECK_THAT(flow, Catch::Contains(section));
  }
}

TEST_CASE("the report of wiring: an open attic needs no boring", "[report][exact]") {
  const std::string flow = flowing_report(with(k_wired_room, "path = \"bays\"", "path = \"open\""));
  CHECK_THAT(flow, !Catch::Contains("Bore the joists"));
  CHECK_THAT(flow, !Catch::Contains("holes through framing"));
  CHECK_THAT(flow, Catch::Contains("334.23"));
}

TEST_CASE("the report of wiring: two jobs side by side", "[report][exact]") {
  WiredJob bays = wired(k_wired_room).job;
  WiredJob open = wired(with(k_wired_room, "path = \"bays\"", "path = \"open\"")).job;
  bays.name = "bays";
  open.name = "open";
  const std::string text = take_offs_text({bays, open}, {});
  CHECK_THAT(line_with(text, "holes through framing"), Catch::EndsWith("3                   0"));
  CHECK_THAT(line_with(text, "together"), Catch::EndsWith("$60                 $60"));
  CHECK_THAT(flowing(text), Catch::Contains("licensed electrician"));
  check_columns(text);
}

TEST_CASE("the report of wiring: CSV has an item a row", "[report][exact]") {
  const std::string csv = take_offs_csv({wired(k_wired_room).job});
  CHECK(csv.starts_with("job,item,quantity,unit,price,cost\n\"study\",\"can \"\"round\"\"\",3,each,20.00,60.00\n"));
  CHECK_THAT(csv, Catch::Contains("\"study\",\"14/2 cable with ground\",7.50,m,,\n"));
}

TEST_CASE("the report of wiring: JSON holds all of it", "[report][exact]") {
  const auto json = nlohmann::json::parse(take_offs_json({wired(k_wired_room).job}, {}));
  CHECK(json["format"] == "evenlit wiring");
  const auto& job = json["jobs"][0];
  CHECK(job["cables"].size() == 3);
  CHECK(job["cables"][0]["from"]["name"] == "door");
  CHECK(job["cables"][0]["to"]["can"] == 2);
  CHECK(job["cables"][0]["holes"][0]["member"] == "joist 1");
  CHECK(job["cables"][0]["length_m"] == 2.7);
  CHECK(job["circuits"][0]["cans"] == nlohmann::json({2, 3, 1}));
  CHECK(job["holes"] == 3);
  CHECK(job["switch_boxes"][0]["needed_in3"] == 16);
  CHECK(job["switch_boxes"][0]["is_too_small"].is_null());
  CHECK(job["shopping"]["total"] == 60);
  CHECK(job["branch_circuit"].is_null());
  CHECK(job["work"].size() > 8);
}
