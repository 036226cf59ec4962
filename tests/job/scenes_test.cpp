#include <Eigen/Geometry>
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

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
  const auto [name, corners, obstructions, cans] =
      GENERATE(table<std::string, std::size_t, std::size_t, std::size_t>({{"family-room.toml", 4, 0, 8},
                                                                          {"l-shaped-den.toml", 6, 0, 7},
                                                                          {"metric-kitchen.toml", 4, 0, 4},
                                                                          {"open-kitchen.toml", 4, 7, 9},
                                                                          {"attic-bedroom.toml", 4, 2, 6},
                                                                          {"keeping-room.toml", 4, 0, 7},
                                                                          {"living-room.toml", 4, 4, 10}}));
  const auto job = scene(name);
  CHECK(job.room.corners_m.size() == corners);
  CHECK(job.obstructions.size() == obstructions);
  CHECK(job.cans.size() == cans);
  for (const auto& type : job.can_types) {
    CAPTURE(type.file);
    CHECK((type.beam || std::filesystem::exists(k_scenes / type.file)));
  }
}

TEST_CASE("scenes: every hole of the demo jobs clears the joists", "[job][exact]") {
  const auto job = scene(GENERATE(as<std::string>{}, "family-room.toml", "l-shaped-den.toml", "open-kitchen.toml"));
  REQUIRE(job.joists.size() == 1);
  const auto& joists = job.joists.front();
  for (const auto& can : job.cans) {
    const auto position = plan_position(job.room, can);
    REQUIRE(position);
    // The rooms' joist walls run through the origin, along y (west) or along x (south).
    const double from_wall = joists.parallel_to == "west" ? position->x() : position->y();
    const double bays = (from_wall - joists.first_m) / joists.spacing_m;
    const double to_nearest_joist = std::abs(bays - std::round(bays)) * joists.spacing_m;
    const auto type = std::find_if(job.can_types.begin(), job.can_types.end(),
                                   [&](const CanType& candidate) { return candidate.name == can.type; });
    REQUIRE(type != job.can_types.end());
    if (can.drop_m || can.height_m) continue;  // needs no hole
    CHECK(to_nearest_joist > (joists.thickness_m + type->hole_m.value()) / 2);
  }
}

TEST_CASE("scenes: what stands in the open kitchen is inside of it, and nothing runs into anything", "[job][exact]") {
  const auto job = scene("open-kitchen.toml");
  // Coordinates below 10 m: rounding stays below 1e-12 m, while boxes may touch.
  const Eigen::Vector3d rounding = Eigen::Vector3d::Constant(1e-12);
  const auto& far_corner = job.room.corners_m[2];
  const Eigen::AlignedBox3d room(-rounding,
                                 Eigen::Vector3d(far_corner.x(), far_corner.y(), *job.room.ceiling_m) + rounding);
  std::vector<Eigen::AlignedBox3d> boxes;
  for (const auto& obstruction : job.obstructions) {
    CAPTURE(obstruction.name);
    REQUIRE(obstruction.turn_deg == 0);
    const auto centre = plan_centre(job.room, obstruction);
    REQUIRE(centre);
    const Eigen::Vector2d half = Eigen::Vector2d(obstruction.width_m, obstruction.depth_m) / 2;
    const Eigen::Vector2d low = *centre - half;
    const Eigen::Vector2d high = *centre + half;
    const Eigen::AlignedBox3d box(Eigen::Vector3d(low.x(), low.y(), obstruction.bottom_m) + rounding,
                                  Eigen::Vector3d(high.x(), high.y(), obstruction.top_m) - rounding);
    CHECK(room.contains(box));
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      CAPTURE(job.obstructions[i].name);
      CHECK_FALSE(boxes[i].intersects(box));
    }
    boxes.push_back(box);
  }
}

TEST_CASE("scenes: light in the open kitchen is counted on the countertops", "[job][exact]") {
  const auto job = scene("open-kitchen.toml");
  const auto at_work_height =
      std::count_if(job.obstructions.begin(), job.obstructions.end(),
                    [&](const Obstruction& box) { return box.top_m == job.work_plane.height_m; });
  CHECK(at_work_height == 3);
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
               "watts", "hole", "opening", "type", "from", "level", "aim", "drop", "rotation", "slopes", "pitch",
               "bottom", "top", "turn", "reflectance", "facing", "looking", "clearance", "housing", "rating", "kind",
               "lies", "area", "circuit", "dimmer", "switch", "curve", "low_end", "cut_off", "rated", "ganged",
               "minimum_load", "dimming", "least", "power", "cct", "warm_dim", "power_factor", "levels", "settings",
               "off", "hours", "ratio", "to", "weight", "price", "breaker", "run", "colour", "looking_at", "wire");
  CHECK_THAT(readme, Catch::Contains("| `" + key + "` |"));
}
