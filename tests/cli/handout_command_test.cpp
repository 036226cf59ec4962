#include <catch2/catch.hpp>

#include "program.hpp"

namespace {

const std::string k_scenes = EVENLIT_SOURCE_DIR "/scenes/";

std::string shell_quoted(const std::string& text) { return "'" + text + "'"; }

}  // namespace

TEST_CASE("handout: the page of each scene passes an independent checker of HTML", "[cli][reference]") {
  const Folder folder;
  for (const std::string scene : {"living-room", "family-room", "attic-bedroom", "metric-kitchen"}) {
    INFO(scene);
    const Run run =
        folder.run("evenlit handout " + shell_quoted(k_scenes + scene + ".toml") + " --html page.html --counts 4,6");
    CHECK(run.err.empty());
    REQUIRE(run.status == 0);
    const Run checked = folder.run("tidy -quiet -errors page.html");
    CHECK(checked.err.empty());
    CHECK(checked.status == 0);
  }
}

TEST_CASE("handout: hostile names leave the page in order", "[cli][reference]") {
  const Folder folder;
  folder.write("room.toml", with(sample_job(), "[room]", "[room]\nname = '''</title><script>\"]]>&\U0001f6cb'''"));
  CHECK(folder.run("evenlit handout room.toml --html page.html").status == 0);
  const Run checked = folder.run("tidy -quiet -errors page.html");
  CHECK(checked.err.empty());
  CHECK(checked.status == 0);
}

TEST_CASE("handout: prints on two or three sheets of Letter and A4", "[cli][reference]") {
  const Folder folder;
  for (const std::string arguments : {"living-room.toml'", "family-room.toml' --counts 4,6,8"}) {
    CHECK(folder.run("evenlit handout '" + k_scenes + arguments + " --html letter.html").status == 0);
    folder.write("a4.html", with(folder.read("letter.html"), "@page {", "@page { size: A4;"));
    for (const std::string paper : {"letter", "a4"}) {
      INFO(arguments << " on " << paper);
      const Run printed = folder.run(
          "HOME=$PWD chromium --headless --no-sandbox --disable-gpu --user-data-dir=$PWD/browser --print-to-pdf=" +
          paper + ".pdf --no-pdf-header-footer \"file://$PWD/" + paper + ".html\" 2>browser.txt && pdfinfo " + paper +
          ".pdf");
      REQUIRE(printed.status == 0);
      const std::size_t at = printed.out.find("Pages:");
      REQUIRE(at != std::string::npos);
      const int pages = std::stoi(printed.out.substr(at + 6));
      CHECK(pages >= 2);
      CHECK(pages <= 3);
      CHECK(printed.out.find(paper == "a4" ? "(A4)" : "(letter)") != std::string::npos);
    }
  }
}

TEST_CASE("handout: the same bytes on one processor as on all", "[cli][property]") {
  const Folder folder;
  const std::string handout = "evenlit handout " + shell_quoted(k_scenes + "living-room.toml") + " --html ";
  CHECK(folder.run(handout + "a.html").status == 0);
  CHECK(folder.run("taskset -c 0 " + handout + "b.html").status == 0);
  const bool is_same = folder.read("a.html") == folder.read("b.html");  // megabytes, not to be printed
  CHECK(is_same);
}

TEST_CASE("handout: what cannot be is refused and nothing is written", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const auto refusal = [&](const std::string& arguments) {
    const Run run = folder.run("evenlit handout " + arguments);
    INFO(arguments);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(folder.files().size() == 1);
    return run.err;
  };
  CHECK(refusal("room.toml").find("add --html FILE.html") != std::string::npos);
  CHECK(refusal("room.toml --html room.toml").find("one of the files that were read") != std::string::npos);
  CHECK(refusal("room.toml --html page.html --counts 0").find("--counts") != std::string::npos);
  CHECK(refusal("none.toml --html page.html").find("none.toml") != std::string::npos);
  const Run help = folder.run("evenlit handout --help");
  CHECK(help.out.find("Examples:\n  evenlit handout scenes/living-room.toml") != std::string::npos);
}
