#include "evenlit/base/names.hpp"

#include <array>
#include <catch2/catch.hpp>

using namespace evenlit;

namespace {
constexpr std::array<std::string_view, 5> k_keys{"name", "width", "depth", "ceiling", "corners"};
}

TEST_CASE("names: slips of the pen find what was meant", "[base][exact]") {
  CHECK(nearest_name("cieling", k_keys) == "ceiling");   // neighbours swapped
  CHECK(nearest_name("ceilng", k_keys) == "ceiling");    // left out
  CHECK(nearest_name("ceilling", k_keys) == "ceiling");  // doubled
  CHECK(nearest_name("Width", k_keys) == "width");       // case
  CHECK(nearest_name("dapth", k_keys) == "depth");       // replaced
  CHECK(nearest_name("width", k_keys) == "width");
}

TEST_CASE("names: what differs in more than a third of its letters is not guessed at", "[base][exact]") {
  CHECK(nearest_name("colour", k_keys).empty());
  CHECK(nearest_name("wi", k_keys).empty());
  CHECK(nearest_name("", k_keys).empty());
  CHECK(nearest_name("name", {}).empty());
  CHECK(nearest_name("nam", k_keys) == "name");  // one of three
  CHECK(nearest_name("nm", k_keys).empty());     // two insertions in two letters
}

TEST_CASE("names: a swap is one edit, so it beats two", "[base][exact]") {
  constexpr std::array<std::string_view, 2> k_known{"acbxyz", "abxyzw"};
  CHECK(nearest_name("abcxyz", k_known) == "acbxyz");
}

TEST_CASE("names: a quoted text is cut at 60 code points", "[base][exact]") {
  CHECK(quoted("12 x 6") == "\"12 x 6\"");
  std::string sixty;
  for (int i = 0; i < 60; ++i) sixty += "½";
  CHECK(quoted(sixty) == '"' + sixty + '"');
  CHECK(quoted(sixty + "a") == '"' + sixty + "...\"");
}
