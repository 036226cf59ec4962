#include "eulumdat_header.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "eulumdat_numbers.hpp"
#include "evenlit/base/number.hpp"
#include "limits.hpp"

namespace evenlit {
namespace {

constexpr int k_most_lamp_sets = 20;

constexpr std::array<std::string_view, k_eulumdat_header_lines> k_names = {"company",
                                                                           "type indicator",
                                                                           "symmetry indicator",
                                                                           "number of C planes",
                                                                           "distance between C planes",
                                                                           "number of vertical angles",
                                                                           "distance between vertical angles",
                                                                           "report number",
                                                                           "luminaire name",
                                                                           "luminaire number",
                                                                           "file name",
                                                                           "date",
                                                                           "length of the luminaire",
                                                                           "width of the luminaire",
                                                                           "height of the luminaire",
                                                                           "length of the luminous area",
                                                                           "width of the luminous area",
                                                                           "height of the luminous area at C 0",
                                                                           "height of the luminous area at C 90",
                                                                           "height of the luminous area at C 180",
                                                                           "height of the luminous area at C 270",
                                                                           "downward flux fraction",
                                                                           "light output ratio",
                                                                           "conversion factor",
                                                                           "tilt during measurement",
                                                                           "number of lamp sets"};

std::string_view name_of(int line) { return k_names[static_cast<std::size_t>(line - 1)]; }

/// The lines of free text, and the keyword that LM-63 has for each.
constexpr std::array<std::pair<int, std::string_view>, 6> k_text_lines = {
    {{1, "MANUFAC"}, {8, "TEST"}, {9, "LUMINAIRE"}, {10, "LUMCAT"}, {11, "_FILENAME"}, {12, "ISSUEDATE"}}};

/// The file's length lies along C 90, its width along C 0; what has no width is round.
Opening shape(double length_m, double width_m, double height_m) {
  const bool is_round = width_m == 0;
  Opening sizes{.width_m = length_m, .length_m = is_round ? length_m : width_m, .height_m = height_m};
  if (height_m > 0) {
    sizes.shape = Opening::Shape::other;
  } else if (!is_round) {
    sizes.shape = Opening::Shape::rectangle;
  } else if (length_m > 0) {
    sizes.shape = Opening::Shape::disc;
  }
  return sizes;
}

class HeaderDecoder {
 public:
  HeaderDecoder(const Source& source, std::vector<std::string_view> lines, Problems& warnings)
      : source_(source), warnings_(warnings) {
    header_.lines = std::move(lines);
  }

  Result<EulumdatHeader> decode() {
    if (header_.lines.size() < l_verticals) return cut_off();
    decode_counts();
    if (!problems_.empty()) return tl::unexpected(problems_);  // lines may have moved: the rest would say nothing
    if (header_.lines.size() < k_eulumdat_header_lines) return cut_off();

    header_.plane_step_deg = number(l_plane_step);
    header_.vertical_step_deg = number(l_vertical_step);
    decode_texts();
    decode_sizes();
    header_.downward_percent = number(l_downward);
    header_.output_ratio_percent = number(l_output_ratio);
    header_.candela_factor = candela_factor();
    check_tilt();
    header_.lamp_sets = lamp_sets();
    empty_.report(warnings_, "line that should hold a number is empty, read as 0", "write 0");
    if (!problems_.empty()) return tl::unexpected(problems_);
    return std::move(header_);
  }

 private:
  Place place(int line) const { return source_.place(header_.line(line)); }
  void reject(int line, std::string what, std::string hint = {}) {
    problems_.push_back({place(line), std::move(what), std::move(hint)});
  }
  void warn(int line, std::string what, std::string hint = {}) {
    warnings_.push_back({place(line), std::move(what), std::move(hint)});
  }

  tl::unexpected<Problems> cut_off() const {
    const int missing = static_cast<int>(header_.lines.size()) + 1;
    return failure(source_.place(header_.lines.back()),
                   fmt::format("file ends before line {}, the {}", missing, name_of(missing)),
                   "get a complete copy of the file");
  }

  void reject_as_shifted(int line) {
    const auto text = header_.line(line);
    reject(line,
           fmt::format("line {} should hold the {}, found {}; the header seems shifted", line, name_of(line),
                       text.empty() ? "nothing" : as_written(text)),
           "a line may be missing or too many above this one");
  }

  /// The number as an integer; `instead` after a rejection.
  int integer(int line, double value, int instead) {
    const double rounded = std::round(value);
    if (std::abs(value) > k_largest_number) {
      reject(line, fmt::format("{} {} is out of range", name_of(line), shortest_text(value)));
    } else if (std::abs(value - rounded) > 1e-6) {
      reject(line, fmt::format("{} {} is not an integer", name_of(line), shortest_text(value)));
    } else {
      return static_cast<int>(rounded);
    }
    return instead;
  }

  /// The integer alone on a line that everything after it depends on; `instead` after a rejection.
  int lone_integer(int line, int instead) {
    if (const auto value = lone_number(header_.line(line))) return integer(line, *value, instead);
    reject_as_shifted(line);
    return instead;
  }

  void decode_counts() {
    header_.symmetry = decode_symmetry();
    if (problems_.empty()) check_type();
    if (!problems_.empty()) return;
    header_.planes = count(l_planes, 1);
    header_.verticals = count(l_verticals, 2);
    if (problems_.empty() && header_.planes * header_.verticals > k_most_candelas) {
      reject(l_planes,
             fmt::format("{} {} makes a table of {} x {} intensities, above the limit of {}", name_of(l_planes),
                         header_.planes, header_.planes, header_.verticals, k_most_candelas));
    }
  }

