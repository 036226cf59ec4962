#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_slopes = 20;
constexpr Range k_pitch{{.value = 0.1, .text = "0.1 degrees"}, {.value = 89, .text = "89 degrees"}};
constexpr double k_radians = std::numbers::pi / 180;
constexpr std::string_view k_slope_example = R"(write { wall = "west", height = "6ft 6in", pitch = "8/12" })";

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(' ');
  return first == std::string_view::npos ? std::string_view{}
                                         : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

/// "8/12", "8:12" or "8 in 12".
std::optional<double> rise_from_text(std::string_view text) {
  for (const std::string_view between : {"/", ":", "in"}) {
    const auto at = text.find(between);
    if (at == std::string_view::npos) continue;
    const auto rise = number_from_text(trimmed(text.substr(0, at)));
    const auto run = number_from_text(trimmed(text.substr(at + between.size())));
    if (rise && run && std::isfinite(*rise / *run)) return *rise / *run;
  }
  return std::nullopt;
}

std::optional<double> read_pitch(const TomlValue* value, ValueReader& reader) {
  const auto* text = value != nullptr ? std::get_if<std::string>(&value->content) : nullptr;
  if (text == nullptr) {
    const auto degrees = reader.number(value, "slope pitch", k_pitch);
    return degrees ? std::optional(std::tan(*degrees * k_radians)) : std::nullopt;
  }
  const auto rise = rise_from_text(*text);
  const double degrees = rise ? std::atan(*rise) / k_radians : 0;
  if (rise && degrees >= k_pitch.least.value && degrees <= k_pitch.most.value) return rise;
  reader.problem(value->place,
                 rise ? fmt::format("slope pitch {} is not between 0.1 and 89 degrees", quoted(*text))
                      : fmt::format("slope pitch {} is not a pitch", quoted(*text)),
                 R"(write rise over run like "8/12", or degrees above level like 33.7)");
  return std::nullopt;
}

std::optional<Slope> read_slope(const TomlValue& value, const Shape& room, ValueReader& reader) {
  Fields fields(value, "a slope", reader);
  const auto* wall = fields.require("wall", k_slope_example);
  const auto name = reader.text(wall, "wall of the slope");
  if (name) check_wall_name(room, *name, wall->place, reader);
  const auto height = reader.length_m(fields.require("height", k_slope_example), "slope height", k_room_side);
  const auto rise = read_pitch(fields.require("pitch", k_slope_example), reader);
  fields.refuse_other_keys();
  if (!name || !wall_index(room, *name) || !height || !rise) return std::nullopt;
  return Slope{.wall = *name, .height_m = *height, .rise = *rise};
}

}  // namespace

std::optional<std::vector<Slope>> read_slopes(const TomlValue& value, const Shape& room, ValueReader& reader) {
  const auto* list =
      reader.array(&value, "slopes", "write a list: slopes = [{ wall = ..., height = ..., pitch = ... }]");
  if (list == nullptr) return std::nullopt;
  if (list->empty() || list->size() > k_most_slopes) {
    reader.problem(value.place, fmt::format("a ceiling of {} slopes", list->size()),
                   fmt::format("a ceiling has 1 to {} slopes; leave the key out for a level one", k_most_slopes));
    return std::nullopt;
  }
  std::vector<Slope> slopes;
  for (const auto& element : *list) {
    if (auto slope = read_slope(element, room, reader)) slopes.push_back(std::move(*slope));
  }
  if (slopes.size() < list->size()) return std::nullopt;
  return slopes;
}

}  // namespace evenlit
