#include <catch2/catch.hpp>

#include "lm63_sample.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

using Shape = Opening::Shape;

/// What a file says about its opening: the shape, and the warning about it without place and line end.
struct Reading {
  Opening opening;
  std::string remark;

  friend bool operator==(const Reading&, const Reading&) = default;
};

Reading reading(const std::string& version, const std::string& sizes) {
  Sample sample;
  sample.version = version + '\n';
  sample.opening = sizes;
  const std::string message = messages_of(sample.text());
  const auto begin = message.find("luminous opening is ");
  if (begin == message.npos) return {file_of(sample.text()).opening, ""};
  return {file_of(sample.text()).opening, message.substr(begin + 20, message.find('\n', begin) - begin - 20)};
}

struct Case {
  std::string sizes;
  Opening opening;
  std::string remark;
};

void check(const std::string& version, const std::vector<Case>& cases) {
  for (const auto& [sizes, opening, remark] : cases) {
    CAPTURE(version, sizes);
    const Reading read = reading(version, sizes);
    CHECK(read.opening == opening);
    CHECK(read.remark == remark);
  }
}

const std::string k_kept = ", of which only the outer sizes are kept";

}  // namespace

TEST_CASE("LM-63-2002 and LM-63-2019: shapes of the luminous opening", "[photometry][published]") {
  // LM-63-2002 table 1.
  for (const std::string version : {"IESNA:LM-63-2002", "IES:LM-63-2019"}) {
    const std::string name = version.substr(version.find("LM"));
    check(version, {{"0 0 0", {}, ""},
                    {"0.3 0.6 0", {Shape::rectangle, 0.3, 0.6, 0}, ""},
                    {"0.3 0 0", {Shape::rectangle, 0.3, 0, 0}, ""},
                    {"0 1.2 0", {Shape::rectangle, 0, 1.2, 0}, ""},
                    {"-0.15 -0.15 0", {Shape::disc, 0.15, 0.15, 0}, ""},
                    {"-0.15 0 0", {Shape::disc, 0.15, 0.15, 0}, "a disc in the manner of another LM-63 version"},
                    {"0.3 0.6 0.1", {Shape::other, 0.3, 0.6, 0.1}, "a box" + k_kept},
                    {"-0.15 -0.3 0", {Shape::other, 0.15, 0.3, 0}, "an ellipse" + k_kept},
                    {"-0.15 -0.15 0.1", {Shape::other, 0.15, 0.15, 0.1}, "a vertical cylinder" + k_kept},
                    {"-0.15 -0.15 -0.15", {Shape::other, 0.15, 0.15, 0.15}, "a sphere or ellipsoid" + k_kept},
                    {"-0.1 0.6 -0.1", {Shape::other, 0.1, 0.6, 0.1}, "a cylinder along C 0" + k_kept},
                    {"0.6 -0.1 -0.1", {Shape::other, 0.6, 0.1, 0.1}, "a cylinder across C 0" + k_kept},
                    {"-0.1 0 -0.1", {Shape::other, 0.1, 0, 0.1}, "a vertical disc" + k_kept},
                    {"-0.15 0.15 0",
                     {Shape::other, 0.15, 0.15, 0},
                     "not one of the shapes of " + name + "; only its outer sizes are kept"},
                    {"0.3 0 0.1",
                     {Shape::other, 0.3, 0, 0.1},
                     "not one of the shapes of " + name + "; only its outer sizes are kept"}});
  }
}

TEST_CASE("LM-63-1995 and before: shapes of the luminous opening", "[photometry][formula]") {
  // The shape table of LM-63-1995, from memory: the same signs mean other shapes than in 2002.
  for (const std::string version : {"IESNA86", "IESNA91", "IESNA:LM-63-1995"}) {
    check(version, {{"0 0 0", {}, ""},
                    {"0.3 0.6 0", {Shape::rectangle, 0.3, 0.6, 0}, ""},
                    {"-0.15 0 0", {Shape::disc, 0.15, 0.15, 0}, ""},
                    {"-0.15 0.15 0", {Shape::disc, 0.15, 0.15, 0}, ""},
                    {"-0.15 -0.15 0", {Shape::disc, 0.15, 0.15, 0}, "a disc in the manner of another LM-63 version"},
                    {"0.3 0.6 0.1", {Shape::other, 0.3, 0.6, 0.1}, "a box" + k_kept},
                    {"-0.15 0 -0.15", {Shape::other, 0.15, 0.15, 0.15}, "a sphere" + k_kept},
                    {"-0.15 0 0.3", {Shape::other, 0.15, 0.15, 0.3}, "a vertical cylinder" + k_kept},
                    {"0 0.6 -0.1", {Shape::other, 0.1, 0.6, 0.1}, "a cylinder along C 0" + k_kept},
                    {"0.6 0 -0.1", {Shape::other, 0.6, 0.1, 0.1}, "a cylinder across C 0" + k_kept},
                    {"-0.15 0.3 0", {Shape::other, 0.15, 0.3, 0}, "an ellipse" + k_kept},
                    {"0.3 -0.15 0", {Shape::other, 0.3, 0.15, 0}, "an ellipse" + k_kept},
                    {"-0.15 0.3 0.1", {Shape::other, 0.15, 0.3, 0.1}, "an elliptical cylinder" + k_kept},
                    {"0.3 -0.15 0.1", {Shape::other, 0.3, 0.15, 0.1}, "an elliptical cylinder" + k_kept},
                    {"-0.1 0.6 -0.1", {Shape::other, 0.1, 0.6, 0.1}, "an ellipsoid" + k_kept},
                    {"0.6 -0.1 -0.1", {Shape::other, 0.6, 0.1, 0.1}, "an ellipsoid" + k_kept}});
  }
}

TEST_CASE("LM-63: sizes in feet become metres", "[photometry][exact]") {
  Sample sample;
  sample.type_and_units = "1 1";
  sample.opening = "1 2 0";
  CHECK(file_of(sample.text()).opening == Opening{Shape::rectangle, 0.3048, 2 * 0.3048, 0});
}
