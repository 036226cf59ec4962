#include "evenlit/report/cautions.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

using namespace evenlit;

TEST_CASE("the cautions name what can hurt", "[report][exact]") {
  std::string all;
  for (const std::string_view caution : cautions()) {
    CHECK(caution.ends_with('.'));
    all += caution;
  }
  for (const char* danger : {"calculation", "licensed electrician", "local code", "joists, wires, pipes",
                             "prove it dead", "insulation", "ladder"}) {
    CHECK(all.find(danger) != std::string::npos);
  }
}

TEST_CASE("each step of the work has its own cautions", "[report][exact]") {
  const auto all = [](Step step) {
    std::string text;
    for (const std::string_view caution : cautions(step)) {
      CHECK(caution.ends_with('.'));
      text += caution;
    }
    return text;
  };
  CHECK(all(Step::marking).find("ladder") != std::string::npos);
  for (const char* danger : {"pilot hole", "Never cut, notch or drill a joist, a truss", "asbestos or lead", "eyes"}) {
    CHECK(all(Step::cutting).find(danger) != std::string::npos);
  }
  for (const char* danger : {"proven on a live source before and after", "licensed electrician", "local code"}) {
    CHECK(all(Step::wiring).find(danger) != std::string::npos);
  }
}

TEST_CASE("who lives in the room is told who must do the work", "[report][exact]") {
  std::string all;
  for (const std::string_view caution : owner_cautions()) {
    CHECK(caution.ends_with('.'));
    all += caution;
  }
  for (const char* word : {"licensed electrician", "permit", "local code", "asbestos", "ladders"}) {
    CHECK(all.find(word) != std::string::npos);
  }
}
