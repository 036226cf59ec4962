#include <fmt/format.h>

#include <array>
#include <charconv>

#include "evenlit/base/names.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_views = 20;
constexpr Range k_view_width{{.value = 10, .text = "10 degrees"}, {.value = 120, .text = "120 degrees"}};
constexpr std::string_view k_at_example =
    R"(write looking = { toward = 45, tilt = -5 }, or looking_at = { from = { west = "8ft", south = "7ft" }, height = "3ft" })";

Spot read_looked_at(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  Fields fields(value, "looking_at", reader);
  Spot spot;
  read_spot(fields, "point that is looked at", R"(add height = "3ft": above the floor)", room, units, spot.from,
            spot.height_m, reader);
  fields.refuse_other_keys();
  return spot;
}

/// Reports a view straight up or down at a point over the eye, of which no side is the upper one, or at the eye itself.
void check_apart(const TomlValue& at, const Viewpoint& view, const Shape& room, ValueReader& reader) {
  const auto eye = plan_position(room, view.from);
  const auto seen = plan_position(room, std::get<Spot>(view.at).from);
  constexpr double k_least_m = 0.01;
  if (!eye || !seen || (*eye - *seen).norm() >= k_least_m) return;
  reader.problem(at.place, "the view looks at a point straight above or below its eye",
                 "look at a point at least 1 cm to the side");
}

Viewpoint read_view(const TomlValue& value, const Shape* room, Units units, const std::vector<Viewpoint>& earlier,
                    ValueReader& reader) {
  Fields fields(value, "a view in [[views]]", reader);
  Viewpoint view;
  view.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "from the door")");
  if (const auto name = reader.text(name_value, "view name")) {
    view.name = *name;
    check_name(*name_value, "view", *name, earlier, reader);
  }
  read_spot(fields, "view", {}, room, units, view.from, view.height_m, reader);
  const auto* looking = fields.find("looking");
  const auto* looked_at = fields.find("looking_at");
  if ((looking == nullptr) == (looked_at == nullptr)) {
    reader.problem(
        value.place,
        looking == nullptr ? "the view has neither looking nor looking_at" : "the view has both looking and looking_at",
        std::string(k_at_example));
  } else if (looking != nullptr) {
    view.at = read_looking(*looking, reader);
  } else {
    view.at = read_looked_at(*looked_at, room, units, reader);
    if (room != nullptr) check_apart(*looked_at, view, *room, reader);
  }
  view.width_deg = reader.number(fields.find("width"), "view width", k_view_width).value_or(view.width_deg);
  fields.refuse_other_keys();
  return view;
}

}  // namespace

std::optional<SurfaceColour> read_colour(const TomlValue* value, std::string_view label, ValueReader& reader) {
  const auto text = reader.text(value, label);
  if (!text) return std::nullopt;
  SurfaceColour colour;
  bool is_read = text->size() == 7 && text->front() == '#';
  for (std::size_t i = 0; is_read && i < 3; ++i) {
    const char* first = text->data() + 1 + 2 * i;
    const auto [end, error] = std::from_chars(first, first + 2, colour.srgb[i], 16);
    is_read = error == std::errc{} && end == first + 2;
  }
  if (is_read) return colour;
  reader.problem(value->place, fmt::format("{} {} is not understood", label, quoted(*text)),
                 R"(write red, green and blue as screens have them, two hexadecimal digits each: "#d8c9b0")");
  return std::nullopt;
}

Colours read_colours(const TomlValue& value, const Shape* room, ValueReader& reader) {
  Fields fields(value, "[colours]", reader);
  Colours colours;
  const auto read = [&](std::string_view key) {
    return read_colour(fields.find(key), fmt::format("{} colour", key), reader).value_or(SurfaceColour{});
  };
  colours.floor = read("floor");
  colours.ceiling = read("ceiling");
  colours.walls = read("walls");
  if (const auto* own = reader.table(fields.find("wall"), "wall in [colours]")) {
    for (const auto& [wall, key_place, colour] : own->entries) {
      if (room != nullptr) check_wall_name(*room, wall, key_place, reader);
      const auto label = fmt::format("colour of wall {}", quoted(wall));
      colours.wall[wall] = read_colour(&colour, label, reader).value_or(SurfaceColour{});
    }
  }
  fields.refuse_other_keys();
  return colours;
}

std::vector<Viewpoint> read_views(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  return read_each<Viewpoint>(value, "views", "views", k_most_views, reader,
                              [&](const TomlValue& element, const std::vector<Viewpoint>& earlier) {
                                return read_view(element, room, units, earlier, reader);
                              });
}

}  // namespace evenlit
