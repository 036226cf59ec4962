#include "evenlit/job/write_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "can_words.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "rectangle.hpp"
#include "toml_text.hpp"
#include "write_controls.hpp"
#include "write_wiring.hpp"

namespace evenlit {
namespace {

/// A slope's rise over run as the trade writes it, or its angle in degrees, whichever is short and exact.
std::string pitch_text(double rise) {
  const auto rounded = [](double value) { return std::round(value * 1e6) / 1e6; };
  constexpr double k_radians = std::numbers::pi / 180;
  const double in_twelve = rounded(12 * rise);
  if (in_twelve / 12 == rise) return string_text(shortest_text(in_twelve) + "/12");
  const double degrees = rounded(std::atan(rise) / k_radians);
  return std::tan(degrees * k_radians) == rise ? shortest_text(degrees) : string_text(shortest_text(rise) + "/1");
}

/// Writes a job's parts; lengths in the form that its trade would use.
class JobWriter {
 public:
  explicit JobWriter(const Job& job) : job_(job) {}

  [[nodiscard]] std::string text() const {
    std::string text = line("units", job_.units == Units::imperial ? "\"imperial\"" : "\"metric\"");
    if (job_.currency != Job{}.currency) text += line("currency", string_text(job_.currency));
    if (job_.target_lx) text += illuminance_line("target", *job_.target_lx);
    text += room() + finishes() + colours() + work_plane() + wanted();
    for (const auto& joists : job_.joists) text += this->joists(joists);
    for (const auto& member : job_.members) text += this->member(member);
    for (const auto& keep_out : job_.keep_outs) text += this->keep_out(keep_out);
    for (const auto& fan : job_.fans) text += this->fan(fan);
    for (const auto& obstruction : job_.obstructions) text += this->obstruction(obstruction);
    for (const auto& area : job_.task_areas) text += task_area(area);
    for (const auto& point : job_.points) text += this->point(point);
    for (const auto& area : job_.wall_areas) text += wall_area(area);
    for (const auto& seat : job_.seats) text += this->seat(seat);
    for (const auto& screen : job_.screens) text += this->screen(screen);
    for (const auto& view : job_.views) text += this->view(view);
    for (const auto& type : job_.can_types) text += can_type(type);
    for (const auto& can : job_.cans) text += this->can(can);
    return text + controls_text(job_) + wiring_text(job_);
  }

 private:
  [[nodiscard]] std::string length(double metres) const { return string_text(exact_length_text(metres, job_.units)); }

  [[nodiscard]] std::string illuminance_line(std::string_view key, double lx) const {
    return line(key, string_text(exact_illuminance_text(lx, job_.units)));
  }

  [[nodiscard]] std::string room() const {
    const auto& room = job_.room;
    std::string text = "\n[room]\n" + line("name", string_text(room.name));
    const auto& far_corner = room.corners_m[2];
    const bool is_rectangle =
        room.wall_names == rectangle_wall_names() && room.corners_m == rectangle_plan(far_corner.x(), far_corner.y());
    text += is_rectangle ? line("width", length(far_corner.x())) + line("depth", length(far_corner.y())) : polygon();
    if (room.ceiling_m) text += line("ceiling", length(*room.ceiling_m));
    return text + slopes();
  }

  [[nodiscard]] std::string slopes() const {
    if (job_.room.slopes.empty()) return {};
    std::string text;
    for (const auto& slope : job_.room.slopes) {
      text += fmt::format("  {{ wall = {}, height = {}, pitch = {} }},\n", string_text(slope.wall),
                          length(slope.height_m), pitch_text(slope.rise));
    }
    return line("slopes", "[\n" + text + "]");
  }

  [[nodiscard]] std::string polygon() const {
    std::string corners;
    for (const auto& corner : job_.room.corners_m) {
      corners += fmt::format("  [{}, {}],\n", length(corner.x()), length(corner.y()));
    }
    std::string names;
    for (const auto& name : job_.room.wall_names) names += fmt::format("  {},\n", string_text(name));
    return line("corners", "[\n" + corners + "]") + line("walls", "[\n" + names + "]");
  }

  [[nodiscard]] std::string finishes() const {
    const auto& finishes = job_.finishes;
    std::string text = "\n[finishes]\n" + line("floor", shortest_text(finishes.floor)) +
                       line("ceiling", shortest_text(finishes.ceiling)) + line("walls", shortest_text(finishes.walls));
    if (finishes.wall.empty()) return text;
    text += "\n[finishes.wall]\n";
    for (const auto& [wall, reflectance] : finishes.wall) text += line(key_text(wall), shortest_text(reflectance));
    return text;
  }

  [[nodiscard]] static std::string colour(const SurfaceColour& colour) {
    const auto& [red, green, blue] = colour.srgb;
    return fmt::format("\"#{:02x}{:02x}{:02x}\"", red, green, blue);
  }

