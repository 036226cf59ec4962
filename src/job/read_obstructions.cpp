#include <fmt/format.h>

#include "evenlit/base/names.hpp"
#include "evenlit/base/polygon.hpp"
#include "evenlit/job/ceiling.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_obstructions = 500;
constexpr int k_most_crossings = 500;

/// What of a convex polygon is inside another one.
Polygon common_part(Polygon part, const Polygon& other) {
  for (std::size_t i = 0; i < other.size() && !part.empty(); ++i) {
    const Eigen::Vector2d along = other[(i + 1) % other.size()] - other[i];
    const Eigen::Vector2d outward = Eigen::Vector2d(along.y(), -along.x()).normalized();
    part = part_within(part, outward, outward.dot(other[i]));
  }
  return part;
}

/// How many pairs run into each other: every one cuts faces into more pieces.
int crossings(const Shape& room, const std::vector<Obstruction>& obstructions) {
  constexpr double k_touching_m2 = 1e-6;
  std::vector<Polygon> plans;
  for (const auto& obstruction : obstructions) plans.push_back(corners_of(room, obstruction));
  int count = 0;
  for (std::size_t i = 0; i < obstructions.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      const bool in_height =
          obstructions[i].bottom_m < obstructions[k].top_m && obstructions[k].bottom_m < obstructions[i].top_m;
      if (in_height && signed_area(common_part(plans[i], plans[k])) > k_touching_m2) ++count;
    }
  }
  return count;
}

void check_heights(const TomlValue& top, const Obstruction& obstruction, const Ceiling* ceiling, Units units,
                   ValueReader& reader) {
  const auto top_text = length_text(obstruction.top_m, units);
  if (obstruction.top_m - obstruction.bottom_m < k_side.least.value) {
    reader.problem(top.place,
                   fmt::format("the obstruction's top at {} is not at least {} above its bottom at {}", top_text,
                               k_side.least.text, length_text(obstruction.bottom_m, units)),
                   "top and bottom are heights above the floor");
  }
  if (ceiling != nullptr && obstruction.top_m > ceiling->highest_m) {
    reader.problem(top.place,
                   fmt::format("the obstruction's top at {} is above the ceiling at {}", top_text,
                               length_text(ceiling->highest_m, units)),
                   "what reaches the ceiling has its height as top");
  }
}

Obstruction read_obstruction(const TomlValue& value, const Shape* room, const Ceiling* ceiling,
                             const std::vector<Obstruction>& earlier, Units units, ValueReader& reader) {
  Fields fields(value, "an obstruction in [[obstructions]]", reader);
  Obstruction obstruction;
  obstruction.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "island")");
  if (const auto name = reader.text(name_value, "obstruction name")) {
    obstruction.name = *name;
    check_name(*name_value, "obstruction", *name, earlier, reader);
  }

  read_rectangle(fields, "obstruction", room, units, obstruction, reader);
  const auto bottom = reader.length_m(fields.find("bottom"), "obstruction bottom", k_distance);
  obstruction.bottom_m = bottom.value_or(0);
  const auto* top_value = fields.require("top", R"(add a line like top = "36in": its height above the floor)");
  if (const auto top = reader.length_m(top_value, "obstruction top", k_distance)) {
    obstruction.top_m = *top;
    check_heights(*top_value, obstruction, ceiling, units, reader);
  }

  obstruction.turn_deg = reader.number(fields.find("turn"), "obstruction turn", k_turn).value_or(obstruction.turn_deg);
  obstruction.reflectance = reader.fraction(fields.find("reflectance"), "obstruction reflectance", k_reflectance)
                                .value_or(obstruction.reflectance);
  obstruction.colour = read_colour(fields.find("colour"), "obstruction colour", reader).value_or(obstruction.colour);
  fields.refuse_other_keys();
  return obstruction;
}

}  // namespace

std::vector<Obstruction> read_obstructions(const TomlValue& value, const Shape* room, Units units,
                                           ValueReader& reader) {
  std::vector<Obstruction> obstructions;
  const auto* list = reader.array(&value, "obstructions", "write its header in double brackets: [[obstructions]]");
  if (list == nullptr) return obstructions;
  if (list->size() > k_most_obstructions) {
    reader.problem(value.place, fmt::format("the job has {} obstructions", list->size()),
                   fmt::format("a job has at most {} obstructions", k_most_obstructions));
    return obstructions;
  }
  const auto ceiling = room != nullptr ? std::optional(ceiling_of(*room)) : std::nullopt;
  for (const auto& element : *list) {
    obstructions.push_back(read_obstruction(element, room, ceiling ? &*ceiling : nullptr, obstructions, units, reader));
  }
  if (room == nullptr || !reader.problems().empty()) return obstructions;
  if (const int count = crossings(*room, obstructions); count > k_most_crossings) {
    reader.problem(value.place, fmt::format("{} pairs of obstructions run into each other", count),
                   fmt::format("a job has at most {} such pairs; draw what is built together as one obstruction",
                               k_most_crossings));
  }
  return obstructions;
}

}  // namespace evenlit
