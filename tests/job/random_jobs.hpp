#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "evenlit/base/light_units.hpp"
#include "evenlit/job/job.hpp"

namespace evenlit {

/// Makes valid jobs with awkward names and lengths that no ruler shows.
class RandomJobs {
 public:
  explicit RandomJobs(unsigned seed) : random_(seed) {}

  Job next() {
    Job job;
    job.units = flip() ? Units::imperial : Units::metric;
    job.room = room();
    job.finishes = {fraction(), fraction(), fraction(), {}};
    if (flip()) job.finishes.wall[job.room.wall_names[below(job.room.wall_names.size())]] = fraction();
    job.work_plane.height_m = between(0, 1);
    if (flip()) job.work_plane.spacing_m = length(0.1, 1);
    job.work_plane.margin_m = length(0, 1);
    if (flip()) job.target_lx = flip() ? between(1, 2000) : std::round(between(1, 99)) * k_lux_per_footcandle;
    if (flip()) job.currency = name();
    if (flip()) job.wanted.minimum_lx = between(1, 100);
    if (flip()) job.wanted.uniformity = 1 - fraction();
    if (flip()) job.wanted.watts = between(0, 200);
    if (flip()) job.wanted.cost = between(0, 1000);
    if (flip()) job.wanted.from_walls_m = length(0, 1);
    job.wanted.is_symmetric = flip();
    for (auto i = below(3); i > 0; --i) job.joists.push_back(joists(job));
    for (auto i = below(4); i > 0; --i) job.members.push_back(member(job, i));
    for (auto i = below(6); i > 0; --i) job.keep_outs.push_back(keep_out(job, i));
    for (auto i = below(3); i > 0; --i) job.fans.push_back(fan(job, i));
    for (auto i = below(4); i > 0; --i) job.obstructions.push_back(obstruction(job, i));
    for (auto i = below(4); i > 0; --i) job.task_areas.push_back(task_area(job, i));
    for (auto i = below(6); i > 0; --i) job.points.push_back(point(job, i));
    for (auto i = below(4); i > 0; --i) job.wall_areas.push_back(wall_area(job, i));
    for (auto i = below(4); i > 0; --i) job.seats.push_back(seat(job, i));
    for (auto i = below(4); i > 0; --i) job.screens.push_back(screen(job, i));
    for (auto i = below(4); i > 0; --i) job.dimmers.push_back(dimmer(i));
    for (auto i = below(4); i > 0; --i) job.circuits.push_back(circuit(job, i));
    for (auto i = below(4); i > 0; --i) job.moods.push_back(mood(job, i));
    if (flip()) job.energy.price = between(0, 1);
    if (flip()) job.energy.hours = between(0, 24);
    if (flip()) job.supply = supply();
    if (!job.circuits.empty() && flip()) job.wiring = wiring(job);
    if (flip()) job.colours = {colour(), colour(), colour(), {}};
    if (flip()) job.colours.wall[job.room.wall_names[below(job.room.wall_names.size())]] = colour();
    for (auto i = below(4); i > 0; --i) job.views.push_back(view(job, i));
    for (std::size_t i = 0; i <= below(3); ++i) job.can_types.push_back(can_type(i));
    for (std::size_t i = 0; i <= below(6); ++i) job.cans.push_back(can(job));
    return job;
  }

 private:
  bool flip() { return (random_() & 1u) != 0; }
  std::size_t below(std::size_t count) { return random_() % count; }
  double between(double least, double most) { return std::uniform_real_distribution(least, most)(random_); }
  double fraction() { return flip() ? between(0, 0.99) : static_cast<double>(below(100)) / 100; }

  double length(double least, double most) {
    const double any = between(least, most);
    if (flip()) return any;
    const double inches = std::ceil(least / k_metres_per_inch) + static_cast<double>(below(64)) / 64;
    return std::min(inches * k_metres_per_inch, any);
  }

  /// Names of different index differ.
  std::string name(std::size_t index = 0) {
    static constexpr std::array<std::string_view, 14> k_parts{"a",  "B",  " ",    "'",    "\"",  "\\",    "\n",
                                                              "\t", "\r", "\x01", "\x7f", "½ œ", "#=.[]", "\U0001f4a1"};
    std::string name = fmt::format("{}", index);
    for (auto parts = below(6); parts > 0; --parts) name += k_parts[below(k_parts.size())];
    if (flip()) name.push_back('\0');
    return name;
  }

