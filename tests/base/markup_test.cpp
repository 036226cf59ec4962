#include "evenlit/base/markup.hpp"

#include <catch2/catch.hpp>

using namespace evenlit;

TEST_CASE("markup: what would end an element or a value is written as an entity, what is no character as ?",
          "[base][exact]") {
  CHECK(markup_text("a < b & \"c\" > d") == "a &lt; b &amp; &quot;c&quot; &gt; d");
  CHECK(markup_text("\x01\x7f\xff\xef\xbf\xbe") == "????");
  CHECK(markup_text("½ œ") == "½ œ");
}
