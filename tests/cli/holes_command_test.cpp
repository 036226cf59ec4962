#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace {

const std::string k_keeping_room = "'" EVENLIT_SOURCE_DIR "/scenes/keeping-room.toml'";

}  // namespace

TEST_CASE("holes: the keeping room's table and JSON", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit holes " + k_keeping_room + " --json holes.json");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  CHECK(run.out.find("Keeping room: 6 of 7 holes fit.") == 0);
  CHECK(run.out.find("\nFans\n  Can 7: the blades of \"fan\"") != std::string::npos);
  REQUIRE(folder.files().size() == 1);
  const auto json = nlohmann::json::parse(folder.read("holes.json"));
  CHECK(json["format"] == "evenlit holes");
  CHECK(json["cans"].size() == 7);
  CHECK(folder.run("evenlit holes " + k_keeping_room).out == run.out);
}

TEST_CASE("holes: light warns of the same can, and of none where the ceiling is not known", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit light " + k_keeping_room + " --json light.json");
  CHECK(run.status == 0);
  CHECK(run.out.find("\nWarnings\n") != std::string::npos);
  const auto json = nlohmann::json::parse(folder.read("light.json"));
  REQUIRE(json["warnings"].size() == 1);
  CHECK(json["warnings"][0]["what"] == "can 3 does not fit: its housing is 3/4\" too near to the doubled joist");
  folder.write("room.toml", sample_job());
  CHECK(folder.run("evenlit light room.toml").out.find("\nWarnings\n") == std::string::npos);
}

TEST_CASE("holes: mistakes are refused as by every command", "[cli]") {
  const Folder folder;
  folder.write("room.toml",
               with(sample_job(), "[work_plane]",
                    "[[members]]\nname = \"beam\"\nfrom = { wets = 0 }\nthickness = \"1 m\"\n[work_plane]"));
  const Run run = folder.run("evenlit holes room.toml --json holes.json");
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(run.err.find("room.toml:14:10: the room has no wall \"wets\"\n") == 0);
  CHECK(folder.files().size() == 1);
  CHECK(folder.run("evenlit holes").status == 2);
  CHECK(folder.run("evenlit holes room.toml --map a.png").status == 2);
  const Run over_input = folder.run("evenlit holes " + k_keeping_room + " --json " + k_keeping_room);
  CHECK(over_input.status == 2);
  const Run help = folder.run("evenlit holes --help");
  CHECK(help.status == 0);
  CHECK(help.out.find("Examples:\n  evenlit holes scenes/keeping-room.toml\n") != std::string::npos);
}

TEST_CASE("holes: the job with a can where it may go", "[cli]") {
  const Folder folder;
  const std::string holes = "evenlit holes " + k_keeping_room;
  const Run run = folder.run(holes + " --can 3 --near '16ft 4in,3ft 10in' --json place.json --write moved.toml");
  CHECK(run.status == 0);
  CHECK(folder.run("cp " + k_keeping_room + " before.toml").status == 0);
  // In line with can 6, which is taped 16 ft 1 in from the same wall; all else stays as it is.
  CHECK(folder.read("moved.toml") == with(folder.read("before.toml"), R"({ west = "16ft 4in", south = "3ft 9in" })",
                                          R"({ west = "16ft 1in", south = "3ft 9in" })"));
  const Run without = folder.run(holes + " --write moved.toml");
  CHECK(without.status == 2);
  CHECK(without.err.find("--write does nothing without --near") != std::string::npos);
}

TEST_CASE("holes: a place for one can near a point", "[cli]") {
  const Folder folder;
  const std::string holes = "evenlit holes " + k_keeping_room;
  const Run run = folder.run(holes + " --can 3 --near '16ft 4in,3ft 10in' --json place.json");
  CHECK(run.status == 0);
  CHECK(run.out.find("Keeping room, can 3: wished at ") == 0);
  const auto json = nlohmann::json::parse(folder.read("place.json"));
  CHECK(json["format"] == "evenlit place");
  CHECK(json["fits_there"] == false);
  CHECK(json["in_line"][0]["with"] == nlohmann::json::parse("[6]"));  // its column
  CHECK(json["in_line"][1]["with"] == nlohmann::json::parse("[1,2]"));
  CHECK(folder.run(holes + " --can 3 --near=-2ft,-1ft").status == 0);
  CHECK(folder.run(holes + " --can 8 --near 1ft,1ft").status == 2);
  CHECK(folder.run(holes + " --can 3").status == 2);
  CHECK(folder.run(holes + " --near 1ft,1ft").status == 2);
  CHECK(folder.run(holes + " --can 3 --near 1ft").status == 2);
  CHECK(folder.run(holes + " --can 3 --near 1ft,2ells").status == 2);
}
