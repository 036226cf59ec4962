#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numeric>
#include <sstream>

#include "decoded_png.hpp"
#include "program.hpp"

namespace {

const std::string k_all_outputs = " --map map.png --csv grid.csv --json room.json --per-can";

std::string demo(const std::string& name) { return "'" EVENLIT_SOURCE_DIR "/scenes/" + name + ".toml'"; }

int lines_in(const std::string& text) { return static_cast<int>(std::count(text.begin(), text.end(), '\n')); }

}  // namespace

TEST_CASE("every demo scene gives a table and all three files", "[cli]") {
  const auto* const scene = GENERATE("family-room", "l-shaped-den", "metric-kitchen", "open-kitchen");
  CAPTURE(scene);
  const Folder folder;
  const Run run = folder.run("evenlit light " + demo(scene) + k_all_outputs + " --width 640");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  CHECK(run.out.find("Illuminance on the work plane\n  Target ") != std::string::npos);
  CHECK(run.out.find("\nVerdict\n  Target ") != std::string::npos);

  const auto files = folder.files();
  REQUIRE(files.size() == 3);
  CHECK(decoded_png(files.at("map.png")).width == 640);

  const auto report = nlohmann::json::parse(files.at("room.json"));
  const auto lux = report["grid"]["illuminance_lx"].get<std::vector<double>>();
  const std::string& csv = files.at("grid.csv");
  CHECK(csv.substr(0, csv.find('\n')) == "x_m,y_m,height_m,illuminance_lx,illuminance_fc,direct_lx,error_lx");
  CHECK(lines_in(csv) == 1 + static_cast<int>(lux.size()));

  // Six significant digits are printed, of values below 1000 lx: each may be off by 0.0005 lx, and so may the average.
  REQUIRE(*std::ranges::max_element(lux) < 1000);
  const double mean = std::accumulate(lux.begin(), lux.end(), 0.0) / static_cast<double>(lux.size());
  CHECK(std::abs(report["results"]["average_lx"].get<double>() - mean) <= 0.001);
}

TEST_CASE("without options a map is 1200 pixels wide, and nothing else is written", "[cli]") {
  const Folder folder;
  CHECK(folder.run("evenlit light " + demo("metric-kitchen") + " --map map.png").status == 0);
  REQUIRE(folder.files().size() == 1);
  CHECK(decoded_png(folder.read("map.png")).width == 1200);
}

TEST_CASE("the map's colour scale ends where --top says", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  CHECK(folder.run("evenlit light room.toml --map a.png --top '40 fc'").status == 0);
  CHECK(folder.run("evenlit light room.toml --map b.png --top '80 fc'").status == 0);
  CHECK(folder.run("evenlit light room.toml --map c.png '--top=40 fc'").status == 0);
  CHECK(folder.read("a.png") != folder.read("b.png"));
  CHECK(folder.read("a.png") == folder.read("c.png"));
}

TEST_CASE("walls and a section are drawn as their files' names end", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const std::string light = "evenlit light room.toml ";
  CHECK(folder.run(light + "--map a.svg --elevations walls.png --section cut.svg --width 640").status == 0);
  CHECK(folder.files().size() == 4);
  CHECK(folder.read("a.svg").find("</svg>") != std::string::npos);
  CHECK(folder.read("cut.svg").find(">section through can 1, ") != std::string::npos);
  CHECK(decoded_png(folder.read("walls.png")).width == 640);
  CHECK(folder.run(light + "--section same.svg --through 1").status == 0);
  CHECK(folder.read("same.svg") == folder.read("cut.svg"));
  CHECK(folder.run(light + "--elevations b.png --top '90 fc'").status == 0);
  CHECK(folder.run(light + "--elevations c.png --top '95 fc'").status == 0);
  CHECK(folder.read("b.png") != folder.read("c.png"));
  check_refused(folder, "room.toml --section d.png --through 2",
                "room.toml: --through 2: there is no such can\n"
                "hint: the job's cans have the numbers 1 to 1, in the order in which they are written\n");
}

TEST_CASE("only --per-can writes each can's light", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  CHECK(folder.run("evenlit light room.toml --json total.json && evenlit light room.toml --json cans.json --per-can")
            .status == 0);
  const auto total = nlohmann::json::parse(folder.read("total.json"));
  const auto cans = nlohmann::json::parse(folder.read("cans.json"));
  CHECK_FALSE(total["cans"][0].contains("full_level_direct_lx"));
  CHECK(cans["cans"][0]["full_level_direct_lx"].size() == cans["grid"]["x_m"].size());
}

