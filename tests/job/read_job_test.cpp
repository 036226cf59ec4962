#include "evenlit/job/read_job.hpp"

#include <catch2/catch.hpp>

#include "evenlit/base/light_units.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

Job job_from(std::string_view text) {
  const auto job = read_job(text, "den.toml");
  INFO((job ? std::string{} : text_of(job.error(), text)));
  REQUIRE(job);
  return *job;
}

const std::string k_can_and_type = R"(
[can_types.a]
beam = { lumens = 900, angle = 60 }
[[cans]]
type = "a"
from = { "WEST" = "1 m", "SOUTH" = "1 m" }
)";

/// A smallest job around a plan; its walls must have the names that the can is measured from.
std::string job_with_room(std::string_view room) {
  return std::string("[room]\nceiling = \"2.4 m\"\n").append(room).append(k_can_and_type);
}

}  // namespace

TEST_CASE("read job: every table arrives in the job", "[job][exact]") {
  const auto job = job_from(k_sample_job);
  CHECK(job.units == Units::imperial);
  CHECK(job.target_lx == 30 * k_lux_per_footcandle);

  CHECK(job.room.name == "Den");
  CHECK(job.room.corners_m == Polygon{{0, 0}, {5.5372, 0}, {5.5372, 3.9624}, {0, 3.9624}});
  CHECK(job.room.wall_names == std::vector<std::string>{"south", "east", "north", "west"});
  CHECK(job.room.ceiling_m == 2.4384);

  CHECK(job.finishes == Finishes{0.2, 0.8, 0.5, {{"south", 0.3}}});
  CHECK(job.work_plane == WorkPlane{0.762, 0.25, 0.1524});
  CHECK(job.joists == std::vector{Joists{"south", 0.2032, 0.4064, 0.0381}});

  REQUIRE(job.can_types.size() == 2);
  const auto& six_inch = job.can_types[0];
  CHECK(six_inch.name == "six_inch");
  CHECK(six_inch.file == "../photometry/six-inch-medium.ies");
  CHECK_FALSE(six_inch.beam.has_value());
  CHECK(six_inch.light_loss_factor == 0.9);
  CHECK(six_inch.watts == 10.5);
  CHECK(six_inch.hole_m == 0.161925);
  CHECK(six_inch.opening == OpeningSize{0.127, 0});
  const auto& spot = job.can_types[1];
  CHECK(spot.name == "spot");
  CHECK(spot.file.empty());
  CHECK(spot.beam == SyntheticBeam{900, 60});
  CHECK(spot.light_loss_factor == 1);
  CHECK_FALSE(spot.watts.has_value());
  CHECK_FALSE(spot.hole_m.has_value());
  CHECK(spot.opening == OpeningSize{0.0508, 0.0762});

  REQUIRE(job.cans.size() == 2);
  CHECK(job.cans[0].type == "six_inch");
  CHECK(job.cans[0].from[0] == Taped{"west", 0.9906});
  CHECK(job.cans[0].from[1] == Taped{"south", 0.9906});
  CHECK(job.cans[0].level == 0.8);
  CHECK(job.cans[0].tilt_deg == 0);
  CHECK(job.cans[1].from[0] == Taped{"north", 1.2192});
  CHECK(job.cans[1].from[1] == Taped{"east", 1.524});
  CHECK(job.cans[1].tilt_deg == 30);
  CHECK(job.cans[1].toward_deg == 90);
  CHECK(job.cans[1].rotation_deg == 15);
  CHECK(job.cans[1].level == 1);

  REQUIRE(job.obstructions.size() == 1);
  const auto& island = job.obstructions[0];
  CHECK(island.name == "island");
  CHECK(island.from[0] == Taped{"west", 1.8288});
  CHECK(island.from[1] == Taped{"south", 1.524});
  CHECK(island.width_m == 2.1336);
  CHECK(island.depth_m == 0.9144);
  CHECK(island.bottom_m == 0.1016);
  CHECK(island.top_m == 0.9144);
  CHECK(island.turn_deg == 30);
  CHECK(island.reflectance == 0.4);
}

