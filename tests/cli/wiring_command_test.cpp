#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace {

const std::string k_living_room = "'" EVENLIT_SOURCE_DIR "/scenes/living-room.toml'";

}  // namespace

TEST_CASE("wiring: text, CSV, JSON and a sheet of the demo's living room", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit wiring " + k_living_room + " --csv list.csv --json all.json --sheet cables.svg");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  CHECK(run.out.starts_with("Living room: 10 cans on 4 circuits, 1 switch box, "));
  CHECK(run.out.find("\nOrder of work\n") != std::string::npos);
  CHECK(folder.read("list.csv").starts_with("job,item,quantity,unit,price,cost\n\"living-room\","));
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  REQUIRE(json["jobs"].size() == 1);
  CHECK(json["jobs"][0]["circuits"].size() == 4);
  CHECK(json["jobs"][0]["cans_left_out"].empty());
  CHECK(json["jobs"][0]["switch_boxes"][0]["is_too_small"] == false);
  CHECK(folder.read("cables.svg").find(">Living room</text>") != std::string::npos);
}

TEST_CASE("wiring: two jobs stand side by side", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit wiring " + k_living_room + " " + k_living_room);
  CHECK(run.status == 0);
  CHECK(run.out.starts_with("2 jobs side by side.\n"));
}

TEST_CASE("wiring: what cannot be is refused and nothing is written", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const auto refusal = [&](const std::string& arguments) {
    const Run run = folder.run("evenlit wiring " + arguments);
    INFO(arguments);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(folder.files().size() == 1);
    return run.err;
  };
  const std::string& room = k_living_room;
  CHECK(refusal("room.toml --csv list.csv").find("the job has no [wiring]\n") != std::string::npos);
  CHECK(refusal(room + " --width 900").find("--width does nothing without --sheet") != std::string::npos);
  CHECK(refusal(room + " --sheet cables.pdf").find("neither a PNG nor an SVG file") != std::string::npos);
  CHECK(refusal(room + " " + room + " --sheet a.svg").find("--sheet draws one job") != std::string::npos);
  CHECK(refusal(room + " " + room + " " + room).find("more than two job files") != std::string::npos);
  CHECK(folder.run("evenlit wiring --help").out.find("Examples:\n  evenlit wiring scenes/living-room.toml\n") !=
        std::string::npos);
}
