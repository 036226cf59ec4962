#include "evenlit/photometry/write_photometric_file.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <map>
#include <random>
#include <sstream>

#include "evenlit/photometry/read_photometric_file.hpp"
#include "evenlit/photometry/synthetic.hpp"

using namespace evenlit;

namespace {

constexpr PhotometricFormat k_formats[] = {PhotometricFormat::lm63_2002, PhotometricFormat::lm63_2019,
                                           PhotometricFormat::eulumdat};

/// Six digits of the largest intensity: half a unit of the last is at most 5e-6 of it; EULUMDAT rounds once more where
/// it divides by the flux.
constexpr double k_number_format = 6e-6;

PhotometricFile read_back(const std::string& bytes) {
  const auto read = read_photometric_file(bytes, "written");
  INFO((read ? text_of(read->warnings) : text_of(read.error())));
  REQUIRE(read);
  CHECK(text_of(read->warnings) == "");
  return read->value;
}

PhotometricFile named(IntensityDistribution distribution) {
  PhotometricFile file;
  file.keywords = {{"TEST", "1"}, {"TESTLAB", "none"}, {"ISSUEDATE", "none"}, {"MANUFAC", "none"}};
  file.distribution = std::move(distribution);
  return file;
}

/// The largest difference over random directions, as a fraction of the peak.
double difference(const IntensityDistribution& a, const IntensityDistribution& b) {
  std::mt19937 random(11);
  std::normal_distribution<double> normal;
  double worst = 0;
  for (int i = 0; i < 5000; ++i) {
    const Eigen::Vector3d direction(normal(random), normal(random), normal(random));
    worst = std::max(worst, std::abs(intensity_toward(a, direction) - intensity_toward(b, direction)));
  }
  return worst / a.candela.maxCoeff();
}

/// Random intensities in planes that the symmetry carries onto each other.
IntensityDistribution random_planes(const std::vector<double>& c_deg, const std::function<double(double)>& fold) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> candela(0, 900);
  IntensityDistribution d{{0, 10, 32.5, 60, 90, 140, 180}, c_deg, {}};
  d.candela.resize(7, std::ssize(c_deg));
  std::map<double, Eigen::ArrayXd> by_plane;
  for (Eigen::Index j = 0; j < d.candela.cols(); ++j) {
    const double plane = fold(c_deg[j]);
    if (!by_plane.contains(plane)) {
      by_plane[plane] = Eigen::ArrayXd::NullaryExpr(7, [&] { return candela(random); });
      by_plane[plane][0] = 500;
      by_plane[plane][6] = 20;
    }
    d.candela.col(j) = by_plane[plane];
  }
  return d;
}

double about_c0(double c) { return c > 180 ? 360 - c : c; }
double about_c90(double c) {
  // From -90 to 90.
  return c > 90 && c <= 270 ? 180 - c : c > 270 ? c - 360 : c;
}
double quadrant(double c) { return about_c0(c) > 90 ? 180 - about_c0(c) : about_c0(c); }

/// What the warnings of writing say; they have no place but the file.
std::string whats(const Problems& warnings) {
  std::string text;
  for (const Problem& warning : warnings) text += warning.what + '\n';
  return text;
}

std::size_t lines_of(const std::string& bytes) { return std::ranges::count(bytes, '\n'); }

}  // namespace

TEST_CASE("what is written reads back as the same distribution", "[photometry][property]") {
  const auto format = GENERATE(from_range(std::begin(k_formats), std::end(k_formats)));
  CAPTURE(name_of(format));
  const std::vector<double> even{0, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330, 360};
  const std::vector<double> uneven{0, 7, 100, 180, 260, 353, 360};
  const std::vector<double> without_axes{0, 45, 135, 225, 315, 360};
  const std::vector<double> lopsided{0, 80, 90, 100, 180, 270, 360};
  const auto none = [](double c) { return c == 360 ? 0 : c; };
  for (const auto& d :
       {random_planes({0}, none), random_planes(even, none), random_planes(uneven, none), random_planes(even, about_c0),
        random_planes(uneven, about_c0), random_planes(even, about_c90), random_planes(lopsided, about_c90),
        random_planes(even, quadrant), random_planes(without_axes, quadrant)}) {
    const auto made = photometric_bytes(named(d), format);
    CHECK(text_of(made.warnings) == "");
    CHECK(difference(d, read_back(made.value).distribution) <= k_number_format);
  }
}

