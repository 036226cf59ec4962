#include "csv_lines.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

namespace {

std::vector<std::vector<std::string>> cells_of(std::string_view bytes) {
  const auto lines = csv_lines(bytes, "night.csv");
  INFO((lines ? std::string() : text_of(lines.error())));
  REQUIRE(lines);
  std::vector<std::vector<std::string>> cells;
  for (const CsvLine& line : *lines) {
    cells.emplace_back();
    for (const CsvCell& cell : line) cells.back().push_back(cell.text);
  }
  return cells;
}

std::string message_of(std::string_view bytes) {
  const auto lines = csv_lines(bytes, "night.csv");
  REQUIRE_FALSE(lines);
  return text_of(lines.error());
}

using Cells = std::vector<std::vector<std::string>>;

}  // namespace

TEST_CASE("csv lines: commas, semicolons or tabs part cells, as the first line has them", "[job][exact]") {
  const Cells expected{{"a", "b"}, {"1", "2"}};
  CHECK(cells_of("a,b\n1,2\n") == expected);
  CHECK(cells_of("a;b\n1;2\n") == expected);
  CHECK(cells_of("a\tb\n1\t2\n") == expected);
  CHECK(cells_of("a;b\n1,5;2\n") == Cells{{"a", "b"}, {"1,5", "2"}});
  CHECK(cells_of("\"a;;\",b\n1,2\n") == Cells{{"a;;", "b"}, {"1", "2"}});
  CHECK(cells_of("\t a \t b \n1\t\t2") == Cells{{"", "a", "b"}, {"1", "", "2"}});
}

TEST_CASE("csv lines: line ends of every kind and a byte order mark", "[job][exact]") {
  const Cells expected{{"a", "b"}, {"1", "2"}};
  CHECK(cells_of("a,b\r\n1,2\r\n") == expected);
  CHECK(cells_of("a,b\r1,2") == expected);
  CHECK(cells_of("\xef\xbb\xbf"
                 "a,b\n1,2") == expected);
  CHECK(cells_of("").empty());
  CHECK(cells_of("\xef\xbb\xbf").empty());
}

TEST_CASE("csv lines: empty lines and remarks do not count, but are counted", "[job][exact]") {
  const auto lines = csv_lines("# by hand, at night\n\n ,;,\na, b \n,,\n\"# too, this\",\n 1,2\n", "night.csv");
  REQUIRE(lines);
  REQUIRE(lines->size() == 3);
  // The line of a lone semicolon says something.
  CHECK((*lines)[0][1].text == ";");
  CHECK((*lines)[1][1].place == Place{"night.csv", 4, 4, 1});
  CHECK((*lines)[2][0].place == Place{"night.csv", 7, 2, 1});
}

TEST_CASE("csv lines: quotes", "[job][exact]") {
  CHECK(cells_of("a,b\n\"1, 2\",\"say \"\"so\"\"\"\n") == Cells{{"a", "b"}, {"1, 2", "say \"so\""}});
  CHECK(cells_of("a,b\n12' 6\",2\n") == Cells{{"a", "b"}, {"12' 6\"", "2"}});
  CHECK(cells_of("a,b\n \"1\" , \"\" \n") == Cells{{"a", "b"}, {"1", ""}});
  CHECK(message_of("a,b\nx,\"never closed\n") ==
        "night.csv:2:3: this quote is not closed on its line\n"
        "hint: close it, or write the cell without quotes\n");
  CHECK(message_of("a,b\n\"5' 6\"\",\"2\" x\n") ==
        "night.csv:2:1: text follows the closing quote\n"
        "hint: write the cell without quotes, or each quote in it twice\n");
  CHECK(message_of("a,b\n1,\"2\" x\n") ==
        "night.csv:2:3: text follows the closing quote\n"
        "hint: write the cell without quotes, or each quote in it twice\n");
}

TEST_CASE("csv lines: what is no text is told by its line", "[job][exact]") {
  const std::string message = "this line is not text in UTF-8\nhint: save the table as CSV in UTF-8\n";
  CHECK(message_of("a,b\n\xff,2\n") == "night.csv:2:1: " + message);
  // UTF-16 as a spreadsheet may save it.
  CHECK(message_of(std::string_view("\xff\xfe"
                                    "a\0,\0",
                                    6)) == "night.csv:1:1: " + message);
  CHECK(message_of(std::string_view("a,b\n1\0,2", 8)) == "night.csv:2:1: " + message);
  // Of very many the first hundred.
  std::string many = "a\n";
  for (int i = 0; i < 1000; ++i) many += "\"\n";
  CHECK(csv_lines(many, "night.csv").error().size() == 100);
}

TEST_CASE("csv lines: columns count code points", "[job][exact]") {
  const auto lines = csv_lines("a,b\n\u00fcber,12\u2032 6\u2033\n", "night.csv");
  REQUIRE(lines);
  CHECK((*lines)[1][1].place == Place{"night.csv", 2, 6, 6});
}