  [[nodiscard]] std::string colours() const {
    const Colours& colours = job_.colours;
    if (colours == Colours{}) return {};
    std::string text = "\n[colours]\n" + line("floor", colour(colours.floor)) +
                       line("ceiling", colour(colours.ceiling)) + line("walls", colour(colours.walls));
    if (colours.wall.empty()) return text;
    text += "\n[colours.wall]\n";
    for (const auto& [wall, own] : colours.wall) text += line(key_text(wall), colour(own));
    return text;
  }

  [[nodiscard]] std::string work_plane() const {
    const auto& plane = job_.work_plane;
    std::string text = "\n[work_plane]\n" + line("height", length(plane.height_m));
    if (plane.spacing_m) text += line("spacing", length(*plane.spacing_m));
    return text + line("margin", length(plane.margin_m));
  }

  [[nodiscard]] std::string wanted() const {
    const Wanted& wanted = job_.wanted;
    if (wanted == Wanted{}) return {};
    std::string text = "\n[wanted]\n";
    if (wanted.minimum_lx) text += illuminance_line("minimum", *wanted.minimum_lx);
    if (wanted.uniformity) text += line("uniformity", shortest_text(*wanted.uniformity));
    if (wanted.watts) text += line("watts", shortest_text(*wanted.watts));
    if (wanted.cost) text += line("cost", shortest_text(*wanted.cost));
    if (wanted.from_walls_m) text += line("from_walls", length(*wanted.from_walls_m));
    if (wanted.is_symmetric) text += line("symmetric", "true");
    return text;
  }

  [[nodiscard]] std::string joists(const Joists& joists) const {
    std::string text = job_.joists.size() == 1 ? "\n[joists]\n" : "\n[[joists]]\n";
    text += line("parallel_to", string_text(joists.parallel_to)) + line("first", length(joists.first_m)) +
            line("spacing", length(joists.spacing_m)) + line("thickness", length(joists.thickness_m));
    if (!joists.area) return text;
    return text +
           std::visit([&](const auto& area) { return line("area", "{ " + inline_area(area) + " }"); }, *joists.area);
  }

  [[nodiscard]] std::string inline_area(const TapedRectangle& rectangle) const {
    return fmt::format("from = {}, width = {}, depth = {}, turn = {}", taped(rectangle.from), length(rectangle.width_m),
                       length(rectangle.depth_m), shortest_text(rectangle.turn_deg));
  }

  [[nodiscard]] std::string inline_area(const Polygon& corners) const { return "corners = " + list(corners, " "); }

  /// Corners in brackets, each behind `before`.
  [[nodiscard]] std::string list(const Polygon& corners, std::string_view before) const {
    std::string text;
    for (const auto& corner : corners) {
      text += fmt::format("{}[{}, {}],", before, length(corner.x()), length(corner.y()));
    }
    return "[" + text + "]";
  }

  [[nodiscard]] std::string taped(const Taped (&walls)[2]) const {
    const auto& [first, second] = walls;
    return fmt::format("{{ {} = {}, {} = {} }}", key_text(first.wall), length(first.distance_m), key_text(second.wall),
                       length(second.distance_m));
  }

  [[nodiscard]] std::string from(const Taped (&walls)[2]) const { return line("from", taped(walls)); }

  [[nodiscard]] std::string from(const Taped& wall) const {
    return line("from", fmt::format("{{ {} = {} }}", key_text(wall.wall), length(wall.distance_m)));
  }

  [[nodiscard]] std::string member(const Member& member) const {
    std::string text = "\n[[members]]\n" + line("name", string_text(member.name));
    if (const auto* wall = std::get_if<Taped>(&member.line)) {
      text += from(*wall);
    } else {
      const auto& ends = std::get<TapedLine>(member.line);
      text += line("start", taped(ends.start)) + line("end", taped(ends.end));
    }
    return text + line("thickness", length(member.thickness_m));
  }

  [[nodiscard]] std::string shape(const TapedRectangle& rectangle) const {
    std::string text =
        from(rectangle.from) + line("width", length(rectangle.width_m)) + line("depth", length(rectangle.depth_m));
    if (rectangle.turn_deg != 0) text += line("turn", shortest_text(rectangle.turn_deg));
    return text;
  }

  [[nodiscard]] std::string shape(const TapedCircle& circle) const {
    return from(circle.from) + line("diameter", length(circle.diameter_m));
  }

  [[nodiscard]] std::string shape(const Polygon& corners) const { return line("corners", list(corners, "\n  ")); }

  [[nodiscard]] std::string keep_out(const KeepOut& keep_out) const {
    std::string text = "\n[[keep_outs]]\n" + line("name", string_text(keep_out.name));
    text += std::visit([&](const auto& shape) { return this->shape(shape); }, keep_out.shape);
    if (keep_out.clearance_m != 0) text += line("clearance", length(keep_out.clearance_m));
    return text;
  }

