#include "evenlit/drawing/section_drawing.hpp"

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <catch2/catch.hpp>
#include <sstream>

#include "drawing/lit_walls.hpp"
#include "drawing/sheet_checks.hpp"
#include "evenlit/drawing/svg.hpp"
#include "free_space.hpp"

using namespace evenlit;

TEST_CASE("sections: no text lies over another, none is small, none leaves the sheet", "[drawing][property]") {
  for (const sample::LitWalls& room : sample::rooms_of_walls()) {
    for (int can = 0; can < static_cast<int>(room.job.cans.size()); ++can) {
      INFO(room.job.room.name << ", can " << can + 1);
      const Drawing drawing = section_drawing(room.job, room.scene, room.section(can));
      sample::check_sheet(drawing, 18);
      FreeSpace space({{0, 0}, {drawing.width, 0}, {drawing.width, drawing.height}, {0, drawing.height}});
      for (const Text& text : sample::all_of_kind<Text>(drawing)) {
        INFO(text.text);
        CHECK(space.is_free(discs_of(text)));
        space.take(discs_of(text));
      }
      std::istringstream xml(svg(drawing, room.job.room.name));
      boost::property_tree::ptree tree;
      CHECK_NOTHROW(boost::property_tree::read_xml(xml, tree));
    }
  }
}

TEST_CASE("a section says what it shows", "[drawing][exact]") {
  const sample::LitWalls room = sample::furnished_room();
  const Drawing drawing = section_drawing(room.job, room.scene, room.section(4));
  for (const char* said :
       {"Studio", "section through can 5, wall 1 to wall 3  ·  light on the work plane along it", "wall 1", "wall 3",
        "wardrobe", "work plane 2' 6\"", "5", "all cans", "can 5 alone", "beam 60°: half the peak", "fc", "lx"}) {
    INFO(said);
    CHECK(sample::says(drawing, said));
  }
}

TEST_CASE("the light of one can alone is no more than that of all, and all of it where it is the only one",
          "[drawing][property]") {
  const SectionLight of_five = sample::furnished_room().section(4);
  CHECK((of_five.total_lx - of_five.alone_lx).minCoeff() > 0);
  sample::LitWalls dimmed = sample::lit_walls("One", {{0, 0}, {5, 0}, {5, 4}, {0, 4}}, {{2, 1}});
  dimmed.scene.luminaires[0].level = 0.3;
  const SectionLight of_one = dimmed.section(0);
  CHECK((of_one.total_lx - of_one.alone_lx).cwiseAbs().maxCoeff() == 0);
}
