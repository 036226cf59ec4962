#include "evenlit/base/utf8.hpp"

#include <catch2/catch.hpp>
#include <string>

using namespace evenlit;

TEST_CASE("utf8: code points of one to four bytes", "[base][published]") {
  // The examples of Unicode 15.0, table 3-4 (from memory): U+004D, U+0430, U+4E8C, U+10302.
  const auto value_and_bytes = [](std::string_view text) {
    const auto point = first_code_point(text);
    CHECK(point.is_valid);
    return std::pair(point.value, point.bytes);
  };
  CHECK(value_and_bytes("\x4d") == std::pair(U'\x4d', 1));
  CHECK(value_and_bytes("\xd0\xb0") == std::pair(U'\x430', 2));
  CHECK(value_and_bytes("\xe4\xba\x8c") == std::pair(U'\x4e8c', 3));
  CHECK(value_and_bytes("\xf0\x90\x8c\x82") == std::pair(U'\x10302', 4));
}

TEST_CASE("utf8: malformed bytes are refused", "[base][exact]") {
  const auto text = GENERATE(as<std::string>{}, "\x80",    // continuation without a lead
                             "\xc0\xaf",                   // longer than needed
                             "\xe0\x80\xaf",               // longer than needed
                             "\xf0\x80\x80\xaf",           // longer than needed
                             "\xed\xa0\x80",               // surrogate
                             "\xf4\x90\x80\x80",           // beyond U+10FFFF
                             "\xf5\x80\x80\x80", "\xff",   // no lead byte
                             "\xe4\xba", "\xe4\xba\x41");  // cut short
  CHECK_FALSE(is_utf8(text));
  CHECK_FALSE(is_utf8("12 ft " + text));
  const auto point = first_code_point(text);
  CHECK_FALSE(point.is_valid);
  CHECK(point.bytes == 1);
}

TEST_CASE("utf8: code points are counted, stray bytes one each", "[base][exact]") {
  CHECK(code_points("") == 0);
  CHECK(code_points("6⅜″") == 3);
  CHECK(code_points("a\xff\xfe") == 3);
  CHECK(is_utf8("6⅜″"));
  CHECK(is_utf8(""));
}
