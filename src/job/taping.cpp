#include "taping.hpp"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/base/names.hpp"
#include "evenlit/job/walls.hpp"
#include "tables.hpp"
#include "toml_editor.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Lengths = std::vector<std::pair<TomlPath, Json>>;

constexpr double k_rounding_m = 1e-7;

Vector2d into_room(const Shape& room, int wall) {
  const Vector2d along = along_wall(room, wall);
  return {-along.y(), along.x()};
}

/// From a wall's line into the room.
double distance_m(const Shape& room, int wall, const Vector2d& place_m) {
  return into_room(room, wall).dot(place_m - room.corners_m[static_cast<std::size_t>(wall)]);
}

std::string tape_text(double metres, Units units) { return exact_length_text(tape_length_m(metres, units), units); }

/// Moves one thing.
class Mover {
 public:
  Mover(const TomlValue& thing, const TomlPath& path, const TapedRoom& room, const Vector2d& to_m)
      : thing_(thing), path_(path), room_(room), to_m_(to_m) {}

  Result<Lengths> lengths() {
    const TomlValue* corners = value_at(thing_, {"corners"});
    const TomlValue* from = value_at(thing_, {"from"});
    if (path_.front() == TomlStep("room") || (corners == nullptr && from == nullptr)) {
      reader_.problem(thing_.place, fmt::format("{} has no place that can be moved", text_of(path_)),
                      R"(name what has from or corners: {"move": ["cans", 0], "to_m": [1.5, 2]})");
    } else if (corners != nullptr) {
      shift(*corners);
    } else {
      tape(*from);
    }
    if (auto problems = reader_.problems(); !problems.empty()) return tl::unexpected(std::move(problems));
    return std::move(lengths_);
  }

 private:
  double length_m(std::string_view key) {
    return reader_.length_m(value_at(thing_, {std::string(key)}), key, k_side).value_or(0);
  }

  void write(const TomlPath& path, double now_m, double metres) {
    if (std::abs(now_m - metres) > k_rounding_m) lengths_.emplace_back(path, tape_text(metres, room_.units));
  }

  /// By what a tape shows, so that corners at round lengths keep to such and all keep their distances.
  void shift(const TomlValue& corners) {
    std::vector<std::vector<double>> places_m;
    Eigen::AlignedBox2d bounds;
    const auto* list = reader_.array(&corners, "corners", "list the corners");
    if (list == nullptr) return;
    for (const TomlValue& corner : *list) {
      places_m.push_back(read_corner_lengths(corner, reader_));
      if (places_m.back().empty()) return;
      bounds.extend(Vector2d(places_m.back()[0], places_m.back()[1]));
    }
    if (bounds.isEmpty()) return;
    const Vector2d by_m =
        (to_m_ - bounds.center()).unaryExpr([&](double metres) { return tape_length_m(metres, room_.units); });
    for (std::size_t i = 0; i < places_m.size(); ++i) {
      for (const std::size_t axis : {0, 1}) {
        const double shifted_m = places_m[i][axis] + by_m[static_cast<Eigen::Index>(axis)];
        const double tape_m = tape_length_m(shifted_m, room_.units);
        const double written_m = std::abs(tape_m - shifted_m) < k_rounding_m ? tape_m : shifted_m;
        if (by_m[static_cast<Eigen::Index>(axis)] == 0) continue;
        lengths_.emplace_back(extended(extended(extended(path_, "corners"), i), axis),
                              exact_length_text(written_m, room_.units));
      }
    }
  }

  void tape(const TomlValue& from) {
    const auto* table = reader_.table(&from, "from");
    if (table == nullptr) return;
    const TomlValue* wall = value_at(thing_, {"wall"});
    const auto* own_wall = wall != nullptr ? std::get_if<std::string>(&wall->content) : nullptr;
    if (own_wall != nullptr) {
      tape_along(from, *own_wall);
    } else if (table->entries.size() == 1) {
      tape_square(from, Vector2d::Zero());
    } else {
      Taped taped[2];
      if (!read_from(from, "place", &room_.shape, taped, reader_)) return;
      check_walls_meet(from, plan_position(room_.shape, taped), reader_);
      const bool is_rectangle = value_at(thing_, {"depth"}) != nullptr;
      const Vector2d size_m = is_rectangle ? Vector2d(length_m("width"), length_m("depth")) : Vector2d::Zero();
      tape_square(from, size_m / 2);
    }
  }

