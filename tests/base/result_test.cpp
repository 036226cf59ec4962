#include "evenlit/base/result.hpp"

#include <catch2/catch.hpp>
#include <utility>

using namespace evenlit;

namespace {

Problem problem_at(Place place, std::string what, std::string hint = {}) {
  return {std::move(place), std::move(what), std::move(hint)};
}

}  // namespace

TEST_CASE("result: a problem is shown with its line, underline and hint", "[base][exact]") {
  const std::string source = "[finishes]\nceiling = 1.2\n";
  const auto problem = problem_at({"kitchen.toml", 2, 11, 3}, "ceiling reflectance 1.2 is above 1", "write 0 to 1");
  CHECK(text_of(problem, source) ==
        "kitchen.toml:2:11: ceiling reflectance 1.2 is above 1\n"
        "    2 | ceiling = 1.2\n"
        "      |           ^~~\n"
        "hint: write 0 to 1\n");
}

TEST_CASE("result: without source, place or hint only what is known is shown", "[base][exact]") {
  CHECK(text_of(problem_at({"a.toml", 2, 11, 3}, "is wrong")) == "a.toml:2:11: is wrong\n");
  CHECK(text_of(problem_at({"a.toml", 2, 0, 1}, "is wrong"), "x\ny\n") == "a.toml:2: is wrong\n");
  CHECK(text_of(problem_at(whole_file("a.toml"), "is empty", "write one"), "x") ==
        "a.toml: is empty\nhint: write one\n");
}

TEST_CASE("result: several problems follow each other", "[base][exact]") {
  const Problems problems{problem_at({"a", 1, 1, 1}, "one"), problem_at({"a", 2, 1, 2}, "two", "2")};
  CHECK(text_of(problems, "ab\ncd") ==
        "a:1:1: one\n    1 | ab\n      | ^\na:2:1: two\n    2 | cd\n      | ^~\nhint: 2\n");
}

TEST_CASE("result: columns count code points", "[base][exact]") {
  CHECK(text_of(problem_at({"a", 1, 8, 2}, "odd"), "w = \"½\" xy") ==
        "a:1:8: odd\n    1 | w = \"½\" xy\n      |        ^~\n");
}

TEST_CASE("result: control characters and stray bytes never reach the terminal", "[base][exact]") {
  const auto problem = problem_at({"a\x1b[2J", 1, 1, 1}, "key \x07\u009b\u202e is bad", "do\nnot");
  CHECK(text_of(problem,
                "\ta\x1b\xff"
                "b\r\n") == "a?[2J:1:1: key ??? is bad\n    1 |  a??b\n      | ^\nhint: do?not\n");
}

TEST_CASE("result: a width that runs past the line is cut there", "[base][exact]") {
  CHECK(text_of(problem_at({"a", 1, 3, 99}, "odd"), "abcd\nefg") == "a:1:3: odd\n    1 | abcd\n      |   ^~\n");
  CHECK(text_of(problem_at({"a", 1, 5, 1}, "cut short"), "abcd") == "a:1:5: cut short\n    1 | abcd\n      |     ^\n");
}

TEST_CASE("result: a place outside of the source shows no line", "[base][exact]") {
  CHECK(text_of(problem_at({"a", 9, 1, 1}, "odd"), "ab\n") == "a:9:1: odd\n");
  CHECK(text_of(problem_at({"a", 1, 9, 1}, "odd"), "ab\n") == "a:1:9: odd\n");
  CHECK(text_of(problem_at({"a", 1, 1, 1}, "odd"), "\n") == "a:1:1: odd\n");
}

TEST_CASE("result: of a very long line the part around the place is shown", "[base][exact]") {
  const std::string source = std::string(500, 'a') + "XYZ" + std::string(500, 'b');
  CHECK(text_of(problem_at({"a", 1, 501, 3}, "odd"), source) == "a:1:501: odd\n    1 | " + std::string(60, 'a') +
                                                                    "XYZ" + std::string(57, 'b') + "\n      | " +
                                                                    std::string(60, ' ') + "^~~\n");
}

TEST_CASE("result: failure holds its one problem", "[base][exact]") {
  const Result<int> result = failure({"a", 1, 2, 3}, "what", "hint");
  REQUIRE_FALSE(result);
  CHECK(result.error() == Problems{problem_at({"a", 1, 2, 3}, "what", "hint")});
}
