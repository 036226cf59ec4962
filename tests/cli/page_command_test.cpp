#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace {

const std::string k_start = R"(<script type="application/json" id="job">)";
const std::string k_blank = "<p>blank</p>" + k_start + "null</script>";

}  // namespace

TEST_CASE("page: holds the job's own text and the photometric files that it names", "[cli]") {
  const Folder folder;
  folder.write("blank.html", k_blank);
  const std::string scenes = EVENLIT_SOURCE_DIR "/scenes/";
  const Run run = folder.run("evenlit page '" + scenes + "living-room.toml' --blank blank.html --html room.html");
  CHECK(run.err.empty());
  REQUIRE(run.status == 0);
  const std::string page = folder.read("room.html");
  const std::size_t start = page.find(k_start) + k_start.size();
  const auto job = nlohmann::json::parse(page.substr(start, page.find("</script>", start) - start));
  CHECK(job["name"] == "living-room.toml");
  CHECK(job["text"] == folder.run("cat '" + scenes + "living-room.toml'").out);
  CHECK(job["files"].size() == 2);
  CHECK(job["files"].contains("../photometry/six-inch-medium.ies"));
}

TEST_CASE("page: a wrong job, a page that is no blank one, no name: nothing is written", "[cli]") {
  const Folder folder;
  folder.write("blank.html", k_blank);
  folder.write("room.toml", sample_job());
  folder.write("wrong.toml", "units = 3");
  for (const std::string arguments :
       {"wrong.toml --blank blank.html --html out.html", "room.toml --blank room.toml --html out.html",
        "room.toml --blank none.html --html out.html", "room.toml --blank blank.html --html blank.html",
        "room.toml --blank blank.html"}) {
    INFO(arguments);
    const Run run = folder.run("evenlit page " + arguments);
    CHECK(run.status == 2);
    CHECK_FALSE(run.err.empty());
    CHECK(folder.read("blank.html") == k_blank);
  }
  CHECK(folder.run("ls").out.find("out.html") == std::string::npos);
}
