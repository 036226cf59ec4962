#include "write_lm63.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "evenlit/base/utf8.hpp"
#include "lm63_keywords.hpp"
#include "written_table.hpp"
#include "written_text.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_text_width = 80;     ///< of label, keyword and TILT lines, LM-63-1986
constexpr std::size_t k_number_width = 130;  ///< of all others

/// A table as it stands in the file, in the file's angles.
struct Written {
  char type_code = '1';
  std::vector<double> vertical_deg;
  std::vector<double> horizontal_deg;
  Eigen::ArrayXXd candela;  ///< vertical x horizontal
};

Written type_c(const IntensityDistribution& table) {
  const double first_deg = table.gamma_deg.front() >= 90 ? 90 : 0;
  const IntensityDistribution d = reaching(table, first_deg, table.gamma_deg.back() <= 90 ? 90 : 180);
  const auto written = [](const IntensityDistribution& planes) {
    return Written{'1', planes.gamma_deg, planes.c_deg, planes.candela};
  };
  switch (symmetry_of(d)) {
    case Symmetry::quadrant:
      return written(planes_between(with_planes_at(d, {90}), 0, 90));
    case Symmetry::about_c0:
      return written(planes_between(with_planes_at(d, {180}), 0, 180));
    default:
      return written(d);
  }
}

/// Whether rows and angles are their own mirror image in 0.
bool is_mirrored(const std::vector<double>& deg, const Eigen::ArrayXXd& rows) {
  for (std::size_t i = 0; i < deg.size(); ++i) {
    if (std::abs(deg[i] + deg[deg.size() - 1 - i]) > 1e-9) return false;
  }
  return (rows == rows.colwise().reverse()).all() && std::ranges::binary_search(deg, 0.0);
}

/// The part of the rows from angle 0 on.
void keep_from_zero(std::vector<double>& deg, Eigen::ArrayXXd& rows) {
  const auto first = std::ranges::lower_bound(deg, 0.0) - deg.begin();
  rows = rows.bottomRows(rows.rows() - first).eval();
  deg.erase(deg.begin(), deg.begin() + first);
}

/// Types A and B count V = gamma - 90 and H = -C.
Written type_ab(const IntensityDistribution& table) {
  const IntensityDistribution d = reaching(table, 0, 180);
  const bool is_type_b = d.axis == IntensityDistribution::Axis::along_c0;
  Written written{
      is_type_b ? '2' : '3', d.gamma_deg, {d.c_deg.rbegin(), d.c_deg.rend()}, d.candela.rowwise().reverse()};
  for (double& deg : written.vertical_deg) deg -= 90;
  for (double& deg : written.horizontal_deg) deg = 0 - deg;
  Eigen::ArrayXXd across = written.candela.transpose();
  if (is_mirrored(written.horizontal_deg, across)) {
    keep_from_zero(written.horizontal_deg, across);
    written.candela = across.transpose();
  }
  if (is_type_b && is_mirrored(written.vertical_deg, written.candela)) {
    keep_from_zero(written.vertical_deg, written.candela);
  }
  return written;
}

/// Whether the table has the planes and the range of a file of type A or B.
bool is_type_ab(const IntensityDistribution& d) {
  using Axis = IntensityDistribution::Axis;
  const bool has_range = d.c_deg.size() > 1 && d.c_deg.front() >= -180 && d.c_deg.back() <= 180;
  return has_range && (d.axis == Axis::along_c0 || (d.axis == Axis::vertical && !is_type_c(d)));
}

Written written_table(const IntensityDistribution& distribution, Lm63Version version, Problems& warnings) {
  if (is_type_ab(distribution)) return type_ab(distribution);
  return type_c(in_c_planes(distribution, {}, fmt::format("{} has no such planes", name_of(version)), warnings));
}

/// ASCII, with a question mark for what is not.
std::string ascii(std::string_view text, bool& is_changed) {
  std::string result;
  while (!text.empty()) {
    const CodePoint point = first_code_point(text);
    const bool prints = point.is_valid && point.value >= 0x20 && point.value < 0x7F;
    result += prints ? static_cast<char>(point.value) : '?';
    is_changed = is_changed || !prints;
    text.remove_prefix(static_cast<std::size_t>(point.bytes));
  }
  return result;
}

