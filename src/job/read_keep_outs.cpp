#include <fmt/format.h>

#include "evenlit/base/names.hpp"
#include "evenlit/job/ceiling.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_keep_outs = 500;
constexpr std::size_t k_most_fans = 20;
constexpr Range k_clearance{{.value = 0, .text = "0"}, {.value = 100, .text = "100 m"}};

/// Reads a circle's place and size; whether both could be read.
bool read_circle(Fields& fields, std::string_view noun, const Shape* room, Units units, Taped (&from)[2],
                 double& diameter_m, ValueReader& reader) {
  const auto* from_value = fields.require("from", k_from_example);
  const auto diameter = reader.length_m(fields.require("diameter", R"(add a line like diameter = "52in")"),
                                        fmt::format("{} diameter", noun), k_side);
  diameter_m = diameter.value_or(0);
  const bool is_placed = from_value != nullptr && read_from(*from_value, noun, room, from, reader);
  if (is_placed && room != nullptr) check_centre(*from_value, noun, plan_position(*room, from), *room, units, reader);
  return is_placed && diameter;
}

void read_shape(Fields& fields, const Shape* room, Units units, KeepOut& keep_out, ValueReader& reader) {
  const auto* diameter = fields.find("diameter");
  if (diameter == nullptr) {
    PlanArea area;
    read_plan_area(fields, "keep-out", room, units, area, reader);
    std::visit([&](auto& shape) { keep_out.shape = std::move(shape); }, area);
    return;
  }
  for (const auto* key : {"corners", "width", "depth", "turn"}) {
    const auto* other = fields.find(key);
    if (other == nullptr) continue;
    reader.problem(other->place, fmt::format("the keep-out has both diameter and {}", key),
                   "give from and diameter for a circle, from, width and depth for a rectangle, or corners");
  }
  TapedCircle circle;
  read_circle(fields, "keep-out", room, units, circle.from, circle.diameter_m, reader);
  keep_out.shape = std::move(circle);
}

KeepOut read_keep_out(const TomlValue& value, const Shape* room, Units units, const std::vector<KeepOut>& earlier,
                      ValueReader& reader) {
  Fields fields(value, "a keep-out in [[keep_outs]]", reader);
  KeepOut keep_out;
  keep_out.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "supply vent")");
  if (const auto name = reader.text(name_value, "keep-out name")) {
    keep_out.name = *name;
    check_name(*name_value, "keep-out", *name, earlier, reader);
  }
  read_shape(fields, room, units, keep_out, reader);
  keep_out.clearance_m = reader.length_m(fields.find("clearance"), "clearance", k_clearance).value_or(0);
  fields.refuse_other_keys();
  return keep_out;
}

Fan read_fan(const TomlValue& value, const Shape* room, Units units, const std::vector<Fan>& earlier,
             ValueReader& reader) {
  Fields fields(value, "a fan in [[fans]]", reader);
  Fan fan;
  fan.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "fan")");
  if (const auto name = reader.text(name_value, "fan name")) {
    fan.name = *name;
    check_name(*name_value, "fan", *name, earlier, reader);
  }
  read_circle(fields, "fan", room, units, fan.from, fan.diameter_m, reader);
  const auto* drop_value = fields.require("drop", R"(add a line like drop = "10in": its blades below the ceiling)");
  const auto drop = reader.length_m(drop_value, "fan drop", k_distance);
  fan.drop_m = drop.value_or(0);
  if (drop && room != nullptr && *drop >= ceiling_of(*room).highest_m) {
    reader.problem(drop_value->place, "the fan's blades are below the floor", "drop is from the ceiling down to them");
  }
  fields.refuse_other_keys();
  return fan;
}

}  // namespace

std::vector<KeepOut> read_keep_outs(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  return read_each<KeepOut>(value, "keep_outs", "keep-outs", k_most_keep_outs, reader,
                            [&](const TomlValue& element, const std::vector<KeepOut>& earlier) {
                              return read_keep_out(element, room, units, earlier, reader);
                            });
}

std::vector<Fan> read_fans(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  return read_each<Fan>(value, "fans", "fans", k_most_fans, reader,
                        [&](const TomlValue& element, const std::vector<Fan>& earlier) {
                          return read_fan(element, room, units, earlier, reader);
                        });
}

}  // namespace evenlit
