#include <catch2/catch.hpp>
#include <filesystem>

#include "program.hpp"

namespace {

const std::string k_family_room = "'" EVENLIT_SOURCE_DIR "/scenes/family-room.toml'";

void check_setout_refused(const Folder& folder, const std::string& arguments, const std::string& message) {
  CAPTURE(arguments);
  const auto before = folder.files();
  const Run run = folder.run("evenlit setout " + arguments);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(run.err == message);
  CHECK(folder.files() == before);
}

}  // namespace

TEST_CASE("setout: every scene as text, page, plan and PDF", "[cli]") {
  const Folder folder;
  for (const auto& entry : std::filesystem::directory_iterator(EVENLIT_SOURCE_DIR "/scenes")) {
    if (entry.path().extension() != ".toml") continue;
    CAPTURE(entry.path().string());
    std::string job("'");
    job.append(entry.path().string()).append("'");
    const Run run = folder.run("evenlit setout " + job + " --html a.html --svg a.svg --pdf a.pdf --paper a4");
    CHECK(run.status == 0);
    CHECK(run.err.empty());
    CHECK(run.out == folder.run("evenlit setout " + job).out);
    CHECK(folder.read("a.html").starts_with("<!DOCTYPE html>"));
    CHECK(folder.read("a.svg").find("width=\"7.25in\"") != std::string::npos);
    const std::string pdf = folder.read("a.pdf");
    CHECK(folder.run("evenlit setout " + job + " --pdf a.pdf --paper a4").status == 0);
    CHECK(folder.read("a.pdf") == pdf);
    CHECK(folder.run("pdfinfo a.pdf").out.find("(A4)") != std::string::npos);
  }
}

TEST_CASE("setout: the PDF says what the sheet says", "[cli]") {
  const Folder folder;
  REQUIRE(folder.run("evenlit setout " + k_family_room + " --pdf a.pdf --corner southwest").status == 0);
  CHECK(folder.run("pdfinfo a.pdf").out.find("(letter)") != std::string::npos);
  const std::string text = folder.run("pdftotext -layout a.pdf -").out;
  for (const char* part : {"Family room: set-out sheet", "1/4 in = 1 ft", "10' 11\"", "(131\")", "Centres of the cans",
                           "Trimmed", "4-1/16\"", "proven on a live source", "sheet 1 of"}) {
    CAPTURE(part);
    CHECK(text.find(part) != std::string::npos);
  }
}

TEST_CASE("setout: mistakes are refused with one clear message", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  check_setout_refused(folder, "room.toml --from west,suoth",
                       "evenlit setout: the room has no wall \"suoth\"\nhint: did you mean \"south\"?\n");
  check_setout_refused(folder, "room.toml --from west",
                       "evenlit setout: --from does not name two walls\nhint: write it like --from west,south\n");
  check_setout_refused(folder, "room.toml --from west,east",
                       "evenlit setout: walls \"west\" and \"east\" run too much alike to tape from\n"
                       "hint: name two walls that are more than 30 degrees off each other\n");
  check_setout_refused(folder, "room.toml --corner middle --pdf a.pdf",
                       "evenlit setout: the room has no corner \"middle\"\n"
                       "hint: name the two walls that meet in it, like \"south,west\"\n");
  check_setout_refused(folder, "room.toml --pdf a.pdf --paper a5",
                       "evenlit setout: --paper \"a5\" is unknown\nhint: write letter or a4\n");
  check_setout_refused(folder, "room.toml --paper a4",
                       "evenlit setout: --paper does nothing without --pdf\nhint: add --pdf FILE.pdf\n");
  folder.write("typeless.toml", with(sample_job(), "type = \"round\"\n", ""));
  const Run typeless = folder.run("evenlit setout typeless.toml");
  CHECK(typeless.status == 2);
  CHECK(typeless.err.find(": a can in [[cans]] has no type\n") != std::string::npos);
  folder.write("open.toml", with(sample_job(), "width = \"3 m\"\ndepth = \"2 m\"",
                                 "sides = { south = \"3 m\", east = \"2 m\", north = \"3 m\", west = \"2 m\" }\n"
                                 "diagonal = { from = \"southwest\", length = \"6 m\" }"));
  const Run open = folder.run("evenlit setout open.toml");
  CHECK(open.status == 2);
  CHECK(open.err.find(
            "open.toml:6:12: the diagonal of 6.00 m does not close with these sides: they reach from 1.001 m to "
            "4.999 m\n") == 0);
  CHECK(folder.run("evenlit setout --help").out.find("Examples:\n  evenlit setout") != std::string::npos);
}

TEST_CASE("setout: what was moved since an earlier plan, and why", "[cli]") {
  const Folder folder;
  const std::string keeping = "'" EVENLIT_SOURCE_DIR "/scenes/keeping-room.toml'";
  const std::string text = folder.run("cat " + keeping).out;
  folder.write("planned.toml", with(text, "../photometry", EVENLIT_SOURCE_DIR "/photometry"));
  folder.write("moved.toml", with(folder.read("planned.toml"), "west = \"16ft 1in\"", "west = \"15ft 6in\""));
  const Run run = folder.run("evenlit setout moved.toml --was planned.toml");
  INFO(run.err);
  CHECK(run.status == 0);
  CHECK(run.out.find("What was moved, and why") != std::string::npos);
  CHECK(folder.run("evenlit setout moved.toml --was moved.toml").out.find("What was moved") == std::string::npos);
  const Run other = folder.run("evenlit setout moved.toml --was '" EVENLIT_SOURCE_DIR "/scenes/family-room.toml'");
  CHECK(other.status == 2);
  CHECK(other.err.find("the earlier job has another room") != std::string::npos);
}
