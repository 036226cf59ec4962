#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "program.hpp"

TEST_CASE("room: a demo as text and JSON", "[cli]") {
  const Folder folder;
  const std::string job = "'" EVENLIT_SOURCE_DIR "/scenes/living-room.toml'";
  const Run run = folder.run("evenlit room " + job + " --json room.json");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  const auto json = nlohmann::json::parse(folder.read("room.json"));
  CHECK(json["format"] == "evenlit room");
  CHECK(json["cans"].size() == 10);
  CHECK(json["switches"].size() == 1);
  CHECK(json["can_types"][0]["file"].is_string());
  CHECK(folder.run("evenlit room " + job).out == run.out);
}

TEST_CASE("room: mistakes are refused as by every command", "[cli]") {
  const Folder folder;
  folder.write("room.toml", with(sample_job(), "[work_plane]", "[[members]]\nname = \"beam\"\n[work_plane]"));
  const Run run = folder.run("evenlit room room.toml --json room.json");
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(folder.files().size() == 1);
  CHECK(folder.run("evenlit room").status == 2);
  CHECK(folder.run("evenlit room --help").out.find("Examples:\n  evenlit room ") != std::string::npos);
}
