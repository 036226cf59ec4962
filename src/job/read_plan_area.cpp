#include <fmt/format.h>

#include <algorithm>

#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_corners = 500;
constexpr std::string_view k_corner_example = R"(write how far east and how far north it is, like ["12ft", "3ft 6in"])";

std::optional<Eigen::Vector2d> read_corner(const TomlValue& value, ValueReader& reader) {
  const auto* pair = reader.array(&value, "a corner", k_corner_example);
  if (pair == nullptr) return std::nullopt;
  if (pair->size() != 2) {
    reader.problem(value.place, fmt::format("a corner of {} lengths, not of 2", pair->size()),
                   std::string(k_corner_example));
    return std::nullopt;
  }
  const auto x = reader.length_m(&pair->at(0), "corner", k_coordinate);
  const auto y = reader.length_m(&pair->at(1), "corner", k_coordinate);
  if (!x || !y) return std::nullopt;
  return Eigen::Vector2d(*x, *y);
}

/// Whether corners enclose a simple area; reports why they do not.
bool is_area(const Polygon& corners, std::string_view noun, const Place& place, ValueReader& reader) {
  constexpr double k_least_m2 = 1e-6;  // 1 mm x 1 mm
  if (const auto crossing = crossing_edges(corners)) {
    const auto& [a, b] = *crossing;
    reader.problem(place, fmt::format("edges {} and {} of the {} cross or touch", a + 1, b + 1, noun),
                   "list the corners in the order in which you pass them going round its edge; edge 1 runs from the "
                   "first to the second");
    return false;
  }
  if (std::abs(signed_area(corners)) >= k_least_m2) return true;
  reader.problem(place, fmt::format("the {}'s corners enclose nothing", noun),
                 "they are almost on one line: check them");
  return false;
}

}  // namespace

std::optional<Polygon> read_corners(const TomlValue& value, std::string_view noun, ValueReader& reader) {
  const auto* list =
      reader.array(&value, "corners", R"(write a list of corners like [[0, 0], ["12ft", 0], [0, "9ft"]])");
  if (list == nullptr) return std::nullopt;
  if (list->size() < 3 || list->size() > k_most_corners) {
    reader.problem(value.place, fmt::format("a {} of {} corners", noun, list->size()),
                   fmt::format("a {} has 3 to {} corners", noun, k_most_corners));
    return std::nullopt;
  }
  Polygon corners;
  for (const auto& element : *list) {
    if (const auto corner = read_corner(element, reader)) corners.push_back(*corner);
  }
  if (corners.size() < list->size()) return std::nullopt;
  return corners;
}

bool read_plan_area(Fields& fields, std::string_view noun, const Shape* room, Units units, PlanArea& area,
                    ValueReader& reader) {
  const auto* corners_value = fields.find("corners");
  if (corners_value == nullptr) {
    TapedRectangle rectangle;
    const bool is_whole = read_rectangle(fields, noun, room, units, rectangle, reader);
    rectangle.turn_deg = reader.number(fields.find("turn"), fmt::format("{} turn", noun), k_turn).value_or(0);
    area = std::move(rectangle);
    return is_whole;
  }
  for (const auto* key : {"from", "width", "depth", "turn"}) {
    const auto* of_rectangle = fields.find(key);
    if (of_rectangle == nullptr) continue;
    reader.problem(of_rectangle->place, fmt::format("the {} has both corners and {}", noun, key),
                   "give from, width and depth for a rectangle, corners for any other area");
  }
  auto corners = read_corners(*corners_value, noun, reader);
  if (!corners || !is_area(*corners, noun, corners_value->place, reader)) return false;
  if (signed_area(*corners) < 0) std::reverse(corners->begin() + 1, corners->end());
  area = std::move(*corners);
  return true;
}

}  // namespace evenlit
