#include "evenlit/report/job_page.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace evenlit;

namespace {

constexpr std::string_view k_start = R"(<script type="application/json" id="job">)";
const std::string k_blank = "<!doctype html>\n<p>\n" + std::string(k_start) + "null</script>\n<script>run()</script>\n";

nlohmann::json job_of(const std::string& page) {
  const std::size_t start = page.find(k_start) + k_start.size();
  return nlohmann::json::parse(page.substr(start, page.find("</script>", start) - start));
}

}  // namespace

TEST_CASE("A page holds the job and its files, and is else the blank one", "[report]") {
  const std::string text = "units = \"metric\"\r\n# Größe\n";
  const auto page = job_page(k_blank, "room.toml", text, {{"../a.ies", "IESNA\r\n\xe4"}}, whole_file("blank"));
  REQUIRE(page);
  const nlohmann::json job = job_of(*page);
  CHECK(job["name"] == "room.toml");
  CHECK(job["text"] == text);
  CHECK(job["files"]["../a.ies"] == "SUVTTkENCuQ=");  // base64 as RFC 4648 has it
  CHECK(page->substr(0, k_blank.find("null")) == k_blank.substr(0, k_blank.find("null")));
  CHECK(page->ends_with("</script>\n<script>run()</script>\n"));
}

TEST_CASE("Nothing that a job says becomes markup of its page", "[report]") {
  const std::string text = "name = \"</script><script>alert(1)</script><!--\"";
  const auto page = job_page(k_blank, "</script>.toml", text, {{"<b>", "x"}}, whole_file("blank"));
  REQUIRE(page);
  const std::size_t start = page->find(k_start) + k_start.size();
  CHECK(page->find('<', start) == page->find("</script>\n<script>run()"));
  CHECK(job_of(*page)["text"] == text);
}

TEST_CASE("A page that has no empty place for a job is refused", "[report]") {
  for (const std::string& blank : {std::string("<p>"), std::string(), k_blank + k_blank}) {
    const auto page = job_page(blank, "room.toml", "x", {}, whole_file("blank.html"));
    REQUIRE_FALSE(page);
    CHECK(page.error().front().place.file == "blank.html");
  }
}
