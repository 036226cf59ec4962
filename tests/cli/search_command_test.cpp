#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace {

const std::string k_family_room = "'" EVENLIT_SOURCE_DIR "/scenes/family-room.toml'";

}  // namespace

TEST_CASE("search: the demo's room, and the job with the layout found", "[cli]") {
  const Folder folder;
  const Run run = folder.run("evenlit search " + k_family_room + " --counts 6,8 --json all.json --write best.toml");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  CHECK(run.out.find("Family room: the best layouts found.\n") == 0);
  const auto json = nlohmann::json::parse(folder.read("all.json"));
  REQUIRE(json["cheapest_layout"].is_number());
  const auto& best = json["layouts"][json["cheapest_layout"].get<std::size_t>() - 1];

  const Run light = folder.run("evenlit light best.toml --json light.json");
  CHECK(light.status == 0);
  const auto work_plane = nlohmann::json::parse(folder.read("light.json"))["results"];
  // Two runs of the engine, each within its stated error, some tenths of a percent.
  CHECK(work_plane["average_lx"].get<double>() == Approx(best["average_lx"].get<double>()).epsilon(0.005));
  const Run holes = folder.run("evenlit holes best.toml");
  CHECK(holes.status == 0);
  // The same search, the same bytes, on one processor as on all.
  CHECK(folder.run("taskset -c 0 evenlit search " + k_family_room + " --counts 6,8").out == run.out);
}

TEST_CASE("search: types side by side, another layout taken, what cannot be is refused", "[cli]") {
  const Folder folder;
  folder.write("room.toml", sample_job());
  const Run run = folder.run("evenlit search " + k_family_room +
                             " --counts 4 --types six_inch,four_inch --write mine.toml --take 2");
  CHECK(run.status == 0);
  CHECK(run.out.find("four_inch") != std::string::npos);
  CHECK(folder.read("mine.toml").find("[can_types.four_inch]") != std::string::npos);

  const auto refusal = [&](const std::string& options) {
    const Run refused = folder.run("evenlit search room.toml " + options);
    INFO(options << refused.err);
    CHECK(refused.status == 2);
    return refused.err;
  };
  CHECK(refusal("--types nine_inch").find("the job has no can type \"nine_inch\"") != std::string::npos);
  CHECK(refusal("--take 1").find("--take does nothing without --write") != std::string::npos);
  CHECK(refusal("--write new.toml --take 900").find("there is no layout 900") != std::string::npos);
  CHECK(refusal("--counts 9-4").find("is not a list of whole numbers from 1 to 40") != std::string::npos);
  CHECK_FALSE(folder.files().contains("new.toml"));
  const Run help = folder.run("evenlit search --help");
  CHECK(help.out.find("Examples:\n  evenlit search scenes/family-room.toml\n") != std::string::npos);
}

TEST_CASE("search: Ctrl-C ends it with what it has", "[cli]") {
  const Folder folder;
  const Run run = folder.run("timeout --preserve-status -s INT 0.3 evenlit search " + k_family_room + " --counts 1-40");
  // Where the search is done sooner than that, there is nothing to be stopped.
  CHECK(run.status == 0);
  CHECK(run.out.find("How it was searched\n") != std::string::npos);
}
