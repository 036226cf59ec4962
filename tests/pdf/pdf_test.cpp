#include "evenlit/pdf/pdf.hpp"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

using namespace evenlit;

namespace {

/// What Poppler's programs, which share no code with Cairo, make of a PDF.
class Poppler {
 public:
  explicit Poppler(const std::string& bytes) {
    std::string pattern = (std::filesystem::temp_directory_path() / "evenlit-pdf-XXXXXX").string();
    REQUIRE(mkdtemp(pattern.data()) != nullptr);
    folder_ = pattern;
    std::ofstream(folder_ / "a.pdf", std::ios::binary) << bytes;
  }
  ~Poppler() { std::filesystem::remove_all(folder_); }
  Poppler(const Poppler&) = delete;
  Poppler& operator=(const Poppler&) = delete;

  [[nodiscard]] std::string output(const std::string& command) const {
    REQUIRE(std::system(("cd '" + folder_.string() + "' && " + command).c_str()) == 0);
    std::ifstream stream(folder_ / "out", std::ios::binary);
    std::stringstream all;
    all << stream.rdbuf();
    return all.str();
  }

 private:
  std::filesystem::path folder_;
};

/// Grey levels of a page, row by row.
struct Page {
  int width = 0;
  int height = 0;
  std::string grey;

  [[nodiscard]] int at(int x, int y) const {
    return static_cast<unsigned char>(
        grey[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)]);
  }
};

Page rendered(const std::string& bytes, int dots_per_in) {
  std::istringstream stream(Poppler(bytes).output("pdftoppm -gray -r " + std::to_string(dots_per_in) +
                                                  " -singlefile a.pdf a && mv a.pgm out"));
  std::string magic;
  int most = 0;
  Page page;
  stream >> magic >> page.width >> page.height >> most;
  stream.get();
  REQUIRE(magic == "P5");
  page.grey.resize(static_cast<std::size_t>(page.width) * static_cast<std::size_t>(page.height));
  stream.read(page.grey.data(), static_cast<std::streamsize>(page.grey.size()));
  return page;
}

constexpr Ink k_black{{0, 0, 0}};

std::string made(const std::vector<Drawing>& sheets, double units_per_in, Paper paper) {
  const auto bytes = pdf(sheets, units_per_in, paper, "A <title> & more");
  REQUIRE(bytes);
  return *bytes;
}

}  // namespace

TEST_CASE("PDF: a drawing lies to scale in the middle of its paper", "[pdf][exact]") {
  // A sheet of 2 in x 1 in with its left half black, 100 units to the inch. At 72 dots per inch on Letter (612 x 792)
  // it covers columns 234 to 378 and rows 360 to 432; its black half ends at column 306. On A4 (595 x 842) the middle
  // is column 297.6. One dot for where edges fall within a dot.
  const Drawing sheet{200, 100, {255, 255, 255}, {Fill{{{{0, 0}, {100, 0}, {100, 100}, {0, 100}}}, k_black}}};
  const Page letter = rendered(made({sheet}, 100, Paper::letter), 72);
  REQUIRE((letter.width == 612 && letter.height == 792));
  CHECK(letter.at(235, 396) == 0);
  CHECK(letter.at(232, 396) == 255);
  CHECK(letter.at(304, 396) == 0);
  CHECK(letter.at(308, 396) == 255);
  CHECK(letter.at(270, 361) == 0);
  CHECK(letter.at(270, 358) == 255);
  CHECK(letter.at(270, 430) == 0);
  CHECK(letter.at(270, 433) == 255);
  const Page a4 = rendered(made({sheet}, 100, Paper::a4), 72);
  REQUIRE((std::abs(a4.width - 595) <= 1 && std::abs(a4.height - 842) <= 1));
  CHECK(a4.at(295, 421) == 0);
  CHECK(a4.at(300, 421) == 255);
}

