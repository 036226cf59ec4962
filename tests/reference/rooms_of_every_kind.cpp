#include "rooms_of_every_kind.hpp"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "evenlit/photometry/synthetic.hpp"
#include "field/rooms.hpp"

namespace evenlit::reference {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

constexpr double k_work_plane_m = 0.762;
constexpr double k_eye_m = 1.2;
const Vector3d k_up = Vector3d::UnitZ();

Opening disc(double diameter_m) {
  return {.shape = Opening::Shape::disc, .width_m = diameter_m, .length_m = diameter_m, .height_m = 0};
}

Opening rectangle(double length_m, double width_m) {
  return {.shape = Opening::Shape::rectangle, .width_m = width_m, .length_m = length_m, .height_m = 0};
}

IntensityDistribution beam(double lumens, double beam_angle_deg) {
  return *synthetic_beam({.lumens = lumens, .beam_angle_deg = beam_angle_deg});
}

/// Half the light below the horizontal, half above.
IntensityDistribution down_and_up(double down_cd, double up_cd) {
  return testing::tabulated(
      [=](double gamma) { return std::cos(gamma) > 0 ? down_cd * std::cos(gamma) : -up_cd * std::cos(gamma); }, 180,
      2.5);
}

/// A table in whole degrees that holds nearly all its light within 10 degrees, as narrow spots are published.
IntensityDistribution spot_of_ten_degrees() {
  IntensityDistribution spot{
      .gamma_deg = {0, 1, 2, 3, 4, 5, 6, 7, 8, 10, 15, 30, 90}, .c_deg = {0}, .candela = Eigen::ArrayXXd(13, 1)};
  spot.candela << 9000, 8700, 7900, 6700, 5500, 4500, 3100, 1900, 900, 300, 80, 20, 0;
  return spot;
}

/// Thrown to the side of C 0, within 60 degrees: planes every 15 degrees, vertical angles every 5.
IntensityDistribution wall_wash(double peak_cd) {
  IntensityDistribution wash{.gamma_deg = {}, .c_deg = {}, .candela = Eigen::ArrayXXd(19, 25)};
  for (int i = 0; i < 19; ++i) wash.gamma_deg.push_back(5.0 * i);
  for (int j = 0; j < 25; ++j) wash.c_deg.push_back(15.0 * j);
  for (int j = 0; j < 25; ++j) {
    for (int i = 0; i < 19; ++i) {
      const double gamma = wash.gamma_deg[i] * std::numbers::pi / 180;
      const double c = wash.c_deg[j % 24] * std::numbers::pi / 180;
      const double fall = i < 12 ? std::pow(std::cos(1.5 * gamma), 1.5) : 0;
      wash.candela(i, j) = peak_cd * fall * (0.5 + 0.5 * std::sin(gamma) * std::cos(c));
    }
  }
  return wash;
}

/// Planes that share the axis along C 0: a long luminaire, narrow across.
IntensityDistribution trough(double peak_cd) {
  IntensityDistribution table{.gamma_deg = {},
                              .c_deg = {-90, -60, -30, -15, 0, 15, 30, 60, 90},
                              .candela = Eigen::ArrayXXd(19, 9),
                              .axis = IntensityDistribution::Axis::along_c0};
  const Eigen::Array<double, 1, 9> across{0, 0.1, 0.5, 0.9, 1, 0.9, 0.5, 0.1, 0};
  for (int i = 0; i < 19; ++i) {
    table.gamma_deg.push_back(10.0 * i);
    table.candela.row(i) = i % 18 == 0 ? 0 * across : peak_cd * std::sin(i * std::numbers::pi / 18) * across;
  }
  return table;
}

/// Builds a sample room, part by part.
class Builder {
 public:
  Builder(std::string name, const Polygon& plan_m, double ceiling_m, const testing::Reflectances& reflectances = {})
      : room_{std::move(name), testing::room_over(plan_m, ceiling_m, reflectances), {}} {}

