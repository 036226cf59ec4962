#include <catch2/catch.hpp>

#include "evenlit/job/walls.hpp"
#include "evenlit/job/write_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

/// What may follow the job of all controls, in the order in which it is written again.
constexpr std::string_view k_wiring = R"(
[wiring]
cable = "12/2"
path = "bays"
framing = "engineered"
joist_depth = "9-1/4in"
slack = "6in"
waste = 0.15
feed = { switch = "stairs", run = "40ft 0in" }
prices = { switch_box = 3.5, dimmer = 38, staple = 0.05 }
labour = { per_can = 0.75, per_switch = 0.5, rate = 85 }

[[wiring.coils]]
cable = "12/2"
length = "250ft 0in"
price = 129

[[wiring.coils]]
cable = "12/3"
length = "50ft 0in"

[[wiring.switches]]
name = "door"
wall = "west"
from = { south = "1ft 0in" }
height = "4ft 0in"
also = { wall = "east", from = { north = "2ft 0in" }, height = "3ft 6in" }
circuits = ["ceiling"]
box = 20.3

[[wiring.switches]]
name = "stairs"
wall = "north"
from = { west = "3ft 0in" }
height = "4ft 0in"
circuits = ["entry"]
)";

std::string wired_job_text() { return controls_job() + std::string(k_wiring); }

/// The one thing that is wrong with the job when the last `old` in it is replaced.
std::string complaint(std::string_view old, std::string_view replacement) {
  std::string text = wired_job_text();
  const auto at = text.rfind(old);
  REQUIRE(at != std::string::npos);
  const auto job = read_job(text.replace(at, old.size(), replacement), "den.toml");
  REQUIRE_FALSE(job);
  INFO(text_of(job.error()));
  REQUIRE(job.error().size() == 1);
  CHECK(job.error()[0].place.line > 0);
  CHECK_FALSE(job.error()[0].hint.empty());
  return job.error()[0].what;
}

Job wired_job() {
  const auto job = read_job(wired_job_text(), "den.toml");
  INFO((job ? std::string() : text_of(job.error())));
  REQUIRE(job);
  return *job;
}

}  // namespace

TEST_CASE("read wiring: cable, switches, feed, coils and prices are read as written", "[job][exact]") {
  const Job job = wired_job();
  const auto m = [](std::string_view text) { return metres_from_text(text).value(); };
  const Wiring expected{
      .cable = {12, 2},
      .path = Wiring::Path::bays,
      .framing = Wiring::Framing::engineered,
      .joist_depth_m = m("9-1/4in"),
      .slack_m = m("6in"),
      .waste = 0.15,
      .coils = {{{12, 2}, m("250ft"), 129}, {{12, 3}, m("50ft"), {}}},
      .switches = {{.name = "door",
                    .at = {"west", {"south", m("1ft")}, m("4ft")},
                    .also = WallPlace{"east", {"north", m("2ft")}, m("3ft 6in")},
                    .circuits = {"ceiling"},
                    .box_in3 = 20.3},
                   {.name = "stairs", .at = {"north", {"west", m("3ft")}, m("4ft")}, .circuits = {"entry"}}},
      .feed = {"stairs", m("40ft")},
      .prices = {{Piece::switch_box, 3.5}, {Piece::dimmer, 38}, {Piece::staple, 0.05}},
      .labour = {0.75, 0.5, 85}};
  REQUIRE(job.wiring);
  CHECK(*job.wiring == expected);
}

TEST_CASE("read wiring: it comes back as a person would write it", "[job][exact]") {
  CHECK_THAT(write_job(wired_job()), Catch::EndsWith(std::string(k_wiring)));
}

TEST_CASE("read wiring: a switch alone has the usual cable, height and feed", "[job][exact]") {
  const auto job = read_job(controls_job() +
                                "[[wiring.switches]]\nname = \"door\"\nwall = \"west\"\nfrom = { south = \"1ft\" }\n"
                                "circuits = [\"ceiling\"]\n",
                            "den.toml");
  REQUIRE(job);
  const Wiring& wiring = job->wiring.value();
  CHECK(wiring.cable == CableKind{14, 2});
  CHECK(wiring.path == Wiring::Path::open);
  CHECK(wiring.slack_m == Approx(8 * k_metres_per_inch).epsilon(1e-12));
  CHECK(wiring.waste == 0.1);
  CHECK(wiring.switches[0].at.height_m == Approx(48 * k_metres_per_inch).epsilon(1e-12));
  CHECK(std::get<std::string>(wiring.feed.at) == "door");
}

