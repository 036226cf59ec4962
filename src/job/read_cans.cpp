#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/names.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_cans = 500;
constexpr Range k_level{{.value = 0, .text = "0"}, {.value = 1, .text = "1"}};
constexpr Range k_tilt{{.value = 0, .text = "0"}, {.value = 180, .text = "180"}};

void read_aim(const TomlValue& value, Can& can, ValueReader& reader) {
  Fields fields(value, "aim", reader);
  constexpr std::string_view k_example = "write aim = { tilt = 30, toward = 90 }";
  can.tilt_deg = reader.number(fields.require("tilt", k_example), "aim tilt", k_tilt).value_or(0);
  can.toward_deg = reader.number(fields.find("toward"), "aim toward", k_turn).value_or(0);
  fields.refuse_other_keys();
}

void check_type(const TomlValue& value, const Can& can, const std::vector<CanType>& types, ValueReader& reader) {
  const bool is_known =
      std::any_of(types.begin(), types.end(), [&](const CanType& type) { return type.name == can.type; });
  if (is_known || types.empty()) return;
  std::vector<std::string_view> names(types.size());
  std::transform(types.begin(), types.end(), names.begin(),
                 [](const CanType& type) { return std::string_view(type.name); });
  reader.unknown_name(value.place, fmt::format("there is no can type {}", quoted(can.type)), can.type, names);
}

Can read_can(const TomlValue& value, const Shape* room, const std::vector<CanType>& types, Units units,
             ValueReader& reader) {
  Fields fields(value, "a can in [[cans]]", reader);
  Can can;
  can.origin = {value.place};
  const auto* type = fields.require("type", R"(add a line like type = "six_inch", the name of a can type)");
  if (const auto name = reader.text(type, "type")) {
    can.type = *name;
    check_type(*type, can, types, reader);
  }
  const auto* from = fields.require("from", k_from_example);
  if (from != nullptr && read_from(*from, "can", room, can.from, reader) && room != nullptr) {
    check_centre(*from, "can", plan_position(*room, can), *room, units, reader);
  }
  can.level = reader.fraction(fields.find("level"), "can level", k_level).value_or(can.level);
  if (const auto* aim = fields.find("aim")) read_aim(*aim, can, reader);
  can.rotation_deg = reader.number(fields.find("rotation"), "can rotation", k_turn).value_or(can.rotation_deg);
  fields.refuse_other_keys();
  return can;
}

}  // namespace

std::vector<Can> read_cans(const TomlValue& value, const Shape* room, const std::vector<CanType>& types, Units units,
                           ValueReader& reader) {
  std::vector<Can> cans;
  const auto* list = reader.array(&value, "cans", "write its header in double brackets: [[cans]]");
  if (list == nullptr) return cans;
  if (list->empty() || list->size() > k_most_cans) {
    reader.problem(value.place, fmt::format("the job has {} cans", list->size()),
                   fmt::format("a job has 1 to {} cans", k_most_cans));
    return cans;
  }
  for (const auto& element : *list) cans.push_back(read_can(element, room, types, units, reader));
  return cans;
}

}  // namespace evenlit