TEST_CASE("tables that end early are written to their ends", "[photometry][property]") {
  const auto format = GENERATE(from_range(std::begin(k_formats), std::end(k_formats)));
  const auto ends =
      GENERATE(std::pair{20.0, 65.0}, std::pair{0.0, 50.0}, std::pair{90.0, 180.0}, std::pair{95.0, 120.0});
  IntensityDistribution d{{ends.first, (ends.first + ends.second) / 2, ends.second}, {0}, Eigen::ArrayXXd(3, 1)};
  d.candela << 500, 700, 300;
  CHECK(difference(d, read_back(photometric_bytes(named(d), format).value).distribution) <= k_number_format);
}

TEST_CASE("what was read from a written file is written as the same bytes again", "[photometry][property]") {
  const auto format = GENERATE(from_range(std::begin(k_formats), std::end(k_formats)));
  const auto beam = synthetic_file({.lumens = 870, .beam_angle_deg = 60, .batwing = Batwing{20, 0.7}}).value();
  const std::string once = photometric_bytes(beam, format).value;
  CHECK(photometric_bytes(read_back(once), format).value == once);
}

TEST_CASE("symmetry is written once", "[photometry][exact]") {
  const std::vector<double> even{0, 30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330, 360};
  const auto bytes_of = [](const IntensityDistribution& d) {
    return photometric_bytes(named(d), PhotometricFormat::eulumdat).value;
  };
  // 26 lines, 6 of the lamp set, 10 direct ratios, C and G angles, planes x angles.
  CHECK(lines_of(bytes_of(random_planes({0}, [](double) { return 0; }))) == 26 + 6 + 10 + 1 + 7 + 1 * 7);
  CHECK(lines_of(bytes_of(random_planes(even, quadrant))) == 26 + 6 + 10 + 12 + 7 + 4 * 7);
  CHECK(lines_of(bytes_of(random_planes(even, about_c0))) == 26 + 6 + 10 + 12 + 7 + 7 * 7);
  CHECK(lines_of(bytes_of(random_planes(even, about_c90))) == 26 + 6 + 10 + 12 + 7 + 7 * 7);
  const auto lm63 = photometric_bytes(named(random_planes(even, quadrant)), PhotometricFormat::lm63_2002).value;
  CHECK(lm63.find("\r\n0 30 60 90\r\n") != lm63.npos);
}

TEST_CASE("formats convert into each other and keep every intensity", "[photometry][property]") {
  for (const auto& entry : std::filesystem::directory_iterator(EVENLIT_SOURCE_DIR "/photometry")) {
    if (entry.path().extension() != ".ies") continue;
    CAPTURE(entry.path());
    std::ifstream in(entry.path(), std::ios::binary);
    const std::string original((std::istreambuf_iterator<char>(in)), {});
    const auto file = read_photometric_file(original, "original.ies").value().value;
    const auto ldt = read_back(photometric_bytes(file, PhotometricFormat::eulumdat).value);
    const auto back = read_back(photometric_bytes(ldt, PhotometricFormat::lm63_2019).value);
    CHECK(difference(file.distribution, ldt.distribution) <= k_number_format);
    CHECK(difference(file.distribution, back.distribution) <= 2 * k_number_format);
    CHECK(lumens(back.distribution) == Approx(lumens(file.distribution)).epsilon(1e-5));
    CHECK(lamps_of(back).watts == lamps_of(file).watts);
    // EULUMDAT has tenths of millimetres.
    CHECK(back.opening.shape == file.opening.shape);
    CHECK(back.opening.width_m == Approx(file.opening.width_m).margin(5.1e-5));
    CHECK(back.opening.length_m == Approx(file.opening.length_m).margin(5.1e-5));
    CHECK(keyword(back, "LUMINAIRE") == keyword(file, "LUMINAIRE").substr(0, 78));
  }
}

TEST_CASE("types A and B are written as themselves where the format has them", "[photometry][property]") {
  IntensityDistribution d = random_planes({-90, -45, 0, 45, 90}, [](double c) { return c; });
  d.axis = GENERATE(IntensityDistribution::Axis::vertical, IntensityDistribution::Axis::along_c0);
  const auto made = photometric_bytes(named(d), PhotometricFormat::lm63_2002);
  CHECK(text_of(made.warnings) == "");
  CHECK(read_back(made.value).distribution.axis == d.axis);
  CHECK(difference(d, read_back(made.value).distribution) <= k_number_format);
  // Mirrored halves come once.
  IntensityDistribution mirrored = random_planes({-90, -45, 0, 45, 90}, [](double c) { return std::abs(c); });
  mirrored.axis = d.axis;
  const auto half = photometric_bytes(named(mirrored), PhotometricFormat::lm63_2002);
  CHECK(half.value.find("\r\n0 45 90\r\n") != half.value.npos);
  CHECK(difference(mirrored, read_back(half.value).distribution) <= k_number_format);
}