  Shape room() {
    const double width = length(3, 20);
    const double depth = length(3, 20);
    Shape room{
        name(), {{0, 0}, {width, 0}, {width, depth}, {0, depth}}, {"south", "east", "north", "west"}, length(4, 6)};
    if (flip()) {  // an L, moved off the origin, with names of its own
      room.corners_m = {{0, 0}, {width, 0}, {width, depth / 2}, {width / 3, depth / 2}, {width / 3, depth}, {0, depth}};
      const Eigen::Vector2d shift(between(-9, 9), between(-9, 9));
      for (auto& corner : room.corners_m) corner += shift;
      room.wall_names.clear();
      for (std::size_t i = 0; i < 6; ++i) room.wall_names.push_back(name(i));
    }
    // High enough over the plan for everything made here, wherever a plane goes on behind its wall: at most 13.4 m.
    for (auto slopes = below(4); slopes > 0; --slopes) {
      room.slopes.push_back({room.wall_names[below(room.wall_names.size())], length(17, 20), rise()});
    }
    if (!room.slopes.empty() && flip()) room.ceiling_m.reset();
    return room;
  }

  double rise() {
    const double any = between(0.01, 1);
    const std::array<double, 4> rises{any, std::round(12 * any + 1) / 12, between(0.25, 12) / 12,
                                      std::tan(std::round(45 * any + 1) * (std::numbers::pi / 180))};
    return std::min(rises[below(rises.size())], 1.0);
  }

  /// Within what what every smooth beam can have.
  SyntheticBeam beam() {
    SyntheticBeam beam{.lumens = between(1, 5000), .beam_angle_deg = between(5, 80)};
    if (flip()) beam.cut_off_deg = between(80, 180);
    if (flip()) {
      beam.batwing = Batwing{between(1, 2), between(0, 1)};
    } else if (flip()) {
      beam.cut_off_deg = 90;
      beam.field_angle_deg = beam.beam_angle_deg * between(1.4, 1.8);
    }
    return beam;
  }

  CanType can_type(std::size_t index) {
    CanType type;
    type.name = name(index);
    if (flip()) {
      type.file = name();
      if (flip()) type.lumens = between(100, 5000);
      if (flip()) type.lamp_set = static_cast<int>(1 + below(20));
      if (flip()) type.quarters = static_cast<int>(below(4));
    } else {
      type.beam = beam();
    }
    type.light_loss_factor = flip() ? 1.0 : between(0.1, 1);
    if (flip()) type.watts = between(0, 100);
    if (flip()) type.price = between(0, 100);
    if (flip()) type.hole_m = length(0.05, 0.3);
    if (flip()) type.housing = housing();
    type.rating = static_cast<Rating>(below(3));
    if (flip()) type.dimming = driver();
    if (flip()) type.cct_k = between(1000, 20000);
    if (!type.cct_k && flip()) type.warm_dim_k = rising_table(1500, 4000);
    if (flip()) {
      type.va = between(100, 200);
    } else if (flip()) {
      type.power_factor = 1 - fraction();
    }
    if (flip()) type.opening = OpeningSize{length(0.05, 0.3), flip() ? 0 : length(0.05, 0.3)};
    return type;
  }

  /// From 0 to 1, with values between two.
  RisingTable rising_table(double low, double high) {
    RisingTable table{{0, low}};
    for (auto points = below(4); points > 0; --points) {
      const auto& [at, value] = table.back();
      table.push_back({between(at, 1), flip() ? value : between(value, high)});
    }
    table.push_back({1, high});
    return table;
  }

  DimmingCurve curve() {
    if (flip()) return rising_table(between(0, 0.5), 1);
    return static_cast<CurveLaw>(below(3));
  }

  Driver driver() {
    Driver driver{fraction(), curve(), {}};
    if (flip()) driver.power = rising_table(between(0, 0.2), 1);
    return driver;
  }

  Dimmer dimmer(std::size_t index) {
    Dimmer dimmer{.name = name(index), .curve = curve()};
    if (flip()) dimmer.low_end = between(0, 0.4);
    if (flip()) dimmer.high_end = between(0.5, 1);
    if (flip()) dimmer.cut_off = fraction();
    if (flip()) dimmer.rated_w = between(1, 600);
    if (flip()) dimmer.rated_va = between(1, 600);
    if (flip()) dimmer.ganged = 1 - fraction();
    if (flip()) dimmer.minimum_load_w = between(0, 60);
    return dimmer;
  }

  Circuit circuit(const Job& job, std::size_t index) {
    Circuit circuit{.name = name(index)};
    if (!job.dimmers.empty() && flip()) circuit.dimmer = job.dimmers[below(job.dimmers.size())].name;
    return circuit;
  }