  /// The distribution of the luminaires that follow.
  Builder& with(IntensityDistribution distribution, const Opening& opening = {}) {
    room_.scene.distributions.push_back(std::move(distribution));
    opening_ = opening;
    return *this;
  }
  Builder& luminaire(const Vector3d& at, double tilt_deg = 0, double toward_deg = 0, double rotation_deg = 0) {
    room_.scene.luminaires.push_back({.position_m = at,
                                      .room_from_luminaire = room_from_luminaire(tilt_deg, toward_deg, rotation_deg),
                                      .opening = opening_,
                                      .distribution = static_cast<int>(room_.scene.distributions.size()) - 1});
    return *this;
  }
  Builder& cans(const std::vector<Vector2d>& places) {
    for (const auto& place : places) luminaire({place.x(), place.y(), room_.scene.ceiling.highest_m});
    return *this;
  }

  /// A box over a rectangle of the plan, then turned about its centre.
  Builder& box(const Vector2d& low, const Vector2d& high, double bottom_m, double top_m, double reflectance = 0.5,
               double turn_deg = 0) {
    const double turn = turn_deg * std::numbers::pi / 180;
    boxes_.push_back({.name = "box " + std::to_string(boxes_.size() + 1),
                      .centre_m = (low + high) / 2,
                      .half_m = (high - low) / 2,
                      .along = {std::cos(turn), std::sin(turn)},
                      .bottom_m = bottom_m,
                      .top_m = top_m,
                      .reflectance = reflectance});
    return *this;
  }

  Builder& at(const Vector3d& point, const Vector3d& normal = k_up) {
    room_.receivers.push_back({point, normal.normalized()});
    return *this;
  }
  Builder& on_work_plane(const std::vector<Vector2d>& places) {
    for (const auto& place : places) at({place.x(), place.y(), k_work_plane_m});
    return *this;
  }
  /// An upright facet at eye height.
  Builder& facing(const Vector2d& place, const Vector2d& toward) {
    return at({place.x(), place.y(), k_eye_m}, {toward.x(), toward.y(), 0});
  }
  Builder& on_ceiling(const Vector2d& place) {
    return at({place.x(), place.y(), room_.scene.ceiling.highest_m}, -k_up);
  }

  SampleRoom done() {
    place_boxes(room_.scene, std::move(boxes_));
    return std::move(room_);
  }

