#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "evenlit/job/read_job.hpp"

using namespace evenlit;

namespace {

const std::filesystem::path k_scenes = std::filesystem::path(EVENLIT_SOURCE_DIR) / "scenes";

std::string content_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file);
  return {std::istreambuf_iterator<char>(file), {}};
}

Job scene(const std::string& name) {
  const auto text = content_of(k_scenes / name);
  const auto job = read_job(text, name);
  INFO((job ? std::string{} : text_of(job.error(), text)));
  REQUIRE(job);
  return *job;
}

void replace(std::string& text, std::string_view old, std::string_view replacement) {
  const auto at = text.find(old);
  REQUIRE(at != std::string::npos);
  text.replace(at, old.size(), replacement);
}

}  // namespace

TEST_CASE("scenes: the demo jobs are read, and the photometric files that they name are there", "[job][exact]") {
  const auto [name, corners, cans] = GENERATE(table<std::string, std::size_t, std::size_t>(
      {{"family-room.toml", 4, 8}, {"l-shaped-den.toml", 6, 7}, {"metric-kitchen.toml", 4, 4}}));
  const auto job = scene(name);
  CHECK(job.room.corners_m.size() == corners);
  CHECK(job.cans.size() == cans);
  for (const auto& type : job.can_types) {
    CAPTURE(type.file);
    CHECK((type.beam || std::filesystem::exists(k_scenes / type.file)));
  }
}

TEST_CASE("scenes: every hole of the demo jobs clears the joists", "[job][exact]") {
  const auto job = scene(GENERATE(as<std::string>{}, "family-room.toml", "l-shaped-den.toml"));
  REQUIRE(job.joists);
  const auto& joists = *job.joists;
  for (const auto& can : job.cans) {
    const auto position = plan_position(job.room, can);
    REQUIRE(position);
    // Both rooms' joist walls run through the origin, along y (west) or along x (south).
    const double from_wall = joists.parallel_to == "west" ? position->x() : position->y();
    const double bays = (from_wall - joists.first_m) / joists.spacing_m;
    const double to_nearest_joist = std::abs(bays - std::round(bays)) * joists.spacing_m;
    const auto type = std::find_if(job.can_types.begin(), job.can_types.end(),
                                   [&](const CanType& candidate) { return candidate.name == can.type; });
    REQUIRE(type != job.can_types.end());
    CHECK(to_nearest_joist > (joists.thickness_m + type->hole_m.value()) / 2);
  }
}

TEST_CASE("scenes: the messages that the README shows are the ones that come", "[job][exact]") {
  auto text = content_of(k_scenes / "family-room.toml");
  replace(text, "ceiling = \"8ft\"       # above the finished floor", "celing = \"8ft\"");
  replace(text, "spacing = \"16in\"", "spacing = 16");
  const auto job = read_job(text, "family-room.toml");
  REQUIRE_FALSE(job);
  CHECK_THAT(content_of(k_scenes / "README.md"), Catch::Contains("```\n" + text_of(job.error(), text) + "```\n"));
}

TEST_CASE("scenes: the README names every key of the demo jobs' tables", "[job][exact]") {
  const auto readme = content_of(k_scenes / "README.md");
  const auto key =
      GENERATE(as<std::string>{}, "units", "target", "name", "width", "depth", "corners", "walls", "ceiling", "floor",
               "wall", "height", "spacing", "margin", "parallel_to", "first", "thickness", "file", "beam", "light_loss",
               "watts", "hole", "opening", "type", "from", "level", "aim", "rotation");
  CHECK_THAT(readme, Catch::Contains("| `" + key + "` |"));
}