TEST_CASE("PDF: text is text in an embedded font, sheet by sheet", "[pdf][exact]") {
  const auto sheet = [](const std::string& text, Weight weight) {
    return Drawing{
        300, 100, {255, 255, 255}, {Text{text, {10, 50}, 20, weight, Anchor::left, 0, k_black, 2, {{255, 255, 255}}}}};
  };
  const std::string bytes = made(
      {sheet("Läden 12' 6-3/8\" · a\x01\xff", Weight::regular), sheet("second", Weight::bold)}, 100, Paper::letter);
  const Poppler poppler(bytes);
  const std::string text = poppler.output("pdftotext a.pdf out");
  CHECK(text.find("Läden 12' 6-3/8\" · a??") != std::string::npos);
  CHECK(text.find("second") > text.find('\f'));
  const std::string fonts = poppler.output("pdffonts a.pdf > out");
  CHECK(fonts.find("B612-Regular") != std::string::npos);
  CHECK(fonts.find("B612-Bold") != std::string::npos);
  CHECK(fonts.find(" no ") == fonts.find(" no  no"));
  CHECK(poppler.output("pdfinfo a.pdf > out").find("A <title> & more") != std::string::npos);
}

TEST_CASE("PDF: anchors and turns place text as the other renderers do", "[pdf][exact]") {
  // A bold full block of letters ends at its anchor: nothing dark beyond it. 72 dots to the inch, 72 units to the inch.
  const auto sheet = [](Anchor anchor, double turn_rad) {
    return Drawing{
        200, 200, {255, 255, 255}, {Text{"HHHH", {100, 100}, 24, Weight::bold, anchor, turn_rad, k_black, 0, {}}}};
  };
  const auto dark = [&](const Drawing& drawing, int x0, int y0, int x1, int y1) {
    const Page page = rendered(made({drawing}, 72, Paper::letter), 72);
    const int left = (612 - 200) / 2;
    const int top = (792 - 200) / 2;
    int count = 0;
    for (int y = y0; y < y1; ++y) {
      for (int x = x0; x < x1; ++x) count += page.at(left + x, top + y) < 128 ? 1 : 0;
    }
    return count;
  };
  CHECK(dark(sheet(Anchor::left, 0), 0, 0, 99, 200) == 0);
  CHECK(dark(sheet(Anchor::left, 0), 101, 75, 200, 102) > 100);
  CHECK(dark(sheet(Anchor::right, 0), 102, 0, 200, 200) == 0);
  CHECK(dark(sheet(Anchor::right, 0), 0, 75, 99, 102) > 100);
  const int left_half = dark(sheet(Anchor::middle, 0), 0, 0, 100, 200);
  const int right_half = dark(sheet(Anchor::middle, 0), 100, 0, 200, 200);
  CHECK(std::abs(left_half - right_half) <= (left_half + right_half) / 10);
  CHECK(dark(sheet(Anchor::left, std::acos(0.0)), 98, 101, 122, 200) >
        100);  // clockwise: downward, its top to the right
  CHECK(dark(sheet(Anchor::left, std::acos(0.0)), 0, 0, 98, 200) == 0);
}

TEST_CASE("PDF: false colour, dashes and points that are not finite", "[pdf][exact]") {
  const SampledField field{{0, 0}, {100, 100}, 2, 2, {0, 0, 1, 1}};
  const Polyline square{{0, 0}, {100, 0}, {100, 100}, {0, 100}};
  const Drawing sheet{
      100,
      100,
      {255, 255, 255},
      {FalseColour{field, 1, {square}}, Stroke{{{0, std::nan("")}, {50, 50}}, false, 9, k_black, {4, 4}},
       Text{"x", {std::nan(""), 1}, 20, Weight::regular, Anchor::left, 0, k_black, 0, {}}}};
  const Page page = rendered(made({sheet}, 72, Paper::letter), 72);
  CHECK(page.at(306, 350) + 60 < page.at(306, 440));  // dark where the field is low
  CHECK(page.at(250, 396) == 255);                    // nothing beside the clip
}

TEST_CASE("PDF: the same drawings make the same bytes", "[pdf][property]") {
  const Drawing sheet{
      100, 100, {255, 255, 255}, {Text{"same", {10, 50}, 20, Weight::bold, Anchor::left, 0, k_black, 0, {}}}};
  const std::string first = made({sheet, sheet}, 100, Paper::a4);
  CHECK(first == made({sheet, sheet}, 100, Paper::a4));
  CHECK(first.find("CreationDate") == std::string::npos);
}
