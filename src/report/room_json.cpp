#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <numeric>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/length.hpp"
#include "evenlit/job/mounting.hpp"
#include "evenlit/job/walls.hpp"
#include "evenlit/moods/circuits.hpp"
#include "evenlit/report/room_report.hpp"
#include "evenlit/room/flat_area.hpp"
#include "evenlit/view/camera.hpp"
#include "json_values.hpp"
#include "room_words.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

constexpr int k_version = 1;

Json point_json(const Vector2d& point_m) { return Json::array({length(point_m.x()), length(point_m.y())}); }

Json outline_json(const Polygon& outline_m) {
  Json corners = Json::array();
  for (const Vector2d& corner : outline_m) corners.push_back(point_json(corner));
  return corners;
}

/// As seen from above.
Polygon on_plan(const PlaneCorners& corners_m) {
  Polygon outline_m;
  for (const Eigen::Vector3d& corner : corners_m) outline_m.emplace_back(corner.head<2>());
  return outline_m;
}

Polygon circle_corners(const Vector2d& centre_m, double radius_m) {
  constexpr int k_corners = 32;
  Polygon corners_m;
  for (int i = 0; i < k_corners; ++i) {
    const double turn = 2 * std::numbers::pi * i / k_corners;
    corners_m.emplace_back(centre_m + radius_m * Vector2d(std::cos(turn), std::sin(turn)));
  }
  return corners_m;
}

Polygon outline_of(const Shape& room, const KeepOut& keep_out) {
  if (const auto* circle = std::get_if<TapedCircle>(&keep_out.shape)) {
    return circle_corners(plan_position(room, circle->from).value(), circle->diameter_m / 2);
  }
  const auto* rectangle = std::get_if<TapedRectangle>(&keep_out.shape);
  return rectangle != nullptr ? corners_of(room, *rectangle) : std::get<Polygon>(keep_out.shape);
}

std::optional<double> toward_deg(const NamedPoint& point) {
  if (const auto* facing = std::get_if<Facing>(&point.reads)) {
    return facing->tilt_deg == 0 ? std::nullopt : std::optional(facing->toward_deg);
  }
  const auto* looking = std::get_if<Looking>(&point.reads);
  return looking != nullptr ? std::optional(looking->toward_deg) : std::nullopt;
}

double toward_deg(const Shape& room, const Viewpoint& view) {
  if (const auto* looking = std::get_if<Looking>(&view.at)) return looking->toward_deg;
  const Camera camera = camera_of(room, view, {});
  return std::atan2(camera.forward.y(), camera.forward.x()) * 180 / std::numbers::pi;
}

Json name_or_null(const std::optional<std::string>& name) { return name ? Json(*name) : Json(nullptr); }

/// A list with an object a thing, numbered from 1.
template <class Things, class ObjectOf>
Json numbered(const Things& things, const ObjectOf& object_of) {
  Json list = Json::array();
  for (std::size_t i = 0; i < things.size(); ++i) {
    Json object{{"number", i + 1}};
    object.update(object_of(things[i]));
    list.push_back(std::move(object));
  }
  return list;
}

/// Writes a room down.
class Writer {
 public:
  explicit Writer(const RoomFacts& facts) : facts_(facts), job_(facts.job), ceiling_(ceiling_of(facts.job.room)) {}

  [[nodiscard]] Json room() const {
    const Shape& room = job_.room;
    Json corners = Json::array();
    for (std::size_t i = 0; i < room.corners_m.size(); ++i) {
      Json corner = place(room.corners_m[i]);
      corner["wall_from_here"] = room.wall_names[i];
      corners.push_back(std::move(corner));
    }
    const bool is_rectangle = is_upright_rectangle(room);
    const Vector2d size_m = bounds_of(room.corners_m).sizes();
    const double area_m2 = signed_area(room.corners_m);
    return {{"name", room.name},
            {"kind", is_rectangle ? "rectangle" : "corners"},
            {"corners", std::move(corners)},
            {"width", is_rectangle ? text(size_m.x()) : Json(nullptr)},
            {"depth", is_rectangle ? text(size_m.y()) : Json(nullptr)},
            {"ceiling", text(room.ceiling_m)},
            {"ceiling_m", length(ceiling_.highest_m)},
            {"lowest_ceiling_m", length(ceiling_.lowest_m)},
            {"floor_area_m2", number(area_m2)},
            {"floor_area", area_text(area_m2, job_.units)}};
  }

