#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace {

const std::string k_family_room = "'" EVENLIT_SOURCE_DIR "/scenes/family-room.toml'";

/// From the header of a PNG: bytes 16 to 19, the highest first (ISO/IEC 15948, 11.2.2).
unsigned png_width(const std::string& bytes) {
  unsigned width = 0;
  for (std::size_t i = 16; i < 20; ++i) width = 256 * width + static_cast<unsigned char>(bytes.at(i));
  return width;
}

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

TEST_CASE("compare: a sheet of plans and a difference map, as PNG and as SVG", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const std::string compare = "evenlit compare room.toml --counts 2,4 ";
  const Run run = folder.run(compare + "--sheet all.png --difference 2,1 --difference-map change.svg");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  CHECK(run.out.find("\n  1* as in the job ") != std::string::npos);
  CHECK(folder.files().size() == 3);
  CHECK(folder.read("all.png").starts_with("\x89PNG"));
  const std::string change = folder.read("change.svg");
  CHECK(change.starts_with("<svg "));
  CHECK(change.find(": layout 1 against layout 2</text>") != std::string::npos);
  // The other way round every sign changes.
  CHECK(folder.run(compare + "--difference 1,2 --difference-map back.svg").status == 0);
  CHECK(folder.read("back.svg").find(": layout 2 against layout 1</text>") != std::string::npos);
  CHECK(folder.run(compare + "--sheet all.svg --width 700 --difference 2,1 --difference-map change.png").status == 0);
  CHECK(folder.read("all.svg").find(">as in the job</text>") != std::string::npos);
  CHECK(png_width(folder.read("change.png")) == 700);
  CHECK(folder.run(compare + "--difference 2,1 --difference-map change.png").status == 0);
  CHECK(png_width(folder.read("change.png")) == 1200);
}

TEST_CASE("compare: pictures that cannot be are refused and nothing is written", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const auto refusal = [&](const std::string& options) {
    const Run run = folder.run("evenlit compare room.toml --counts 2 --csv a.csv " + options);
    INFO(options);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(folder.files().size() == 1);
    return run.err;
  };
  const auto has = [](const std::string& text, const std::string& part) {
    INFO(text);
    CHECK(text.find(part) != std::string::npos);
  };
  const std::string to_file = " --difference-map d.png";
  for (const std::string pair : {"1", "1,2,3", "a,b", "0,1", "1.5,2", "1;2"}) {
    has(refusal("--difference '" + pair + "'" + to_file),
        "is not two numbers of layouts\nhint: write the numbers that stand before two layouts in the table, like "
        "1,4\n");
  }
  has(refusal("--difference 2,2" + to_file), "--difference \"2,2\" names one layout twice\n");
  has(refusal("--difference 1,900" + to_file),
      "--difference 1,900 names a layout that is not there\nhint: the layouts of these counts have the numbers 1 to ");
  has(refusal("--difference 1,2"), "--difference does nothing without --difference-map\n");
  has(refusal("--difference-map d.png"), "--difference-map does nothing without --difference\n");
  has(refusal("--sheet all.pdf"), "--sheet all.pdf is neither a PNG nor an SVG file\n");
  has(refusal("--width 800"), "--width does nothing without --sheet or --difference-map\n");
  has(refusal("--sheet all.png --width 12"), "is not a width in pixels");
  has(refusal("--sheet a.csv.png --difference 1,2 --difference-map a.csv.png"), "a.csv.png");
  has(refusal("--sheet nowhere/all.png"), "nowhere");
}

TEST_CASE("compare: layouts around the island, at a spacing and off the walls as asked", "[cli]") {
  const Folder folder;
  const std::string kitchen = "'" EVENLIT_SOURCE_DIR "/scenes/open-kitchen.toml'";
  const Run run = folder.run("evenlit compare " + kitchen +
                             " --counts 6 --around 'island countertop' --outside 6in --spacing 6ft --wall-offset 24in "
                             "--json all.json");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  std::vector<std::string> names;
  for (const auto& layout : json["layouts"]) names.push_back(layout["name"]);
  const auto row_of = [&](const std::string& name) {
    const auto at = std::ranges::find(names, name);
    REQUIRE(at != names.end());
    return json["layouts"][static_cast<std::size_t>(at - names.begin())];
  };
  // The countertop is 49 in from west to east, 12 in more with both rows 6 in off its edges.
  const auto sides = row_of("2 long sides, 3 each");
  CHECK(sides["spacing_x_m"] == 1.5494);
  CHECK(row_of("4 sides, 2 and 1 each")["cans"] == 6);
  // 14 ft by 18 ft less 2 ft on every side: two steps of 5 ft, three of 4 ft 8 in.
  const auto asked = row_of("4 rows of 3, as asked");
  CHECK(asked["wall_offset_x_m"] == 0.6096);
  CHECK(asked["spacing_x_m"] == 1.524);
  CHECK(json["rules_of_thumb"].size() == 5);
}

TEST_CASE("compare: names that the job does not have are refused with those that it has", "[cli]") {
  const Folder folder;
  const std::string kitchen = "'" EVENLIT_SOURCE_DIR "/scenes/open-kitchen.toml'";
  const Run around = folder.run("evenlit compare " + kitchen + " --around table");
  CHECK(around.status == 2);
  CHECK(around.err.find("--around \"table\": the job has no obstruction of that name") != std::string::npos);
  CHECK(around.err.find("hint: write one of: \"north counter\", \"west counter\"") != std::string::npos);
  const Run about = folder.run("evenlit compare " + k_family_room + " --about fireplace");
  CHECK(about.status == 2);
  CHECK(about.err.find("hint: this job has no obstruction, keep-out, member or wall area") != std::string::npos);
  CHECK(folder.run("evenlit compare " + kitchen + " --outside 6in").err.find("add --around NAME") != std::string::npos);
  CHECK(folder.run("evenlit compare " + kitchen + " --wall-offset 7ft").err.find("14' 0\" across") !=
        std::string::npos);
  const Run odd = folder.run("evenlit compare " + kitchen + " --counts 5 --around 'island countertop'");
  CHECK(odd.status == 2);
  CHECK(odd.err.find("ask for an even count") != std::string::npos);
}

