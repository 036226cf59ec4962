#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "evenlit/base/number.hpp"
#include "evenlit/photometry/beam.hpp"
#include "evenlit/photometry/distribution.hpp"
#include "evenlit/photometry/lm63.hpp"

/// The invented luminaires of this folder, each from a formula; shared by the program that writes the files and the
/// test that compares the files with it.
namespace evenlit::generic {

struct Type {
  std::string name;  ///< of the file, without `.ies`
  std::string description;
  std::string formula;  ///< of intensity over I0, as the file states it: g is gamma, C the plane
  std::function<double(double cos_g, double cos_c)> relative;  ///< that formula
  double lumens;
  double watts;
  double gamma_step_deg;
  std::vector<double> c_deg;  ///< {0} or 0...180
  std::string units;          ///< the code, and the two sizes of a disc, in them
};

inline double exact_cos(double deg) { return deg == 90 ? 0 : std::cos(deg * std::numbers::pi / 180); }

inline std::vector<double> angles(double last_deg, double step_deg) {
  std::vector<double> deg;
  for (int i = 0; i * step_deg <= last_deg; ++i) deg.push_back(i * step_deg);
  return deg;
}

/// Cosine of the angle between a direction and the axis that leans `lean_deg` from straight down toward C 0.
inline double cos_from_leaning_axis(double cos_g, double cos_c, double lean_deg) {
  const double sin_g = std::sqrt(1 - cos_g * cos_g);
  return cos_g * exact_cos(lean_deg) + sin_g * cos_c * exact_cos(90 - lean_deg);
}

inline std::vector<Type> types() {
  const std::string four_inch_in_feet = "1 -0.333 -0.333 0";
  const std::string six_inch_in_metres = "2 -0.152 -0.152 0";
  const auto power = [](double n) { return [n](double cos_g, double) { return std::pow(cos_g, n); }; };
  return {
      {"four-inch-narrow",
       "recessed can, 4 inch, narrow beam",
       "cos(g)^28.9",
       power(28.9),
       600,
       8,
       2.5,
       {0},
       four_inch_in_feet},
      {"four-inch-medium",
       "recessed can, 4 inch, medium beam",
       "cos(g)^11.14",
       power(11.14),
       650,
       8.5,
       2.5,
       {0},
       four_inch_in_feet},
      {"six-inch-medium",
       "recessed can, 6 inch, medium beam",
       "cos(g)^4.82",
       power(4.82),
       900,
       11,
       2.5,
       {0},
       six_inch_in_metres},
      {"six-inch-wide",
       "recessed can, 6 inch, wide beam",
       "cos(g)^4.8 (1 + 3.5 sin(g)^2)",
       [](double cos_g, double) { return std::pow(cos_g, 4.8) * (1 + 3.5 * (1 - cos_g * cos_g)); },
       1050,
       12.5,
       2.5,
       {0},
       six_inch_in_metres},
      {"six-inch-wall-wash", "recessed can, 6 inch, lights the wall toward C 0",
       "max(0, cos(g) cos(40) + sin(g) cos(C) sin(40))^6 cos(g)",
       [](double cos_g, double cos_c) {
         return std::pow(std::max(0.0, cos_from_leaning_axis(cos_g, cos_c, 40)), 6) * cos_g;
       },
       750, 10, 2.5, angles(180, 10), six_inch_in_metres},
      {"flat-panel-six-inch",
       "flat panel with a lens, 6 inch",
       "0.85 cos(g) + 0.15 cos(g)^3",
       [](double cos_g, double) { return 0.85 * cos_g + 0.15 * std::pow(cos_g, 3); },
       1000,
       12,
       5,
       {0},
       six_inch_in_metres},
  };
}

/// The table of the file, with I0 so that it holds the stated lumens before its values are rounded.
inline IntensityDistribution distribution(const Type& type) {
  IntensityDistribution table{angles(90, type.gamma_step_deg), type.c_deg, {}};
  if (type.c_deg.size() > 1) {
    for (auto c = type.c_deg.rbegin() + 1; c != type.c_deg.rend(); ++c) table.c_deg.push_back(360 - *c);
  }
  table.candela.resize(std::ssize(table.gamma_deg), std::ssize(table.c_deg));
  for (Eigen::Index j = 0; j < table.candela.cols(); ++j) {
    for (Eigen::Index i = 0; i < table.candela.rows(); ++i) {
      table.candela(i, j) = type.relative(exact_cos(table.gamma_deg[i]), exact_cos(table.c_deg[j]));
    }
  }
  return scaled(table, type.lumens / lumens(table));
}

/// Words on lines of at most 80 characters, as LM-63 files up to 1995 have them.
inline std::string wrapped(const std::vector<std::string>& words) {
  std::string text;
  std::size_t line = 0;
  for (const std::string& word : words) {
    const bool fits = line + 1 + word.size() <= 80;
    if (line > 0) text += fits ? " " : "\r\n";
    line = (line > 0 && fits ? line + 1 : 0) + word.size();
    text += word;
  }
  return text + "\r\n";
}

inline std::string file_text(const Type& type) {
  const IntensityDistribution table = distribution(type);
  const auto texts = [](const std::vector<double>& values) {
    std::vector<std::string> words;
    for (const double value : values) words.push_back(shortest_text(value));
    return words;
  };
  std::string text = fmt::format(
      "IESNA:LM-63-2002\r\n"
      "[TEST] none: computed, not measured\r\n"
      "[TESTLAB] none\r\n"
      "[ISSUEDATE] 01-JAN-2025\r\n"
      "[MANUFAC] evenlit project, invented data\r\n"
      "[LUMCAT] {}\r\n"
      "[LUMINAIRE] {}\r\n"
      "[_FORMULA] I = I0 {}\r\n"
      "[MORE] with I0 so that the table holds {} lm\r\n"
      "TILT=NONE\r\n"
      "1 -1 1 {} {} 1 {}\r\n"
      "1 1 {}\r\n",
      type.name, type.description, type.formula, shortest_text(type.lumens), table.gamma_deg.size(), type.c_deg.size(),
      type.units, shortest_text(type.watts));
  text += wrapped(texts(table.gamma_deg)) + wrapped(texts(type.c_deg));
  for (Eigen::Index j = 0; j < std::ssize(type.c_deg); ++j) {
    std::vector<std::string> words;
    for (const double candela : table.candela.col(j)) words.push_back(fixed_text(candela, 1));
    text += wrapped(words);
  }
  return text;
}

/// The table of the README, from what the reader makes of the files.
inline std::string table_text() {
  const auto angles = [](const IntensityDistribution& table, double fraction) {
    const auto text = [&](double c_deg) {
      const auto deg = spread_angle_deg(table, fraction, c_deg);
      return deg ? fixed_text(*deg, 1) : "none";
    };
    return is_rotational(table) ? text(0) : fmt::format("{} along, {} across", text(0), text(90));
  };
  std::string text =
      "| File | Lumens | Watts | Peak, cd | Beam angle, deg | Field angle, deg |\n"
      "|---|---|---|---|---|---|\n";
  for (const Type& type : types()) {
    const PhotometricFile file = read_lm63(file_text(type), type.name).value().value;
    const IntensityDistribution& table = file.distribution;
    text += fmt::format("| `{}.ies` | {} | {} | {} | {} | {} |\n", type.name, fixed_text(lumens(table), 1),
                        shortest_text(*lamps_of(file).watts), fixed_text(table.candela.maxCoeff(), 1),
                        angles(table, 0.5), angles(table, 0.1));
  }
  return text;
}

}  // namespace evenlit::generic