  [[nodiscard]] Json target(const std::optional<double>& lx) const {
    if (!lx) return nullptr;
    return {{"lx", number(*lx)}, {"text", illuminance_text(*lx, 0, job_.units)}};
  }

  [[nodiscard]] Json work_plane() const {
    return {{"height_m", length(job_.work_plane.height_m)}, {"height", text(job_.work_plane.height_m)}};
  }

  [[nodiscard]] Json finishes() const {
    Json all = Json::array();
    const auto add = [&](const std::string& name, double reflectance) {
      all.push_back({{"name", name}, {"reflectance", number(reflectance)}, {"text", reflectance_text(reflectance)}});
    };
    add("floor", job_.finishes.floor);
    add("ceiling", job_.finishes.ceiling);
    add("walls", job_.finishes.walls);
    for (const auto& [wall, reflectance] : job_.finishes.wall) add(wall, reflectance);
    return all;
  }

  [[nodiscard]] Json can_types() const {
    Json all = Json::array();
    for (std::size_t i = 0; i < job_.can_types.size(); ++i) {
      const CanType& type = job_.can_types[i];
      const PhotometricFile& file = facts_.photometry[i];
      all.push_back({{"name", type.name},
                     {"file", type.beam ? Json(nullptr) : Json(type.file)},
                     {"lumens", number(lumens(file.distribution))},
                     {"watts", number(watts_of(type, file))},
                     {"price", number(type.price)},
                     {"hole_m", length_or_null(type.hole_m)},
                     {"hole", text(type.hole_m)},
                     {"about", light_source_text(type, file)}});
    }
    return all;
  }

  [[nodiscard]] Json cans() const {
    std::vector<const std::vector<Hit>*> hits(job_.cans.size(), nullptr);
    for (const CanHits& each : facts_.holes) hits[static_cast<std::size_t>(each.can)] = &each.hits;
    std::size_t index = 0;
    return numbered(job_.cans, [&](const Can& can) { return can_json(can, hits[index++]); });
  }

  [[nodiscard]] Json framing() const {
    Json pieces = Json::array();
    for (const Strip& strip : evenlit::framing(job_).strips) {
      for (const Polygon& piece : intersection(job_.room.corners_m, strip.corners_m)) {
        pieces.push_back({{"name", strip.name}, {"outline", outline_json(piece)}});
      }
    }
    return pieces;
  }

  [[nodiscard]] Json keep_outs() const {
    return numbered(job_.keep_outs, [&](const KeepOut& keep_out) -> Json {
      return {{"name", keep_out.name},
              {"outline", outline_json(outline_of(job_.room, keep_out))},
              {"clearance", text(keep_out.clearance_m)}};
    });
  }

  [[nodiscard]] Json fans() const {
    return numbered(job_.fans, [&](const Fan& fan) {
      Json object = named_place(fan.name, plan_position(job_.room, fan.from).value());
      object["diameter_m"] = length(fan.diameter_m);
      return object;
    });
  }

  [[nodiscard]] Json obstructions() const {
    return numbered(job_.obstructions, [&](const Obstruction& box) -> Json {
      return {{"name", box.name},
              {"outline", outline_json(corners_of(job_.room, static_cast<const TapedRectangle&>(box)))},
              {"from", taped(box.from)},
              {"width", text(box.width_m)},
              {"depth", text(box.depth_m)},
              {"bottom", text(box.bottom_m)},
              {"top", text(box.top_m)},
              {"reflectance", number(box.reflectance)},
              {"turn_deg", number(box.turn_deg)}};
    });
  }

  [[nodiscard]] Json wall_areas() const {
    return numbered(job_.wall_areas, [&](const WallArea& area) -> Json {
      constexpr std::array<const char*, 3> k_kinds{"plain", "door", "window"};
      return {{"name", area.name},
              {"kind", k_kinds[static_cast<std::size_t>(area.kind)]},
              {"wall", area.wall},
              {"line", foot_of(area)},
              {"bottom", text(area.bottom_m)},
              {"top", text(area.top_m)}};
    });
  }

