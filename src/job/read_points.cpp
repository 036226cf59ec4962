#include <fmt/format.h>

#include "evenlit/base/names.hpp"
#include "evenlit/job/ceiling.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_points = 1000;
constexpr Range k_tilt_from_up{{.value = 0, .text = "0"}, {.value = 180, .text = "180"}};
constexpr std::string_view k_facing_example =
    R"(write "up", "down", "around", a direction on the plan like 90, or { tilt = 30, toward = 90 })";

Facing read_tilted(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "facing", reader);
  Facing facing;
  const auto* tilt = fields.require("tilt", "write facing = { tilt = 30, toward = 90 }");
  facing.tilt_deg = reader.number(tilt, "facing tilt", k_tilt_from_up).value_or(0);
  facing.toward_deg = reader.number(fields.find("toward"), "facing toward", k_turn).value_or(0);
  fields.refuse_other_keys();
  return facing;
}

std::variant<Facing, Around, Looking> read_facing(const TomlValue& value, ValueReader& reader) {
  if (std::holds_alternative<TomlTable>(value.content)) return read_tilted(value, reader);
  if (std::holds_alternative<double>(value.content)) {
    return Facing{90, reader.number(&value, "facing", k_turn).value_or(0)};
  }
  const auto* word = std::get_if<std::string>(&value.content);
  if (word == nullptr) {
    reader.problem(value.place, "facing is no direction", std::string(k_facing_example));
  } else if (*word == "around") {
    return Around{};
  } else if (*word == "down") {
    return Facing{180, 0};
  } else if (*word != "up") {
    reader.problem(value.place, fmt::format("facing {} is unknown", quoted(*word)), std::string(k_facing_example));
  }
  return Facing{};
}

NamedPoint read_point(const TomlValue& value, const Shape* room, const std::vector<NamedPoint>& earlier, Units units,
                      ValueReader& reader) {
  Fields fields(value, "a point in [[points]]", reader);
  NamedPoint point;
  point.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "reading chair")");
  if (const auto name = reader.text(name_value, "point name")) {
    point.name = *name;
    check_name(*name_value, "point", *name, earlier, reader);
  }

  read_spot(fields, "point", R"(add a line like height = "4ft": above the floor)", room, units, point.from,
            point.height_m, reader);
  const auto* facing = fields.find("facing");
  const auto* looking = fields.find("looking");
  if (facing != nullptr) point.reads = read_facing(*facing, reader);
  if (looking != nullptr) point.reads = read_looking(*looking, reader);
  if (facing != nullptr && looking != nullptr) {
    reader.problem(looking->place, "the point has both facing and looking",
                   "facing reads the light that arrives, looking the luminance that is seen; make two points");
  }
  fields.refuse_other_keys();
  return point;
}

}  // namespace

std::vector<NamedPoint> read_points(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  std::vector<NamedPoint> points;
  const auto* list = reader.array(&value, "points", "write its header in double brackets: [[points]]");
  if (list == nullptr) return points;
  if (list->size() > k_most_points) {
    reader.problem(value.place, fmt::format("the job has {} points", list->size()),
                   fmt::format("a job has at most {} points", k_most_points));
    return points;
  }
  for (const auto& element : *list) points.push_back(read_point(element, room, points, units, reader));
  return points;
}

}  // namespace evenlit
