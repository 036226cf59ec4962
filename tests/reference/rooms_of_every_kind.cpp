#include "rooms_of_every_kind.hpp"

#include "room_builder.hpp"
#include "sample_beams.hpp"

namespace evenlit::reference {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

const Vector3d k_up = Vector3d::UnitZ();

Opening disc(double diameter_m) {
  return {.shape = Opening::Shape::disc, .width_m = diameter_m, .length_m = diameter_m, .height_m = 0};
}

Opening rectangle(double length_m, double width_m) {
  return {.shape = Opening::Shape::rectangle, .width_m = width_m, .length_m = length_m, .height_m = 0};
}

Polygon rectangle_plan(double x_m, double y_m) { return {{0, 0}, {x_m, 0}, {x_m, y_m}, {0, y_m}}; }

SampleRoom plain_bedroom() {
  return RoomBuilder("rectangle", rectangle_plan(4.4, 3.7), 2.5)
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
  return RoomBuilder("L", {{0, 0}, {5.6, 0}, {5.6, 2.7}, {3.1, 2.7}, {3.1, 5.0}, {0, 5.0}}, 2.45)
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
  return RoomBuilder("U", {{0, 0}, {6.2, 0}, {6.2, 4.4}, {4.1, 4.4}, {4.1, 1.9}, {2.2, 1.9}, {2.2, 4.4}, {0, 4.4}}, 2.4)
      .with(beam(800, 90))
      .cans({{1.1, 3.4}, {3.1, 0.9}})  // the right arm gets reflected light alone at its end
      .on_work_plane({{1.1, 1.2}, {5.2, 1.0}, {5.2, 4.0}, {3.1, 1.5}})
      .facing({5.2, 2.8}, {0, -1})
      .at({4.1, 3.5, 1.4}, {1, 0, 0})
      .on_ceiling({5.0, 3.0})
      .done();
}

SampleRoom t_shaped_hall() {
  return RoomBuilder("T", {{0, 2.1}, {2.0, 2.1}, {2.0, 0}, {4.3, 0}, {4.3, 2.1}, {6.4, 2.1}, {6.4, 4.2}, {0, 4.2}}, 2.6)
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
  return RoomBuilder("bay", {{0, 0}, {4.1, 0}, {5.0, 0.9}, {5.0, 2.3}, {4.1, 3.2}, {0, 3.2}}, 2.55, {0.25, 0.75, 0.55})
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
  return RoomBuilder("closet", rectangle_plan(1.3, 0.95), 2.4, {0.3, 0.8, 0.7})
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
  RoomBuilder hall("hall", rectangle_plan(15, 9.6), 3.4, {0.2, 0.75, 0.5});
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
  return RoomBuilder("furnished", rectangle_plan(5.2, 4.3), 2.5)
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
  return RoomBuilder("kitchen", rectangle_plan(4.6, 3.9), 2.5, {0.3, 0.8, 0.6})
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
  return RoomBuilder("tray", rectangle_plan(5.0, 4.2), 2.75, {0.25, 0.8, 0.6})
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
  return RoomBuilder("under-cabinet strip", rectangle_plan(3.2, 2.6), 2.4)
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
  return RoomBuilder("pendants", rectangle_plan(4.2, 3.4), 2.7)
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
  return RoomBuilder("uplights", rectangle_plan(4.0, 3.2), 2.6)
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
  return RoomBuilder("tilted wall-wash", rectangle_plan(4.8, 3.6), 2.6)
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
  return RoomBuilder("narrow beams", rectangle_plan(4.0, 3.0), 2.6, {0.3, 0.7, 0.5})
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
  return RoomBuilder("tabulated 10-degree spots", rectangle_plan(2.8, 2.2), 2.5, {0.4, 0.7, 0.5})
      .with(spot_of_ten_degrees(), disc(0.1))
      .cans({{0.7, 0.7}, {1.4, 0.7}, {2.1, 0.7}, {0.7, 1.5}, {1.4, 1.5}, {2.1, 1.5}})
      .on_work_plane({{0.7, 0.7}, {1.05, 0.7}, {1.05, 1.1}})
      .facing({1.05, 1.1}, {1, 0})
      .at({2.8, 1.1, 1.0}, {-1, 0, 0})
      .on_ceiling({1.4, 1.1})
      .done();
}

SampleRoom bright_studio() {
  return RoomBuilder("high reflectances", {{0, 0}, {4.2, 0}, {4.2, 2.2}, {3.0, 3.4}, {0, 3.4}}, 2.6, {0.85, 0.92, 0.9})
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
  return RoomBuilder("black", rectangle_plan(4.0, 4.0), 2.8, {0, 0, 0})
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
  return RoomBuilder("post and beam", rectangle_plan(5.4, 4.0), 2.6)
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

/// A gable over a room with a nook, its ridge cut flat; cans plumb and square to the slope, a bed and a dresser.
SampleRoom attic() {
  constexpr double k_rise = 0.75;
  constexpr double k_square_deg = 36.87;  // arc tangent of the rise
  const Polygon plan{{0, 0}, {4.8, 0}, {4.8, 3.2}, {3.4, 3.2}, {3.4, 4.4}, {0, 4.4}};
  Scene scene = testing::room_under_slopes(plan, 2.5, {{"wall 6", 1.2, k_rise}, {"wall 2", 1.0, k_rise}});
  return RoomBuilder("attic", std::move(scene))
      .box({0.1, 1.4}, {2.0, 3.0}, 0, 0.55, 0.6)
      .box({3.9, 0.2}, {4.7, 0.7}, 0, 1.0, 0.4, 12)
      .with(beam(650, 70))
      .cans({{2.4, 0.9}, {2.4, 3.4}})
      .luminaire({1.0, 2.2, 1.2 + 1.0 * k_rise}, k_square_deg, 0)
      .on_work_plane({{2.4, 2.0}, {0.5, 0.5}, {3.0, 4.0}})
      .at({1.0, 2.2, 0.55})
      .at({0.5, 3.6, 1.2 + 0.5 * k_rise}, {0.6, 0, -0.8})  // on the slope
      .at({0, 2.2, 0.9}, {1, 0, 0})
      .facing({3.6, 1.5}, {-1, 0})
      .on_ceiling({2.3, 2.0})
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
          room_with_post_and_beam(),
          attic()};
}

}  // namespace evenlit::reference