  std::map<std::string, double> by_circuit(const Job& job) {
    std::map<std::string, double> by_circuit;
    for (const Circuit& circuit : job.circuits) {
      if (flip()) by_circuit[circuit.name] = circuit.dimmer ? fraction() : static_cast<double>(below(2));
    }
    return by_circuit;
  }

  std::optional<std::string> area(const Job& job) {
    if (job.task_areas.empty() || flip()) return std::nullopt;
    return job.task_areas[below(job.task_areas.size())].name;
  }

  /// At the ends of 1...3000 lx, so that no two wishes disagree.
  Wish wish(const Job& job) {
    Wish wish;
    wish.area = area(job);
    wish.to = area(job);
    if (wish.to != wish.area && flip()) {
      wish.ratio = between(0.01, 100);
    } else {
      wish.to.reset();
      wish.at_most_lx = between(2000, 3000);
      if (flip()) wish.at_least_lx = between(1, 500);
    }
    if (flip()) wish.weight = between(0.1, 10);
    return wish;
  }

  Wishes wishes(const Job& job) {
    Wishes wishes;
    for (std::size_t i = 0; i <= below(3); ++i) wishes.wishes.push_back(wish(job));
    wishes.wishes.push_back({.at_least_lx = between(1, 500)});  // some light, or the mood is refused
    for (const Circuit& circuit : job.circuits) {
      if (flip()) wishes.off.push_back(circuit.name);
    }
    if (job.circuits.size() >= 2 && flip()) wishes.equal.push_back({job.circuits[0].name, job.circuits[1].name});
    return wishes;
  }

  Mood mood(const Job& job, std::size_t index) {
    Mood mood{.name = name(index)};
    const auto kind = below(3);
    if (kind == 0) mood.asks = CircuitLevels{by_circuit(job)};
    if (kind == 1) mood.asks = CircuitSettings{by_circuit(job)};
    if (kind == 2) mood.asks = wishes(job);
    if (flip()) mood.hours = between(0, 24);
    return mood;
  }

  SurfaceColour colour() {
    SurfaceColour colour;
    if (flip()) std::ranges::generate(colour.srgb, [&] { return static_cast<std::uint8_t>(below(256)); });
    return colour;
  }

  Supply supply() {
    Supply supply{between(1, 60), flip() ? 120 : between(100, 240)};
    if (flip()) supply.wire_awg = static_cast<int>(10 + 2 * below(3));
    if (flip()) supply.run_m = length(1, 50);
    return supply;
  }

  WallPlace wall_place(const Job& job) {
    const WallRectangle rectangle = wall_rectangle(job);
    return {rectangle.wall, rectangle.from, length(0, 2)};
  }

  /// Every circuit on one of the switches or on none.
  Wiring wiring(const Job& job) {
    Wiring wiring{.cable = {static_cast<int>(10 + 2 * below(3)), 2}};
    wiring.path = flip() ? Wiring::Path::open : Wiring::Path::bays;
    wiring.framing = flip() ? Wiring::Framing::lumber : Wiring::Framing::engineered;
    if (flip()) wiring.joist_depth_m = length(0.1, 0.3);
    wiring.slack_m = length(0, 1);
    wiring.waste = fraction();
    for (auto i = below(4); i > 0; --i) {
      wiring.coils.push_back({k_cables[below(k_cables.size())].second, length(5, 100)});
      if (flip()) wiring.coils.back().price = between(0, 500);
    }
    for (std::size_t i = 0; i < job.circuits.size(); ++i) {
      if (i == 0 || flip()) {
        wiring.switches.push_back({.name = name(i), .at = wall_place(job)});
        if (flip()) wiring.switches.back().also = wall_place(job);
        if (flip()) wiring.switches.back().box_in3 = between(5, 80);
      }
      if (wiring.switches.back().circuits.empty() || flip()) {
        wiring.switches.back().circuits.push_back(job.circuits[i].name);
      }
    }
    wiring.feed.at = wiring.switches[below(wiring.switches.size())].name;
    if (flip()) {
      CeilingPoint point;
      tape(point.from, job.room, 1);
      wiring.feed.at = point;
    }
    if (flip()) wiring.feed.run_m = length(0, 50);
    for (const auto& entry : k_pieces) {
      if (flip()) wiring.prices[entry.second] = between(0, 100);
    }
    if (flip()) wiring.labour.hours_per_can = between(0, 3);
    if (flip()) wiring.labour.hours_per_switch = between(0, 3);
    if (flip()) wiring.labour.rate = between(0, 200);
    return wiring;
  }

