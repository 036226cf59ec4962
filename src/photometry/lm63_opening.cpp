#include "lm63_opening.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace evenlit {
namespace {

/// A shape that a version of the standard defines by the signs of width, length and height.
struct Pattern {
  std::string_view signs;
  std::string_view name;
};

/// The shapes that are neither a point, a line, a rectangle nor a disc.
constexpr std::array k_solids_2002 = {
    Pattern{"+++", "a box"},
    Pattern{"--0", "an ellipse"},
    Pattern{"--+", "a vertical cylinder"},
    Pattern{"---", "a sphere or ellipsoid"},
    Pattern{"-+-", "a cylinder along C 0"},
    Pattern{"+--", "a cylinder across C 0"},
    Pattern{"-0-", "a vertical disc"},
};
constexpr std::array k_solids_1995 = {
    Pattern{"+++", "a box"},
    Pattern{"-0-", "a sphere"},
    Pattern{"-0+", "a vertical cylinder"},
    Pattern{"0+-", "a cylinder along C 0"},
    Pattern{"+0-", "a cylinder across C 0"},
    Pattern{"-+0", "an ellipse"},
    Pattern{"+-0", "an ellipse"},
    Pattern{"-++", "an elliptical cylinder"},
    Pattern{"+-+", "an elliptical cylinder"},
    Pattern{"-+-", "an ellipsoid"},
    Pattern{"+--", "an ellipsoid"},
};

char sign(double value) { return value > 0 ? '+' : value < 0 ? '-' : '0'; }

bool is_equal(double a, double b) { return std::abs(a - b) <= 1e-3 * std::max(a, b); }

bool is_modern(Lm63Version version) { return version >= Lm63Version::v2002; }

std::optional<std::string_view> solid_name(std::string_view signs, Lm63Version version) {
  const auto find_in = [signs](const auto& patterns) -> std::optional<std::string_view> {
    const auto found = std::ranges::find(patterns, signs, &Pattern::signs);
    return found == patterns.end() ? std::nullopt : std::optional(found->name);
  };
  return is_modern(version) ? find_in(k_solids_2002) : find_in(k_solids_1995);
}

/// A disc is `- 0 0` up to 1995 and two equal negative sizes since; each is met under the other's name.
std::optional<DecodedOpening> decode_disc(std::string_view signs, double width_m, double length_m,
                                          Lm63Version version) {
  const bool old_style = signs == "-00";
  const bool new_style = signs == "--0" && is_equal(width_m, length_m);
  const bool round_ellipse = (signs == "-+0" || signs == "+-0") && is_equal(width_m, length_m) && !is_modern(version);
  if (!old_style && !new_style && !round_ellipse) return std::nullopt;
  const bool misplaced = is_modern(version) ? old_style : new_style;
  return DecodedOpening{{Opening::Shape::disc, width_m, width_m, 0},
                        misplaced ? "a disc in the manner of another LM-63 version" : ""};
}

/// The outer sizes of a solid; a size that a round shape leaves at zero is its diameter.
Opening outer_sizes(std::string_view signs, double width_m, double length_m, double height_m, Lm63Version version) {
  if (!is_modern(version)) {
    if (signs == "-0-" || signs == "-0+" || signs == "+0-") length_m = signs == "+0-" ? height_m : width_m;
    if (signs == "-0-") height_m = width_m;
    if (signs == "0+-") width_m = height_m;
  }
  return {Opening::Shape::other, width_m, length_m, height_m};
}

}  // namespace

DecodedOpening decode_opening(double width_m, double length_m, double height_m, Lm63Version version) {
  const std::string signs{sign(width_m), sign(length_m), sign(height_m)};
  const double width = std::abs(width_m);
  const double length = std::abs(length_m);
  const double height = std::abs(height_m);

  if (signs == "000") return {};
  if (signs == "++0" || signs == "+00" || signs == "0+0") {
    return {{Opening::Shape::rectangle, width, length, 0}, ""};
  }
  if (const auto disc = decode_disc(signs, width, length, version)) return *disc;

  const auto name = solid_name(signs, version);
  return {outer_sizes(signs, width, length, height, version),
          name ? fmt::format("{}, of which only the outer sizes are kept", *name)
               : fmt::format("not one of the shapes of {}; only its outer sizes are kept", name_of(version))};
}

}  // namespace evenlit
