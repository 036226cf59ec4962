#include <catch2/catch.hpp>

#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

constexpr std::string_view k_view =
    "[[views]]\nname = \"from the corner\"\nfrom = { west = \"1ft\", south = \"1ft\" }\n"
    "looking_at = { from = { west = \"6ft\", south = \"5ft\" }, height = \"3ft\" }\n"
    "[colours]\nwalls = \"#d8c9b0\"\nwall = { north = \"#6F8A86\" }\n";

/// What is wrong with the view when the first `old` in it is replaced.
std::string message(std::string_view old, std::string_view replacement) {
  std::string view(k_view);
  view.replace(view.find(old), old.size(), replacement);
  const auto job = read_job(std::string(k_sample_job) + view, "den.toml");
  REQUIRE_FALSE(job);
  return text_of(job.error());
}

}  // namespace

TEST_CASE("read views: an eye, what it looks at, and the colours it sees", "[job][exact]") {
  const auto job = read_job(std::string(k_sample_job) + std::string(k_view), "den.toml");
  REQUIRE(job);
  REQUIRE(job->views.size() == 1);
  const Viewpoint& view = job->views[0];
  CHECK(view.name == "from the corner");
  CHECK(view.height_m == 1.6);
  CHECK(view.width_deg == 75);
  CHECK(std::get<Spot>(view.at).from[0] == Taped{"west", metres_from_text("6ft").value()});
  CHECK(std::get<Spot>(view.at).height_m == metres_from_text("3ft").value());
  CHECK(job->colours.walls == SurfaceColour{{0xd8, 0xc9, 0xb0}});
  CHECK(wall_colour(*job, *wall_index(job->room, "north")) == SurfaceColour{{0x6f, 0x8a, 0x86}});
  CHECK(wall_colour(*job, *wall_index(job->room, "south")) == job->colours.walls);
}

TEST_CASE("view mistakes: the place, and what to write instead", "[job][exact]") {
  CHECK(
      message("looking_at = { from = { west = \"6ft\", south = \"5ft\" }, height = \"3ft\" }\n", "") ==
      "den.toml:58:1: the view has neither looking nor looking_at\n"
      "hint: write looking = { toward = 45, tilt = -5 }, or looking_at = { from = { west = \"8ft\", south = \"7ft\" }, "
      "height = \"3ft\" }\n");
  CHECK(message("looking_at", "looking = { toward = 3 }\nlooking_at").find("has both looking and looking_at") !=
        std::string::npos);
  CHECK(message("{ west = \"6ft\", south = \"5ft\" }", "{ west = \"1ft\", south = \"1ft\" }") ==
        "den.toml:61:14: the view looks at a point straight above or below its eye\n"
        "hint: look at a point at least 1 cm to the side\n");
  CHECK(message("[colours]", "width = 150\n[colours]").find("view width 150 is above 120 degrees") !=
        std::string::npos);
  CHECK(message("#d8c9b0", "beige") ==
        "den.toml:63:9: walls colour \"beige\" is not understood\n"
        "hint: write red, green and blue as screens have them, two hexadecimal digits each: \"#d8c9b0\"\n");
  CHECK(message("#d8c9b0", "#d8c9bg").find("is not understood") != std::string::npos);
  CHECK(message("north", "nroth").find("nroth") != std::string::npos);
}