TEST_CASE("compare: layouts about a window of the attic, single cans moved", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit compare '" EVENLIT_SOURCE_DIR
                             "/scenes/attic-bedroom.toml' --counts 4 --about door --move-single --json all.json");
  CHECK(run.status == 0);
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  const auto& even = json["layouts"][1];
  CHECK(even["name"] == "2 rows of 2, even");
  // The door's middle is 5 ft and 16 in from the east wall, 92 in from the west one.
  const double middle_m = (even["positions"][0]["x_m"].get<double>() + even["positions"][1]["x_m"].get<double>()) / 2;
  CHECK(middle_m == Approx(92 * 0.0254).margin(1e-4));
}

TEST_CASE("compare: every layout with each can type asked for", "[cli]") {
  const Folder folder;
  const Run run =
      folder.run("evenlit compare " + k_family_room + " --counts 4 --types four_inch,six_inch --json all.json");
  CHECK(run.status == 0);
  CHECK(run.out.find("layouts of several can types side by side.") != std::string::npos);
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  int even = 0;
  for (const auto& layout : json["layouts"]) {
    if (layout["name"] != "2 rows of 2, even") continue;
    ++even;
    // Prices of the job: $24.50 and $19.00 a can.
    CHECK(layout["cost"] == (layout["type"] == "six_inch" ? 98 : 76));
  }
  CHECK(even == 2);
  const Run only = folder.run("evenlit compare " + k_family_room + " --counts 4 --types four_inch");
  CHECK(only.out.find("Rules of thumb") == std::string::npos);
  const Run unknown = folder.run("evenlit compare " + k_family_room + " --types for_inch");
  CHECK(unknown.status == 2);
  CHECK(unknown.err.find("the job has no can type \"for_inch\"") != std::string::npos);
  CHECK(unknown.err.find("did you mean \"four_inch\"?") != std::string::npos);
}

TEST_CASE("compare and search: what if it turns out otherwise", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit compare " + k_family_room + " --counts 4 --what-if --json all.json");
  CHECK(run.status == 0);
  CHECK(run.out.find("\nWhat if\n") != std::string::npos);
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  for (const auto& layout : json["layouts"]) {
    REQUIRE(layout["what_if"].size() == 5);
    for (const auto& doubted : layout["what_if"]) {
      CHECK(doubted["average_lx"].get<double>() < layout["average_lx"].get<double>());
    }
  }
  const Run search = folder.run("evenlit search " + k_family_room + " --counts 4 --what-if --json found.json");
  CHECK(search.status == 0);
  CHECK(search.out.find("\nWhat if\n") != std::string::npos);
  const auto found = nlohmann::json::parse(folder.read("found.json"));
  CHECK(found["layouts"][0]["what_if"].size() == 5);
}

TEST_CASE("compare: whole jobs side by side", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const Run run = folder.run("evenlit compare room.toml " + k_family_room +
                             " room.toml --csv all.csv --json all.json --sheet all.svg --difference 1,3 "
                             "--difference-map change.svg --what-if");
  CHECK(run.err.empty());
  CHECK(run.status == 0);
  CHECK(run.out.starts_with("3 jobs side by side.\n"));
  CHECK(run.out.find("  2  family-room ") != std::string::npos);
  CHECK(run.out.find("The floors differ") != std::string::npos);
  CHECK(run.out.find("\nWhat if\n") != std::string::npos);
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  REQUIRE(json["jobs"].size() == 3);
  CHECK(json["jobs"][1]["name"] == "family-room");
  CHECK(json["jobs"][1]["cans"] == 8);
  CHECK(json["jobs"][1]["cost"] == 196);
  CHECK(folder.run("evenlit light " + k_family_room + " --json light.json").status == 0);
  const auto light = nlohmann::json::parse(folder.read("light.json"))["results"];
  // Both state an error of some 0.1 %.
  CHECK(json["jobs"][1]["average_lx"].get<double>() == Approx(light["average_lx"].get<double>()).epsilon(0.002));
  CHECK(folder.read("all.csv").find("\n\"family-room\",8,") != std::string::npos);
  CHECK(folder.read("all.svg").find(">family-room, six_inch</text>") != std::string::npos);
  CHECK(folder.read("change.svg").find(": layout 3 against layout 1</text>") != std::string::npos);
}

TEST_CASE("compare: of several jobs what makes layouts is refused, and a difference of unlike points", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const auto refusal = [&](const std::string& options) {
    const Run run = folder.run("evenlit compare room.toml " + k_family_room + " --csv all.csv " + options);
    INFO(options);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(folder.files().size() == 1);
    return run.err;
  };
  for (const std::string option :
       {"counts 4", "types six_inch", "spacing 4ft", "wall-offset 2ft", "about door", "move-single"}) {
    CHECK(
        refusal("--" + option).find(" makes layouts, but several jobs are compared as they are\nhint: leave out --") !=
        std::string::npos);
  }
  CHECK(refusal("--difference 1,2 --difference-map d.png")
            .find("--difference 1,2: the two jobs do not count light at the same points\nhint: give both") !=
        std::string::npos);
  CHECK(refusal("--difference 1,3 --difference-map d.png").find("have the numbers 1 to 2") != std::string::npos);
  CHECK(refusal("nowhere.toml").find("nowhere.toml") != std::string::npos);
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
