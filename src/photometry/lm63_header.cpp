#include "lm63_header.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "limits.hpp"
#include "lm63_opening.hpp"

namespace evenlit {
namespace {

constexpr double k_metres_per_foot = 0.3048;
constexpr double k_longest_opening_m = 5;  ///< of what a job of this kind has; inches under the code of feet exceed it

enum Field {
  f_lamps,
  f_lamp_lumens,
  f_multiplier,
  f_verticals,
  f_horizontals,
  f_type,
  f_units,
  f_width,
  f_length,
  f_height,
  f_ballast_factor,
  f_version_dependent,
  f_watts
};

constexpr std::array<std::string_view, k_header_numbers> k_names = {"number of lamps",
                                                                    "lumens per lamp",
                                                                    "candela multiplier",
                                                                    "number of vertical angles",
                                                                    "number of horizontal angles",
                                                                    "photometric type",
                                                                    "units code",
                                                                    "width of the luminous opening",
                                                                    "length of the luminous opening",
                                                                    "height of the luminous opening",
                                                                    "ballast factor",
                                                                    "number after the ballast factor",
                                                                    "input watts"};

/// LM-63-19, 5.13: what the decimals of a file generation type may be, in units of the fifth.
constexpr int k_undefined = 1;
constexpr std::array k_generation_types = {k_undefined, 10, 0, 100, 1000, 1100, 10000, 10100, 11000, 11100};

class HeaderDecoder {
 public:
  HeaderDecoder(const NumberStream& stream, const NumberRecord& record, Lm63Version version, Problems& warnings)
      : stream_(stream), record_(record), version_(version), warnings_(warnings) {}

  Result<Lm63Header> decode() {
    for (int field = f_lamps; field <= f_watts; ++field) {
      if (std::abs(value(field)) > k_largest_number) reject(field, "is out of range");
    }
    if (!problems_.empty()) return tl::unexpected(problems_);

    Lm63Header header;
    header.lamps = lamps();
    header.lamp_lumens = lamp_lumens();
    header.candela_factor = multiplier();
    header.verticals = angles(f_verticals, 2);
    header.horizontals = angles(f_horizontals, 1);
    check_table_size(header);
    header.type = type();
    header.opening = opening();
    header.candela_factor *= factor(f_ballast_factor, k_names[f_ballast_factor]) * version_dependent_factor();
    header.generation = generation();
    header.watts = watts();
    if (!problems_.empty()) return tl::unexpected(problems_);
    return header;
  }

 private:
  double value(int field) const { return record_.values[static_cast<std::size_t>(field)]; }

  Problem problem(int field, std::string_view name, std::string_view fault, std::string_view hint) const {
    return {stream_.place(record_, static_cast<std::size_t>(field)),
            fmt::format("{} {} {}", name, shortest_text(value(field)), fault), std::string(hint)};
  }
  void reject(int field, std::string_view fault, std::string_view hint = {}) {
    problems_.push_back(problem(field, k_names[static_cast<std::size_t>(field)], fault, hint));
  }
  void warn(int field, std::string_view fault, std::string_view hint = {}) {
    warnings_.push_back(problem(field, k_names[static_cast<std::size_t>(field)], fault, hint));
  }

  /// The number as an integer; a rejection, and `instead`, where it is none.
  int integer(int field, int instead) {
    const double rounded = std::round(value(field));
    if (std::abs(value(field) - rounded) <= 1e-6) return static_cast<int>(rounded);
    reject(field, "is not an integer");
    return instead;
  }

  int lamps() {
    const int count = integer(f_lamps, 1);
    if (count >= 1) return count;
    warn(f_lamps, "is below 1; 1 is used");
    return 1;
  }

  std::optional<double> lamp_lumens() {
    if (value(f_lamp_lumens) > 0) return value(f_lamp_lumens);
    if (value(f_lamp_lumens) != -1) {
      warn(f_lamp_lumens, "is read as -1, absolute photometry", "write -1 for absolute photometry");
    }
    return std::nullopt;
  }

  double multiplier() {
    if (value(f_multiplier) > 0) return value(f_multiplier);
    reject(f_multiplier, "is not positive", "write 1 where the candela values stand as they are");
    return 1;
  }

