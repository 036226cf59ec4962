#include "evenlit/report/holes_report.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "evenlit/base/utf8.hpp"
#include "evenlit/job/read_job.hpp"
#include "evenlit/photometry/synthetic.hpp"

using namespace evenlit;

namespace {

/// A room of 240 in by 160 in with joists at 8 in, 24 in ... from the west wall, and a fan.
const std::string k_room =
    "[room]\nname = \"Study\"\nwidth = \"240in\"\ndepth = \"160in\"\nceiling = \"8ft\"\n"
    "[joists]\nparallel_to = \"west\"\nfirst = \"8in\"\nspacing = \"16in\"\n"
    "[[fans]]\nname = \"fan\"\nfrom = { west = \"120in\", south = \"80in\" }\ndiameter = \"52in\"\ndrop = \"12in\"\n";

std::string type(const std::string& more) {
  return "[can_types.six]\nbeam = { lumens = 900, angle = 60, field = 100 }\nhole = \"6-3/8in\"\n" + more + "\n";
}

std::string can(const std::string& west, const std::string& south) {
  return "[[cans]]\ntype = \"six\"\nfrom = { west = \"" + west + "\", south = \"" + south + "\" }\n";
}

/// The words with single spaces between them.
std::string unfilled(const std::string& text) {
  std::istringstream words(text);
  std::string line;
  for (std::string word; words >> word;) line.append(word).append(" ");
  return line;
}

struct Checked {
  explicit Checked(const std::string& text) {
    auto read = read_job(text, "study.toml");
    INFO((read ? std::string{} : text_of(read.error(), text)));
    REQUIRE(read);
    job = std::move(*read);
    check = hole_check(job);
    fans = fan_check(job, std::vector<PhotometricFile>{synthetic_file(*job.can_types[0].beam).value()});
  }

  [[nodiscard]] std::string text() const { return holes_text(job, check, fans, {}); }
  [[nodiscard]] nlohmann::json json() const { return nlohmann::json::parse(holes_json(job, check, fans, {})); }

  Job job;
  HoleCheck check;
  std::vector<FanHit> fans;
};

}  // namespace

TEST_CASE("the report of holes, up to the cautions", "[report][exact]") {
  const std::string text =
      Checked(k_room + type("rating = \"IC\"\nhousing = { width = \"7in\", length = \"13in\" }") + can("80in", "80in") +
              can("37in", "80in") + can("32in", "40in") + can("200in", "40in") + "drop = \"1ft\"\n")
          .text();
  // Can 1: 80 - 26 - 40 in away from the blades, 12 in above: atan(14 / 12) is 49 degrees.
  CHECK(text.substr(0, text.find("\nBefore cutting\n")) == R"(Study: 2 of 3 holes fit.

  Can  Centre from the walls           Hole to framing, each way    Probe
    1  6' 8" south, 6' 8" west            W 4-1/16"    E 4-1/16"   7-1/4"  fits
    2  3' 1" west, 6' 8" south            W 9-1/16"    E -15/16"   2-1/4"  NO
    3  2' 8" west, 3' 4" south            W 4-1/16"    E 4-1/16"   7-1/4"  fits
  How far a hole may go each way across the joists before it touches framing, a
  keep-out or a wall (below 0: it cuts into it), and how far a probe at its
  centre is clear of framing and keep-outs.

What does not fit, and where it would
  Can 2: its housing is 1-1/4" too near to the joist. Moved straight it fits
  1-1/4" to 8-3/4" west; 7-1/4" to 1' 2-3/4" east. The nearest place is 1-1/4"
  west: 2' 11-3/4" west, 6' 8" south.

Fans
  Can 1: the blades of "fan" turn in its light. They come within 49 degrees of
  its aim, its field reaches 50. They chop the light, and it flickers: move
  the can, or choose a narrower beam.
  The rule, no blade within the field angle, is common practice and has no
  source.

What the cans need
  "six": hole 6-3/8", housing 7" x 1' 1". Rated IC: it may touch wood and
  insulation. Bend the probe wire to 3-1/2".
  Clearances as in NEC 410.116 (from memory): check the locally adopted edition
  and the fixture's instructions.

What was not checked
  Can 4: not flush with the ceiling, or without a hole in the can type.
)");
}

