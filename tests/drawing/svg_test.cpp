#include "evenlit/drawing/svg.hpp"

#include <algorithm>
#include <boost/property_tree/xml_parser.hpp>
#include <catch2/catch.hpp>
#include <limits>
#include <sstream>

#include "drawing/sample_light.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/text.hpp"

using namespace evenlit;

namespace {

using Tree = boost::property_tree::ptree;

const Ink k_red{{255, 0, 16}};

Tree parsed(const std::string& xml) {
  std::istringstream in(xml);
  Tree tree;
  boost::property_tree::read_xml(in, tree);
  return tree.get_child("svg");
}

Tree parsed(const DrawingItem& item) { return parsed(svg({400, 300, {255, 255, 255}, {item}}, "test")); }

std::string attribute(const Tree& element, const std::string& name) {
  return element.get<std::string>("<xmlattr>." + name, "absent");
}

Text text_of(std::string text) {
  return {std::move(text), {10, 20}, 30, Weight::regular, Anchor::left, 0, k_red, 0, {}};
}

// The numbers of a path, its letters left out.
std::vector<double> numbers_of(std::string path) {
  std::replace_if(
      path.begin(), path.end(), [](char c) { return c == 'M' || c == 'Z'; }, ' ');
  std::istringstream words(path);
  std::vector<double> numbers;
  for (std::string word; words >> word;) numbers.push_back(number_from_text(word).value());
  return numbers;
}

}  // namespace

TEST_CASE("an SVG has the drawing's size, its paper and a title that is read aloud", "[drawing][exact]") {
  const Tree root = parsed(svg({1200, 800.5, {255, 254, 0}, {}}, "Light <on> \"the\" floor & walls"));
  CHECK(attribute(root, "viewBox") == "0 0 1200 800.5");
  CHECK(attribute(root, "width") == "100%");
  CHECK(attribute(root, "role") == "img");
  CHECK(root.get<std::string>("title") == "Light <on> \"the\" floor & walls");
  const Tree& paper = root.get_child("rect");
  CHECK(attribute(paper, "width") == "1200");
  CHECK(attribute(paper, "height") == "800.5");
  CHECK(attribute(paper, "fill") == "#fffe00");
}

TEST_CASE("a fill is a path of closed outlines", "[drawing][exact]") {
  const Polyline outer{{0, 0}, {10, 0}, {10, 10.125}, {0, 10}};
  const Polyline hole{{2, 2}, {2, 8}, {8, 8}};
  const Tree path = parsed(Fill{{outer, hole}, {{255, 0, 16}, 0.25}}).get_child("path");
  CHECK(attribute(path, "d") == "M0 0 10 0 10 10.12 0 10ZM2 2 2 8 8 8Z");
  CHECK(attribute(path, "fill") == "#ff0010");
  CHECK(attribute(path, "fill-opacity") == "0.25");
  CHECK(attribute(path, "fill-rule") == "absent");  // nonzero is what SVG does by itself
}

TEST_CASE("a stroke keeps its width, dashes and whether it is closed", "[drawing][exact]") {
  const Polyline line{{0, 0}, {10, 0}, {-0.001, 5}};
  const Tree open = parsed(Stroke{line, false, 2.5, k_red, {12, 7.5}}).get_child("path");
  CHECK(attribute(open, "d") == "M0 0 10 0 0 5");
  CHECK(attribute(open, "fill") == "none");
  CHECK(attribute(open, "stroke") == "#ff0010");
  CHECK(attribute(open, "stroke-width") == "2.5");
  CHECK(attribute(open, "stroke-linejoin") == "round");
  CHECK(attribute(open, "stroke-dasharray") == "12 7.5");
  const Tree closed = parsed(Stroke{line, true, 1, k_red, {}}).get_child("path");
  CHECK(attribute(closed, "d") == "M0 0 10 0 0 5Z");
  CHECK(attribute(closed, "stroke-dasharray") == "absent");
}

TEST_CASE("text is text, as wide as in the drawing's font", "[drawing][exact]") {
  Text text = text_of("12' 6-3/8\"");
  text.weight = Weight::bold;
  text.anchor = Anchor::middle;
  text.turn_rad = -std::acos(0.0);
  text.halo_width = 3.5;
  text.halo = {{255, 255, 255}, 0.85};
  const Tree element = parsed(text).get_child("text");
  CHECK(element.data() == "12' 6-3/8\"");
  CHECK(attribute(element, "x") == "10");
  CHECK(attribute(element, "y") == "20");
  CHECK(attribute(element, "font-size") == "30");
  CHECK(attribute(element, "font-weight") == "bold");
  CHECK(attribute(element, "text-anchor") == "middle");
  CHECK(attribute(element, "transform") == "rotate(-90 10 20)");
  CHECK(attribute(element, "paint-order") == "stroke");
  CHECK(attribute(element, "stroke-width") == "7");  // half of it shows outside the letters
  CHECK(attribute(element, "stroke-opacity") == "0.85");
  CHECK(attribute(element, "lengthAdjust") == "spacingAndGlyphs");
  // two decimals
  CHECK(number_from_text(attribute(element, "textLength")).value() ==
        Approx(text_width(text.text, 30, Weight::bold)).margin(0.005));
}