  std::size_t angles(Field field, int least) {
    const int count = integer(field, least);
    if (count < least) reject(field, fmt::format("is below {}", least));
    if (count > k_most_angles) reject(field, fmt::format("is above {}", k_most_angles));
    return static_cast<std::size_t>(std::max(count, least));
  }

  void check_table_size(const Lm63Header& header) {
    const bool each_is_allowed = std::max(header.verticals, header.horizontals) <= k_most_angles;
    if (each_is_allowed && header.verticals * header.horizontals > k_most_candelas) {
      reject(f_horizontals, fmt::format("makes a table of {} x {} candela values, above the limit of {}",
                                        header.verticals, header.horizontals, k_most_candelas));
    }
  }

  char type() {
    constexpr std::string_view k_types = "CBA";  // codes 1, 2, 3
    const int code = integer(f_type, 1);
    if (code >= 1 && code <= 3) return k_types[static_cast<std::size_t>(code - 1)];
    reject(f_type, "is unknown", "the codes are 1 for type C, 2 for B, 3 for A");
    return 'C';
  }

  double metres_per_unit() {
    switch (integer(f_units, 2)) {
      case 1:
        return k_metres_per_foot;
      case 2:
        return 1;
      default:
        if (value(f_width) == 0 && value(f_length) == 0 && value(f_height) == 0) {
          warn(f_units, "is unknown; it does not matter to an opening without size");
        } else {
          reject(f_units, "is unknown", "the codes are 1 for feet, 2 for metres");
        }
        return 1;
    }
  }

  Opening opening() {
    const double unit_m = metres_per_unit();
    const auto decoded =
        decode_opening(value(f_width) * unit_m, value(f_length) * unit_m, value(f_height) * unit_m, version_);
    if (!decoded.remark.empty()) {
      warnings_.push_back({stream_.place(record_, f_width), "luminous opening is " + decoded.remark, ""});
    }
    for (const Field field : {f_width, f_length, f_height}) {
      const double size_m = std::abs(value(field) * unit_m);
      if (size_m > k_longest_opening_m || (size_m > 0 && size_m < 1e-3)) {
        warn(field, unit_m == 1 ? "metres is implausible" : "feet is implausible", "check the units code");
      }
    }
    return decoded.opening;
  }

  double factor(Field field, std::string_view name) {
    if (value(field) == 0) {
      warnings_.push_back(problem(field, name, "is read as 1", ""));
      return 1;
    }
    if (value(field) < 0 || value(field) > 10) problems_.push_back(problem(field, name, "is outside 0 to 10", ""));
    return value(field);
  }

  double version_dependent_factor() {
    switch (version_) {
      case Lm63Version::v1986:
      case Lm63Version::v1991:
        return factor(f_version_dependent, "ballast-lamp photometric factor");
      case Lm63Version::v2019:
        return 1;
      default:
        if (value(f_version_dependent) != 1) {
          warn(f_version_dependent, fmt::format("is reserved in {} and not used", name_of(version_)), "write 1");
        }
        return 1;
    }
  }

  int generation() {
    if (version_ != Lm63Version::v2019) return k_undefined;
    const double decimals = (value(f_version_dependent) - 1) * 1e5;
    const auto found =
        std::ranges::find_if(k_generation_types, [=](int type) { return std::abs(decimals - type) < 1e-3; });
    if (found != k_generation_types.end()) return *found;
    warnings_.push_back(
        problem(f_version_dependent, "file generation type", "is not one of LM-63-2019; it is not used", ""));
    return k_undefined;
  }

  std::optional<double> watts() {
    if (value(f_watts) > 0) return value(f_watts);
    if (value(f_watts) < 0) warn(f_watts, "is negative; the power counts as unknown");
    return std::nullopt;
  }

  const NumberStream& stream_;
  const NumberRecord& record_;
  Lm63Version version_;
  Problems& warnings_;
  Problems problems_;
};

}  // namespace

Result<Lm63Header> decode_header(const NumberStream& stream, const NumberRecord& record, Lm63Version version,
                                 Problems& warnings) {
  return HeaderDecoder(stream, record, version, warnings).decode();
}

Place lamp_lumens_place(const NumberStream& stream, const NumberRecord& record) {
  return stream.place(record, f_lamp_lumens);
}

}  // namespace evenlit
