#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "../../photometry/generic_types.hpp"

using namespace evenlit;

namespace {

const std::filesystem::path k_folder = std::filesystem::path(EVENLIT_SOURCE_DIR) / "photometry";

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file.is_open());
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

}  // namespace

TEST_CASE("generic photometry: the files in the folder are those that the program makes", "[photometry][exact]") {
  std::set<std::string> made, found;
  for (const auto& type : generic::types()) {
    CAPTURE(type.name);
    made.insert(type.name + ".ies");
    CHECK(bytes_of(k_folder / (type.name + ".ies")) == generic::file_text(type));
  }
  for (const auto& entry : std::filesystem::directory_iterator(k_folder)) {
    if (entry.path().extension() == ".ies") found.insert(entry.path().filename().string());
  }
  CHECK(found == made);
}

TEST_CASE("generic photometry: the page's figures are those of the files", "[photometry][exact]") {
  const std::string page = bytes_of(k_folder / "README.md");
  CHECK(page.find(generic::table_text()) != page.npos);
  for (const auto& type : generic::types()) {
    CAPTURE(type.name);
    CHECK(page.find("| `" + type.name + ".ies` | " + type.formula) != page.npos);
  }
}

TEST_CASE("generic photometry: every file is read without a warning and holds what it states",
          "[photometry][formula]") {
  for (const auto& type : generic::types()) {
    CAPTURE(type.name);
    const auto read = read_lm63(bytes_of(k_folder / (type.name + ".ies")), type.name);
    REQUIRE(read.has_value());
    CHECK(text_of(read->warnings).empty());
    const auto& file = read->value;
    const auto& d = file.distribution;
    CHECK(file.opening.shape == Opening::Shape::disc);
    CHECK(lamps_of(file).watts == type.watts);
    CHECK_FALSE(lamps_of(file).lumens.has_value());

    // Values are rounded to 0.1 cd: half of it, one way everywhere below the horizontal, would be 2 pi 0.05 = 0.31 lm.
    CHECK(lumens(d) == Approx(type.lumens).epsilon(0).margin(0.32));

    // The formula that the file states, at every tabulated direction: 0.05 cd of rounding (and the double's own).
    const double peak_of_formula = type.relative(1, 1);
    const double i0 = generic::distribution(type).candela(0) / peak_of_formula;
    for (std::size_t j = 0; j < d.c_deg.size(); ++j) {
      for (std::size_t i = 0; i < d.gamma_deg.size(); ++i) {
        const double cos_g = std::cos(d.gamma_deg[i] * std::numbers::pi / 180);
        const double cos_c = std::cos(d.c_deg[j] * std::numbers::pi / 180);
        const double difference = d.candela(i, j) - i0 * type.relative(std::max(0.0, cos_g), cos_c);
        if (std::abs(difference) > 0.05 + 1e-9) FAIL(d.gamma_deg[i] << ", " << d.c_deg[j] << ": " << difference);
      }
    }
  }
}
