#include <catch2/catch.hpp>

#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

std::string whole_job() { return std::string(k_sample_job) + std::string(k_sample_framing); }

Job job_from(const std::string& text) {
  const auto job = read_job(text, "den.toml");
  INFO((job ? std::string{} : text_of(job.error(), text)));
  REQUIRE(job);
  return *job;
}

/// What is wrong with the whole job when `old` in it is replaced.
std::string message_of(std::string_view old, std::string_view replacement) {
  std::string text = whole_job();
  const auto at = text.find(old);
  REQUIRE(at != std::string::npos);
  const auto job = read_job(text.replace(at, old.size(), replacement), "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

}  // namespace

TEST_CASE("read framing: members, keep-outs and fans", "[job][exact]") {
  const Job job = job_from(whole_job());
  REQUIRE(job.members.size() == 2);
  CHECK(job.members[0] == Member{"doubled joist", Taped{"west", 2.4384}, 0.0762, {}});
  const TapedLine ends{{{"west", 0.2794}, {"south", 1.2192}}, {{"west", 0.6858}, {"south", 1.2192}}};
  CHECK(job.members[1] == Member{"blocking", ends, 0.0381, {}});

  REQUIRE(job.keep_outs.size() == 3);
  const TapedRectangle vent{{{"west", 0.9144}, {"south", 0}}, 0.3556, 0.1524, 10};
  CHECK(job.keep_outs[0] == KeepOut{"supply vent", vent, 0, {}});
  const TapedCircle detector{{{"west", 2.7432}, {"south", 1.8288}}, 0.1524};
  CHECK(job.keep_outs[1] == KeepOut{"smoke detector", detector, 0.0762, {}});
  // Listed clockwise, kept the other way round from the same corner.
  const Polygon duct{{0.3048, 0}, {0.6096, 0}, {0.6096, 2.7432}, {0.3048, 2.7432}};
  CHECK(job.keep_outs[2] == KeepOut{"duct", duct, 0, {}});

  REQUIRE(job.fans.size() == 1);
  CHECK(job.fans[0] == Fan{"fan", {{"west", 2.7432}, {"south", 1.8288}}, 1.3208, 0.3048, {}});
}

TEST_CASE("read framing: one table of joists, or several with their areas", "[job][exact]") {
  const std::string one = "[joists]\nparallel_to = \"south\"\nfirst = \"8in\"\nspacing = \"16in\"\n";
  const std::string two =
      "[[joists]]\nparallel_to = \"south\"\nfirst = \"8in\"\nspacing = \"16in\"\n"
      "area = { from = { west = 0, south = 0 }, width = \"9ft\", depth = \"13ft\" }\n"
      "[[joists]]\nparallel_to = \"west\"\nfirst = \"110in\"\nspacing = \"24in\"\n"
      "area = { corners = [[\"9ft\", 0], [\"18ft\", 0], [\"18ft\", \"13ft\"]] }\n";
  const auto joists = job_from(sample_with(one, two)).joists;
  REQUIRE(joists.size() == 2);
  const TapedRectangle west_half{{{"west", 0}, {"south", 0}}, 2.7432, 3.9624, 0};
  CHECK(joists[0] == Joists{"south", 0.2032, 0.4064, 0.0381, west_half});
  const Polygon triangle{{2.7432, 0}, {5.4864, 0}, {5.4864, 3.9624}};
  CHECK(joists[1] == Joists{"west", 2.794, 0.6096, 0.0381, triangle});
}

TEST_CASE("read framing: the housing of a can type", "[job][exact]") {
  const std::string hole = "hole = \"6-3/8in\"\n";
  const auto type = [&](const std::string& more) { return job_from(sample_with(hole, hole + more)).can_types[0]; };
  CHECK_FALSE(type("").housing.has_value());
  CHECK(type("").rating == Rating::unknown);
  CHECK(type("rating = \"IC\"\n").rating == Rating::ic);
  CHECK(type("rating = \"non-IC\"\n").rating == Rating::non_ic);
  CHECK(type("housing = { width = \"7in\", length = \"11in\" }\n").housing == Housing{0.2794, 0.1778});
  CHECK(type("housing = { width = \"7in\", length = \"11in\", kind = \"new work\", lies = \"along\", "
             "narrowest_bay = \"14in\", widest_bay = \"24in\" }\n")
            .housing == Housing{0.2794, 0.1778, Housing::Kind::new_work, Housing::Lies::along, 0.3556, 0.6096});
}

TEST_CASE("framing mistakes: joists", "[job][exact]") {
  CHECK(message_of("thickness = \"1-1/2in\"\n\n[can", "area = { corners = [[0, 0], [\"1 m\", 0]] }\n\n[can") ==
        "den.toml:25:20: a joist area of 2 corners\nhint: a joist area has 3 to 500 corners\n");
  CHECK(message_of("thickness = \"1-1/2in\"\n\n[can", "area = { from = { west = 0 } }\n\n[can") ==
        "den.toml:25:8: area of the joists has no width\nhint: add a line like width = \"7ft\"\n"
        "den.toml:25:8: area of the joists has no depth\nhint: add a line like depth = \"3ft\"\n"
        "den.toml:25:17: the joist area is to be measured from 2 walls, not from 1\n"
        "hint: write from = { west = \"3ft 3in\", south = \"3ft 3in\" }\n");
  auto huge = sample_with("depth = \"13ft\"", "depth = \"1000 m\"");
  huge.replace(huge.find("16in"), 4, "50cm");
  const auto job = read_job(huge, "den.toml");
  REQUIRE_FALSE(job);
  // (1000 - 0.2032) / 0.5 = 1999.6
  CHECK(text_of(job.error()) ==
        "den.toml:24:11: that makes 2000 joists\nhint: a ceiling has at most 1000: check the spacing\n");
}

TEST_CASE("framing mistakes: members", "[job][exact]") {
  const std::string line =
      "hint: write from = { west = \"5ft\" } for its centre line parallel to that wall, or start and end like { west = "
      "\"5ft\", south = 0 }\n";
  CHECK(message_of("from = { west = \"8ft\" }\n", "") == "den.toml:58:1: the member has no place\n" + line);
  CHECK(message_of("start = { west = \"11in\", south = \"4ft\" }\n", "") ==
        "den.toml:63:1: the member has no start\n" + line);
  CHECK(message_of("start = {", "from = { west = 0 }\nstart = {") ==
        "den.toml:63:1: the member has both from and ends\n" + line);
  CHECK(message_of("from = { west = \"8ft\" }", "from = { west = \"8ft\", south = 0 }") ==
        "den.toml:60:8: the member is to be parallel to 1 wall, not to 2\n" + line);
  CHECK(message_of("from = { west = \"8ft\" }", "from = { wets = \"8ft\" }") ==
        "den.toml:60:10: the room has no wall \"wets\"\nhint: did you mean \"west\"?\n");
  CHECK(message_of("end = { west = \"27in\", south = \"4ft\" }", "end = { west = \"27in\" }") ==
        "den.toml:66:7: the member's end is to be measured from 2 walls, not from 1\n"
        "hint: write end = { west = \"3ft 3in\", south = \"3ft 3in\" }\n");
  CHECK(
      message_of("end = { west = \"27in\", south", "end = { west = \"27in\", east") ==
      "den.toml:66:7: walls \"west\" and \"east\" are parallel\nhint: measure from two walls that meet at an angle\n");
  CHECK(message_of("west = \"27in\"", "west = \"11in\"") ==
        "den.toml:66:7: the member ends less than 1 mm from its start\n"
        "hint: start and end are the ends of its centre line\n");
  CHECK(message_of("name = \"blocking\"", "name = \"doubled joist\"") ==
        "den.toml:64:8: two members are named \"doubled joist\"\nhint: give each member its own name\n");
  CHECK(message_of("thickness = \"3in\"\n", "") ==
        "den.toml:58:1: a member in [[members]] has no thickness\n"
        "hint: add a line like thickness = \"3in\": its width on the plan\n");
}

TEST_CASE("framing mistakes: keep-outs", "[job][exact]") {
  CHECK(message_of("diameter = \"6in\"", "diameter = \"6in\"\nwidth = \"6in\"") ==
        "den.toml:80:9: the keep-out has both diameter and width\n"
        "hint: give from and diameter for a circle, from, width and depth for a rectangle, or corners\n");
  CHECK(message_of("turn = 10", "corners = [[0, 0], [\"1ft\", 0], [0, \"1ft\"]]") ==
        "den.toml:71:8: the keep-out has both corners and from\n"
        "hint: give from, width and depth for a rectangle, corners for any other area\n"
        "den.toml:72:9: the keep-out has both corners and width\n"
        "hint: give from, width and depth for a rectangle, corners for any other area\n"
        "den.toml:73:9: the keep-out has both corners and depth\n"
        "hint: give from, width and depth for a rectangle, corners for any other area\n");
  CHECK(message_of("[\"1ft\", \"9ft\"], [\"2ft\", \"9ft\"], [\"2ft\", 0]",
                   "[\"2ft\", \"9ft\"], [\"1ft\", \"9ft\"], [\"2ft\", 0]") ==
        "den.toml:84:11: edges 1 and 3 of the keep-out cross or touch\n"
        "hint: list the corners in the order in which you pass them going round its edge; edge 1 runs from the first "
        "to the second\n");
  CHECK(message_of("clearance = \"3in\"", "clearance = 3") ==
        "den.toml:80:13: clearance 3 has no unit\n"
        "hint: write the unit too, in quotes: \"3 in\", \"3 ft\" or \"3 m\"\n");
  CHECK(message_of("from = { west = \"9ft\"", "from = { west = \"19ft\"") ==
        "den.toml:78:8: the keep-out's centre is 10\" outside the room\n"
        "hint: each distance is square to its wall, from the wall into the room\n");
}

TEST_CASE("framing mistakes: fans", "[job][exact]") {
  CHECK(message_of("drop = \"12in\"", "drop = \"8ft\"") ==
        "den.toml:90:8: the fan's blades are below the floor\nhint: drop is from the ceiling down to them\n");
  CHECK(message_of("diameter = \"52in\"\n", "") ==
        "den.toml:86:1: a fan in [[fans]] has no diameter\nhint: add a line like diameter = \"52in\"\n");
}

TEST_CASE("framing mistakes: housings", "[job][exact]") {
  const auto message = [](const std::string& line) {
    const auto job = read_job(sample_with("hole = \"6-3/8in\"", line), "den.toml");
    REQUIRE_FALSE(job);
    return text_of(job.error());
  };
  CHECK(message("rating = \"ic\"") == "den.toml:31:10: rating \"ic\" is unknown\nhint: did you mean \"IC\"?\n");
  CHECK(message("housing = { width = \"7in\" }") ==
        "den.toml:31:11: housing has no length\nhint: write housing = { width = \"6-1/2in\", length = \"11in\" }\n");
  CHECK(message("housing = { width = \"7in\", length = \"1ft\", kind = \"old\" }") ==
        "den.toml:31:51: housing kind \"old\" is unknown\nhint: known are remodel, new work\n");
  CHECK(message("housing = { width = \"7in\", length = \"1ft\", narrowest_bay = \"2ft\", widest_bay = \"1ft\" }") ==
        "den.toml:31:80: the widest bay is narrower than the narrowest\nhint: exchange them\n");
}
