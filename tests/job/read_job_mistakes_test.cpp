#include <catch2/catch.hpp>

#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

/// What a person sees for a job that is wrong.
std::string messages(std::string_view text) {
  const auto job = read_job(text, "den.toml");
  REQUIRE_FALSE(job);
  REQUIRE_FALSE(job.error().empty());
  return text_of(job.error(), text);
}

}  // namespace

TEST_CASE("job mistakes: all of them at once, in the order of the file", "[job][exact]") {
  CHECK(messages(R"(units = "imperial"
target = 30

[room]
width = "12 x 6"
depth = "13,5 m"
celing = "8ft"

[finishes]
ceiling = 1.2
)") == R"(den.toml: the job has no can_types
hint: add a table [can_types.six_inch] with file = "../photometry/six-inch-medium.ies"
den.toml: the job has no cans
hint: add a table [[cans]] with type = "six_inch" and from = { west = "3ft 3in", south = "3ft 3in" }
den.toml:2:10: target 30 has no unit
    2 | target = 30
      |          ^~
hint: write the unit too, in quotes: "30 fc" or "30 lx"
den.toml:4:1: [room] has no ceiling
    4 | [room]
      | ^~~~~~
hint: add a line like ceiling = "8ft"
den.toml:5:9: room width "12 x 6" is not a length
    5 | width = "12 x 6"
      |         ^~~~~~~~
hint: write feet and inches like 12ft 6-3/8in, or metres like 3.81 m
den.toml:6:9: room depth "13,5 m" is not a length
    6 | depth = "13,5 m"
      |         ^~~~~~~~
hint: write the decimals after a point: 13.5 m
den.toml:7:1: [room] knows no key "celing"
    7 | celing = "8ft"
      | ^~~~~~
hint: did you mean "ceiling"?
den.toml:10:11: ceiling reflectance 1.2 is above 1
   10 | ceiling = 1.2
      |           ^~~
hint: write the part of the light that comes back: 0 to below 1, a white ceiling about 0.8
)");
}

TEST_CASE("job mistakes: syntax", "[job][exact]") {
  const std::string hint =
      "hint: a line is key = value; text stands in quotes, and inches in it are written in: \"12ft 6in\"\n";
  CHECK(messages("width = 12ft") ==
        "den.toml:1:9: this is not TOML: value: could not determine value type\n"
        "    1 | width = 12ft\n      |         ^\n" +
            hint);
  CHECK(messages("[room]\nwidth = \"12' 6\"\"\n") ==
        "den.toml:2:16: this is not TOML: key-value pair: expected a comment or whitespace, saw '\"'\n"
        "    2 | width = \"12' 6\"\"\n      |                ^\n" +
            hint);
  CHECK(messages("[,") ==
        "den.toml:1:2: this is not TOML: key: expected bare key starting character or string delimiter, saw ','\n"
        "    1 | [,\n      |  ^\n" +
            hint);
  CHECK(messages("width = 6½") ==
        "den.toml:1:10: this is not TOML: decimal integer: expected digit, saw '½'\n"
        "    1 | width = 6½\n      |          ^\n" +
            hint);
  CHECK(messages("½ = 6") ==
        "den.toml:1:1: this is not TOML: root table: expected keys, tables, whitespace or comments, saw '½'\n"
        "    1 | ½ = 6\n      | ^\n" +
            hint);
  CHECK(messages("[room]\n[room]\n") ==
        "den.toml:2:1: this is not TOML: table header: cannot redefine existing table 'room'\n"
        "    2 | [room]\n      | ^\n" +
            hint);
}

TEST_CASE("job mistakes: files that are no job", "[job][exact]") {
  using namespace std::string_literals;
  const std::string not_text = "den.toml: the job file is not UTF-8 text\nhint: save it as plain text in UTF-8\n";
  CHECK(messages("units = \"\xff\"") == not_text);
  CHECK(messages("units\0 = 1"s) == not_text);
  CHECK(messages("\x89PNG\r\n\x1a\n\0\0\0\rIHDR"s) == not_text);
  CHECK(messages("\xff\xfeu\0n\0i\0"s) == not_text);
  const std::string empty = "den.toml: the job file is empty\nhint: scenes/README.md tells how to write one\n";
  CHECK(messages("") == empty);
  CHECK(messages(" \r\n\t\n") == empty);
  CHECK(messages(std::string((1u << 20) + 1, '#')) ==
        "den.toml: the job file is larger than 1 MiB\nhint: a job is one room\n");
  const std::string dots(119, '.');
  CHECK(messages("\na" + dots + dots + dots) == "den.toml:2:1: this line has more than 100 dots\n    2 | a" + dots +
                                                    "\n      | ^\nhint: break it into several lines\n");
}

TEST_CASE("job mistakes: wrong kinds of value", "[job][exact]") {
  CHECK(message_with("\"imperial\"", "true") ==
        "den.toml:1:9: units is true or false, not text\nhint: write it in quotes\n");
  CHECK(message_with("\"imperial\"", "\"metrical\"") ==
        "den.toml:1:9: units \"metrical\" is unknown\nhint: write \"imperial\" or \"metric\"\n");
  CHECK(message_with("\"18ft 2in\"", "[1, 2]") ==
        "den.toml:6:9: room width is a list, not a length\nhint: write text like \"30 in\", \"30 ft\" or \"30 m\"\n");
  CHECK(message_with("\"20 %\"", "2024-05-01") ==
        "den.toml:11:9: floor reflectance is a date, not a fraction\n"
        "hint: write a number like 0.8, or text like \"80 %\"\n");
  CHECK(message_with("\"20 %\"", "\"grey\"") ==
        "den.toml:11:9: floor reflectance \"grey\" is not a fraction\n"
        "hint: write a fraction from 0 to 1 like 0.8, a percentage like 80 %, or LRV 80\n");
  CHECK(message_with("watts = 10.5", "watts = \"10.5 W\"") ==
        "den.toml:30:9: watts is text, not a number\nhint: write the number without quotes\n");
  CHECK(message_with("{ tilt = 30, toward = 90 }", "30") ==
        "den.toml:46:7: aim is a number, not a table\n"
        "hint: write its keys and values in braces, or under its header\n");
  CHECK(message_with("\"six_inch\"\nfrom", "\"\"\nfrom") ==
        "den.toml:39:8: type is empty\nhint: write it between the quotes\n");
}

TEST_CASE("job mistakes: a single bracket around cans", "[job][exact]") {
  const auto text = messages("room = 1\ncan_types = 2\n[cans]\ntype = \"a\"\n");
  CHECK(text ==
        "den.toml:1:8: [room] is a number, not a table\n    1 | room = 1\n      |        ^\n"
        "hint: write its keys and values in braces, or under its header\n"
        "den.toml:2:13: can_types is a number, not a table\n    2 | can_types = 2\n      |             ^\n"
        "hint: write its keys and values in braces, or under its header\n"
        "den.toml:3:1: cans is a table, not a list\n    3 | [cans]\n      | ^~~~~~\n"
        "hint: write its header in double brackets: [[cans]]\n");
}

TEST_CASE("job mistakes: numbers that are none", "[job][exact]") {
  CHECK(message_with("watts = 10.5", "watts = inf") == "den.toml:30:9: watts inf is not a finite number\n");
  CHECK(message_with("ceiling = 0.8", "ceiling = nan") ==
        "den.toml:12:11: ceiling reflectance nan is not a finite number\n");
  CHECK(message_with("\"18ft 2in\"", "nan") ==
        "den.toml:6:9: room width nan has no unit\nhint: write the unit too, in quotes: \"nan in\", \"nan ft\" or "
        "\"nan m\"\n");
}

TEST_CASE("job mistakes: values out of range", "[job][exact]") {
  const std::string reflectance =
      "hint: write the part of the light that comes back: 0 to below 1, a white ceiling about 0.8\n";
  CHECK(message_with("ceiling = 0.8", "ceiling = 1") ==
        "den.toml:12:11: ceiling reflectance 1 is not below 1\n" + reflectance);
  CHECK(message_with("south = 0.3", "south = -0.1") ==
        "den.toml:14:18: reflectance of wall \"south\" -0.1 is below 0\n" + reflectance);
  CHECK(message_with("\"18ft 2in\"", "0") ==
        "den.toml:6:9: room width 0 is below 1 cm\nhint: allowed: at least 1 cm, at most 1 km\n");
  CHECK(message_with("\"13ft\"", "\"1.2e3 m\"") ==
        "den.toml:7:9: room depth \"1.2e3 m\" is above 1 km\nhint: allowed: at least 1 cm, at most 1 km\n");
  CHECK(message_with("\"8ft\"", "\"-8ft\"")
            .starts_with(
                "den.toml:8:11: ceiling height \"-8ft\" is below 1 cm\nhint: allowed: at least 1 cm, at most 1 km\n"));
  CHECK(message_with("\"0.25 m\"", "0") ==
        "den.toml:18:11: grid spacing 0 is below 1 cm\nhint: allowed: at least 1 cm, at most 1 km\n");
  CHECK(message_with("\"30 fc\"", "0") ==
        "den.toml:2:10: target 0 is not above 0\nhint: allowed: above 0, at most 1000000 lx\n");
  CHECK(message_with("light_loss = 0.9", "light_loss = 0") ==
        "den.toml:29:14: light loss factor 0 is not above 0\nhint: allowed: above 0, at most 1\n");
  CHECK(message_with("watts = 10.5", "watts = -1") ==
        "den.toml:30:9: watts -1 is below 0\nhint: allowed: at least 0, at most 100000\n");
  CHECK(message_with("\"6-3/8in\"", "0") ==
        "den.toml:31:8: hole diameter 0 is not above 0\nhint: allowed: above 0, at most 100 m\n");
  CHECK(message_with("lumens = 900", "lumens = 0") ==
        "den.toml:35:19: beam lumens 0 is not above 0\nhint: allowed: above 0, at most 10000000\n");
  CHECK(message_with("angle = 60", "angle = 151") ==
        "den.toml:35:32: beam angle 151 is above 150\nhint: allowed: at least 5, at most 150\n");
  CHECK(message_with("\"80 %\"", "\"120 %\"") ==
        "den.toml:41:9: can level \"120 %\" is above 1\n"
        "hint: write a fraction from 0 to 1 like 0.8, a percentage like 80 %, or LRV 80\n");
  CHECK(message_with("\"80 %\"", "80") ==
        "den.toml:41:9: can level 80 is above 1\nhint: a fraction is 0 to 1; for 80 percent write \"80 %\"\n");
  CHECK(message_with("tilt = 30", "tilt = 181") ==
        "den.toml:46:16: aim tilt 181 is above 180\nhint: allowed: at least 0, at most 180\n");
  CHECK(message_with("rotation = 15", "rotation = 361") ==
        "den.toml:47:12: can rotation 361 is above 360\nhint: allowed: at least -360, at most 360\n");
}

TEST_CASE("job mistakes: unknown and missing keys", "[job][exact]") {
  CHECK(message_with("target =", "targets =") ==
        "den.toml:2:1: the job knows no key \"targets\"\nhint: did you mean \"target\"?\n");
  CHECK(message_with("margin =", "border =") ==
        "den.toml:19:1: [work_plane] knows no key \"border\"\nhint: known are height, spacing, margin\n");
  CHECK(message_with("first = \"8in\"\n", "") ==
        "den.toml:21:1: [joists] has no first\n"
        "hint: add a line like first = \"8in\": from that wall to the first joist's centre\n");
  CHECK(message_with("depth = \"13ft\"\n", "")
            .starts_with("den.toml:4:1: [room] has no depth\nhint: add a line like depth = \"13ft\"\n"));
  CHECK(message_with("file = \"../photometry/six-inch-medium.ies\"\n", "") ==
        "den.toml:27:1: can type \"six_inch\" has neither file nor beam\n"
        "hint: write one of file = \"../photometry/six-inch-medium.ies\" and beam = { lumens = 900, angle = 60 }\n");
  CHECK(message_with("beam = {", "file = \"a.ies\"\nbeam = {") ==
        "den.toml:36:8: can type \"spot\" has both file and beam\n"
        "hint: write one of file = \"../photometry/six-inch-medium.ies\" and beam = { lumens = 900, angle = 60 }\n");
  CHECK(message_with("{ diameter = \"5in\" }", "{ width = \"5in\" }") ==
        "den.toml:32:11: opening has no length\n"
        "hint: write opening = { diameter = \"5in\" }, or { width = \"5in\", length = \"5in\" }\n");
  CHECK(message_with("lumens = 900, ", "") ==
        "den.toml:35:8: beam has no lumens\nhint: write beam = { lumens = 900, angle = 60 }\n");
  CHECK(message_with("tilt = 30, ", "") ==
        "den.toml:46:7: aim has no tilt\nhint: write aim = { tilt = 30, toward = 90 }\n");
  CHECK(message_with("type = \"spot\"\n", "") ==
        "den.toml:43:1: a can in [[cans]] has no type\n"
        "hint: add a line like type = \"six_inch\", the name of a can type\n");
}

TEST_CASE("job mistakes: names that nothing has", "[job][exact]") {
  CHECK(message_with("wall = { south", "wall = { sout") ==
        "den.toml:14:10: the room has no wall \"sout\"\nhint: did you mean \"south\"?\n");
  CHECK(message_with("parallel_to = \"south\"", "parallel_to = \"ridge\"") ==
        "den.toml:22:15: the room has no wall \"ridge\"\nhint: known are south, east, north, west\n");
  CHECK(message_with("type = \"spot\"", "type = \"sopt\"") ==
        "den.toml:44:8: there is no can type \"sopt\"\nhint: did you mean \"spot\"?\n");
  CHECK(message_with("{ north = \"4ft\"", "{ norht = \"4ft\"") ==
        "den.toml:45:10: the room has no wall \"norht\"\nhint: did you mean \"north\"?\n");
}

TEST_CASE("job mistakes: places of cans", "[job][exact]") {
  const std::string example = "hint: write from = { west = \"3ft 3in\", south = \"3ft 3in\" }\n";
  CHECK(message_with(", south = \"3ft 3in\"", "") ==
        "den.toml:40:8: the can is to be measured from 2 walls, not from 1\n" + example);
  CHECK(message_with("south = \"3ft 3in\"", "south = \"3ft\", east = \"3ft\"") ==
        "den.toml:40:8: the can is to be measured from 2 walls, not from 3\n" + example);
  CHECK(
      message_with("west = \"3ft 3in\", south", "west = \"3ft 3in\", east") ==
      "den.toml:40:8: walls \"west\" and \"east\" are parallel\nhint: measure from two walls that meet at an angle\n");
  CHECK(message_with("west = \"3ft 3in\", south", "west = \"19ft 4in\", south") ==
        "den.toml:40:8: the can's centre is 1' 2\" outside the room\n"
        "hint: each distance is square to its wall, from the wall into the room\n");
  CHECK(message_with("west = \"3ft 3in\", south", "west = \"-1in\", south") ==
        "den.toml:40:17: distance from wall \"west\" \"-1in\" is below 0\nhint: allowed: at least 0, at most 1 km\n");
}

TEST_CASE("job mistakes: a metric job is answered in metres", "[job][exact]") {
  auto text = sample_with("west = \"3ft 3in\"", "west = \"8 m\"");
  text.replace(text.find("imperial"), 8, "metric");
  const auto job = read_job(text, "den.toml");
  REQUIRE_FALSE(job);
  // 8 m - 5.5372 m
  CHECK(text_of(job.error()) ==
        "den.toml:40:8: the can's centre is 2.463 m outside the room\n"
        "hint: each distance is square to its wall, from the wall into the room\n");
}

TEST_CASE("job mistakes: work plane and joists that do not fit", "[job][exact]") {
  CHECK(message_with("height = \"30in\"", "height = \"8ft\"") ==
        "den.toml:17:10: the work plane at 8' 0\" is not below the ceiling at 8' 0\"\n"
        "hint: give [work_plane] a height between the floor and the ceiling\n");
  CHECK(message_with("\"1-1/2in\"", "\"16in\"") ==
        "den.toml:25:13: the joists are as thick as their spacing\n"
        "hint: spacing is from centre to centre, thickness that of one joist\n");
}

TEST_CASE("job mistakes: a low ceiling needs a work plane of its own", "[job][exact]") {
  CHECK(messages("[room]\nwidth = \"3 m\"\ndepth = \"3 m\"\nceiling = \"2ft\"\n"
                 "[can_types.a]\nfile = \"a.ies\"\n[[cans]]\ntype = \"a\"\nfrom = { west = 0, south = 0 }\n") ==
        "den.toml:1:1: the work plane at 2' 6\" is not below the ceiling at 2' 0\"\n"
        "    1 | [room]\n      | ^~~~~~\n"
        "hint: give [work_plane] a height between the floor and the ceiling\n");
}

namespace {

/// What is wrong with a room that is written in place of the sample's.
std::string message_for_room(std::string_view lines) {
  const auto text = "[room]\nceiling = \"2.4 m\"\n" + std::string(lines) +
                    "[can_types.a]\nfile = \"a.ies\"\n[[cans]]\ntype = \"a\"\n"
                    "from = { south = \"1 m\", west = \"1 m\" }\n";
  const auto job = read_job(text, "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

}  // namespace

TEST_CASE("job mistakes: plans that are none", "[job][exact]") {
  CHECK(message_for_room("corners = \"square\"\n") ==
        "den.toml:3:11: corners is text, not a list\n"
        "hint: write a list of corners like [[0, 0], [\"12ft\", 0], [0, \"9ft\"]]\n");
  CHECK(message_for_room("corners = [[0, 0], [\"5 m\", 0]]\n") ==
        "den.toml:3:11: a plan of 2 corners\nhint: a plan has 3 to 500 corners\n");
  CHECK(message_for_room("corners = [[0, 0], [\"5 m\", 0, 0], [5, 0]]\n") ==
        "den.toml:3:20: a corner of 3 lengths, not of 2\n"
        "hint: write how far east and how far north it is, like [\"12ft\", \"3ft 6in\"]\n"
        "den.toml:3:36: corner 5 has no unit\nhint: write the unit too, in quotes: \"5 in\", \"5 ft\" or \"5 m\"\n");
  CHECK(message_for_room("corners = [[0, 0], [\"5 m\", \"5 m\"], [\"5 m\", 0], [0, \"5 m\"]]\n") ==
        "den.toml:3:11: walls \"wall 1\" and \"wall 3\" cross or touch\n"
        "hint: list the corners in the order in which you pass them walking along the walls\n");
  CHECK(message_for_room("corners = [[0, 0], [\"5 m\", 0], [0, \"5 m\"], [0, \"1 mm\"]]\n") ==
        "den.toml:3:11: corners 4 and 1 are less than 1 cm apart\n"
        "hint: leave one of them out; the last corner joins the first by itself\n");
  CHECK(message_for_room("width = \"3 m\"\ndepth = \"3 m\"\nwalls = [\"a\", \"b\", \"c\", \"d\"]\n") ==
        "den.toml:5:9: [room] names the walls of a rectangle\n"
        "hint: leave that out, they are south, east, north and west; or give corners\n");
  CHECK(
      message_for_room("width = \"3 m\"\ncorners = [[0, 0], [\"5 m\", 0], [0, \"5 m\"]]\n"
                       "walls = [\"south\", \"slant\", \"west\"]\n") ==
      "den.toml:3:9: [room] has both corners and width\n"
      "hint: give width and depth for a rectangle, sides and a diagonal for four walls out of square, corners for any "
      "other plan\n");
}

TEST_CASE("job mistakes: plans without area", "[job][exact]") {
  const std::string order = "hint: list the corners in the order in which you pass them walking along the walls\n";
  CHECK(message_for_room("corners = [[0, 0], [\"5 m\", 0], [\"9 m\", 0]]\n") ==
        "den.toml:3:11: walls \"wall 1\" and \"wall 3\" cross or touch\n" + order);
  CHECK(message_for_room("corners = [[0, 0], [\"5 m\", 0], [\"5 m\", \"5 m\"], [\"5 m\", 0]]\n") ==
        "den.toml:3:11: walls \"wall 1\" and \"wall 3\" cross or touch\n" + order);
  CHECK(message_for_room("corners = [[0, 0], [\"5 m\", 0], [\"2 m\", \"0.01 mm\"]]\n") ==
        "den.toml:3:11: the plan encloses less than 1 cm2\nhint: its corners are almost on one line: check them\n");
}

TEST_CASE("job mistakes: a wall that touches another from inside", "[job][exact]") {
  CHECK(message_for_room("corners = [[0, 0], [\"5 m\", 0], [\"5 m\", \"4 m\"], [\"3 m\", \"4 m\"], [\"2 m\", 0], "
                         "[\"1 m\", \"4 m\"], [0, \"4 m\"]]\n") ==
        "den.toml:3:11: walls \"wall 1\" and \"wall 4\" cross or touch\n"
        "hint: list the corners in the order in which you pass them walking along the walls\n");
}

TEST_CASE("job mistakes: wall names that do not fit the plan", "[job][exact]") {
  const std::string triangle = "corners = [[0, 0], [\"5 m\", 0], [0, \"5 m\"]]\n";
  CHECK(message_for_room(triangle + "walls = [\"south\", \"west\"]\n") ==
        "den.toml:4:9: 2 wall names for 3 walls\n"
        "hint: name each wall, in the order of the corners: the first runs from the first corner to the second\n");
  CHECK(message_for_room(triangle + "walls = [\"south\", \"south\", \"\"]\n") ==
        "den.toml:4:19: two walls are named \"south\"\nhint: give each wall its own name\n"
        "den.toml:4:28: wall name is empty\nhint: write it between the quotes\n");
}

TEST_CASE("job mistakes: empty lists", "[job][exact]") {
  const std::string room = "[room]\nwidth = \"3 m\"\ndepth = \"3 m\"\nceiling = \"2.4 m\"\n";
  CHECK(messages("cans = []\ncan_types = {}\n" + room) ==
        "den.toml:1:8: the job has 0 cans\n    1 | cans = []\n      |        ^~\nhint: a job has 1 to 500 cans\n"
        "den.toml:2:13: the job has 0 can types\n    2 | can_types = {}\n      |             ^~\n"
        "hint: a job has 1 to 200 can types\n");
}

TEST_CASE("job mistakes: the first hundred of very many", "[job][exact]") {
  std::string text(k_sample_job);
  std::string keys;
  for (int i = 0; i < 130; ++i) keys += "unheard_of_" + std::to_string(i) + " = 0\n";
  const auto job = read_job(keys + text, "den.toml");
  REQUIRE_FALSE(job);
  REQUIRE(job.error().size() == 101);
  CHECK(text_of(job.error().back()) == "den.toml: 30 more problems\n");
}
