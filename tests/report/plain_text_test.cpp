#include "evenlit/report/plain_text.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("text from outside cannot move a terminal's cursor or turn the writing direction", "[report][exact]") {
  CHECK(printable("caf\u00e9 \u2265 2") == "caf\u00e9 \u2265 2");
  CHECK(printable("a\x1b[2Jb\r\n\tc\x7f") == "a?[2Jb???c?");
  CHECK(printable("\u009b1m \u202eabc\u2066") == "?1m ?abc?");
  CHECK(printable("\xff\xc3") == "??");
}

TEST_CASE("words fill lines and later lines are indented", "[report][exact]") {
  CHECK(filled("one two three four", 9, 2) == "one two\n  three\n  four\n");
  CHECK(filled("\u00e9\u00e9\u00e9\u00e9 \u00e9\u00e9\u00e9\u00e9", 9) ==
        "\u00e9\u00e9\u00e9\u00e9 \u00e9\u00e9\u00e9\u00e9\n");
  CHECK(filled("incomprehensible no", 5) == "incomprehensible\nno\n");
  CHECK(filled("  two   gaps ", 20) == "two gaps\n");
  CHECK(filled("", 20) == "\n");
}
