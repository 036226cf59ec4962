#include <catch2/catch.hpp>

#include "program.hpp"

namespace {

/// Expects a refusal with this message, though the job and all else is right.
void check_refused(const std::string& arguments, const std::string& message) {
  CAPTURE(arguments);
  const Folder folder;
  folder.write("room.toml", sample_job());
  const Run run = folder.run("evenlit light " + arguments);
  CHECK(run.err == message);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(folder.files().size() == 1);
}

}  // namespace

TEST_CASE("help and version stand on standard output", "[cli]") {
  const Folder folder;
  for (const std::string command : {"evenlit --help", "evenlit help", "evenlit light --help"}) {
    const Run run = folder.run(command);
    CAPTURE(command);
    CHECK(run.status == 0);
    CHECK(run.err.empty());
    CHECK(run.out.find("light") != std::string::npos);
  }
  const Run version = folder.run("evenlit --version");
  CHECK(version.status == 0);
  CHECK(version.out == "evenlit " EVENLIT_VERSION "\n");
}

TEST_CASE("the help of a command shows every option, in 80 columns", "[cli]") {
  const std::string help = Folder().run("evenlit light --help").out;
  for (const std::string shown :
       {"evenlit light [options] JOB.toml", "--map FILE.png|svg", "--elevations FILE.png|svg", "--section FILE.png|svg",
        "--through N", "--csv FILE.csv", "--json FILE.json", "--per-can", "--top LIGHT", "--width PIXELS", "--help"}) {
    CAPTURE(shown);
    CHECK(help.find(shown) != std::string::npos);
  }
  for (std::size_t start = 0; start < help.size(); start = help.find('\n', start) + 1) {
    CHECK(help.find('\n', start) - start <= 80);
  }
}

TEST_CASE("without a command the overview is shown, as an error", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit");
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(run.err == folder.run("evenlit --help").out);
}

TEST_CASE("an unknown command gets the nearest known one", "[cli]") {
  const Folder folder;
  const auto check = [&](const std::string& command, const std::string& message) {
    const Run run = folder.run(command);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(run.err == message);
  };
  check("evenlit lihgt", "evenlit: there is no command \"lihgt\"\nhint: did you mean \"light\"?\n");
  check("evenlit --hlep", "evenlit: there is no command \"--hlep\"\nhint: did you mean \"--help\"?\n");
  check("evenlit room.toml", "evenlit: there is no command \"room.toml\"\nhint: evenlit --help lists the commands\n");
  check("evenlit ''", "evenlit: there is no command \"\"\nhint: evenlit --help lists the commands\n");
}

TEST_CASE("an unknown option gets the nearest known one", "[cli]") {
  check_refused("room.toml --wdith 900",
                "evenlit light: there is no option \"--wdith\"\nhint: did you mean --width?\n");
  check_refused("room.toml -map map.png", "evenlit light: there is no option \"-map\"\nhint: did you mean --map?\n");
  check_refused("room.toml --Jsno=a.json --cvs b.csv",
                "evenlit light: there is no option \"--Jsno\"\nhint: did you mean --json?\n"
                "evenlit light: there is no option \"--cvs\"\nhint: did you mean --csv?\n");
  check_refused("-room.toml",
                "evenlit light: there is no option \"-room.toml\"\n"
                "hint: evenlit light --help lists the options; write ./ before a file name that begins with a dash\n");
}

TEST_CASE("one job file is wanted", "[cli]") {
  const std::string none = "evenlit light: no job file is named\nhint: name one, like scenes/family-room.toml\n";
  check_refused("", none);
  check_refused("''", none);
  check_refused("--csv grid.csv", none);
  check_refused("room.toml other.toml",
                "evenlit light: \"other.toml\" is one name too many\n"
                "hint: name one job file; put quotes around a name that has spaces\n");
}

TEST_CASE("an option that takes a value needs one, and no other option is it", "[cli]") {
  const std::string message = "evenlit light: --map lacks its value\nhint: write --map FILE.png|svg\n";
  check_refused("room.toml --map", message);
  check_refused("room.toml --map=", message);
  check_refused("room.toml --map ''", message);
  check_refused("room.toml --map --csv grid.csv", message);
  check_refused("--map -- room.toml", message);
  check_refused("room.toml --json a.json --per-can=yes",
                "evenlit light: --per-can takes no value\nhint: write --per-can\n");
  check_refused("room.toml --map a.png --map b.png", "evenlit light: --map is given twice\nhint: give it once\n");
}

TEST_CASE("an option that would do nothing is refused", "[cli]") {
  check_refused("room.toml --per-can",
                "evenlit light: --per-can does nothing without --json\nhint: add --json FILE.json\n");
  check_refused("room.toml --csv a.csv --top '40 fc' --width 900",
                "evenlit light: --top does nothing without --map, --floor or --elevations\nhint: add --map FILE.png\n"
                "evenlit light: --width does nothing without --map, --floor, --elevations or --section\n"
                "hint: add --map FILE.png\n");
  check_refused("room.toml --through 1",
                "evenlit light: --through does nothing without --section\nhint: add --section FILE.png\n");
}

TEST_CASE("the colour scale ends at an illuminance above 0", "[cli]") {
  const std::string forms = "hint: write lux like 300 lx, or foot-candles like 30 fc\n";
  check_refused("room.toml --map a.png --top 40", "evenlit light: --top \"40\" has no unit\n" + forms);
  check_refused("room.toml --map a.png --top '-40 fc'", "evenlit light: --top \"-40 fc\" is below 0\n" + forms);
  check_refused("room.toml --map a.png --top nan", "evenlit light: --top \"nan\" is not an illuminance\n" + forms);
  check_refused("room.toml --map a.png --top '0 lx'",
                "evenlit light: --top \"0 lx\" is not above 0\nhint: write it like \"40 fc\"\n");
}

TEST_CASE("a picture is a PNG or an SVG", "[cli]") {
  for (const std::string option : {"map", "elevations", "section"}) {
    check_refused("room.toml --" + option + " room.pdf", "evenlit light: --" + option +
                                                             " room.pdf is neither a PNG nor an SVG file\n"
                                                             "hint: end the name in .png or .svg\n");
  }
}

TEST_CASE("a map is a whole number of pixels wide", "[cli]") {
  for (const std::string width :
       {"0", "299", "16385", "1000000000", "99999999999999999999", "-900", "abc", "900.5", "900px", "nan", "0x400"}) {
    check_refused("room.toml --map a.png --width " + width,
                  "evenlit light: --width \"" + width +
                      "\" is not a width in pixels\nhint: write a whole number from 300 to 16384\n");
  }
}