  [[nodiscard]] Json task_areas() const {
    return numbered(job_.task_areas, [&](const TaskArea& area) -> Json {
      const PlaneCorners corners_m = corners_of(job_.room, area);
      const auto [low, high] =
          std::minmax_element(corners_m.begin(), corners_m.end(),
                              [](const Eigen::Vector3d& a, const Eigen::Vector3d& b) { return a.z() < b.z(); });
      const std::string lowest = length_text(low->z(), job_.units);
      const std::string highest = length_text(high->z(), job_.units);
      return {{"name", area.name},
              {"outline", outline_json(on_plan(corners_m))},
              {"height", lowest == highest ? lowest : lowest + " to " + highest},
              {"target", target(area.target_lx)}};
    });
  }

  [[nodiscard]] Json seats() const {
    return numbered(job_.seats, [&](const Seat& seat) {
      return directed(seat.name, plan_position(job_.room, seat.from).value(), seat.looking.toward_deg);
    });
  }

  [[nodiscard]] Json screens() const {
    return numbered(job_.screens, [&](const Screen& screen) -> Json {
      return {{"name", screen.name}, {"outline", outline_json(on_plan(corners_of(job_.room, ceiling_, screen)))}};
    });
  }

  [[nodiscard]] Json points() const {
    return numbered(job_.points, [&](const NamedPoint& point) {
      Json object = directed(point.name, plan_position(job_.room, point).value(), toward_deg(point));
      object["height"] = text(point.height_m);
      return object;
    });
  }

  [[nodiscard]] Json views() const {
    return numbered(job_.views, [&](const Viewpoint& view) {
      return directed(view.name, plan_position(job_.room, view.from).value(), toward_deg(job_.room, view));
    });
  }

  [[nodiscard]] Json switches() const {
    if (!job_.wiring) return Json::array();
    return numbered(job_.wiring->switches, [&](const SwitchBox& box) {
      Json object = named_place(box.name, plan_position(job_.room, box.at));
      object["also"] = box.also ? place(plan_position(job_.room, *box.also)) : Json(nullptr);
      object["circuits"] = box.circuits;
      return object;
    });
  }

  [[nodiscard]] Json circuits() const {
    Json all = Json::array();
    for (const Circuit& circuit : job_.circuits) {
      all.push_back(circuit_json(circuit.name, circuit.dimmer.has_value(),
                                 [&](double setting) { return circuit_light(job_, circuit, setting); }));
    }
    if (std::ranges::any_of(job_.cans, [](const Can& can) { return !can.circuit; })) {
      all.push_back(circuit_json(std::nullopt, false, std::identity()));
    }
    return all;
  }

  [[nodiscard]] Json moods() const {
    Json all = Json::array();
    for (const Mood& mood : job_.moods) {
      Json levels = nullptr;
      Json settings = nullptr;
      if (const auto* asked = std::get_if<CircuitLevels>(&mood.asks)) {
        levels = by_circuit(asked->of, [](const Circuit&, double level) { return number(level); });
        settings = by_circuit(asked->of, [&](const Circuit& circuit, double level) {
          return number(circuit_setting(job_, circuit, level));
        });
      } else if (const auto* set = std::get_if<CircuitSettings>(&mood.asks)) {
        levels = by_circuit(set->of, [&](const Circuit& circuit, double setting) {
          return number(circuit_light(job_, circuit, setting));
        });
        settings = by_circuit(set->of, [](const Circuit&, double setting) { return number(setting); });
      }
      all.push_back({{"name", mood.name}, {"levels", std::move(levels)}, {"settings", std::move(settings)}});
    }
    return all;
  }

 private:
  [[nodiscard]] Json text(std::optional<double> metres) const {
    return metres ? Json(length_text(*metres, job_.units)) : Json(nullptr);
  }

  [[nodiscard]] static Json length_or_null(const std::optional<double>& metres) {
    return metres ? length(*metres) : Json(nullptr);
  }

  [[nodiscard]] static Json place(const Vector2d& point_m) {
    return {{"x_m", length(point_m.x())}, {"y_m", length(point_m.y())}};
  }

  [[nodiscard]] static Json named_place(const std::string& name, const Vector2d& point_m) {
    Json object{{"name", name}};
    object.update(place(point_m));
    return object;
  }

  [[nodiscard]] static Json directed(const std::string& name, const Vector2d& point_m,
                                     const std::optional<double>& toward_deg) {
    Json object = named_place(name, point_m);
    object["toward_deg"] = number(toward_deg);
    return object;
  }

  [[nodiscard]] Json taped(const Taped (&from)[2]) const {
    Json both = Json::array();
    for (const Taped& each : from) {
      both.push_back({{"wall", each.wall}, {"text", text(each.distance_m)}, {"distance_m", length(each.distance_m)}});
    }
    return both;
  }

