#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "decoded_png.hpp"
#include "program.hpp"

namespace {

const std::string k_living_room = "'" EVENLIT_SOURCE_DIR "/scenes/living-room.toml'";

double mean_level(const DecodedPng& png) {
  double sum = 0;
  for (const unsigned char level : png.levels) sum += level;
  return sum / static_cast<double>(png.levels.size());
}

}  // namespace

TEST_CASE("view: a picture, its luminances, and how they came to be", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit view " + k_living_room +
                             " --width 320 --picture room.png --luminance lum.svg --json view.json");
  CHECK(run.err.empty());
  REQUIRE(run.status == 0);
  CHECK(run.out.starts_with("Living room, from the door: the cans' own levels.\n"));
  const DecodedPng png = decoded_png(folder.read("room.png"));
  CHECK(png.width == 320);
  CHECK(png.height == 180);
  CHECK(folder.read("room.png").find(std::string("tEXtTitle\0Living room, from the door", 35)) != std::string::npos);
  CHECK(folder.read("room.png").find("adapted to") != std::string::npos);
  const auto json = nlohmann::json::parse(folder.read("view.json"));
  CHECK(json["format"] == "evenlit view");
  CHECK(json["view"] == "from the door");
  CHECK(json["mood"].is_null());
  CHECK(json["exposure"]["adaptation_cd_m2"].get<double>() > 1);
  CHECK(folder.read("lum.svg").find("cd/m²") != std::string::npos);
  // The same on one processor as on all.
  CHECK(folder.run("taskset -c 0 evenlit view " + k_living_room + " --width 320 --picture one.png").status == 0);
  CHECK(folder.read("one.png") == folder.read("room.png"));
}

TEST_CASE("view: moods share an exposure, so a dim one looks dim", "[cli]") {
  const Folder folder;
  for (const std::string mood : {"cleaning", "television"}) {
    REQUIRE(folder
                .run("evenlit view " + k_living_room + " --width 320 --mood " + mood + " --picture " + mood +
                     ".png --json " + mood + ".json")
                .status == 0);
  }
  const auto exposure = [&](const std::string& file) { return nlohmann::json::parse(folder.read(file))["exposure"]; };
  CHECK(exposure("cleaning.json") == exposure("television.json"));
  CHECK(exposure("cleaning.json")["pictures"] == 3);
  // 8 and 20 percent of the light of two of four circuits: less than half as bright on the screen.
  CHECK(mean_level(decoded_png(folder.read("television.png"))) <
        0.6 * mean_level(decoded_png(folder.read("cleaning.png"))));
}

TEST_CASE("view: sheets of moods and layouts hold the room as it will look", "[cli]") {
  const Folder folder;
  REQUIRE(folder.run("evenlit moods " + k_living_room + " --sheet moods.svg --views").status == 0);
  REQUIRE(
      folder.run("evenlit compare '" EVENLIT_SOURCE_DIR "/scenes/family-room.toml' --counts 4,6 --sheet l.svg --views")
          .status == 0);
  const auto pictures = [&](const std::string& name) {
    const std::string svg = folder.read(name);
    std::size_t count = 0;
    for (std::size_t at = 0; (at = svg.find("width=\"480\" height=\"270\"", at)) != std::string::npos; ++at) ++count;
    return count;
  };
  CHECK(pictures("l.svg") > 2);
  CHECK(folder.read("moods.svg").find("work plane: ") != std::string::npos);
}

TEST_CASE("view: the room to be walked through, with its moods and views", "[cli]") {
  const Folder folder;
  REQUIRE(folder.run("evenlit view " + k_living_room + " --width 320 --model room.glb --json view.json").status == 0);
  const std::string file = folder.read("room.glb");
  REQUIRE(file.substr(0, 4) == "glTF");
  const auto byte = [&](std::size_t at) { return static_cast<std::size_t>(static_cast<unsigned char>(file.at(at))); };
  const auto gltf = nlohmann::json::parse(file.substr(20, byte(12) + 256 * (byte(13) + 256 * byte(14))));
  const auto& extras = gltf["extras"]["evenlit"];
  CHECK(extras["light_texture"]["texel_m"] == 0.02);
  CHECK(extras["groups"].size() == 4);
  CHECK(extras["groups"][0]["tints_by_tenths_of_level"].size() == 11);  // it dims warm
  CHECK(extras["moods"].size() == 3);
  CHECK(extras["moods"][1]["name"] == "television");
  CHECK(extras["moods"][1]["levels"] == nlohmann::json({0.08, 0.2, 0.0, 0.0}));
  CHECK(extras["views"].size() == 2);
  CHECK(extras["views"][0]["name"] == "from the door");
  // The exposure of the picture at the cans' own levels.
  const auto exposure = nlohmann::json::parse(folder.read("view.json"))["exposure"];
  CHECK(extras["exposures"]["own_levels"]["scale_m2_per_cd"] == exposure["scale_m2_per_cd"]);
  CHECK(extras["exposures"]["own_levels"]["colour_gains"] == exposure["colour_gains"]);
  // The same on one processor as on all.
  REQUIRE(folder.run("taskset -c 0 evenlit view " + k_living_room + " --width 320 --model one.glb").status == 0);
  CHECK(folder.read("one.glb") == file);
}

TEST_CASE("view: what cannot be is refused and nothing is written", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const auto refusal = [&](const std::string& arguments) {
    const Run run = folder.run("evenlit view " + arguments);
    INFO(arguments);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(folder.files().size() == 1);
    return run.err;
  };
  CHECK(refusal(k_living_room + " --from attic").find("the job has no view \"attic\"\n") != std::string::npos);
  CHECK(refusal(k_living_room + " --mood dinner").find("its moods are \"cleaning\", \"television\", \"evening\"\n") !=
        std::string::npos);
  CHECK(refusal("room.toml --mood dinner").find("add it as [moods.NAME]") != std::string::npos);
  CHECK(refusal("room.toml --picture view.svg").find("--picture view.svg is no PNG file") != std::string::npos);
  CHECK(refusal("room.toml --model room.gltf").find("--model room.gltf is no binary glTF file") != std::string::npos);
  CHECK(refusal("room.toml --width 3 --picture a.png").find("--width") != std::string::npos);
  CHECK(folder.run("evenlit view --help").out.find("Examples:\n  evenlit view scenes/") != std::string::npos);
}
