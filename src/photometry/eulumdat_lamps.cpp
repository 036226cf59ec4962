#include "eulumdat_lamps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "eulumdat_numbers.hpp"
#include "evenlit/base/number.hpp"

namespace evenlit {
namespace {

enum Field { f_lamps, f_type, f_lumens, f_colour, f_rendering, f_watts };

/// How the lines of several sets follow each other.
enum class Order { by_field, by_set };

class LampLines {
 public:
  LampLines(std::span<const std::string_view> lines, Order order) : lines_(lines), order_(order) {}

  std::size_t sets() const { return lines_.size() / k_lines_per_lamp_set; }

  std::string_view line(std::size_t set, Field field) const {
    const auto f = static_cast<std::size_t>(field);
    return lines_[order_ == Order::by_field ? f * sets() + set : set * k_lines_per_lamp_set + f];
  }

  /// Whether numbers stand where this order needs them.
  bool fits() const {
    for (std::size_t set = 0; set < sets(); ++set) {
      for (const Field field : {f_lamps, f_lumens, f_watts}) {
        const bool may_be_empty = field == f_watts && line(set, field).empty();
        if (!may_be_empty && !lone_number(line(set, field))) return false;
      }
    }
    return true;
  }

 private:
  std::span<const std::string_view> lines_;
  Order order_;
};

Order order_of(const Source& source, std::span<const std::string_view> lines, Problems& warnings) {
  if (lines.size() == k_lines_per_lamp_set) return Order::by_field;
  const bool fits_by_field = LampLines(lines, Order::by_field).fits();
  const bool fits_by_set = LampLines(lines, Order::by_set).fits();
  if (fits_by_field && fits_by_set) {
    warnings.push_back({source.place(lines[0]),
                        "lines of the lamp sets can be read in two ways; they are read as the numbers of lamps of all "
                        "sets, then all their types, and so on",
                        ""});
  }
  if (fits_by_field != fits_by_set) return fits_by_field ? Order::by_field : Order::by_set;
  return lone_number(lines[1]) ? Order::by_field : Order::by_set;
}

class LampReader {
 public:
  LampReader(const Source& source, const LampLines& lines, std::size_t chosen, Problems& warnings)
      : source_(source), lines_(lines), chosen_(chosen), warnings_(warnings) {}

  Result<EulumdatLamps> read() {
    EulumdatLamps lamps;
    for (std::size_t set = 0; set < lines_.sets(); ++set) lamps.sets.push_back(read_set(set));
    lamps.lumens = chosen_lumens_;
    lamps.lumens_line = lines_.line(chosen_, f_lumens);
    if (!problems_.empty()) return tl::unexpected(problems_);
    return lamps;
  }

 private:
  LampSet read_set(std::size_t set) {
    LampSet lamps{.type = text(set, f_type), .colour = text(set, f_colour), .rendering = text(set, f_rendering)};
    const int count = lamp_count(set);
    lamps.lamps = std::abs(count);
    const double lumens = read_lumens(set);
    if (count > 0 && lumens > 0) lamps.lumens = lumens;
    if (set == chosen_) chosen_lumens_ = lumens;
    lamps.watts = watts(set);
    return lamps;
  }

  std::string text(std::size_t set, Field field) const { return utf8_text(lines_.line(set, field)); }

  void reject(std::size_t set, Field field, std::string what, std::string hint = {}) {
    problems_.push_back({source_.place(lines_.line(set, field)), std::move(what), std::move(hint)});
  }
  void warn(std::size_t set, Field field, std::string what, std::string hint = {}) {
    warnings_.push_back({source_.place(lines_.line(set, field)), std::move(what), std::move(hint)});
  }

  double number(std::size_t set, Field field, std::string_view name, double instead) {
    return number_on_line(source_, lines_.line(set, field), name, instead, problems_, warnings_);
  }

  /// Number of lamps, below 0 for absolute photometry.
  int lamp_count(std::size_t set) {
    const double value = number(set, f_lamps, "number of lamps", 1);
    const double count = std::round(value);
    if (std::abs(value - count) > 1e-6) {
      reject(set, f_lamps, fmt::format("number of lamps {} is not an integer", shortest_text(value)));
    }
    if (count == 0) warn(set, f_lamps, "number of lamps is 0; 1 is used");
    if (count < 0 && lines_.sets() > 1) {
      warn(set, f_lamps,
           fmt::format("absolute photometry has one lamp set, here there are {}; set {} is used", lines_.sets(),
                       chosen_ + 1));
    }
    return count == 0 ? 1 : static_cast<int>(count);
  }

  double read_lumens(std::size_t set) {
    const double lumens = number(set, f_lumens, "lamp flux", 1);
    if (lumens > 0) return lumens;
    const auto what = fmt::format("lamp flux {} is not positive", shortest_text(lumens));
    if (set == chosen_) {
      reject(set, f_lumens, what + ": intensities per 1000 lm cannot be converted to candelas",
             "write the flux of all lamps of the set together, in lm; for absolute photometry, that of the luminaire");
    } else {
      warn(set, f_lumens, fmt::format("{}; lamp set {} cannot be used", what, set + 1));
    }
    return lumens;
  }

  std::optional<double> watts(std::size_t set) {
    if (lines_.line(set, f_watts).empty()) {
      warn(set, f_watts, "watts of the lamp set are missing; the power counts as unknown");
      return std::nullopt;
    }
    const double watts = number(set, f_watts, "watts of the lamp set,", 0);
    if (watts < 0) {
      warn(set, f_watts,
           fmt::format("watts of the lamp set, {}, are negative; the power counts as unknown", shortest_text(watts)));
    }
    return watts > 0 ? std::optional(watts) : std::nullopt;
  }

  const Source& source_;
  const LampLines& lines_;
  std::size_t chosen_;
  Problems& warnings_;
  Problems problems_;
  double chosen_lumens_ = 0;
};

}  // namespace

Result<EulumdatLamps> read_eulumdat_lamps(const Source& source, std::span<const std::string_view> lines,
                                          std::size_t chosen, Problems& warnings) {
  return LampReader(source, {lines, order_of(source, lines, warnings)}, chosen, warnings).read();
}

}  // namespace evenlit
