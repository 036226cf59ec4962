#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "evenlit/base/names.hpp"
#include "measured_plan.hpp"
#include "rectangle.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::string_view k_sides_hint =
    R"(write sides = { south = "14ft 2in", east = "12ft", north = "14ft 1in", west = "12ft" })";
constexpr std::string_view k_diagonal_hint =
    R"(add a line like diagonal = { from = "southwest", length = "18ft 6in" })";

using Diagonal = MeasuredRoom::Diagonal;

constexpr std::array<std::pair<std::string_view, Diagonal>, 4> k_diagonals{{
    {"southwest", Diagonal::southwest_northeast},
    {"northeast", Diagonal::southwest_northeast},
    {"southeast", Diagonal::southeast_northwest},
    {"northwest", Diagonal::southeast_northwest},
}};

/// The four sides; false where one of them cannot be known.
bool read_sides(const TomlValue& value, MeasuredRoom& room, ValueReader& reader) {
  Fields fields(value, "sides", reader);
  bool is_whole = true;
  for (const auto& [wall, side_m] : {std::pair<std::string_view, double*>{"south", &room.south_m},
                                     {"east", &room.east_m},
                                     {"north", &room.north_m},
                                     {"west", &room.west_m}}) {
    const auto length_m =
        reader.length_m(fields.require(wall, k_sides_hint), fmt::format("length of the {} wall", wall), k_room_side);
    *side_m = length_m.value_or(0);
    is_whole = is_whole && length_m;
  }
  fields.refuse_other_keys();
  return is_whole;
}

bool read_diagonal(const TomlValue& value, MeasuredRoom& room, ValueReader& reader) {
  Fields fields(value, "diagonal", reader);
  const auto* from = fields.require("from", k_diagonal_hint);
  const auto* length = fields.require("length", k_diagonal_hint);
  room.diagonal = read_word(from, "diagonal from", k_diagonals, reader);
  const auto length_m = reader.length_m(length, "diagonal length", k_room_side);
  room.diagonal_m = length_m.value_or(0);
  fields.refuse_other_keys();
  return from != nullptr && length_m;
}

/// One wall is longer than the other three reach.
void report_no_room(const TomlValue& sides, const MeasuredRoom& room, Units units, ValueReader& reader) {
  const std::array<double, 4> lengths{room.south_m, room.east_m, room.north_m, room.west_m};
  const auto* longest = std::ranges::max_element(lengths);
  const double others_m = room.south_m + room.east_m + room.north_m + room.west_m - *longest;
  reader.problem(sides.place,
                 fmt::format("the sides do not close: the {} wall is {} and the other three together reach {}",
                             rectangle_wall_names()[static_cast<std::size_t>(longest - lengths.begin())],
                             length_text(*longest, units), length_text(others_m, units)),
                 "measure the walls again, each along its foot from corner to corner");
}

/// The diagonal reaches no room with these sides; the range that is told is within that which does, as printed.
void report_diagonal(const TomlValue& diagonal, const MeasuredRoom& room, const std::array<double, 2>& range_m,
                     Units units, ValueReader& reader) {
  const double step_m = units == Units::imperial ? k_metres_per_inch / 16 : 0.001;
  constexpr double k_rounding = 1e-6;  // of a step; the ends themselves do not close
  const double least_m = (std::floor(range_m[0] / step_m + k_rounding) + 1) * step_m;
  const double most_m = (std::ceil(range_m[1] / step_m - k_rounding) - 1) * step_m;
  reader.problem(
      diagonal.place,
      fmt::format("the diagonal of {} does not close with these sides: they reach from {} to {}",
                  length_text(room.diagonal_m, units), length_text(least_m, units), length_text(most_m, units)),
      "measure it again, level and tight from corner to corner, and check which corner it starts from");
}

}  // namespace

std::optional<Polygon> read_measured_room(const TomlValue& sides, const TomlValue* diagonal, Units units,
                                          ValueReader& reader) {
  MeasuredRoom room;
  const bool has_sides = read_sides(sides, room, reader);
  if (diagonal == nullptr) {
    reader.problem(sides.place, "[room] has sides and no diagonal", std::string(k_diagonal_hint));
    return std::nullopt;
  }
  if (!read_diagonal(*diagonal, room, reader) || !has_sides) return std::nullopt;
  const auto range_m = diagonal_range_m(room);
  if (!range_m) {
    report_no_room(sides, room, units, reader);
    return std::nullopt;
  }
  if (room.diagonal_m <= (*range_m)[0] || room.diagonal_m >= (*range_m)[1]) {
    report_diagonal(*diagonal, room, *range_m, units, reader);
    return std::nullopt;
  }
  return measured_plan(room);
}

}  // namespace evenlit