 private:
  SampleRoom room_;
  std::vector<Box> boxes_;
  Opening opening_;
};

Polygon rectangle_plan(double x_m, double y_m) { return {{0, 0}, {x_m, 0}, {x_m, y_m}, {0, y_m}}; }

SampleRoom plain_bedroom() {
  return Builder("rectangle", rectangle_plan(4.4, 3.7), 2.5)
      .with(beam(650, 60), disc(0.15))
      .cans({{0.9, 0.9}, {2.2, 0.9}, {3.5, 0.9}, {0.9, 2.8}, {2.2, 2.8}, {3.5, 2.8}})
      .on_work_plane({{2.2, 1.85}, {0.5, 0.4}, {4.2, 2.0}})
      .facing({2.2, 1.85}, {1, 0})
      .at({0, 1.1, 1.5}, {1, 0, 0})
      .on_ceiling({2.0, 2.1})
      .at({0.05, 0.05, 0})
      .done();
}

SampleRoom l_shaped_den() {
  return Builder("L", {{0, 0}, {5.6, 0}, {5.6, 2.7}, {3.1, 2.7}, {3.1, 5.0}, {0, 5.0}}, 2.45)
      .with(beam(700, 75), disc(0.12))
      .cans({{0.9, 0.9}, {2.6, 0.9}, {4.6, 1.2}, {1.4, 4.1}})
      .on_work_plane({{3.05, 2.75}, {5.2, 0.5}, {1.5, 4.7}, {1.6, 2.4}})
      .facing({4.4, 2.0}, {-1, 1})
      .at({3.1, 4.0, 1.0}, {-1, 0, 0})
      .at({4.0, 2.7, 2.2}, {0, -1, 0})
      .on_ceiling({2.7, 2.2})
      .done();
}

SampleRoom u_shaped_suite() {
  return Builder("U", {{0, 0}, {6.2, 0}, {6.2, 4.4}, {4.1, 4.4}, {4.1, 1.9}, {2.2, 1.9}, {2.2, 4.4}, {0, 4.4}}, 2.4)
      .with(beam(800, 90))
      .cans({{1.1, 3.4}, {3.1, 0.9}})  // the right arm gets reflected light alone at its end
      .on_work_plane({{1.1, 1.2}, {5.2, 1.0}, {5.2, 4.0}, {3.1, 1.5}})
      .facing({5.2, 2.8}, {0, -1})
      .at({4.1, 3.5, 1.4}, {1, 0, 0})
      .on_ceiling({5.0, 3.0})
      .done();
}

SampleRoom t_shaped_hall() {
  return Builder("T", {{0, 2.1}, {2.0, 2.1}, {2.0, 0}, {4.3, 0}, {4.3, 2.1}, {6.4, 2.1}, {6.4, 4.2}, {0, 4.2}}, 2.6)
      .with(beam(900, 55), disc(0.18))
      .cans({{1.0, 3.1}, {3.2, 3.1}, {5.4, 3.1}, {3.2, 0.8}})
      .on_work_plane({{3.2, 1.9}, {0.4, 2.4}, {2.1, 0.3}, {6.0, 3.9}})
      .facing({3.2, 2.6}, {0, 1})
      .at({2.0, 1.0, 1.3}, {1, 0, 0})
      .at({1.0, 2.1, 0.6}, {0, 1, 0})
      .on_ceiling({2.0, 2.9})
      .done();
}

SampleRoom room_with_bay() {
  return Builder("bay", {{0, 0}, {4.1, 0}, {5.0, 0.9}, {5.0, 2.3}, {4.1, 3.2}, {0, 3.2}}, 2.55, {0.25, 0.75, 0.55})
      .with(beam(600, 70), disc(0.1))
      .cans({{1.0, 1.6}, {2.6, 1.6}, {4.3, 1.6}})
      .on_work_plane({{4.6, 1.6}, {2.0, 0.6}, {0.2, 3.0}})
      .facing({3.4, 1.6}, {1, 1})
      .at({4.55, 0.45, 1.4}, {-1, 1, 0})
      .at({5.0, 1.0, 0.8}, {-1, 0, 0})
      .on_ceiling({4.5, 1.1})
      .done();
}

SampleRoom walk_in_closet() {
  return Builder("closet", rectangle_plan(1.3, 0.95), 2.4, {0.3, 0.8, 0.7})
      .with(beam(900, 110), rectangle(0.3, 0.3))
      .cans({{0.65, 0.5}})
      .on_work_plane({{0.65, 0.5}, {0.1, 0.1}})
      .facing({0.5, 0.4}, {1, 0})
      .at({0, 0.5, 2.2}, {1, 0, 0})
      .at({0.7, 0.95, 0.4}, {0, -1, 0})
      .on_ceiling({0.2, 0.2})
      .done();
}

SampleRoom assembly_hall() {
  Builder hall("hall", rectangle_plan(15, 9.6), 3.4, {0.2, 0.75, 0.5});
  hall.with(beam(1500, 80), disc(0.2));
  for (int column = 0; column < 6; ++column) {
    for (int row = 0; row < 4; ++row) hall.cans({{1.25 + 2.5 * column, 1.2 + 2.4 * row}});
  }
  return hall.on_work_plane({{7.5, 4.8}, {0.6, 0.6}, {12.2, 8.9}})
      .facing({7.5, 2.0}, {0, -1})
      .at({15, 4.0, 2.0}, {-1, 0, 0})
      .on_ceiling({6.0, 5.0})
      .done();
}

SampleRoom furnished_living_room() {
  return Builder("furnished", rectangle_plan(5.2, 4.3), 2.5)
      .with(beam(700, 65), disc(0.15))
      .cans({{1.2, 1.1}, {4.0, 1.1}, {1.2, 3.2}, {4.0, 3.2}})
      .box({1.6, 1.3}, {3.1, 2.2}, 0, 0.42, 0.4, 27)     // low table, turned
      .box({3.6, 2.2}, {4.9, 3.9}, 0.7, 0.76, 0.6, -12)  // table top that hangs free
      .box({0, 2.0}, {0.4, 4.0}, 0, 2.05, 0.3)           // bookcase on the wall
      .box({0.4, 3.3}, {0.9, 4.3}, 0, 0.9, 0.5)          // chest beside it
      .on_work_plane({{2.6, 3.4}, {3.4, 0.6}})
      .at({2.35, 1.75, 0.42})        // on the low table
      .at({4.25, 3.05, 0})           // on the floor under the table top
      .at({4.25, 3.05, 0.7}, -k_up)  // on its underside
      .at({0.65, 3.8, 0.9})          // on the chest
      .facing({0.7, 1.6}, {0, 1})
      .at({0.4, 2.6, 1.5}, {1, 0, 0})  // on the bookcase
      .at({0, 4.15, 1.2}, {1, 0, 0})   // in the gap behind it
      .on_ceiling({2.6, 2.1})
      .done();
}

SampleRoom kitchen() {
  return Builder("kitchen", rectangle_plan(4.6, 3.9), 2.5, {0.3, 0.8, 0.6})
      .with(beam(650, 60), disc(0.12))
      .cans({{1.3, 1.2}, {3.2, 1.2}, {1.3, 2.6}, {3.2, 2.6}})
      .box({0, 3.28}, {4.6, 3.9}, 0, 0.91, 0.55)     // counter along the north wall
      .box({0, 0.8}, {0.62, 3.28}, 0, 0.91, 0.55)    // and along the west wall
      .box({0, 3.57}, {3.4, 3.9}, 1.37, 2.13, 0.7)   // wall cabinets
      .box({0, 3.5}, {4.6, 3.9}, 2.13, 2.5, 0.6)     // soffit, deeper than they are
      .box({3.9, 3.2}, {4.6, 3.9}, 0, 1.8, 0.4)      // refrigerator, through the counter
      .box({1.6, 1.3}, {3.2, 2.2}, 0, 0.91, 0.45)    // island
      .box({1.5, 1.2}, {3.3, 2.3}, 0.91, 0.95, 0.3)  // its top
      .at({2.4, 1.75, 0.95})
      .at({0.3, 2.0, 0.91})
      .at({2.0, 3.75, 0.91})            // on the counter, under the cabinets
      .at({2.0, 3.9, 1.1}, {0, -1, 0})  // on the wall behind them
      .at({3.65, 3.75, 1.37}, k_up)
      .at({2.0, 3.57, 1.8}, {0, -1, 0})  // on a cabinet's front
      .at({2.4, 2.7, 0})                 // on the floor behind the island
      .at({1.6, 1.7, 0.4}, {-1, 0, 0})   // on the island's side, below its top
      .facing({2.3, 2.8}, {0, 1})
      .on_ceiling({2.2, 1.9})
      .done();
}

SampleRoom tray_ceiling() {
  return Builder("tray", rectangle_plan(5.0, 4.2), 2.75, {0.25, 0.8, 0.6})
      .box({0, 0}, {5.0, 0.6}, 2.45, 2.75, 0.8)
      .box({0, 3.6}, {5.0, 4.2}, 2.45, 2.75, 0.8)
      .box({0, 0.6}, {0.6, 3.6}, 2.45, 2.75, 0.8)
      .box({4.4, 0.6}, {5.0, 3.6}, 2.45, 2.75, 0.8)
      .with(beam(800, 85), disc(0.15))
      .luminaire({1.5, 2.1, 2.75})
      .luminaire({3.5, 2.1, 2.75})
      .with(beam(500, 50), disc(0.1))
      .luminaire({0.3, 0.3, 2.45})
      .luminaire({4.7, 3.9, 2.45})
      .on_work_plane({{2.5, 2.1}, {0.3, 2.0}, {4.5, 0.5}})
      .facing({2.5, 1.2}, {-1, 0})
      .at({2.5, 0.6, 2.6}, {0, 1, 0})  // inside the tray
      .at({2.5, 0.3, 2.45}, -k_up)     // under its rim
      .at({5.0, 2.0, 2.3}, {-1, 0, 0})
      .on_ceiling({2.5, 1.0})
      .done();
}

SampleRoom counter_with_strip() {
  return Builder("under-cabinet strip", rectangle_plan(3.2, 2.6), 2.4)
      .box({0.4, 2.0}, {2.8, 2.6}, 0, 0.9, 0.5)
      .box({0.6, 2.25}, {2.6, 2.6}, 1.4, 2.1, 0.6)
      .with(trough(220), rectangle(0.9, 0.04))
      .luminaire({1.6, 2.4, 1.4})
      .at({1.6, 2.3, 0.9})
      .at({2.4, 2.1, 0.9})
      .at({1.6, 2.6, 1.1}, {0, -1, 0})
      .on_work_plane({{1.6, 1.0}})
      .at({1.6, 1.8, 0})  // in the counter's shadow
      .facing({1.6, 1.2}, {0, 1})
      .at({1.6, 2.25, 1.7}, {0, -1, 0})
      .on_ceiling({1.6, 1.3})
      .done();
}

SampleRoom dining_room_with_pendants() {
  return Builder("pendants", rectangle_plan(4.2, 3.4), 2.7)
      .box({1.1, 1.2}, {3.1, 2.2}, 0.7, 0.75, 0.35)
      .with(down_and_up(260, 140), disc(0.25))
      .luminaire({1.5, 1.7, 1.65})
      .luminaire({2.7, 1.7, 1.65})
      .at({2.1, 1.7, 0.75})
      .at({2.1, 1.7, 0})
      .on_work_plane({{0.4, 0.4}, {3.7, 1.7}})
      .facing({2.1, 0.6}, {0, 1})
      .at({0, 1.7, 1.9}, {1, 0, 0})
      .on_ceiling({2.1, 1.7})
      .done();
}

SampleRoom room_lit_from_the_ceiling() {
  return Builder("uplights", rectangle_plan(4.0, 3.2), 2.6)
      .box({0, 1.2}, {0.35, 2.0}, 0, 1.9, 0.4)
      .with(beam(2500, 100), rectangle(0.25, 0.1))
      .luminaire({0.2, 1.6, 1.9}, 180)  // on the cupboard
      .luminaire({3.6, 0.5, 1.8}, 160, 135)
      .on_work_plane({{2.0, 1.6}, {0.7, 2.7}, {3.6, 2.9}})
      .facing({2.0, 1.6}, {-1, 0})
      .at({0.35, 1.6, 1.0}, {1, 0, 0})
      .at({4.0, 2.0, 1.2}, {-1, 0, 0})
      .on_ceiling({2.0, 1.6})
      .done();
}

SampleRoom washed_wall() {
  return Builder("tilted wall-wash", rectangle_plan(4.8, 3.6), 2.6)
      .with(wall_wash(900), disc(0.15))
      .luminaire({0.9, 1.0, 2.56}, 30, 180, 180)
      .luminaire({0.9, 2.6, 2.56}, 30, 180, 180)
      .with(wall_wash(600), rectangle(0.2, 0.1))
      .luminaire({3.0, 0.8, 2.6}, 0, 0, 270)
      .at({0, 1.8, 1.5}, {1, 0, 0})
      .at({0, 1.0, 2.3}, {1, 0, 0})
      .at({3.0, 0, 1.6}, {0, 1, 0})
      .on_work_plane({{2.4, 1.8}, {0.4, 3.2}})
      .facing({3.0, 2.0}, {-1, 0.3})
      .on_ceiling({2.4, 2.0})
      .done();
}

SampleRoom gallery_of_narrow_beams() {
  return Builder("narrow beams", rectangle_plan(4.0, 3.0), 2.6, {0.3, 0.7, 0.5})
      .with(beam(500, 24), disc(0.1))
      .cans({{1.0, 0.8}, {3.0, 0.8}, {1.0, 2.2}})
      .luminaire({3.0, 2.2, 2.56}, 40, 90)
      .on_work_plane({{1.0, 0.8}, {1.35, 0.8}, {2.0, 1.5}})
      .facing({2.0, 1.5}, {0, 1})
      .at({3.0, 3.0, 1.65}, {0, -1, 0})
      .at({1.0, 1.5, 0})
      .on_ceiling({2.0, 1.5})
      .done();
}

SampleRoom spots_of_ten_degrees() {
  return Builder("tabulated 10-degree spots", rectangle_plan(2.8, 2.2), 2.5, {0.4, 0.7, 0.5})
      .with(spot_of_ten_degrees(), disc(0.1))
      .cans({{0.7, 0.7}, {1.4, 0.7}, {2.1, 0.7}, {0.7, 1.5}, {1.4, 1.5}, {2.1, 1.5}})
      .on_work_plane({{0.7, 0.7}, {1.05, 0.7}, {1.05, 1.1}})
      .facing({1.05, 1.1}, {1, 0})
      .at({2.8, 1.1, 1.0}, {-1, 0, 0})
      .on_ceiling({1.4, 1.1})
      .done();
}

SampleRoom bright_studio() {
  return Builder("high reflectances", {{0, 0}, {4.2, 0}, {4.2, 2.2}, {3.0, 3.4}, {0, 3.4}}, 2.6, {0.85, 0.92, 0.9})
      .with(beam(500, 70), disc(0.12))
      .cans({{1.2, 1.0}, {3.0, 1.2}, {1.2, 2.5}})
      .box({1.8, 1.6}, {2.4, 2.2}, 0, 0.9, 0.9, 45)
      .on_work_plane({{0.3, 0.3}, {3.2, 2.2}})
      .at({2.1, 1.9, 0.9})
      .at({2.2, 2.7, 0})
      .facing({1.0, 1.7}, {1, 0})
      .at({3.6, 2.8, 1.2}, {-1, -1, 0})
      .on_ceiling({2.0, 1.2})
      .done();
}

SampleRoom black_box() {
  return Builder("black", rectangle_plan(4.0, 4.0), 2.8, {0, 0, 0})
      .box({1.6, 1.0}, {2.4, 3.0}, 0, 1.1, 0, 35)
      .with(beam(1000, 80), disc(0.3))
      .cans({{0.8, 2.0}, {3.2, 2.2}})
      .on_work_plane({{0.8, 0.8}, {2.0, 3.4}})
      .at({2.6, 1.3, 0.02})
      .at({1.3, 2.3, 0.5})
      .facing({2.0, 0.4}, {0, 1})
      .at({4.0, 2.0, 1.6}, {-1, 0, 0})
      .on_ceiling({2.0, 2.0})
      .done();
}

SampleRoom room_with_post_and_beam() {
  return Builder("post and beam", rectangle_plan(5.4, 4.0), 2.6)
      .box({2.2, 1.6}, {2.6, 2.0}, 0, 2.6, 0.5, 45)   // post from floor to ceiling
      .box({-0.2, 1.65}, {5.6, 1.95}, 2.3, 2.6, 0.6)  // beam through it, into both walls
      .box({3.6, -0.4}, {4.6, 0.5}, 0, 1.2, 0.4, 20)  // stove, partly in the wall
      .with(beam(700, 75), disc(0.15))
      .cans({{1.2, 0.9}, {3.6, 1.0}, {1.2, 3.1}, {4.2, 3.1}})
      .on_work_plane({{2.4, 1.3}, {2.9, 1.9}, {0.3, 1.8}})
      .at({4.2, 0.2, 1.2})
      .at({2.4, 2.6, 0})
      .at({1.0, 1.65, 2.45}, {0, -1, 0})  // on the beam's side
      .at({1.0, 1.8, 2.3}, -k_up)         // under it
      .facing({3.1, 1.5}, {-1, 0})
      .on_ceiling({4.0, 2.4})
      .done();
}

}  // namespace

std::vector<SampleRoom> rooms_of_every_kind() {
  return {plain_bedroom(),
          l_shaped_den(),
          u_shaped_suite(),
          t_shaped_hall(),
          room_with_bay(),
          walk_in_closet(),
          assembly_hall(),
          furnished_living_room(),
          kitchen(),
          tray_ceiling(),
          counter_with_strip(),
          dining_room_with_pendants(),
          room_lit_from_the_ceiling(),
          washed_wall(),
          gallery_of_narrow_beams(),
          spots_of_ten_degrees(),
          bright_studio(),
          black_box(),
          room_with_post_and_beam()};
}

}  // namespace evenlit::reference