TEST_CASE("read job: can types, cans and obstructions remember where they stand", "[job][exact]") {
  const auto job = job_from(k_sample_job);
  CHECK(job.can_types[0].origin.place == Place{"den.toml", 28, 8, 35});
  CHECK(job.can_types[1].origin.place == Place{"den.toml", 34, 1, 16});
  CHECK(job.cans[0].origin.place == Place{"den.toml", 38, 1, 8});
  CHECK(job.cans[1].origin.place == Place{"den.toml", 43, 1, 8});
  CHECK(job.obstructions[0].origin.place == Place{"den.toml", 49, 1, 16});
}

TEST_CASE("read job: what is left out has its default", "[job][exact]") {
  const auto job = job_from(
      "[room]\nwidth = \"4 m\"\ndepth = \"3 m\"\nceiling = \"2.4 m\"\n"
      "[can_types.a]\nfile = \"a.ies\"\n[[cans]]\ntype = \"a\"\nfrom = { west = 0, south = \"1 m\" }\n");
  CHECK(job.units == Units::imperial);
  CHECK_FALSE(job.target_lx.has_value());
  CHECK(job.room.name == "Room");
  CHECK(job.finishes == Finishes{0.2, 0.8, 0.5, {}});
  CHECK(job.work_plane == WorkPlane{0.762, std::nullopt, 0});
  CHECK(job.joists.empty());
  CHECK(job.members.empty());
  CHECK(job.keep_outs.empty());
  CHECK(job.fans.empty());
  CHECK(job.can_types[0].light_loss_factor == 1);
  CHECK(job.cans[0].from[0] == Taped{"west", 0});
  CHECK(job.obstructions.empty());
}

TEST_CASE("read job: joists are 1-1/2 in thick when nothing is said", "[job][exact]") {
  CHECK(job_from(sample_with("thickness = \"1-1/2in\"\n", "")).joists ==
        std::vector{Joists{"south", 0.2032, 0.4064, 0.0381}});
}

TEST_CASE("read job: a byte order mark and carriage returns are fine", "[job][exact]") {
  std::string text = "\xef\xbb\xbf";
  for (const char c : k_sample_job) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
  CHECK(job_from(text) == job_from(k_sample_job));
}

TEST_CASE("read job: corners may run either way round", "[job][exact]") {
  const auto counter_clockwise =
      job_from(job_with_room("corners = [[0, 0], [\"5 m\", 0], [\"5 m\", \"3 m\"], [0, \"4 m\"]]\n"
                             "walls = [\"SOUTH\", \"east\", \"slant\", \"WEST\"]\n"));
  const auto clockwise =
      job_from(job_with_room("corners = [[0, 0], [0, \"4 m\"], [\"5 m\", \"3 m\"], [\"5 m\", 0]]\n"
                             "walls = [\"WEST\", \"slant\", \"east\", \"SOUTH\"]\n"));
  CHECK(counter_clockwise.room.corners_m == Polygon{{0, 0}, {5, 0}, {5, 3}, {0, 4}});
  CHECK(counter_clockwise.room.wall_names == std::vector<std::string>{"SOUTH", "east", "slant", "WEST"});
  CHECK(clockwise.room == counter_clockwise.room);
}

TEST_CASE("read job: walls without names are numbered in the order of the file", "[job][exact]") {
  const auto text = [](std::string_view corners) {
    std::string job = "[room]\nceiling = \"2.4 m\"\ncorners = ";
    job.append(corners).append("\n[can_types.a]\nfile = \"a.ies\"\n[[cans]]\ntype = \"a\"\n");
    return job.append("from = { \"wall 1\" = \"1 m\", \"wall 2\" = \"1 m\" }\n");
  };
  CHECK(job_from(text(R"([[0, 0], ["5 m", 0], [0, "5 m"]])")).room.wall_names ==
        std::vector<std::string>{"wall 1", "wall 2", "wall 3"});
  const auto clockwise = job_from(text(R"([[0, 0], [0, "5 m"], ["5 m", 0]])")).room;
  CHECK(clockwise.corners_m == Polygon{{0, 0}, {5, 0}, {0, 5}});
  CHECK(clockwise.wall_names == std::vector<std::string>{"wall 3", "wall 2", "wall 1"});
}

TEST_CASE("read job: names may hold anything that TOML can", "[job][exact]") {
  const auto job = job_from(sample_with("name = \"Den\"", R"(name = "Mo's \"den\"\n½")"));
  CHECK(job.room.name == "Mo's \"den\"\n½");
}