TEST_CASE("planes that the format does not have are tabulated anew, with a word", "[photometry][exact]") {
  IntensityDistribution b = random_planes({-90, -45, 0, 45, 90}, [](double c) { return std::abs(c); });
  b.axis = IntensityDistribution::Axis::along_c0;
  b.candela.col(0) = 0;
  b.candela.col(4) = 0;
  b.candela.row(0) = 0;
  b.candela.row(6) = 0;
  const auto made = photometric_bytes(named(b), PhotometricFormat::eulumdat);
  CHECK_THAT(whats(made.warnings),
             Catch::StartsWith("EULUMDAT has no such planes: tabulated anew every degree around the vertical, up to "));
  // Bilinear over cells of a degree of a table with slopes of up to 10 % of the peak a degree.
  CHECK(difference(b, read_back(made.value).distribution) <= 0.05);
  CHECK(lumens(read_back(made.value).distribution) == Approx(lumens(b)).epsilon(2e-3));
}

TEST_CASE("texts, lamps, tilt data and sizes survive", "[photometry][exact]") {
  PhotometricFile file = named(random_planes({0}, [](double) { return 0; }));
  file.keywords.emplace_back("LUMINAIRE", std::string(50, 'a') + ' ' + std::string(50, 'b') + " end");
  file.keywords.emplace_back("_NOTE", std::string(200, 'x'));
  file.keywords.emplace_back("", "free text");
  file.lamp_sets = {{.lamps = 2, .lumens = 6000, .watts = 31.5}};
  file.opening = {Opening::Shape::rectangle, 0.3, 1.2, 0};
  file.tilt = TiltData{2, {0, 45, 90}, {1, 0.9, 0.85}};
  const auto made = photometric_bytes(file, PhotometricFormat::lm63_2002);
  std::istringstream lines(made.value);
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 132);
  const PhotometricFile back = read_back(made.value);
  CHECK(keyword(back, "LUMINAIRE") == keyword(file, "LUMINAIRE"));
  std::string note(keyword(back, "_NOTE"));
  std::erase(note, ' ');
  CHECK(note == std::string(200, 'x'));
  CHECK(keyword(back, "OTHER") == "free text");
  CHECK(back.lamp_sets == file.lamp_sets);
  CHECK(back.opening == file.opening);
  CHECK(back.tilt == file.tilt);
}

TEST_CASE("what has no place in the format is told", "[photometry][exact]") {
  PhotometricFile file;
  file.distribution = random_planes({0}, [](double) { return 0; });
  file.keywords = {{"TEST", "1"}, {"TESTLAB", "none"}, {"ISSUEDATE", "none"}, {"LUMINAIRE", "Decken\xC3\xA4uge"}};
  file.opening = {Opening::Shape::other, 0.1, 0.1, 0.05};
  const auto made = photometric_bytes(file, PhotometricFormat::lm63_2002);
  CHECK(whats(made.warnings) ==
        "no [MANUFAC] is known, which LM-63 requires: written as unknown\n"
        "letters beyond ASCII are written as ?\n"
        "the luminous opening is written as a box of its outer sizes\n");
  CHECK(made.value.find("[LUMINAIRE] Decken?uge\r\n") != made.value.npos);
  file.tilt = TiltData{1, {0}, {1}};
  file.keywords.emplace_back("LUMCAT", std::string(100, 'y'));
  CHECK(whats(photometric_bytes(file, PhotometricFormat::eulumdat).warnings) ==
        "EULUMDAT has no tilt factors: they are left out\n"
        "texts longer than EULUMDAT has room for are cut\n");
}

// LM-63-19, 5.13 (read at second hand): the third decimal of the file generation type says that the lumens are scaled.
TEST_CASE("another flux of the same optic is recorded", "[photometry][formula]") {
  PhotometricFile measured = named(random_planes({0}, [](double) { return 0; }));
  measured.generation = 10000;
  measured.lamp_sets = {{.lamps = 1, .lumens = 6000, .watts = 20}};
  const double before_lm = lumens(measured.distribution);
  const PhotometricFile brighter = rescaled(measured, 2 * before_lm);
  CHECK(lumens(brighter.distribution) == Approx(2 * before_lm).epsilon(1e-14));
  CHECK(lamps_of(brighter).lumens == 12000);
  CHECK_FALSE(lamps_of(brighter).watts);
  CHECK(brighter.generation == 10100);
  CHECK(rescaled(brighter, 100).generation == 10100);
  CHECK_THAT(std::string(keyword(brighter, "OTHER")), Catch::StartsWith("Intensities multiplied by 2: from "));
  const auto back = read_back(photometric_bytes(brighter, PhotometricFormat::lm63_2019).value);
  CHECK(back.generation == 10100);
  CHECK(keyword(back, "OTHER") == keyword(brighter, "OTHER"));
}
