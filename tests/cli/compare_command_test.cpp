#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace {

const std::string k_family_room = "'" EVENLIT_SOURCE_DIR "/scenes/family-room.toml'";

}  // namespace

TEST_CASE("compare: the family room's layouts as table, CSV and JSON", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit compare " + k_family_room + " --counts 6,4,6 --csv all.csv --json all.json");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  CHECK(run.out.find("Family room: layouts of \"six_inch\" side by side.\n") == 0);
  CHECK(folder.files().size() == 2);
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  CHECK(json["format"] == "evenlit compare");
  CHECK(json["layouts"][0]["name"] == "as in the job");
  CHECK(json["layouts"][0]["cans"] == 8);
  CHECK(json["layouts"][1]["name"] == "2 rows of 2, even");
  const std::string csv = folder.read("all.csv");
  CHECK(csv.starts_with("layout,cans,"));
  CHECK(static_cast<std::size_t>(std::count(csv.begin(), csv.end(), '\n')) == json["layouts"].size() + 1);
  CHECK(folder.run("evenlit compare " + k_family_room + " --counts 4,6").out == run.out);
}

TEST_CASE("compare: the job's own row says what light says", "[cli]") {
  const Folder folder;
  CHECK(folder.run("evenlit compare " + k_family_room + " --counts 4 --json all.json").status == 0);
  CHECK(folder.run("evenlit light " + k_family_room + " --json light.json").status == 0);
  const auto row = nlohmann::json::parse(folder.read("all.json"))["layouts"][0];
  const auto work_plane = nlohmann::json::parse(folder.read("light.json"))["results"];
  // Both state an error of some 0.1 %.
  CHECK(row["average_lx"].get<double>() == Approx(work_plane["average_lx"].get<double>()).epsilon(0.002));
  CHECK(row["uniformity_minimum_over_average"].get<double>() ==
        Approx(work_plane["uniformity_minimum_over_average"].get<double>()).epsilon(0.005));
}

TEST_CASE("compare: mistakes are refused as by every command", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  for (const std::string counts : {"4,x", "0", "41", "4,,6", "4.5", "4 6"}) {
    const Run run = folder.run("evenlit compare room.toml --csv a.csv --counts '" + counts + "'");
    INFO(counts);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(run.err.find("whole numbers from 1 to 40\nhint: put commas between and no spaces, like 4,6,8,9,12\n") !=
          std::string::npos);
  }
  CHECK(folder.run("evenlit compare room.toml --json room.toml").status == 2);
  CHECK(folder.run("evenlit compare").status == 2);
  CHECK(folder.files().size() == 1);
  CHECK(folder.run("evenlit compare room.toml").status == 0);
  const Run help = folder.run("evenlit compare --help");
  CHECK(help.status == 0);
  CHECK(help.out.find("Examples:\n  evenlit compare scenes/family-room.toml\n") != std::string::npos);
}