  [[nodiscard]] std::string fan(const Fan& fan) const {
    return "\n[[fans]]\n" + line("name", string_text(fan.name)) + from(fan.from) +
           line("diameter", length(fan.diameter_m)) + line("drop", length(fan.drop_m));
  }

  [[nodiscard]] std::string obstruction(const Obstruction& obstruction) const {
    std::string text = "\n[[obstructions]]\n" + line("name", string_text(obstruction.name)) + from(obstruction.from) +
                       line("width", length(obstruction.width_m)) + line("depth", length(obstruction.depth_m));
    if (obstruction.bottom_m != 0) text += line("bottom", length(obstruction.bottom_m));
    text += line("top", length(obstruction.top_m));
    if (obstruction.turn_deg != 0) text += line("turn", shortest_text(obstruction.turn_deg));
    text += line("reflectance", shortest_text(obstruction.reflectance));
    if (obstruction.colour != SurfaceColour{}) text += line("colour", colour(obstruction.colour));
    return text;
  }

  [[nodiscard]] std::string task_area(const TaskArea& area) const {
    std::string text = "\n[[task_areas]]\n" + line("name", string_text(area.name));
    if (const auto* rectangle = std::get_if<LevelRectangle>(&area.shape)) {
      text +=
          from(rectangle->from) + line("width", length(rectangle->width_m)) + line("depth", length(rectangle->depth_m));
      if (rectangle->turn_deg != 0) text += line("turn", shortest_text(rectangle->turn_deg));
      text += line("height", length(rectangle->height_m));
    } else {
      text += shape(std::get<PlaneCorners>(area.shape));
    }
    if (area.spacing_m) text += line("spacing", length(*area.spacing_m));
    if (area.target_lx) text += illuminance_line("target", *area.target_lx);
    return text;
  }

  [[nodiscard]] static std::string reads(const Facing& facing) {
    const auto& [tilt_deg, toward_deg] = facing;
    if (facing == Facing{}) return line("facing", "\"up\"");
    if (facing == Facing{180, 0}) return line("facing", "\"down\"");
    if (tilt_deg == 90) return line("facing", shortest_text(toward_deg));
    return line("facing",
                fmt::format("{{ tilt = {}, toward = {} }}", shortest_text(tilt_deg), shortest_text(toward_deg)));
  }

  [[nodiscard]] static std::string reads(const Around&) { return line("facing", "\"around\""); }

  [[nodiscard]] static std::string reads(const Looking& looking) {
    return line("looking", fmt::format("{{ toward = {}, tilt = {} }}", shortest_text(looking.toward_deg),
                                       shortest_text(looking.tilt_deg)));
  }

  [[nodiscard]] std::string point(const NamedPoint& point) const {
    return "\n[[points]]\n" + line("name", string_text(point.name)) + from(point.from) +
           line("height", length(point.height_m)) +
           std::visit([](const auto& what) { return reads(what); }, point.reads);
  }

  [[nodiscard]] std::string shape(const WallRectangle& rectangle) const {
    std::string text =
        line("wall", string_text(rectangle.wall)) + from(rectangle.from) + line("width", length(rectangle.width_m));
    if (rectangle.bottom_m != 0) text += line("bottom", length(rectangle.bottom_m));
    return text + line("top", length(rectangle.top_m));
  }

  [[nodiscard]] std::string shape(const PlaneCorners& corners) const {
    std::string text;
    for (const auto& corner : corners) {
      text += fmt::format("  [{}, {}, {}],\n", length(corner.x()), length(corner.y()), length(corner.z()));
    }
    return line("corners", "[\n" + text + "]");
  }

  [[nodiscard]] std::string wall_area(const WallArea& area) const {
    std::string text = "\n[[wall_areas]]\n" + line("name", string_text(area.name)) + shape(area) +
                       line("reflectance", shortest_text(area.reflectance));
    if (area.kind != WallArea::Kind::plain) text += line("kind", word(k_wall_area_kinds, area.kind));
    if (area.colour != SurfaceColour{}) text += line("colour", colour(area.colour));
    return text;
  }

  [[nodiscard]] std::string seat(const Seat& seat) const {
    return "\n[[seats]]\n" + line("name", string_text(seat.name)) + from(seat.from) +
           line("height", length(seat.height_m)) + reads(seat.looking);
  }

  [[nodiscard]] std::string screen(const Screen& screen) const {
    return "\n[[screens]]\n" + line("name", string_text(screen.name)) +
           std::visit([&](const auto& shape) { return this->shape(shape); }, screen.shape);
  }

  [[nodiscard]] std::string looked_at(const Looking& looking) const { return reads(looking); }

