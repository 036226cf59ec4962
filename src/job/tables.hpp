#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "evenlit/base/names.hpp"
#include "evenlit/job/job.hpp"
#include "value_reader.hpp"

// One reader for each table of a job file. What is wrong goes to the value reader; a job is only made when nothing is,
// so a part that comes back while there are problems may be incomplete.

namespace evenlit {

/// The limits that several tables share.
inline constexpr Range k_room_side{{.value = 0.01, .text = "1 cm"}, {.value = 1000, .text = "1 km"}};
inline constexpr Range k_side{{.value = 0.001, .text = "1 mm"}, {.value = 1000, .text = "1 km"}};
inline constexpr Range k_distance{{.value = 0, .text = "0"}, {.value = 1000, .text = "1 km"}};
inline constexpr Range k_coordinate{{.value = -1000, .text = "-1 km"}, {.value = 1000, .text = "1 km"}};
inline constexpr Range k_part_size{{.value = 0, .text = "0", .is_included = false}, {.value = 100, .text = "100 m"}};
inline constexpr Range k_target{{.value = 0, .text = "0", .is_included = false}, {.value = 1e6, .text = "1000000 lx"}};
inline constexpr Range k_watts{{.value = 0, .text = "0"}, {.value = 1e5, .text = "100000"}};
inline constexpr Range k_hours{{.value = 0, .text = "0"}, {.value = 24, .text = "24"}, "write the hours of a day"};
inline constexpr Range k_money{{.value = 0, .text = "0"}, {.value = 1e7, .text = "10000000"}};
inline constexpr Range k_share{{.value = 0, .text = "0"}, {.value = 1, .text = "1"}};
inline constexpr Range k_turn{{.value = -360, .text = "-360"}, {.value = 360, .text = "360"}};

// A surface that sends back all light would never let it settle.
inline constexpr Range k_reflectance{
    {.value = 0, .text = "0"},
    {.value = 1, .text = "1", .is_included = false},
    "write the part of the light that comes back: 0 to below 1, a white ceiling about 0.8"};

/// What to write where two tape measurements are missing.
inline constexpr std::string_view k_from_example = R"(write from = { west = "3ft 3in", south = "3ft 3in" })";

/// [room]; empty when its plan or its ceiling cannot be known.
std::optional<Shape> read_shape(const TomlValue& value, Units units, ValueReader& reader);

/// The plan of a room by its measured `sides` and `diagonal` (null where there is none), from the southwest corner.
/// Empty, and reported, when they cannot be read or do not close.
std::optional<Polygon> read_measured_room(const TomlValue& sides, const TomlValue* diagonal, Units units,
                                          ValueReader& reader);

/// The list `slopes` of [room]; `room` has its plan. Empty when one of them cannot be read.
std::optional<std::vector<Slope>> read_slopes(const TomlValue& value, const Shape& room, ValueReader& reader);

/// Reports a name that no wall has.
void check_wall_name(const Shape& room, std::string_view name, const Place& place, ValueReader& reader);

/// The two tape measurements `from` of a can, an obstruction, a task area or a point; `noun` is that word, `room` null
/// when it is not known, `key` what else the measurements are called.
///
/// @return whether both could be read and the room has their walls
bool read_from(const TomlValue& value, std::string_view noun, const Shape* room, Taped (&from)[2], ValueReader& reader,
               std::string_view key = "from");

/// Reports parallel walls, for which `point` is empty.
void check_walls_meet(const TomlValue& from, const std::optional<Eigen::Vector2d>& point, ValueReader& reader);

/// Reports parallel walls, for which `centre` is empty, and a centre outside the room; `read_from` found the walls.
void check_centre(const TomlValue& from, std::string_view noun, const std::optional<Eigen::Vector2d>& centre,
                  const Shape& room, Units units, ValueReader& reader);

void report_taken_name(const Place& place, std::string_view noun, std::string_view name, ValueReader& reader);

/// Reports a name that an earlier one of the list has; `noun` as for `read_from`.
template <class Named>
void check_name(const TomlValue& value, std::string_view noun, std::string_view name, const std::vector<Named>& earlier,
                ValueReader& reader) {
  const bool is_taken = std::ranges::any_of(earlier, [&](const Named& other) { return other.name == name; });
  if (is_taken) report_taken_name(value.place, noun, name, reader);
}

/// The meaning of a word of which several are known; `known` begins with what an absent value means.
template <class Meaning, std::size_t count>
Meaning read_word(const TomlValue* value, std::string_view label,
                  const std::array<std::pair<std::string_view, Meaning>, count>& known, ValueReader& reader) {
  const auto word = reader.text(value, label);
  if (!word) return known.front().second;
  std::vector<std::string_view> words;
  for (const auto& [name, meaning] : known) {
    if (name == *word) return meaning;
    words.push_back(name);
  }
  reader.unknown_name(value->place, fmt::format("{} {} is unknown", label, evenlit::quoted(*word)), *word, words);
  return known.front().second;
}

/// Reports a name that nothing of a list has; `noun` as for `check_name`.
template <class Named>
void check_known(const Place& place, std::string_view noun, std::string_view name, const std::vector<Named>& known,
                 ValueReader& reader) {
  std::vector<std::string_view> names;
  for (const Named& one : known) names.push_back(one.name);
  if (std::ranges::find(names, name) != names.end()) return;
  reader.unknown_name(place, fmt::format("there is no {} {}", noun, evenlit::quoted(name)), name, names);
}

/// The list under `[[key]]`; null, and reported, when it is none or has more than `most` elements.
const TomlArray* short_list(const TomlValue& value, std::string_view key, std::string_view noun, std::size_t most,
                            ValueReader& reader);

/// Reads each of a list's elements, of which there may be `most`; `noun` as in "the job has 600 keep-outs".
///
/// @param read an element and those before it
template <class Part, class Read>
std::vector<Part> read_each(const TomlValue& value, std::string_view key, std::string_view noun, std::size_t most,
                            ValueReader& reader, const Read& read) {
  std::vector<Part> parts;
  if (const auto* list = short_list(value, key, noun, most, reader)) {
    for (const auto& element : *list) parts.push_back(read(element, parts));
  }
  return parts;
}

/// The table whose keys are names, `[key.NAME]`; null, and reported, when it is none, has more than `most` keys or an
/// empty one. `noun` as in "the job has 600 circuits".
const TomlTable* named_tables(const TomlValue& value, std::string_view key, std::string_view noun, std::size_t most,
                              ValueReader& reader);

/// Reads each of the tables `[key.NAME]`, in the order of the file.
///
/// @param read a table under its name
template <class Part, class Read>
std::vector<Part> read_each_named(const TomlValue& value, std::string_view key, std::string_view noun, std::size_t most,
                                  ValueReader& reader, const Read& read) {
  std::vector<Part> parts;
  if (const auto* table = named_tables(value, key, noun, most, reader)) {
    for (const auto& entry : table->entries) parts.push_back(read(entry.key, entry.value));
  }
  return parts;
}

/// What messages call a table of pairs.
struct PairWords {
  std::string_view label;
  std::string_view at;
  std::string_view value;
  std::string_view example;
};

/// A list of pairs, of which the first numbers rise and the second do not fall; fractions where a range is `k_share`.
/// Empty when it cannot be read.
RisingTable read_rising_table(const TomlValue& value, const PairWords& words, const Range& at_range,
                              const Range& value_range, ValueReader& reader);

/// The name of a law, or pairs of setting and output.
DimmingCurve read_curve(const TomlValue& value, std::string_view label, ValueReader& reader);

/// Fills in all of a rectangle but its turn from the keys `from`, `width` and `depth`; its centre must be in the room.
///
/// @return whether all could be read
bool read_rectangle(Fields& fields, std::string_view noun, const Shape* room, Units units, TapedRectangle& rectangle,
                    ValueReader& reader);

/// The list `corners`, each [east, north]; `noun` is what they enclose. Empty when one of them cannot be read.
std::optional<Polygon> read_corners(const TomlValue& value, std::string_view noun, ValueReader& reader);

/// The lengths of a corner, two or three; empty where one cannot be read.
std::vector<double> read_corner_lengths(const TomlValue& value, ValueReader& reader);

/// Reports corners beyond a wall or above the ceiling, where there is nothing to see or to count; `noun` as in "the
/// task area reaches 2 in outside the room".
void check_in_room(const PlaneCorners& corners, std::string_view noun, const Place& place, const Shape& room,
                   Units units, ValueReader& reader);

/// A direction of view: `toward` an angle on the plan, `tilt` above level.
Looking read_looking(const TomlValue& value, ValueReader& reader);

/// A colour written as screens have it, "#rrggbb".
std::optional<SurfaceColour> read_colour(const TomlValue* value, std::string_view label, ValueReader& reader);

/// Where eyes or a point are: `from` and `height` above the floor, in the room; `noun` as in "point height".
///
/// @param height_example what to write where there is no height; empty where `height_m` then stays as it is
void read_spot(Fields& fields, std::string_view noun, std::string_view height_example, const Shape* room, Units units,
               Taped (&from)[2], double& height_m, ValueReader& reader);

/// The one tape measurement `from` along a wall; reports a wall that does not stand beside `own_wall`. Empty where it
/// cannot be read.
std::optional<Taped> read_along(const TomlValue& value, std::string_view noun, std::string_view own_wall,
                                const Shape* room, ValueReader& reader);

/// A rectangle on a wall from the keys `wall`, `from`, `width`, `bottom` and `top`; `noun` is the kind of thing that it
/// is, `name` its own, `place` where it is written.
void read_wall_rectangle(Fields& fields, const Place& place, std::string_view noun, std::string_view name,
                         const Shape* room, WallRectangle& rectangle, ValueReader& reader);

/// A rectangle or corners, from the keys `from`, `width`, `depth` and `turn`, or `corners`; `noun` as in "the
/// keep-out's centre". Corners come back counter-clockwise.
///
/// @return whether it could be read; then it encloses an area
bool read_plan_area(Fields& fields, std::string_view noun, const Shape* room, Units units, PlanArea& area,
                    ValueReader& reader);

/// Reports a height that is above the ceiling, which is at `ceiling_m` there; `noun` as in "the point's height".
void check_below_ceiling(const Place& place, std::string_view noun, double height_m, double ceiling_m, Units units,
                         ValueReader& reader);

// The room is null when it could not be read: then nothing is checked against it.

Finishes read_finishes(const TomlValue& value, const Shape* room, ValueReader& reader);
WorkPlane read_work_plane(const TomlValue& value, const Shape* room, Units units, ValueReader& reader);

/// [wanted]
Wanted read_wanted(const TomlValue& value, ValueReader& reader);

/// [colours]
Colours read_colours(const TomlValue& value, const Shape* room, ValueReader& reader);

/// [joists] or [[joists]], in the order of the file.
std::vector<Joists> read_joists(const TomlValue& value, const Shape* room, Units units, ValueReader& reader);

/// [[members]], in the order of the file.
std::vector<Member> read_members(const TomlValue& value, const Shape* room, ValueReader& reader);

/// [[keep_outs]], in the order of the file.
std::vector<KeepOut> read_keep_outs(const TomlValue& value, const Shape* room, Units units, ValueReader& reader);

/// [[fans]], in the order of the file.
std::vector<Fan> read_fans(const TomlValue& value, const Shape* room, Units units, ValueReader& reader);

/// [[obstructions]], in the order of the file.
std::vector<Obstruction> read_obstructions(const TomlValue& value, const Shape* room, Units units, ValueReader& reader);

/// [[task_areas]], in the order of the file.
///
/// @param usual_height_m where an area lies that does not say
std::vector<TaskArea> read_task_areas(const TomlValue& value, const Shape* room, double usual_height_m, Units units,
                                      ValueReader& reader);

/// [[points]], in the order of the file.
std::vector<NamedPoint> read_points(const TomlValue& value, const Shape* room, Units units, ValueReader& reader);

/// [[wall_areas]], in the order of the file.
std::vector<WallArea> read_wall_areas(const TomlValue& value, const Shape* room, ValueReader& reader);

/// [[seats]], in the order of the file.
std::vector<Seat> read_seats(const TomlValue& value, const Shape* room, Units units, ValueReader& reader);

/// [[screens]], in the order of the file.
std::vector<Screen> read_screens(const TomlValue& value, const Shape* room, Units units, ValueReader& reader);

/// [[views]], in the order of the file.
std::vector<Viewpoint> read_views(const TomlValue& value, const Shape* room, Units units, ValueReader& reader);

/// [dimmers], in the order of the file.
std::vector<Dimmer> read_dimmers(const TomlValue& value, ValueReader& reader);

/// [circuits], in the order of the file.
std::vector<Circuit> read_circuits(const TomlValue& value, const std::vector<Dimmer>& dimmers, ValueReader& reader);

/// [moods], in the order of the file.
///
/// @param job whose circuits and task areas have been read
std::vector<Mood> read_moods(const TomlValue& value, const Job& job, ValueReader& reader);

/// [energy]
Energy read_energy(const TomlValue& value, ValueReader& reader);

/// [supply]
Supply read_supply(const TomlValue& value, ValueReader& reader);

/// [wiring]
///
/// @param job whose circuits and units have been read
Wiring read_wiring(const TomlValue& value, const Shape* room, const Job& job, ValueReader& reader);

/// [can_types], in the order of the file.
std::vector<CanType> read_can_types(const TomlValue& value, ValueReader& reader);

/// [[cans]], in the order of the file.
///
/// @param job whose can types, circuits, obstructions and units have been read
std::vector<Can> read_cans(const TomlValue& value, const Shape* room, const Job& job, ValueReader& reader);

}  // namespace evenlit