TEST_CASE("task areas, points and surfaces stand in the table, the JSON and a CSV of their own", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job() +
                                "\n[[task_areas]]\nname = \"desk\"\nfrom = { west = \"1ft\", south = \"2ft\" }\n"
                                "width = \"5ft\"\ndepth = \"30in\"\n"
                                "\n[[points]]\nname = \"view\"\nfrom = { west = \"3ft\", south = \"4ft\" }\n"
                                "height = \"4ft\"\nlooking = { toward = 90 }\n");
  const Run plain = folder.run("evenlit light room.toml");
  CHECK(plain.status == 0);
  CHECK(plain.out.find("\nTask areas ") != std::string::npos);
  CHECK(plain.out.find("luminance of north\n") != std::string::npos);
  CHECK(plain.out.find("\nSurfaces ") == std::string::npos);
  const Run full = folder.run("evenlit light room.toml --surfaces --readings readings.csv --json room.json");
  CHECK(full.status == 0);
  CHECK(full.out.find("\nSurfaces ") != std::string::npos);
  const auto json = nlohmann::json::parse(folder.read("room.json"));
  CHECK(json["task_areas"][0]["name"] == "desk");
  CHECK(json["points"][0]["surface"] == "north");
  CHECK(json["surfaces"].size() == 6);
  CHECK(lines_in(folder.read("readings.csv")) == 1 + 1 + 1 + 6);
}

TEST_CASE("the same job gives the same bytes", "[cli][exact]") {
  const auto* const scene = GENERATE("family-room", "l-shaped-den");
  CAPTURE(scene);
  const std::string command = "evenlit light " + demo(scene) + k_all_outputs;
  const Folder first;
  const Folder second;
  const Run once = first.run(command);
  const Run again = second.run(command);
  REQUIRE(once.status == 0);
  CHECK(once.out == again.out);
  CHECK(first.files() == second.files());
}

TEST_CASE("one thread and many give the same bytes", "[cli][exact]") {
  const Folder many;
  const Folder one;
  if (one.run("taskset -c 0 true").status != 0) {
    WARN("skipped: taskset cannot pin this process to one processor");
    return;
  }
  const std::string command = "evenlit light " + demo("l-shaped-den") + k_all_outputs;
  const Run on_many = many.run(command);
  const Run on_one = one.run("taskset -c 0 " + command);
  REQUIRE(on_many.status == 0);
  CHECK(on_many.out == on_one.out);
  CHECK(many.files() == one.files());
}

TEST_CASE("file names may hold spaces, quotes, other alphabets and a leading dash", "[cli]") {
  const Folder folder;
  const std::string name = GENERATE(as<std::string>(), "a room.toml", "it's \"mine\".toml", "-room.toml", "--map.toml",
                                    "Küche 厨房.toml", "a;b&c.toml");
  CAPTURE(name);
  folder.write(name, sample_job());
  std::string shell_name;
  for (const char c : name) shell_name += c == '\'' ? std::string("'\\''") : std::string(1, c);
  const Run run = folder.run("evenlit light './" + shell_name + "' --map './" + shell_name + ".png' && " +
                             "evenlit light --csv='" + shell_name + ".csv' -- '" + shell_name + "'");
  CHECK(run.err.empty());
  CHECK(run.status == 0);
  const auto files = folder.files();
  CHECK(files.size() == 3);
  CHECK(files.contains(name + ".png"));
  CHECK(files.contains(name + ".csv"));
}

TEST_CASE("an output may have the longest name that a folder allows", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const std::string name = std::string(251, 'm') + ".csv";  // 255 bytes: NAME_MAX of Linux, <limits.h>
  CHECK(folder.run("evenlit light room.toml --csv " + name).status == 0);
  CHECK(folder.files().contains(name));
}

TEST_CASE("a finished output replaces an older file", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  folder.write("grid.csv", "old");
  CHECK(folder.run("evenlit light room.toml --csv grid.csv").status == 0);
  CHECK(folder.read("grid.csv").starts_with("x_m,y_m"));
  CHECK(folder.files().size() == 2);
}

TEST_CASE("a photometric file is found beside its job, wherever the command is run", "[cli]") {
  const Folder folder;
  std::filesystem::create_directories(folder.path() / "jobs/light");
  folder.write("jobs/light/can.ies", shipped_photometry());
  folder.write("jobs/room.toml", with(sample_job(), "beam = { lumens = 900, angle = 60 }", "file = \"light/can.ies\""));
  CHECK(folder.run("evenlit light jobs/room.toml").status == 0);
  CHECK(folder.run("cd jobs/light && evenlit light ../room.toml").status == 0);
}

TEST_CASE("light: the floor's colours alone, with their scale, quickly", "[cli]") {
  const Folder folder;
  const std::string light = "evenlit light " + demo("metric-kitchen");
  REQUIRE(folder.run(light + " --json usual.json").status == 0);
  REQUIRE(folder.run(light + " --quick --floor floor.png --width 300 --json quick.json").status == 0);
  CHECK(decoded_png(folder.read("floor.png")).width == 300);
  const auto usual = nlohmann::json::parse(folder.read("usual.json"));
  const auto quick = nlohmann::json::parse(folder.read("quick.json"));
  CHECK(quick["scale"][0]["lx"] == 0);
  CHECK(quick["scale"].size() > 2);
  // Both are within what they say of their own error.
  const double error_lx =
      usual["results"]["average_error_lx"].get<double>() + quick["results"]["average_error_lx"].get<double>();
  CHECK(std::abs(quick["results"]["average_lx"].get<double>() - usual["results"]["average_lx"].get<double>()) <=
        error_lx);
  CHECK(folder.run(light + " --quick --fine").status == 2);
  CHECK(folder.run(light + " --floor floor.svg").status == 2);
}