TEST_CASE("no line of the report of holes is wider than 80 columns", "[report][property]") {
  const auto* const more = GENERATE("", "housing = { width = \"14in\", length = \"15in\", kind = \"new work\" }");
  std::string job = k_room + type(more);
  for (const char* west : {"3ft 3-1/16in", "80in", "9ft 11-15/16in", "14ft 1-1/2in"}) {
    for (const char* south : {"3in", "79.37in", "12ft 10-1/16in"}) job += can(west, south);
  }
  std::istringstream lines(Checked(job).text());
  for (std::string line; std::getline(lines, line);) {
    CAPTURE(line);
    CHECK(code_points(line) <= 80);
  }
}

TEST_CASE("the report of holes tells what it does not know", "[report][exact]") {
  const std::string bare = "[room]\nwidth = \"240in\"\ndepth = \"160in\"\nceiling = \"8ft\"\n";
  const std::string text = unfilled(Checked(bare + type("") + can("80in", "80in")).text());
  CHECK(text.find("only walls and other cans") != std::string::npos);
  CHECK(text.find("no housing given") != std::string::npos);
  CHECK(text.find("Not known to be rated IC") != std::string::npos);
  CHECK(text.find("check the locally adopted edition") != std::string::npos);
  for (const char* danger : {"pilot hole", "licensed electrician", "prove it dead", "ladder", "pipes and ducts"}) {
    CHECK(text.find(danger) != std::string::npos);
  }
}

TEST_CASE("the report of holes says by how much a bay is too narrow", "[report][exact]") {
  const std::string type_of_housing = type("housing = { width = \"14in\", length = \"15in\" }");
  const std::string text = unfilled(Checked(k_room + type_of_housing + can("32in", "80in")).text());
  CHECK(
      text.find("It fits nowhere in this ceiling: the widest bay on its line is 1' 2-1/2\" clear and it needs 1' 3\", "
                "1/2\" more.") != std::string::npos);
}

TEST_CASE("holes as JSON", "[report][exact]") {
  const auto json = Checked(k_room + type("rating = \"IC\"") + can("80in", "80in") + can("37in", "80in") +
                            can("200in", "40in") + "height = \"4ft\"\n")
                        .json();
  CHECK(json["format"] == "evenlit holes");
  CHECK(json["version"] == 1);
  CHECK(json["is_ceiling_known"] == true);
  REQUIRE(json["cans"].size() == 2);
  CHECK(json["cans"][0]["fits"] == true);
  CHECK(json["cans"][0]["nearest"].is_null());
  const auto& second = json["cans"][1];
  CHECK(second["number"] == 2);
  CHECK(second["fits"] == false);
  CHECK(second["hits"][0]["part"] == "hole");
  CHECK(second["hits"][0]["kind"] == "framing");
  // 15/16 in to 0.1 mm.
  CHECK(second["hits"][0]["overlap_m"] == 0.0238);
  CHECK(second["nearest"]["x_m"] == 0.916);
  CHECK(second["moves"].size() == 2);
  CHECK(json["not_checked"] == nlohmann::json::array({3}));
  REQUIRE(json["fans"].size() == 1);
  CHECK(json["fans"][0]["can"] == 1);
}

TEST_CASE("a place for a can: what is in its way and what it is in line with", "[report][exact]") {
  const Job job = Checked(k_room + type("rating = \"IC\"") + can("32in", "40in") + can("64in", "40in")).job;
  const auto told = [&](double x_in, double y_in) {
    const PlacedCan placed = placed_can(job, 1, 0.0254 * Eigen::Vector2d(x_in, y_in));
    return std::pair(place_text(job, 1, placed, {}), nlohmann::json::parse(place_json(job, 1, placed, {})));
  };
  const auto [in_line, in_line_json] = told(144, 41);
  CHECK(in_line.find("in line with can 1.") != std::string::npos);
  CHECK(in_line_json["format"] == "evenlit place");
  CHECK(in_line_json["fits_there"] == true);
  CHECK(in_line_json["place"]["y_m"] == 1.016);
  REQUIRE(in_line_json["in_line"].size() == 1);
  CHECK(in_line_json["in_line"][0]["axis"] == "y");
  CHECK(in_line_json["in_line"][0]["with"] == nlohmann::json::parse("[1]"));
  // Through all of the room, 240 in wide, 40 in from the south wall.
  CHECK(in_line_json["in_line"][0]["line"] == nlohmann::json::parse("[[0.0, 1.016], [6.096, 1.016]]"));
  const auto [moved, moved_json] = told(151, 110);
  CHECK(moved_json["text"] == "moved 3-3/16\" off the joist");
  CHECK(moved_json["hits"].size() == 1);
  CHECK(moved.find("Before cutting") != std::string::npos);
}
