#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/names.hpp"
#include "evenlit/job/ceiling.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_obstructions = 500;
constexpr Limit k_least_side{.value = 0.001, .text = "1 mm"};
constexpr Range k_side{k_least_side, {.value = 1000, .text = "1 km"}};

void check_name(const TomlValue& value, std::string_view name, const std::vector<Obstruction>& earlier,
                ValueReader& reader) {
  const bool is_taken =
      std::any_of(earlier.begin(), earlier.end(), [&](const Obstruction& other) { return other.name == name; });
  if (!is_taken) return;
  reader.problem(value.place, fmt::format("two obstructions are named {}", quoted(name)),
                 "give each obstruction its own name");
}

void check_heights(const TomlValue& top, const Obstruction& obstruction, const Ceiling* ceiling, Units units,
                   ValueReader& reader) {
  const auto top_text = length_text(obstruction.top_m, units);
  if (obstruction.top_m - obstruction.bottom_m < k_least_side.value) {
    reader.problem(top.place,
                   fmt::format("the obstruction's top at {} is not at least {} above its bottom at {}", top_text,
                               k_least_side.text, length_text(obstruction.bottom_m, units)),
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
    check_name(*name_value, *name, earlier, reader);
  }

  const auto* from = fields.require("from", k_from_example);
  const auto width =
      reader.length_m(fields.require("width", R"(add a line like width = "7ft")"), "obstruction width", k_side);
  const auto depth =
      reader.length_m(fields.require("depth", R"(add a line like depth = "3ft")"), "obstruction depth", k_side);
  obstruction.width_m = width.value_or(0);
  obstruction.depth_m = depth.value_or(0);
  const bool is_placed =
      from != nullptr && read_from(*from, "obstruction", room, obstruction.from, reader) && width && depth;
  if (is_placed && room != nullptr) {
    check_centre(*from, "obstruction", plan_centre(*room, obstruction), *room, units, reader);
  }

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
  return obstructions;
}

}  // namespace evenlit