TEST_CASE("read wiring: a place on a wall is measured from either corner", "[job][exact]") {
  const Shape room = wired_job().room;  // 18 ft 2 in by 13 ft
  const double width_m = 18 * k_metres_per_foot + 2 * k_metres_per_inch;
  const double depth_m = 13 * k_metres_per_foot;
  const auto at = [&](const std::string& wall, const std::string& from) {
    return plan_position(room, WallPlace{wall, {from, 1}, 1});
  };
  // A rounding of the walls' lengths is all that may differ.
  CHECK((at("west", "south") - Eigen::Vector2d(0, 1)).norm() < 1e-12);
  CHECK((at("west", "north") - Eigen::Vector2d(0, depth_m - 1)).norm() < 1e-12);
  CHECK((at("south", "west") - Eigen::Vector2d(1, 0)).norm() < 1e-12);
  CHECK((at("south", "east") - Eigen::Vector2d(width_m - 1, 0)).norm() < 1e-12);
  CHECK((at("east", "south") - Eigen::Vector2d(width_m, 1)).norm() < 1e-12);
  CHECK((at("north", "east") - Eigen::Vector2d(width_m - 1, depth_m)).norm() < 1e-12);
}

TEST_CASE("read wiring: each mistake has one clear message", "[job][exact]") {
  CHECK(complaint("cable = \"12/2\"\npath", "cable = \"13/2\"\npath") == "cable \"13/2\" is unknown");
  CHECK(complaint("cable = \"12/2\"\npath", "cable = \"12/3\"\npath") ==
        "the cable to the cans has two insulated wires");
  CHECK(complaint("cable = \"12/3\"", "cable = \"12/4\"") == "cable \"12/4\" is unknown");
  CHECK(complaint("\"bays\"", "\"attic\"") == "path \"attic\" is unknown");
  CHECK(complaint("\"engineered\"", "\"steel\"") == "framing \"steel\" is unknown");
  CHECK(complaint("wall = \"north\"", "wall = \"nort\"") == "the room has no wall \"nort\"");
  CHECK(complaint("from = { west = \"3ft 0in\" }", "from = { south = \"3ft\" }") ==
        "wall \"south\" does not meet wall \"north\"");
  CHECK(complaint("from = { west = \"3ft 0in\" }", "from = { west = \"20ft\" }") ==
        "the switch is 20' 0\" along wall \"north\", which is 18' 2\" long");
  CHECK(complaint("height = \"4ft 0in\"", "height = \"9ft\"") ==
        "the switch's height at 9' 0\" is above the ceiling at 8' 0\"");
  CHECK(complaint("height = \"3ft 6in\"", "height = \"10ft\"") ==
        "the switch's height at 10' 0\" is above the ceiling at 8' 0\"");
  CHECK(complaint("[\"entry\"]", "[\"hall\"]") == "there is no circuit \"hall\"");
  CHECK(complaint("[\"entry\"]", "[\"ceiling\"]") == "circuit \"ceiling\" is on two switches");
  CHECK(complaint("[\"entry\"]", "[\"entry\", \"entry\"]") == "circuit \"entry\" is on two switches");
  CHECK(complaint("[\"entry\"]", "[]") == "the switch has no circuits");
  CHECK(complaint("switch = \"stairs\"", "switch = \"attic\"") == "there is no switch \"attic\"");
  CHECK(complaint("switch = \"stairs\"", "switch = \"stairs\", from = { west = \"1ft\", south = \"1ft\" }") ==
        "the feed is both at a switch and in the ceiling");
  CHECK(complaint("switch = \"stairs\"", "from = { west = \"30ft\", south = \"1ft\" }")
            .starts_with("the feed's centre is"));
  CHECK(complaint("dimmer = 38", "lamp = 38") == "prices knows no key \"lamp\"");
  CHECK(complaint("length = \"50ft 0in\"", "price = 3") == "a coil in [[wiring.coils]] has no length");
}
