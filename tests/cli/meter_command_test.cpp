#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "program.hpp"

namespace {

const std::string k_family_room = "'" EVENLIT_SOURCE_DIR "/scenes/family-room.toml'";
const std::string k_readings = "'" EVENLIT_SOURCE_DIR "/scenes/family-room-readings.csv'";

}  // namespace

TEST_CASE("meter: text, JSON and CSV of the demo's family room", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit meter " + k_family_room + " " + k_readings + " --json all.json --csv all.csv");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  CHECK(run.out.starts_with("Family room, the cans' own levels: 10 readings, meter within 10 %.\n"));
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  // The readings were made with can 4 at 40 %, the floor at 0.28 and all light 9 % up.
  CHECK(json["readings"][3]["name"] == "desk");
  CHECK(json["readings"][3]["suspect"]["can"] == 4);
  CHECK(json["fitted_surfaces"]["factor"]["least"] < 1.09);
  CHECK(json["fitted_surfaces"]["factor"]["most"] > 1.09);
  CHECK(json["fitted_surfaces"]["floor"]["reflectance"]["value"].get<double>() == Approx(0.28).margin(0.03));
  CHECK(folder.read("all.csv").find("\n\"desk\",7,21.50,") == std::string::npos);
  CHECK(folder.read("all.csv").find("\n\"desk\",7,231.4,21.50,") != std::string::npos);
  std::istringstream lines(run.out);
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
  // The same on one processor as on all.
  CHECK(folder.run("taskset -c 0 evenlit meter " + k_family_room + " " + k_readings).out == run.out);
}

TEST_CASE("meter: a better meter tells more", "[cli]") {
  const Folder folder;
  const auto width = [&](const std::string& accuracy) {
    CHECK(folder.run("evenlit meter " + k_family_room + " " + k_readings + " --meter '" + accuracy + "' --json a.json")
              .status == 0);
    const auto factor = nlohmann::json::parse(folder.read("a.json"))["fitted_surfaces"]["factor"];
    return factor["most"].get<double>() - factor["least"].get<double>();
  };
  CHECK(width("3 %") < width("10 %"));
  CHECK(width("0.1") == width("10 %"));
}

TEST_CASE("meter: in a mood the cans are at its levels", "[cli]") {
  const Folder folder;
  folder.write("night.csv",
               "wall,distance,wall,distance,height,reading\nwest,5ft,south,5ft,30in,20 fc\n"
               "west,8ft,south,5ft,30in,20 fc\n");
  const std::string living_room = "'" EVENLIT_SOURCE_DIR "/scenes/living-room.toml' night.csv";
  const auto predicted = [&](const std::string& mood) {
    const Run run = folder.run("evenlit meter " + living_room + " --mood " + mood + " --json a.json");
    CHECK(run.status == 0);
    CHECK(run.out.find("mood " + mood) != std::string::npos);
    CHECK(run.out.find("night.csv:3: 2 of the readings can be compared") != std::string::npos);
    return nlohmann::json::parse(folder.read("a.json"))["readings"][0]["predicted_lx"].get<double>();
  };
  CHECK(predicted("evening") < predicted("cleaning"));
  const Run run = folder.run("evenlit meter " + living_room + " --mood noon");
  CHECK(run.status == 2);
  CHECK(run.err.find("the job has no mood \"noon\"") != std::string::npos);
}

TEST_CASE("meter: what cannot be is refused and nothing is written", "[cli]") {
  const Folder folder;
  folder.write("night.csv", "point,reading\nchair,300 lx\n");
  const auto refusal = [&](const std::string& arguments) {
    const Run run = folder.run("evenlit meter " + arguments + " --json a.json");
    INFO(arguments);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(folder.files().size() == 1);
    return run.err;
  };
  const auto has = [](const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
  };
  CHECK(has(refusal(k_family_room), "two files are needed, a job and a table of readings"));
  CHECK(has(refusal(k_family_room + " night.csv night.csv"), "two files are needed, a job and a table of readings"));
  CHECK(has(refusal(""), "no job file is named"));
  CHECK(has(refusal(k_family_room + " missing.csv"), "missing.csv"));
  CHECK(has(refusal(k_family_room + " night.csv --meter 0"), "--meter \"0\" is no accuracy of a meter"));
  CHECK(has(refusal(k_family_room + " night.csv --meter '60 %'"), "--meter \"60 %\" is no accuracy of a meter"));
  CHECK(has(refusal(k_family_room + " night.csv"),
            "night.csv:2:1: the job has no point \"chair\"\n"
            "    2 | chair,300 lx\n"
            "      | ^~~~~\n"));
  const Run help = folder.run("evenlit meter --help");
  CHECK(help.status == 0);
  CHECK(help.out.find("Examples:\n  evenlit meter scenes/family-room.toml") != std::string::npos);
}
