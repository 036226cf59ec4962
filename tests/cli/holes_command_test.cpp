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
  const auto place = nlohmann::json::parse(folder.read("place.json"))["place"];
  CHECK(folder.read("moved.toml").find("# ") != std::string::npos);  // comments are kept
  CHECK(folder.run("evenlit room moved.toml --json room.json").status == 0);
  const auto can = nlohmann::json::parse(folder.read("room.json"))["cans"][2];
  constexpr double k_sixteenth_m = 0.0254 / 16;  // lengths are written so
  CHECK(std::abs(can["x_m"].get<double>() - place["x_m"].get<double>()) <= k_sixteenth_m);
  CHECK(std::abs(can["y_m"].get<double>() - place["y_m"].get<double>()) <= k_sixteenth_m);
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
