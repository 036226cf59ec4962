#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace {

constexpr const char* k_old_file =
    "A lamp of 1986\nTILT=NONE\n1 3000 1 3 1 1 1 0.5 0 0\n1 1 12\n0 45 90\n0\n1000 700 0\n";

struct Refusal {
  std::string command;
  std::string message;
};

void check(const Folder& folder, const Refusal& refusal) {
  CAPTURE(refusal.command);
  const auto before = folder.files();
  const Run run = folder.run(refusal.command);
  CHECK(run.err == refusal.message);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(folder.files() == before);
}

}  // namespace

TEST_CASE("a photometric file: figures, pictures and JSON in one go", "[cli]") {
  const Folder folder;
  folder.write("can.ies", shipped_photometry());
  const Run run = folder.run(
      "evenlit photometry can.ies --json can.json --polar polar.png --linear linear.svg --floor floor.svg --height "
      "9ft");
  CHECK(run.err.empty());
  CHECK(run.status == 0);
  CHECK_THAT(run.out, Catch::StartsWith("can.ies\n") && Catch::Contains("Light leaving the luminaire") &&
                          Catch::Contains("Coefficients of utilization"));
  CHECK_THAT(folder.read("polar.png"), Catch::StartsWith("\x89PNG"));
  CHECK_THAT(folder.read("linear.svg"), Catch::Contains("<svg") && Catch::Contains("can.ies"));
  CHECK_THAT(folder.read("floor.svg"), Catch::Contains("9' 0&quot;") || Catch::Contains("9' 0\""));
  const auto json = nlohmann::json::parse(folder.read("can.json"));
  CHECK(json.at("format") == "evenlit photometry");
  CHECK(json.at("warnings").empty());
}

TEST_CASE("a photometric file: written in another format it says the same", "[cli]") {
  const Folder folder;
  folder.write("can.ies", shipped_photometry());
  CHECK(folder.run("evenlit photometry can.ies --write can.ldt").status == 0);
  CHECK(folder.run("evenlit photometry can.ldt --write again.txt --format LM-63-2019").status == 0);
  CHECK_THAT(folder.read("again.txt"), Catch::StartsWith("IES:LM-63-2019\r\n"));
  const auto light_of = [&](const std::string& name) {
    const std::string out = folder.run("evenlit photometry " + name).out;
    return out.substr(out.find("\nLight\n"), out.find("\nCoefficients") - out.find("\nLight\n"));
  };
  CHECK(light_of("can.ies") == light_of("can.ldt"));
  CHECK(light_of("can.ies") == light_of("again.txt"));
}

TEST_CASE("a photometric file: warnings are listed, and errors when asked to be", "[cli]") {
  const Folder folder;
  folder.write("old.ies", k_old_file);
  const Run lenient = folder.run("evenlit photometry old.ies --json old.json");
  CHECK(lenient.status == 0);
  CHECK_THAT(lenient.out, Catch::EndsWith("Warnings\n"
                                          "  old.ies: no LM-63 version line; read as LM-63-1986\n"));
  const auto warnings = nlohmann::json::parse(folder.read("old.json")).at("warnings");
  REQUIRE(warnings.size() == 1);
  CHECK(warnings[0].at("what") == "no LM-63 version line; read as LM-63-1986");
  check(folder, {"evenlit photometry old.ies --strict", "old.ies: no LM-63 version line; read as LM-63-1986\n"});
}

TEST_CASE("a photometric file: tilt data are found beside it in any case", "[cli]") {
  const Folder folder;
  folder.write("old.ies", std::string(k_old_file).replace(std::string(k_old_file).find("NONE"), 4, "lamp.tlt"));
  CHECK_THAT(folder.run("evenlit photometry old.ies").out, Catch::Contains("tilt file \"lamp.tlt\" is not there"));
  folder.write("LAMP.TLT", "1\n2\n0 90\n0.5 0.25\n");
  const Run run = folder.run("evenlit photometry old.ies --json old.json");
  CHECK_THAT(run.out, !Catch::Contains("tilt file"));
  CHECK(nlohmann::json::parse(folder.read("old.json")).dump().find("0.25") != std::string::npos);
}

