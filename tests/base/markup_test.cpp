#include "evenlit/base/markup.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("what would be markup is text", "[base][exact]") {
  CHECK(markup_text("<script>a && \"b\"]]></script>") ==
        "&lt;script&gt;a &amp;&amp; &quot;b&quot;]]&gt;&lt;/script&gt;");
  CHECK(markup_text("sofa, 7' \u00d7 3' \U0001f6cb") == "sofa, 7' \u00d7 3' \U0001f6cb");
  CHECK(markup_text("").empty());
}

TEST_CASE("what is no character in markup shows as a question mark", "[base][exact]") {
  CHECK(markup_text(std::string("a\0b\nc\x7f", 6)) == "a?b?c?");
  CHECK(markup_text("\xff\xc3") == "??");
  CHECK(markup_text("\uffff\ufdd0\U0001fffe") == "???");
}

TEST_CASE("bytes in base 64", "[base][published]") {
  // RFC 4648, 10, all of its test vectors.
  CHECK(base64("").empty());
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foo") == "Zm9v");
  CHECK(base64("foob") == "Zm9vYg==");
  CHECK(base64("fooba") == "Zm9vYmE=");
  CHECK(base64("foobar") == "Zm9vYmFy");
}
