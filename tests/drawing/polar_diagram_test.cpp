#include <catch2/catch.hpp>

#include "drawing/sample_distributions.hpp"
#include "drawing/sheet_checks.hpp"
#include "evenlit/drawing/intensity_diagrams.hpp"

using namespace evenlit;

namespace {

// Of the lower half: where its rays meet, and the radius of its outermost ring.
const Eigen::Vector2d k_centre(600, 236);
constexpr double k_radius = 460;

}  // namespace

TEST_CASE("the polar curve of a cosine is a circle through the origin", "[drawing][exact]") {
  const Drawing drawing = polar_diagram(sample::cosine(1000), {"Cosine", ""});
  const std::vector<Stroke> curves = sample::curves(drawing);
  REQUIRE(curves.size() == 1);
  REQUIRE(curves[0].points.size() > 300);
  const Eigen::Vector2d middle = k_centre + Eigen::Vector2d(0, k_radius / 2);
  for (const Eigen::Vector2d& p : curves[0].points) {
    // The ring of 1000 cd is the outermost. Tabulated every half degree, 1000 cos errs by at most
    // 1000 (0.5 deg)^2 / 8 = 0.01 cd, which is 0.005 units.
    CHECK((p - middle).norm() == Approx(k_radius / 2).epsilon(0).margin(0.005));
  }
  CHECK(sample::says(drawing, "1000"));
  CHECK(sample::says(drawing, "cd"));
  CHECK(sample::says(drawing, "straight down"));
  CHECK(sample::says(drawing, "120°"));  // 2 acos(1/2)
  CHECK(sample::says(drawing, "169°"));  // 2 acos(1/10) = 168.52
}

TEST_CASE("corners of the table are corners of the polar curve", "[drawing][exact]") {
  const IntensityDistribution kite{{0, 17.3, 90}, {0}, (Eigen::ArrayXXd(3, 1) << 400, 500, 0).finished()};
  const std::vector<Stroke> curves = sample::curves(polar_diagram(kite, {}));
  REQUIRE(curves.size() == 1);
  double farthest = 0;
  for (const Eigen::Vector2d& p : curves[0].points) farthest = std::max(farthest, (p - k_centre).norm());
  CHECK(farthest == Approx(k_radius).epsilon(1e-12));  // the ring of 500 cd, rounding only
}

TEST_CASE("a symmetric distribution has a symmetric polar curve", "[drawing][property]") {
  for (const auto& [name, distribution] : sample::distributions()) {
    if (name == "thrown to C 90" || name == "type B") continue;
    INFO(name);
    for (const Stroke& curve : sample::curves(polar_diagram(distribution, {}))) {
      const std::size_t points = curve.points.size();
      for (std::size_t i = 0; i < points; ++i) {
        const Eigen::Vector2d a = curve.points[i];
        const Eigen::Vector2d b = curve.points[points - 1 - i];
        // rounding of coordinates below 2000
        REQUIRE(a.x() - 600 == Approx(600 - b.x()).margin(1e-9));
        REQUIRE(a.y() == Approx(b.y()).margin(1e-9));
      }
    }
  }
}

TEST_CASE("light thrown to C 90 is on the right, dashed, and named", "[drawing][exact]") {
  const Drawing drawing = polar_diagram(sample::thrown_to_c90(), {});
  const std::vector<Stroke> curves = sample::curves(drawing);
  REQUIRE(curves.size() == 2);
  CHECK(curves[0].dash.empty());
  CHECK_FALSE(curves[1].dash.empty());
  const auto farthest_x = [](const Stroke& curve, double side) {
    double farthest = 0;
    for (const Eigen::Vector2d& p : curve.points) farthest = std::max(farthest, side * (p.x() - 600));
    return farthest;
  };
  CHECK(farthest_x(curves[1], 1) > 10 * farthest_x(curves[1], -1));
  for (const char* label : {"C0 – C180", "C90 – C270", "C0", "C90", "C180", "C270", "at 35°, C90"}) {
    CHECK(sample::says(drawing, label));
  }
}

TEST_CASE("only the halves that have light are shown", "[drawing][exact]") {
  const auto angles = [](const IntensityDistribution& distribution) {
    const Drawing drawing = polar_diagram(distribution, {});
    return std::pair{sample::says(drawing, "0°"), sample::says(drawing, "180°")};
  };
  const auto up = sample::tabulated(180, [](double gamma, double) { return 500 * std::max(0.0, -std::cos(gamma)); });
  CHECK(angles(sample::cosine(700)) == std::pair(true, false));
  CHECK(angles(up) == std::pair(false, true));
  CHECK(angles(sample::up_and_down()) == std::pair(true, true));
  CHECK(angles(sample::constant(90, 0)) == std::pair(true, false));
}

TEST_CASE("planes that do not differ share a line, which says so", "[drawing][exact]") {
  const auto square = sample::tabulated(
      90, [](double gamma, double c) { return 300 * std::cos(gamma) * (1 + 0.3 * std::sin(gamma) * std::cos(4 * c)); });
  const Drawing drawing = polar_diagram(square, {});
  CHECK(sample::curves(drawing).size() == 1);
  CHECK(sample::says(drawing, "C0 – C180 and C90 – C270 alike"));
  CHECK(sample::says(polar_diagram(sample::cosine(100), {}), "all planes alike"));
}

TEST_CASE("every polar diagram is legible and within its sheet", "[drawing][property]") {
  for (const auto& [name, distribution] : sample::distributions()) {
    INFO(name);
    sample::check_sheet(polar_diagram(distribution, {std::string(200, 'M'), std::string(300, 'W')}), 28);
  }
}