TEST_CASE("no text breaks the document", "[drawing][property]") {
  const auto shown = [](const std::string& text) { return parsed(text_of(text)).get_child("text").data(); };
  CHECK(shown("<b>&amp; \"x\" 'y'") == "<b>&amp; \"x\" 'y'");
  CHECK(shown("a\tb\x1b\n\x7f"
              "c\xC2\x85") == "a?b???c?");
  CHECK(shown("caf\xC3\xA9 \xE2\x89\xA4") == "caf\xC3\xA9 \xE2\x89\xA4");
  CHECK(shown("\xC3(\xFF") == "?(?");
  CHECK(shown("\xEF\xBF\xBE") == "?");
  CHECK(shown("two  blanks") == "two  blanks");
  CHECK(parsed(text_of("")).count("text") == 0);
  CHECK(parsed(svg({10, 10, {}, {}}, "\xFF<&>")).get<std::string>("title") == "?<&>");
}

TEST_CASE("coordinates come back within half of their last decimal", "[drawing][property]") {
  Polyline line;
  for (int i = 0; i < 500; ++i) line.emplace_back(1e-4 * i * i * i - 700, 1200.0 / (i + 1));
  const std::vector<double> numbers =
      numbers_of(attribute(parsed(Stroke{line, false, 1, k_red, {}}).get_child("path"), "d"));
  REQUIRE(numbers.size() == 2 * line.size());
  for (std::size_t i = 0; i < line.size(); ++i) {
    // half of the second decimal, and rounding noise
    CHECK(numbers[2 * i] == Approx(line[i].x()).epsilon(0).margin(0.005 + 1e-9));
    CHECK(numbers[2 * i + 1] == Approx(line[i].y()).epsilon(0).margin(0.005 + 1e-9));
  }
}

TEST_CASE("an outline with a point at no finite place is left out", "[drawing][exact]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const Tree path = parsed(Fill{{{{0, 0}, {nan, 1}, {1, 1}}, {{5, 5}, {6, 5}, {6, 6}}}, k_red}).get_child("path");
  CHECK(attribute(path, "d") == "M5 5 6 5 6 6Z");
}

TEST_CASE("a false-colour picture is pixels within its clip", "[drawing][exact]") {
  const SampledField ramp{{20, 50}, {100, 40}, 2, 1, {0, 1}};
  const FalseColour picture{ramp, 1, {{{20, 50}, {120, 50}, {70, 90.5}}}};
  const Tree root = parsed(picture);
  const Tree& clip = root.get_child("clipPath");
  CHECK(attribute(clip.get_child("path"), "d") == "M20 50 120 50 70 90.5Z");
  const Tree& image = root.get_child("image");
  CHECK(attribute(image, "clip-path") == "url(#" + attribute(clip, "id") + ")");
  CHECK(attribute(image, "x") == "20");
  CHECK(attribute(image, "y") == "50");
  CHECK(attribute(image, "width") == "100");
  CHECK(attribute(image, "height") == "41");  // whole pixels
  // the eight bytes that every PNG begins with (ISO/IEC 15948, 5.2), in base64 (RFC 4648) up to the last whole digit
  CHECK(attribute(image, "xlink:href").rfind("data:image/png;base64,iVBORw0KGg", 0) == 0);
  CHECK(attribute(image, "xlink:href").size() % 4 == 22 % 4);
}

TEST_CASE("pictures of other shapes have clips of other names", "[drawing][property]") {
  const SampledField ramp{{0, 0}, {100, 40}, 2, 1, {0, 1}};
  const auto name = [&](double right) {
    const FalseColour picture{ramp, 1, {{{0, 0}, {right, 0}, {right, 10}}}};
    return attribute(parsed(picture).get_child("clipPath"), "id");
  };
  CHECK(name(100) == name(100));
  CHECK(name(100) != name(101));
}

TEST_CASE("a whole plan is well-formed, complete and the same each time", "[drawing][property]") {
  const sample::Lit lit = sample::l_shaped_room();
  const Drawing drawing = plan_map(lit.job, lit.scene, lit.light, {});
  const std::string document = svg(drawing, lit.job.room.name);
  CHECK(document == svg(drawing, lit.job.room.name));
  const Tree root = parsed(document);
  const auto count = [&](auto is_kind) {
    return static_cast<std::size_t>(std::count_if(drawing.items.begin(), drawing.items.end(), is_kind));
  };
  CHECK(root.count("text") == count([](const DrawingItem& i) { return std::holds_alternative<Text>(i); }));
  CHECK(root.count("image") == count([](const DrawingItem& i) { return std::holds_alternative<FalseColour>(i); }));
  CHECK(root.count("path") == count([](const DrawingItem& i) {
          return std::holds_alternative<Fill>(i) || std::holds_alternative<Stroke>(i);
        }));
}