  int decode_symmetry() {
    const int symmetry = lone_integer(l_symmetry, 0);
    if (symmetry >= 0 && symmetry <= 4) return symmetry;
    reject(
        l_symmetry, fmt::format("{} {} is unknown", name_of(l_symmetry), symmetry),
        "the indicators are 0 to 4; where this is another number of the header, a line is missing or too many above");
    return 0;
  }

  std::size_t count(int line, int least) {
    const int count = lone_integer(line, least);
    if (count < least) reject(line, fmt::format("{} {} is below {}", name_of(line), count, least));
    if (count > k_most_angles) reject(line, fmt::format("{} {} is above {}", name_of(line), count, k_most_angles));
    return static_cast<std::size_t>(std::max(count, least));
  }

  void check_type() {
    const auto text = header_.line(l_type);
    const auto type = lone_number(text);
    if (!type && !text.empty()) {
      reject_as_shifted(l_type);
    } else if (!type || (*type != 1 && *type != 2 && *type != 3)) {
      warn(l_type, fmt::format("type indicator {} is not 1, 2 or 3; it is not used", as_written(text)));
    } else if (*type == 1 && header_.symmetry != 1) {
      warn(l_type, fmt::format("type indicator 1, symmetry about the vertical, against symmetry indicator {}, which "
                               "counts",
                               header_.symmetry));
    }
  }

  /// The number on a line; 0 where the line is empty, `instead` after a rejection.
  double number(int line, double instead = 0) {
    const auto text = header_.line(line);
    if (text.empty()) {
      empty_.note(source_, text);
      return 0;
    }
    return number_on_line(source_, text, name_of(line), instead, problems_, warnings_);
  }

  void decode_texts() {
    for (const auto& [line, keyword] : k_text_lines) {
      const auto text = header_.line(line);
      if (!text.empty()) header_.keywords.emplace_back(keyword, utf8_text(text));
    }
  }

  double size_m(int line) {
    constexpr double k_most_m = 50;
    const double size_m = number(line) / 1000;
    if (size_m < 0) warn(line, fmt::format("{} is negative; its sign is not used", name_of(line)));
    if (std::abs(size_m) > k_most_m) {
      warn(line, fmt::format("{} {} mm is implausible", name_of(line), shortest_text(size_m * 1000)),
           "sizes are in millimetres");
    }
    return std::abs(size_m);
  }

  /// A shape from its length and its width, on two lines, and its height.
  Opening sizes(int length_line, double length_m, double width_m, double height_m) {
    if (length_m == 0 && width_m > 0) {
      warn(length_line, fmt::format("{} is 0 while the width is not", name_of(length_line)),
           "of what is round, the diameter is the length and the width is 0");
    }
    return shape(length_m, width_m, height_m);
  }

  void decode_sizes() {
    const double length_m = size_m(l_housing_length);
    const double width_m = size_m(l_housing_length + 1);
    const double height_m = size_m(l_housing_length + 2);
    const Opening housing = sizes(l_housing_length, length_m, width_m, height_m);
    if (housing != Opening{}) header_.housing = housing;

    const double luminous_length_m = size_m(l_opening_length);
    const double luminous_width_m = size_m(l_opening_length + 1);
    double luminous_height_m = 0;
    for (int side = 2; side < 6; ++side)
      luminous_height_m = std::max(luminous_height_m, size_m(l_opening_length + side));
    header_.opening = sizes(l_opening_length, luminous_length_m, luminous_width_m, luminous_height_m);

    const bool is_larger = header_.opening.width_m > housing.width_m || header_.opening.length_m > housing.length_m;
    if (header_.housing && is_larger) warn(l_opening_length, "luminous area is larger than the luminaire");
  }

  double candela_factor() {
    const double factor = header_.line(l_factor).empty() ? 0 : number(l_factor, 1);
    if (factor < 0) reject(l_factor, fmt::format("{} {} is negative", name_of(l_factor), shortest_text(factor)));
    if (factor == 0) warn(l_factor, fmt::format("{} is 0 or missing; 1 is used", name_of(l_factor)), "write 1");
    return factor == 0 ? 1 : factor;
  }

  void check_tilt() {
    if (const double tilt_deg = number(l_tilt); tilt_deg != 0) {
      warn(l_tilt, fmt::format("luminaire was tilted by {} degrees when it was measured; the intensities are used as "
                               "they stand",
                               shortest_text(tilt_deg)));
    }
  }

  std::size_t lamp_sets() {
    const bool is_missing = header_.line(l_lamp_sets).empty();
    const int count = is_missing ? 0 : integer(l_lamp_sets, number(l_lamp_sets, 1), 1);
    if (count == 0) {
      reject(
          l_lamp_sets,
          fmt::format("{} is {}: without a lamp flux, intensities per 1000 lm cannot be converted to candelas",
                      name_of(l_lamp_sets), is_missing ? "missing" : "0"),
          "write 1, and after this line six more: number of lamps, type, flux in lm, colour, colour rendering, watts");
    } else if (count < 0 || count > k_most_lamp_sets) {
      reject(l_lamp_sets, fmt::format("{} {} is implausible", name_of(l_lamp_sets), count));
    }
    return static_cast<std::size_t>(std::clamp(count, 1, k_most_lamp_sets));
  }

  const Source& source_;
  Problems& warnings_;
  EulumdatHeader header_;
  Problems problems_;
  Recurring empty_;
};

}  // namespace

Result<EulumdatHeader> decode_eulumdat_header(const Source& source, std::vector<std::string_view> lines,
                                              Problems& warnings) {
  return HeaderDecoder(source, std::move(lines), warnings).decode();
}

}  // namespace evenlit