  [[nodiscard]] Json can_json(const Can& can, const std::vector<Hit>* hits) const {
    const Mounting mounted = mounting(job_.room, ceiling_, can).value();
    Json hit_texts = Json::array();
    if (hits != nullptr) {
      for (const Hit& hit : *hits) hit_texts.push_back(hit_text(hit, job_.units));
    }
    Json object{{"type", can.type}};
    object.update(place(mounted.opening_m.head<2>()));
    object.update(Json{{"from", taped(can.from)},
                       {"height_m", length(mounted.opening_m.z())},
                       {"hangs", hangs(can)},
                       {"level", number(can.level)},
                       {"circuit", name_or_null(can.circuit)},
                       {"aim", mounted.tilt_deg == 0 ? Json(nullptr)
                                                     : Json{{"tilt_deg", number(mounted.tilt_deg)},
                                                            {"toward_deg", number(mounted.toward_deg)}}},
                       {"fits", hits == nullptr ? Json(nullptr) : Json(hits->empty())},
                       {"hits", std::move(hit_texts)}});
    return object;
  }

  /// Where what is to be seen of it stands on the plan; null where nothing of it is on its wall.
  [[nodiscard]] Json foot_of(const WallArea& area) const {
    const Polygon outline = outline_on_wall(job_.room, ceiling_, area);
    if (outline.empty()) return nullptr;
    const int wall = wall_index(job_.room, area.wall).value();
    const Eigen::AlignedBox2d bounds = bounds_of(outline);
    return outline_json(
        on_plan({on_wall(job_.room, wall, {bounds.min().x(), 0}), on_wall(job_.room, wall, {bounds.max().x(), 0})}));
  }

  [[nodiscard]] Json circuit_json(const std::optional<std::string>& name, bool is_dimmed,
                                  const std::function<double(double)>& light_of) const {
    constexpr int k_steps = 100;
    Json cans = Json::array();
    for (std::size_t i = 0; i < job_.cans.size(); ++i) {
      if (job_.cans[i].circuit == name) cans.push_back(i + 1);
    }
    Json light = Json::array();
    for (int i = 0; i <= k_steps; ++i) light.push_back(number(light_of(static_cast<double>(i) / k_steps)));
    return {{"name", name_or_null(name)},
            {"cans", std::move(cans)},
            {"dimmed", is_dimmed},
            {"light_of_setting", std::move(light)}};
  }

  /// An object with a value a circuit, of what is written by name.
  [[nodiscard]] Json by_circuit(const std::map<std::string, double>& by_name,
                                const std::function<Json(const Circuit&, double)>& value_of) const {
    const std::vector<double> values = in_circuit_order(job_, by_name);
    Json object = Json::object();
    for (std::size_t i = 0; i < values.size(); ++i) {
      object[job_.circuits[i].name] = value_of(job_.circuits[i], values[i]);
    }
    return object;
  }

  const RoomFacts& facts_;
  const Job& job_;
  Ceiling ceiling_;
};

}  // namespace

std::string room_json(const RoomFacts& facts, const Problems& warnings) {
  const Writer writer(facts);
  return json_text({{"format", "evenlit room"},
                    {"version", k_version},
                    {"units", facts.job.units == Units::imperial ? "imperial" : "metric"},
                    {"currency", facts.job.currency},
                    {"room", writer.room()},
                    {"target", writer.target(facts.job.target_lx)},
                    {"work_plane", writer.work_plane()},
                    {"finishes", writer.finishes()},
                    {"can_types", writer.can_types()},
                    {"cans", writer.cans()},
                    {"is_ceiling_known", is_ceiling_known(facts.job)},
                    {"framing", writer.framing()},
                    {"keep_outs", writer.keep_outs()},
                    {"fans", writer.fans()},
                    {"obstructions", writer.obstructions()},
                    {"wall_areas", writer.wall_areas()},
                    {"task_areas", writer.task_areas()},
                    {"seats", writer.seats()},
                    {"screens", writer.screens()},
                    {"points", writer.points()},
                    {"views", writer.views()},
                    {"switches", writer.switches()},
                    {"circuits", writer.circuits()},
                    {"moods", writer.moods()},
                    {"warnings", remarks(warnings)}});
}

}  // namespace evenlit