  Viewpoint view(const Job& job, std::size_t index) {
    Viewpoint view{.name = name(index)};
    tape(view.from, job.room, 1);
    view.height_m = length(0, 2);
    view.width_deg = between(10, 120);
    if (flip()) {
      view.at = Looking{between(-360, 360), flip() ? 0 : between(-90, 90)};
    } else {
      // Farther from the first wall than any eye made here.
      view.at = Spot{{{view.from[0].wall, length(1.1, 1.4)}, {view.from[1].wall, length(1.1, 1.4)}}, length(0, 2)};
    }
    return view;
  }

  Seat seat(const Job& job, std::size_t index) {
    Seat seat{.name = name(index)};
    tape(seat.from, job.room, 1);
    seat.height_m = length(0, 2);
    seat.looking = {between(-360, 360), flip() ? 0 : between(-90, 90)};
    return seat;
  }

  Screen screen(const Job& job, std::size_t index) {
    if (flip()) return {name(index), wall_rectangle(job), {}};
    const Eigen::Vector2d& plan = job.room.corners_m.front();
    const Eigen::Vector3d corner(plan.x() + length(0, 0.5), plan.y() + length(0, 0.5), length(0, 1));
    const Eigen::Vector3d u(length(0.1, 0.4), 0, 0);
    const Eigen::Vector3d v(0, length(0.1, 0.4), length(0.1, 0.4));
    return {name(index), PlaneCorners{corner, corner + u, corner + u + v, corner + v}, {}};
  }

  /// The first and the last wall meet at a right angle; 1 m from both is inside every plan made here.
  void tape(Taped (&from)[2], const Shape& room, double most_m) {
    from[0] = {room.wall_names.front(), length(0, most_m)};
    from[1] = {room.wall_names.back(), length(0, most_m)};
    if (flip()) std::swap(from[0], from[1]);
  }

  /// A kite in the corner where the first wall starts.
  Polygon corners(const Job& job) {
    const Eigen::Vector2d& corner = job.room.corners_m.front();
    const Eigen::Vector2d u(length(0.1, 0.4), 0);
    const Eigen::Vector2d v(0, length(0.1, 0.4));
    return {corner, corner + u, corner + 1.2 * (u + v), corner + v};
  }

  TapedRectangle rectangle(const Job& job) {
    TapedRectangle rectangle;
    tape(rectangle.from, job.room, 0.5);
    rectangle.width_m = length(0.01, 1);
    rectangle.depth_m = length(0.01, 1);
    if (flip()) rectangle.turn_deg = between(-360, 360);
    return rectangle;
  }

  Joists joists(const Job& job) {
    Joists joists{job.room.wall_names[below(job.room.wall_names.size())], length(0, 1), length(0.3, 1),
                  length(0.01, 0.2)};
    if (flip()) joists.area = flip() ? PlanArea(corners(job)) : PlanArea(rectangle(job));
    return joists;
  }

  Member member(const Job& job, std::size_t index) {
    Member member;
    member.name = name(index);
    if (flip()) {
      member.line = Taped{job.room.wall_names[below(job.room.wall_names.size())], length(0, 3)};
    } else {
      TapedLine line;
      tape(line.start, job.room, 0.4);
      line.end[0] = {line.start[0].wall, length(0.5, 2)};
      line.end[1] = {line.start[1].wall, length(0, 2)};
      member.line = line;
    }
    member.thickness_m = length(0.01, 0.2);
    return member;
  }

  KeepOut keep_out(const Job& job, std::size_t index) {
    KeepOut keep_out;
    keep_out.name = name(index);
    const auto kind = below(3);
    if (kind == 0) {
      keep_out.shape = corners(job);
    } else if (kind == 1) {
      keep_out.shape = rectangle(job);
    } else {
      TapedCircle circle{.diameter_m = length(0.01, 0.5)};
      tape(circle.from, job.room, 1);
      keep_out.shape = circle;
    }
    if (flip()) keep_out.clearance_m = length(0, 0.2);
    return keep_out;
  }

  Fan fan(const Job& job, std::size_t index) {
    Fan fan;
    fan.name = name(index);
    tape(fan.from, job.room, 1);
    fan.diameter_m = length(0.5, 2);
    fan.drop_m = length(0, 0.5);
    return fan;
  }

