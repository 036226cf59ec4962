#include <unistd.h>

#include <catch2/catch.hpp>

#include "program.hpp"

TEST_CASE("no output replaces a file that was read", "[cli]") {
  const Folder folder;
  folder.write("can.ies", shipped_photometry());
  folder.write("room.toml", with(sample_job(), "beam = { lumens = 900, angle = 60 }", "file = \"can.ies\""));
  std::filesystem::create_symlink("room.toml", folder.path() / "link.csv");
  std::filesystem::create_hard_link(folder.path() / "room.toml", folder.path() / "twin.csv");
  const std::string message = ": this is one of the files that were read\nhint: choose another name for the output\n";
  for (const std::string name : {"room.toml", "./room.toml", "../desk/room.toml", "can.ies", "link.csv", "twin.csv"}) {
    check_refused(folder, "room.toml --csv " + name, name + message);
  }
}

TEST_CASE("two outputs have two names", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const std::string message = ": two outputs have this name\nhint: choose another name for one of them\n";
  check_refused(folder, "room.toml --map out.png --csv out.png", "out.png" + message);
  check_refused(folder, "room.toml --map out.png --section ./out.png", "./out.png" + message);
  check_refused(folder, "room.toml --csv ../desk/out --json out", "../desk/out" + message);
}

TEST_CASE("an output's place must be a file in a folder", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  std::filesystem::create_directory(folder.path() / "maps");
  check_refused(folder, "room.toml --map none/map.png --csv grid.csv",
                "none/map.png: its folder does not exist\nhint: make the folder first\n");
  check_refused(folder, "room.toml --map room.toml/map.png",
                "room.toml/map.png: its folder does not exist\nhint: make the folder first\n");
  check_refused(folder, "room.toml --csv maps", "maps: this is a folder\nhint: name a file in it\n");
  check_refused(folder, "room.toml --csv maps/", "maps/: this is a folder\nhint: name a file in it\n");
  check_refused(folder, "room.toml --csv /dev/null", "/dev/null: this is a device or a pipe\nhint: name a file\n");
}

TEST_CASE("write protection is respected", "[cli]") {
  if (geteuid() == 0) {
    WARN("skipped: nothing is protected from root");
    return;
  }
  namespace fs = std::filesystem;
  const Folder folder;
  folder.write("room.toml", sample_job());
  folder.write("kept.csv", "old");
  fs::create_directory(folder.path() / "kept");
  fs::permissions(folder.path() / "kept.csv", fs::perms::owner_read);
  fs::permissions(folder.path() / "kept", fs::perms::owner_read | fs::perms::owner_exec);
  check_refused(folder, "room.toml --csv kept.csv",
                "kept.csv: this file is protected against writing\nhint: choose another name for the output\n");
  check_refused(folder, "room.toml --csv kept/grid.csv",
                "kept/grid.csv: its folder is protected against writing\nhint: choose another folder\n");
}

TEST_CASE("a write that fails changes nothing and leaves nothing behind", "[cli]") {
  const Folder folder;
  folder.write("room.toml", with(sample_job(), "\"0.5 m\"", "\"0.02 m\""));
  folder.write("map.png", "old");
  const auto before = folder.files();
  // A limit on a file's length acts as a disk that fills up: the map is shorter, the JSON longer.
  const Run run =
      folder.run("trap '' XFSZ; ulimit -f 400; evenlit light room.toml --map map.png --width 300 --json a.json");
  CHECK(run.status == 1);
  CHECK(run.out.empty());
  CHECK(run.err ==
        "a.json: cannot be written: File too large\nhint: choose another place for it; no output was written\n");
  CHECK(folder.files() == before);
}

TEST_CASE("a table that cannot be printed is an error", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const Run full = folder.run("evenlit light room.toml >/dev/full");
  CHECK(full.status == 1);
  CHECK(full.err == "evenlit: the text cannot be written: No space left on device\n");
  const Run closed = folder.run("evenlit light room.toml >&-");
  CHECK(closed.status == 1);
  CHECK(closed.err == "evenlit: the text cannot be written: Bad file descriptor\n");
}

TEST_CASE("a run that is interrupted leaves every file as it was", "[cli]") {
  const Folder folder;
  std::string slow = with(sample_job(), "\"0.5 m\"", "\"0.02 m\"");
  for (int i = 0; i < 399; ++i) slow += "\n[[cans]]\ntype = \"round\"\nfrom = { west = \"1 m\", south = \"1 m\" }\n";
  folder.write("room.toml", slow);
  folder.write("map.png", "old");
  const auto before = folder.files();
  const auto* const signal = GENERATE("INT", "TERM", "HUP");
  CAPTURE(signal);
  const Run run = folder.run(std::string("timeout -s ") + signal + " 0.2 evenlit light room.toml --map map.png");
  CHECK(run.status == 124);  // of timeout: it had to send the signal
  CHECK(run.out.empty());
  CHECK(folder.files() == before);
}
