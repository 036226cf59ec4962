#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace {

const std::string k_living_room = "'" EVENLIT_SOURCE_DIR "/scenes/living-room.toml'";

}  // namespace

TEST_CASE("moods: text, JSON and a sheet of the demo's living room", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit moods " + k_living_room + " --dimmers 3 --json all.json --sheet all.svg");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  CHECK(run.out.starts_with("Living room: 3 moods.\n"));
  CHECK(run.out.find("\nCans on 3 dimmers\n") != std::string::npos);
  CHECK(run.out.find("licensed electrician") != std::string::npos);
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  REQUIRE(json["moods"].size() == 3);
  CHECK(json["moods"][0]["name"] == "cleaning");
  CHECK(json["moods"][0]["circuits"][0]["light_fraction"] == 1);
  CHECK(json["dimmer_loads"].size() == 3);
  CHECK(folder.read("all.svg").find(">television</text>") != std::string::npos);
  // The same on one processor as on all.
  CHECK(folder.run("taskset -c 0 evenlit moods " + k_living_room + " --dimmers 3").out == run.out);
}

TEST_CASE("moods: with everything full the light is that of evenlit light", "[cli]") {
  const Folder folder;
  CHECK(folder.run("evenlit moods " + k_living_room + " --json moods.json").status == 0);
  CHECK(folder.run("evenlit light " + k_living_room + " --json light.json").status == 0);
  const auto full = nlohmann::json::parse(folder.read("moods.json"))["moods"][0];
  const auto light = nlohmann::json::parse(folder.read("light.json"))["results"];
  // Two tables of the engine, cut for different receivers, each within its stated error of some tenths of a percent.
  CHECK(full["average_lx"].get<double>() == Approx(light["average_lx"].get<double>()).epsilon(0.005));
}

TEST_CASE("moods: what cannot be is refused and nothing is written", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const auto refusal = [&](const std::string& arguments) {
    const Run run = folder.run("evenlit moods " + arguments);
    INFO(arguments);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(folder.files().size() == 1);
    return run.err;
  };
  CHECK(refusal("room.toml").find("the job has no moods\n") != std::string::npos);
  CHECK(refusal(k_living_room + " --dimmers 20").find("20 dimmers for 10 cans on circuits") != std::string::npos);
  CHECK(refusal(k_living_room + " --dimmers 0").find("--dimmers") != std::string::npos);
  CHECK(refusal(k_living_room + " --width 900").find("--width does nothing without --sheet") != std::string::npos);
  CHECK(refusal(k_living_room + " --sheet moods.pdf").find("neither a PNG nor an SVG file") != std::string::npos);
  const Run help = folder.run("evenlit moods --help");
  CHECK(help.out.find("Examples:\n  evenlit moods scenes/living-room.toml\n") != std::string::npos);
}