  [[nodiscard]] std::string looked_at(const Spot& spot) const {
    return line("looking_at", fmt::format("{{ from = {}, height = {} }}", taped(spot.from), length(spot.height_m)));
  }

  [[nodiscard]] std::string view(const Viewpoint& view) const {
    return "\n[[views]]\n" + line("name", string_text(view.name)) + from(view.from) +
           line("height", length(view.height_m)) +
           std::visit([&](const auto& at) { return this->looked_at(at); }, view.at) +
           line("width", shortest_text(view.width_deg));
  }

  [[nodiscard]] std::string opening(const OpeningSize& size) const {
    if (size.length_m == 0) return fmt::format("{{ diameter = {} }}", length(size.width_m));
    return fmt::format("{{ width = {}, length = {} }}", length(size.width_m), length(size.length_m));
  }

  template <class Words, class Meaning>
  [[nodiscard]] static std::string word(const Words& words, Meaning meaning) {
    return string_text(std::ranges::find(words, meaning, &Words::value_type::second)->first);
  }

  [[nodiscard]] std::string housing(const Housing& housing) const {
    std::string text =
        fmt::format("{{ width = {}, length = {}, kind = {}, lies = {}", length(housing.width_m),
                    length(housing.length_m), word(k_housing_kinds, housing.kind), word(k_housing_lies, housing.lies));
    if (housing.narrowest_bay_m) text += ", narrowest_bay = " + length(*housing.narrowest_bay_m);
    if (housing.widest_bay_m) text += ", widest_bay = " + length(*housing.widest_bay_m);
    return text + " }";
  }

  [[nodiscard]] static std::string beam(const SyntheticBeam& beam) {
    std::string text =
        fmt::format("{{ lumens = {}, angle = {}", shortest_text(beam.lumens), shortest_text(beam.beam_angle_deg));
    if (beam.field_angle_deg) text += ", field = " + shortest_text(*beam.field_angle_deg);
    if (beam.cut_off_deg != 90) text += ", cut_off = " + shortest_text(beam.cut_off_deg);
    if (beam.batwing) {
      text += fmt::format(", batwing = {{ peak = {}, centre = {} }}", shortest_text(beam.batwing->peak_deg),
                          shortest_text(beam.batwing->centre_fraction));
    }
    return text + " }";
  }

  [[nodiscard]] std::string can_type(const CanType& type) const {
    std::string text = fmt::format("\n[can_types.{}]\n", key_text(type.name));
    text += type.beam ? line("beam", beam(*type.beam)) : line("file", string_text(type.file));
    if (type.lumens) text += line("lumens", shortest_text(*type.lumens));
    if (type.lamp_set != 1) text += line("lamp_set", shortest_text(type.lamp_set));
    if (type.quarters != 0) text += line("turn", shortest_text(90.0 * type.quarters));
    text += line("light_loss", shortest_text(type.light_loss_factor));
    if (type.watts) text += line("watts", shortest_text(*type.watts));
    if (type.price) text += line("price", shortest_text(*type.price));
    if (type.hole_m) text += line("hole", length(*type.hole_m));
    if (type.housing) text += line("housing", housing(*type.housing));
    if (type.rating != Rating::unknown) text += line("rating", word(k_ratings, type.rating));
    if (type.opening) text += line("opening", opening(*type.opening));
    if (type.dimming != Driver{}) text += line("dimming", driver_text(type.dimming));
    if (type.cct_k) text += line("cct", shortest_text(*type.cct_k));
    if (!type.warm_dim_k.empty()) text += line("warm_dim", table_text(type.warm_dim_k));
    if (type.va) text += line("va", shortest_text(*type.va));
    if (type.power_factor) text += line("power_factor", shortest_text(*type.power_factor));
    return text;
  }

  [[nodiscard]] std::string can(const Can& can) const {
    std::string text = "\n[[cans]]\n" + line("type", string_text(can.type)) + from(can.from);
    if (can.level != 1) text += line("level", shortest_text(can.level));
    if (can.circuit) text += line("circuit", string_text(*can.circuit));
    if (can.drop_m) text += line("drop", length(*can.drop_m));
    if (can.height_m) text += line("height", length(*can.height_m));
    if (can.is_square) text += line("aim", string_text("square"));
    if (can.tilt_deg != 0 || can.toward_deg != 0) {
      text += line("aim", fmt::format("{{ tilt = {}, toward = {} }}", shortest_text(can.tilt_deg),
                                      shortest_text(can.toward_deg)));
    }
    if (can.rotation_deg != 0) text += line("rotation", shortest_text(can.rotation_deg));
    return text;
  }

  const Job& job_;
};

}  // namespace

std::string write_job(const Job& job) { return JobWriter(job).text(); }

}  // namespace evenlit