  Housing housing() {
    Housing housing{.length_m = length(0.1, 0.5), .width_m = length(0.1, 0.3)};
    housing.kind = flip() ? Housing::Kind::remodel : Housing::Kind::new_work;
    housing.lies = static_cast<Housing::Lies>(below(3));
    if (flip()) housing.narrowest_bay_m = length(0.1, 0.3);
    if (flip()) housing.widest_bay_m = length(0.4, 0.7);
    return housing;
  }

  Obstruction obstruction(const Job& job, std::size_t index) {
    Obstruction box;
    box.name = name(index);
    tape(box.from, job.room, 0.5);
    box.width_m = length(0.01, 1);  // the centre is at most 0.5 m + 1 m / 2 from both walls
    box.depth_m = length(0.01, 1);
    if (flip()) box.bottom_m = length(0, 1);
    box.top_m = length(1.1, 2);
    if (flip()) box.turn_deg = between(-360, 360);
    box.reflectance = fraction();
    box.colour = colour();
    return box;
  }

  LevelRectangle level_rectangle(const Job& job) {
    LevelRectangle rectangle;
    tape(rectangle.from, job.room, 0.2);
    rectangle.width_m = length(0.01, 0.5);
    rectangle.depth_m = length(0.01, 0.5);
    rectangle.height_m = length(0, 2);
    return rectangle;
  }

  /// A kite that leans, in the corner where the first wall starts.
  PlaneCorners kite(const Job& job) {
    const Eigen::Vector2d& corner = job.room.corners_m.front();
    const Eigen::Vector3d start(corner.x(), corner.y(), length(0, 1));
    const Eigen::Vector3d u(length(0.1, 0.4), 0, between(0, 0.4));
    const Eigen::Vector3d v(0, length(0.1, 0.4), between(0, 0.4));
    PlaneCorners corners{start, start + u, start + 1.2 * (u + v), start + v};
    if (flip()) std::reverse(corners.begin(), corners.end());
    return corners;
  }

  TaskArea task_area(const Job& job, std::size_t index) {
    TaskArea area;
    area.name = name(index);
    if (flip()) {
      area.shape = level_rectangle(job);
    } else {
      area.shape = kite(job);
    }
    if (flip()) area.spacing_m = length(0.01, 1);
    if (flip()) area.target_lx = between(1, 2000);
    return area;
  }

  NamedPoint point(const Job& job, std::size_t index) {
    NamedPoint point;
    point.name = name(index);
    tape(point.from, job.room, 1);
    point.height_m = length(0, 2);
    switch (below(6)) {
      case 0:
        point.reads = Facing{180, 0};
        break;
      case 1:
        point.reads = Facing{90, between(-360, 360)};
        break;
      case 2:
        point.reads = Facing{between(0, 180), between(-360, 360)};
        break;
      case 3:
        point.reads = Around{};
        break;
      case 4:
        point.reads = Looking{between(-360, 360), between(-90, 90)};
        break;
      default:
        break;
    }
    return point;
  }

  WallRectangle wall_rectangle(const Job& job) {
    const auto& walls = job.room.wall_names;
    const auto wall = below(walls.size());
    const auto beside = (wall + (flip() ? 1 : walls.size() - 1)) % walls.size();
    WallRectangle rectangle;
    rectangle.wall = walls[wall];
    rectangle.from = {walls[beside], length(0, 0.4)};
    rectangle.width_m = length(0.1, 2);
    if (flip()) rectangle.bottom_m = length(0.1, 1);
    rectangle.top_m = length(1.1, 9);
    return rectangle;
  }

  WallArea wall_area(const Job& job, std::size_t index) {
    WallArea area{wall_rectangle(job)};
    area.name = name(index);
    area.kind = static_cast<WallArea::Kind>(below(3));
    area.reflectance = fraction();
    area.colour = colour();
    return area;
  }

  Can can(const Job& job) {
    Can can;
    can.type = job.can_types[below(job.can_types.size())].name;
    tape(can.from, job.room, 1);
    if (flip()) can.level = between(0, 1);
    if (!job.circuits.empty() && flip()) can.circuit = job.circuits[below(job.circuits.size())].name;
    // Above what stands in the room, which is at most 2 m high.
    const auto mount = below(3);
    if (mount == 1) can.drop_m = length(0, 1);
    if (mount == 2) can.height_m = length(2.1, 2.9);
    can.is_square = flip();
    if (!can.is_square && flip()) can.tilt_deg = between(0, 180);
    if (!can.is_square && flip()) can.toward_deg = between(-360, 360);
    if (flip()) can.rotation_deg = between(-360, 360);
    return can;
  }

  std::mt19937_64 random_;
};

}  // namespace evenlit