  /// Square to each wall that it is taped from now.
  void tape_square(const TomlValue& from, const Vector2d& half_m) {
    for (const auto& [wall, key_place, distance] : std::get<TomlTable>(from.content).entries) {
      check_wall_name(room_.shape, wall, key_place, reader_);
      const auto index = wall_index(room_.shape, wall);
      const auto now_m = reader_.length_m(&distance, "distance", k_distance);
      if (!index || !now_m) return;
      const double metres =
          evenlit::distance_m(room_.shape, *index, to_m_) - into_room(room_.shape, *index).cwiseAbs().dot(half_m);
      if (tape_length_m(metres, room_.units) < 0) {
        reader_.problem(distance.place,
                        fmt::format("there {} would reach {} behind wall {}, from which it is measured", text_of(path_),
                                    length_text(-metres, room_.units), evenlit::quoted(wall)),
                        "move it to a place in front of that wall, or set its from to another one");
        return;
      }
      write(extended(extended(path_, "from"), wall), *now_m, metres);
    }
  }

  /// Along its wall, as far as that goes.
  void tape_along(const TomlValue& from, const std::string& own_wall) {
    const Shape& shape = room_.shape;
    check_wall_name(shape, own_wall, thing_.place, reader_);
    const auto now = read_along(from, "thing on a wall", own_wall, &shape, reader_);
    const auto wall = wall_index(shape, own_wall);
    if (!now || !wall || !wall_index(shape, now->wall)) return;
    const double width_m = length_m("width");
    const Vector2d corner = plan_position(shape, WallPlace{own_wall, {now->wall, 0}});
    const Vector2d along = plan_position(shape, WallPlace{own_wall, {now->wall, 1}}) - corner;
    const double most_m = std::max(wall_length_m(shape, *wall) - width_m, 0.0);
    const double metres = std::clamp(along.dot(to_m_ - corner) - width_m / 2, 0.0, most_m);
    const double step_m = room_.units == Units::metric ? 0.001 : k_metres_per_inch / 16;
    const bool is_beyond = tape_length_m(metres, room_.units) > most_m;
    write(extended(extended(path_, "from"), now->wall), now->distance_m,
          is_beyond ? std::max(tape_length_m(metres, room_.units) - step_m, 0.0) : metres);
  }

  const TomlValue& thing_;
  const TomlPath& path_;
  const TapedRoom& room_;
  Vector2d to_m_;
  ValueReader reader_;
  Lengths lengths_;
};

}  // namespace

Result<TapedRoom> taped_room(const TomlValue& document, std::string_view name) {
  TapedRoom room;
  const TomlValue* units = value_at(document, {"units"});
  const auto* trade = units != nullptr ? std::get_if<std::string>(&units->content) : nullptr;
  if (trade != nullptr && *trade == "metric") room.units = Units::metric;
  const TomlValue* value = value_at(document, {"room"});
  if (value == nullptr) {
    return failure(whole_file(name), "the job has no room", "add a table [room] with name, width, depth and ceiling");
  }
  ValueReader reader;
  auto shape = read_shape(*value, room.units, reader);
  if (!shape) return tl::unexpected(reader.problems());
  room.shape = std::move(*shape);
  return room;
}

Result<Lengths> lengths_to_move(const TomlValue& thing, const TomlPath& path, const TapedRoom& room,
                                const Vector2d& to_m) {
  return Mover(thing, path, room, to_m).lengths();
}

std::optional<Json> taped_from(const TapedRoom& room, const Vector2d& place_m) {
  struct Sight {
    int wall = 0;
    bool is_aside = false;  ///< no tape square to the wall ends on it
    double distance_m = 0;
  };
  const Shape& shape = room.shape;
  std::vector<Sight> sights;
  for (int wall = 0; wall < std::ssize(shape.corners_m); ++wall) {
    const double far_m = tape_length_m(distance_m(shape, wall, place_m), room.units);
    const double station_m = along_wall(shape, wall).dot(place_m - shape.corners_m[static_cast<std::size_t>(wall)]);
    if (far_m >= 0) sights.push_back({wall, station_m < 0 || station_m > wall_length_m(shape, wall), far_m});
  }
  std::ranges::stable_sort(sights, {}, [](const Sight& sight) { return std::pair(sight.is_aside, sight.distance_m); });
  const auto sine = [&](const Sight& a, const Sight& b) {
    return std::abs(into_room(shape, a.wall).dot(along_wall(shape, b.wall)));
  };
  // The first wall is the nearest; the second the nearest at a good angle to it, or else at the best one.
  constexpr double k_good_sine = 0.5;
  constexpr double k_least_sine = 1e-3;
  const Sight* second = nullptr;
  for (const Sight& sight : sights) {
    const double least = second == nullptr ? k_least_sine : sine(sights.front(), *second);
    if (least < k_good_sine && sine(sights.front(), sight) > least) second = &sight;
  }
  if (second == nullptr) return std::nullopt;
  std::array<const Sight*, 2> pair{&sights.front(), second};
  std::ranges::stable_sort(pair, std::ranges::greater{},
                           [&](const Sight* sight) { return std::abs(into_room(shape, sight->wall).x()); });
  Json from = Json::object();
  for (const Sight* sight : pair) {
    from[shape.wall_names[static_cast<std::size_t>(sight->wall)]] = tape_text(sight->distance_m, room.units);
  }
  return from;
}

}  // namespace evenlit
