#include <catch2/catch.hpp>

#include "drawing/sample_distributions.hpp"
#include "drawing/sheet_checks.hpp"
#include "evenlit/drawing/intensity_diagrams.hpp"
#include "evenlit/photometry/beam.hpp"

using namespace evenlit;

namespace {

// Where a frame is on the sheet, told from its curve: the ends of the range and, below, no light.
struct Frame {
  double left;
  double right;
  double bottom;
};

Frame frame_of(const Stroke& curve) {
  const Eigen::Vector2d first = curve.points.front();
  const Eigen::Vector2d last = curve.points.back();
  return {first.x(), last.x(), first.y()};
}

}  // namespace

TEST_CASE("the linear curve of a cosine is a cosine", "[drawing][exact]") {
  const std::vector<Stroke> curves = sample::curves(linear_diagram(sample::cosine(1000), {}));
  REQUIRE(curves.size() == 1);
  const Frame frame = frame_of(curves[0]);
  double top = frame.bottom;
  for (const Eigen::Vector2d& p : curves[0].points) top = std::min(top, p.y());
  for (const Eigen::Vector2d& p : curves[0].points) {
    const double angle = ((p.x() - frame.left) / (frame.right - frame.left) - 0.5) * std::numbers::pi;
    // the table's interpolation errs by 1e-5 of the peak, 0.005 of 520 units
    CHECK(frame.bottom - p.y() == Approx((frame.bottom - top) * std::cos(angle)).epsilon(0).margin(0.006));
  }
}

TEST_CASE("beam and field are dimensioned where the curve has half and a tenth", "[drawing][exact]") {
  const IntensityDistribution beam = synthetic_beam({900, 60}).value();
  const Drawing drawing = linear_diagram(beam, {});
  CHECK(sample::says(drawing, "beam 60°"));
  CHECK(sample::says(drawing, "field 103°"));
  CHECK(sample::says(drawing, "50 %"));
  CHECK(sample::says(drawing, "10 %"));
  const Stroke curve = sample::curves(drawing).at(0);
  const Frame frame = frame_of(curve);
  std::vector<double> dots_deg;
  for (const Stroke& stroke : sample::all_of_kind<Stroke>(drawing)) {
    if (!stroke.closed) continue;
    Eigen::Vector2d sum(0, 0);
    for (const Eigen::Vector2d& p : stroke.points) sum += p;
    const double x = sum.x() / static_cast<double>(stroke.points.size());
    dots_deg.push_back(180 * ((x - frame.left) / (frame.right - frame.left) - 0.5));
  }
  REQUIRE(dots_deg.size() == 4);
  // rounding only: both come from the same edges
  CHECK(dots_deg[1] - dots_deg[0] == Approx(*spread_angle_deg(beam, 0.1)).epsilon(1e-9));
  CHECK(dots_deg[3] - dots_deg[2] == Approx(*spread_angle_deg(beam, 0.5)).epsilon(1e-9));
}

TEST_CASE("the range of angles is as wide as the light", "[drawing][exact]") {
  const auto widest = [](const IntensityDistribution& distribution) {
    const Drawing drawing = linear_diagram(distribution, {});
    for (const char* label : {"180°", "90°", "60°"}) {
      if (sample::says(drawing, label)) return std::string(label);
    }
    return std::string("30°");
  };
  CHECK(widest(synthetic_beam({600, 10}).value()) == "30°");
  CHECK(widest(sample::constant(55, 100)) == "60°");
  CHECK(widest(sample::cosine(100)) == "90°");
  CHECK(widest(sample::up_and_down()) == "180°");
}

TEST_CASE("a distribution without a beam angle has no dimensions", "[drawing][exact]") {
  const Drawing drawing = linear_diagram(sample::constant(180, 100), {});
  CHECK(sample::says(drawing, "not defined"));
  CHECK(sample::says(drawing, "in all directions"));
  CHECK(sample::all_of_kind<Fill>(drawing).empty());
}

TEST_CASE("every linear diagram is legible and within its sheet", "[drawing][property]") {
  for (const auto& [name, distribution] : sample::distributions()) {
    INFO(name);
    sample::check_sheet(linear_diagram(distribution, {std::string(200, 'M'), std::string(300, 'W')}), 28);
  }
}