TEST_CASE("a photometric file: another flux of the same optic", "[cli]") {
  const Folder folder;
  folder.write("can.ies", shipped_photometry());
  const Run run = folder.run("evenlit photometry can.ies --lumens 1234 --write brighter.ies");
  CHECK_THAT(run.out, Catch::Contains("1230 lm") || Catch::Contains("1234 lm"));
  CHECK_THAT(folder.read("brighter.ies"), Catch::Contains("to 1234.0 lm, same"));
}

TEST_CASE("a photometric file: a wrong command line is refused whole", "[cli]") {
  const Folder folder;
  folder.write("can.ies", shipped_photometry());
  const std::string name = "evenlit photometry: ";
  for (const Refusal& refusal : std::vector<Refusal>{
           {"evenlit photometry",
            name + "no photometric file is named\nhint: name one, like photometry/six-inch-medium.ies\n"},
           {"evenlit photometry can.ies --polar can.jpg",
            name + "--polar can.jpg is neither a PNG nor an SVG file\nhint: end the name in .png or .svg\n"},
           {"evenlit photometry can.ies --turn 45",
            name + "--turn is not a quarter turn\nhint: write 90, 180 or 270\n"},
           {"evenlit photometry can.ies --lumens many",
            name + "--lumens \"many\" is not a number from 1 to 10000000\n"},
           {"evenlit photometry can.ies --write can.ldt --format ies",
            name + "--format ies is not known\nhint: write LM-63-2002, LM-63-2019 or EULUMDAT\n"},
           {"evenlit photometry can.ies --height 9ft",
            name + "--height does nothing without --floor\nhint: add --floor FILE.png\n"},
           {"evenlit photometry can.ies --floor f.png --height 9",
            name +
                "--height \"9\" has no unit\nhint: write feet and inches like 12ft 6-3/8in, or metres like 3.81 m\n"},
           {"evenlit photometry can.ies --lamp-set 2",
            "can.ies: the file has no lamp set 2\nhint: an LM-63 file has one lamp set\n"},
       }) {
    check(folder, refusal);
  }
}

TEST_CASE("a beam by formula becomes a file that reads without a word", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit beam --lumens 900 --angle 60 --field 90 --write can.ies");
  CHECK(run.err.empty());
  CHECK(run.status == 0);
  CHECK_THAT(run.out, Catch::Contains("900 lm") && Catch::Contains("60.0 deg"));
  CHECK(folder.run("evenlit photometry can.ies --strict").status == 0);
}

TEST_CASE("a beam by formula: what is missing or cannot be is refused", "[cli]") {
  const Folder folder;
  check(folder, {"evenlit beam",
                 "evenlit beam: --lumens is missing\nhint: add --lumens 900\n"
                 "evenlit beam: --angle is missing\nhint: add --angle 60\n"});
  check(folder, {"evenlit beam --lumens 900 --angle 60 --peak 20",
                 "evenlit beam: --peak does nothing without --centre\nhint: add --centre 60\n"});
  check(folder, {"evenlit beam --lumens 900 --angle 60 --field 50",
                 "evenlit beam: field angle 50 does not go with a beam angle of 60\n"
                 "hint: a smooth beam has a field angle of 61.8 to 121.2 there\n"});
}

TEST_CASE("a job's can types may scale, turn and choose the lamps of their file", "[cli]") {
  const Folder folder;
  CHECK(folder.run("evenlit beam --lumens 800 --angle 70 --write can.ldt").status == 0);
  const std::string with_file =
      with(sample_job(), "beam = { lumens = 900, angle = 60 }", "file = \"can.ldt\"\nlumens = 400");
  folder.write("room.toml", with_file);
  folder.write("full.toml", with(with_file, "\nlumens = 400", ""));
  const auto average = [&](const std::string& job) {
    CHECK(folder.run("evenlit light " + job + " --json out.json").status == 0);
    return nlohmann::json::parse(folder.read("out.json")).at("results").at("average_lx").get<double>();
  };
  CHECK(average("room.toml") == Approx(average("full.toml") / 2).epsilon(1e-5));  // six digits
  folder.write("set.toml", with(with_file, "lumens = 400", "lamp_set = 3"));
  CHECK_THAT(folder.run("evenlit light set.toml").err, Catch::Contains("lamp set"));
}