/// The keywords that the file must have come first, "unknown" where their value is not known.
Keywords completed(const Keywords& keywords, Problems& warnings) {
  Keywords all;
  for (const std::string_view name : {"TEST", "TESTLAB", "ISSUEDATE", "MANUFAC"}) {
    const auto found = std::ranges::find(keywords, name, &Keywords::value_type::first);
    if (found != keywords.end()) continue;
    all.emplace_back(name, "unknown");
    warnings.push_back({{}, fmt::format("no [{}] is known, which LM-63 requires: written as unknown", name), ""});
  }
  all.insert(all.end(), keywords.begin(), keywords.end());
  return all;
}

std::string keyword_lines(const Keywords& keywords, Problems& warnings) {
  std::string text;
  bool is_changed = false;
  for (const auto& [name, value] : completed(keywords, warnings)) {
    std::string word = name.empty() ? "OTHER" : ascii(name, is_changed);
    if (!is_known_keyword(word)) word.insert(0, 1, '_');
    std::string_view key = word;
    for (const std::string& part : broken_lines(ascii(value, is_changed), k_text_width - word.size() - 3)) {
      text += fmt::format("[{}] {}\r\n", key, part);
      key = "MORE";
    }
  }
  if (is_changed) warnings.push_back({{}, "letters beyond ASCII are written as ?", ""});
  return text;
}

std::vector<std::string> numbers(const std::vector<double>& values) {
  std::vector<std::string> words;
  for (const double value : values) words.push_back(written_angle(value));
  return words;
}

std::string tilt_lines(const std::optional<TiltData>& tilt) {
  if (!tilt) return "TILT=NONE\r\n";
  return fmt::format("TILT=INCLUDE\r\n{}\r\n{}\r\n", tilt->geometry, tilt->angles_deg.size()) +
         filled_lines(numbers(tilt->angles_deg), k_number_width) + filled_lines(numbers(tilt->factors), k_number_width);
}

/// Width, length and height of the opening with the signs of LM-63-2002, table 1.
std::string opening_text(const Opening& opening, Problems& warnings) {
  const bool is_disc = opening.shape == Opening::Shape::disc;
  if (opening.shape == Opening::Shape::other) {
    warnings.push_back({{}, "the luminous opening is written as a box of its outer sizes", ""});
  }
  const double sign = is_disc ? -1 : 1;
  return fmt::format("{} {} {}", written_angle(sign * opening.width_m), written_angle(sign * opening.length_m),
                     written_angle(opening.height_m));
}

std::string header_lines(const PhotometricFile& file, const Written& table, Lm63Version version, Problems& warnings) {
  const LampSet& lamps = lamps_of(file);
  const std::string lumens = lamps.lumens ? shortest_text(*lamps.lumens / lamps.lamps) : "-1";
  const std::string generation = version == Lm63Version::v2019 ? fmt::format("1.{:05}", file.generation) : "1";
  return fmt::format("{} {} 1 {} {} {} 2 {}\r\n1 {} {}\r\n", lamps.lamps, lumens, table.vertical_deg.size(),
                     table.horizontal_deg.size(), table.type_code, opening_text(file.opening, warnings), generation,
                     shortest_text(lamps.watts.value_or(0)));
}

std::string table_lines(const Written& table) {
  const int decimals = decimals_for(table.candela.maxCoeff());
  std::string text = filled_lines(numbers(table.vertical_deg), k_number_width) +
                     filled_lines(numbers(table.horizontal_deg), k_number_width);
  for (Eigen::Index j = 0; j < table.candela.cols(); ++j) {
    std::vector<std::string> words;
    for (const double candela : table.candela.col(j)) words.push_back(fixed_text(candela, decimals));
    text += filled_lines(words, k_number_width);
  }
  return text;
}

}  // namespace

Noted<std::string> lm63_bytes(const PhotometricFile& file, Lm63Version version) {
  Noted<std::string> made{version == Lm63Version::v2019 ? "IES:LM-63-2019\r\n" : "IESNA:LM-63-2002\r\n", {}};
  if (file.lamp_sets.size() > 1) {
    made.warnings.push_back({{}, "LM-63 holds one lamp set: the others are left out", ""});
  }
  const Written table = written_table(file.distribution, version, made.warnings);
  made.value += keyword_lines(file.keywords, made.warnings);
  made.value += tilt_lines(file.tilt);
  made.value += header_lines(file, table, version, made.warnings);
  made.value += table_lines(table);
  return made;
}

}  // namespace evenlit
