#pragma once

#include <algorithm>
#include <optional>
#include <string_view>

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
inline constexpr Range k_money{{.value = 0, .text = "0"}, {.value = 1e7, .text = "10000000"}};
inline constexpr Range k_turn{{.value = -360, .text = "-360"}, {.value = 360, .text = "360"}};

// A surface that sends back all light would never let it settle.
inline constexpr Range k_reflectance{
    {.value = 0, .text = "0"},
    {.value = 1, .text = "1", .is_included = false},
    "write the part of the light that comes back: 0 to below 1, a white ceiling about 0.8"};

/// What to write where two tape measurements are missing.
inline constexpr std::string_view k_from_example = R"(write from = { west = "3ft 3in", south = "3ft 3in" })";

/// [room]; empty when its plan or its ceiling cannot be known.
std::optional<Shape> read_shape(const TomlValue& value, ValueReader& reader);

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

/// Fills in all of a rectangle but its turn from the keys `from`, `width` and `depth`; its centre must be in the room.
///
/// @return whether all could be read
bool read_rectangle(Fields& fields, std::string_view noun, const Shape* room, Units units, TapedRectangle& rectangle,
                    ValueReader& reader);

/// The list `corners`, each [east, north]; `noun` is what they enclose. Empty when one of them cannot be read.
std::optional<Polygon> read_corners(const TomlValue& value, std::string_view noun, ValueReader& reader);

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

/// [can_types], in the order of the file.
std::vector<CanType> read_can_types(const TomlValue& value, ValueReader& reader);

/// [[cans]], in the order of the file.
///
/// @param job whose can types, obstructions and units have been read
std::vector<Can> read_cans(const TomlValue& value, const Shape* room, const Job& job, ValueReader& reader);

}  // namespace evenlit
