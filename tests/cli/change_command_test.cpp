#include <catch2/catch.hpp>

#include "program.hpp"

TEST_CASE("change: writes the changed job, tells each change, and needs no output", "[cli]") {
  const Folder folder;
  folder.write("room.toml", "# The smallest.\n" + sample_job());
  folder.write("changes.json", R"([{"set": ["wanted", "watts"], "value": 60}, {"remove": ["wanted"]},
    {"move": ["cans", 0], "to_m": [1.0, 1.0]}])");
  const Run told = folder.run("evenlit change room.toml changes.json");
  CHECK(told.status == 0);
  CHECK(told.err.empty());
  CHECK(told.out.find("change 1: wanted.watts = 60\nchange 2: removed wanted\nchange 3: moved cans[0]") == 0);
  CHECK(folder.files().size() == 2);
  CHECK(folder.run("evenlit change room.toml changes.json --write new.toml").out == told.out);
  const std::string written = folder.read("new.toml");
  CHECK(written.find("# The smallest.\n") == 0);
  CHECK(written.find("wanted") == std::string::npos);
  CHECK(folder.run("evenlit light new.toml").status == 0);
  folder.write("none.json", "[]");
  CHECK(folder.run("evenlit change room.toml none.json --write same.toml").out == "no changes\n");
  CHECK(folder.read("same.toml") == folder.read("room.toml"));
}

TEST_CASE("change: what cannot be made writes nothing and says which change", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  folder.write("far.json", R"([{"remove": ["cans", 7]}])");
  folder.write("wrong.json", R"([{"set": ["finishes", "walls"], "value": 3}])");
  folder.write("none.json", "[{]");
  const auto before = folder.files();
  const Run far = folder.run("evenlit change room.toml far.json --write new.toml");
  CHECK(far.status == 2);
  CHECK(far.out.empty());
  CHECK(far.err == "far.json: change 1: there is no cans[7]\nhint: cans has one element, number 0\n");
  const Run wrong = folder.run("evenlit change room.toml wrong.json --write new.toml");
  CHECK(wrong.status == 2);
  CHECK(wrong.err.find("room.toml, changed:") == 0);
  CHECK(wrong.err.find("walls = 3\n") != std::string::npos);
  CHECK(folder.run("evenlit change room.toml none.json").err.find("none.json:1:3: this is not JSON\n") == 0);
  CHECK(folder.run("evenlit change room.toml far.json --write room.toml")
            .err.find("room.toml: this is one of the files") == 0);
  CHECK(folder.run("evenlit change room.toml").err.find("no file of changes is named") != std::string::npos);
  CHECK(folder.run("evenlit change room.toml a.json b.json").status == 2);
  CHECK(folder.files() == before);
  CHECK(folder.run("evenlit change --help").out.find("Examples:\n  evenlit change ") != std::string::npos);
}
