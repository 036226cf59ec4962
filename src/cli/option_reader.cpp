#include "option_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/length.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/drawing/rasterise.hpp"

namespace evenlit {
namespace {

constexpr int k_usual_px = 1200;

/// What stands between commas.
std::vector<std::string> parts_of(const std::string& list) {
  std::vector<std::string> parts;
  for (std::size_t begin = 0; begin <= list.size();) {
    const std::size_t end = std::min(list.find(',', begin), list.size());
    parts.push_back(list.substr(begin, end - begin));
    begin = end + 1;
  }
  return parts;
}

}  // namespace

std::optional<std::string> OptionReader::text(const std::string& option) const {
  return has(option) ? std::optional(line_[option].as<std::string>()) : std::nullopt;
}

std::optional<double> OptionReader::number(const std::string& option, const OptionRange& range) {
  const auto written = text(option);
  if (!written) return std::nullopt;
  const auto value = number_from_text(*written);
  if (value && *value >= range.least && *value <= range.most) return value;
  problem(fmt::format("--{} {} is not a number from {} to {}", option, evenlit::quoted(*written),
                      shortest_text(range.least), shortest_text(range.most)),
          "");
  return std::nullopt;
}

std::optional<int> OptionReader::whole_number(const std::string& option, const OptionRange& range) {
  const auto value = number(option, range);
  if (!value) return std::nullopt;
  if (*value == std::floor(*value)) return static_cast<int>(*value);
  problem(fmt::format("--{} {} is not a whole number", option, evenlit::quoted(*text(option))), "");
  return std::nullopt;
}

std::vector<int> OptionReader::whole_numbers(const std::string& option, const std::string& usual,
                                             const OptionRange& range) {
  const std::string written = text(option).value_or(usual);
  std::vector<int> numbers;
  for (const std::string& part : parts_of(written)) {
    const std::size_t dash = part.find('-');
    const auto first = number_from_text(part.substr(0, dash));
    const auto last = dash == std::string::npos ? first : number_from_text(part.substr(dash + 1));
    const auto is_good = [&](const std::optional<double>& value) {
      return value && *value == std::floor(*value) && *value >= range.least && *value <= range.most;
    };
    if (!is_good(first) || !is_good(last) || *last < *first) {
      problem(fmt::format("--{} {} is not a list of whole numbers from {} to {}", option, evenlit::quoted(written),
                          shortest_text(range.least), shortest_text(range.most)),
              fmt::format("put commas between and no spaces, like {}", usual));
      return {};
    }
    for (int number = static_cast<int>(*first); number <= *last; ++number) numbers.push_back(number);
  }
  std::ranges::sort(numbers);
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  return numbers;
}

std::vector<std::string> OptionReader::names(const std::string& option) const {
  return has(option) ? parts_of(*text(option)) : std::vector<std::string>{};
}

std::optional<double> OptionReader::length_m(const std::string& option, const OptionRange& range_m) {
  const auto written = text(option);
  if (!written) return std::nullopt;
  const auto length = metres_from_text(*written);
  if (!length) {
    problem(fmt::format("--{} {}", option, length.error().what), length.error().hint);
  } else if (*length < range_m.least || *length > range_m.most) {
    problem(fmt::format("--{} {} is outside {} to {}", option, evenlit::quoted(*written), metric_length(range_m.least),
                        metric_length(range_m.most)),
            "");
  } else {
    return *length;
  }
  return std::nullopt;
}

std::optional<double> OptionReader::illuminance_lx(const std::string& option) {
  const auto written = text(option);
  if (!written) return std::nullopt;
  const auto lux = lux_from_text(*written);
  if (!lux) {
    problem(fmt::format("--{} {}", option, lux.error().what), lux.error().hint);
  } else if (*lux <= 0) {
    problem(fmt::format("--{} {} is not above 0", option, evenlit::quoted(*written)), "write it like \"40 fc\"");
  } else {
    return *lux;
  }
  return std::nullopt;
}

std::filesystem::path OptionReader::single_name(const std::string& option, const std::string& kind,
                                                const std::string& example) {
  auto names = all_names(option, kind, example);
  if (names.size() > 1) {
    problem(evenlit::quoted(names[1].string()) + " is one name too many",
            fmt::format("name one {}; put quotes around a name that has spaces", kind));
  }
  return names.front();
}

std::vector<std::filesystem::path> OptionReader::all_names(const std::string& option, const std::string& kind,
                                                           const std::string& example) {
  std::vector<std::filesystem::path> names{text(option).value_or("")};
  if (names.front().empty()) problem(fmt::format("no {} is named", kind), fmt::format("name one, like {}", example));
  names.insert(names.end(), line_.unmatched().begin(), line_.unmatched().end());
  return names;
}

void OptionReader::needs(const std::string& option, const std::string& needed, const std::string& hint) {
  needs_any(option, {needed}, hint);
}

void OptionReader::needs_any(const std::string& option, const std::vector<std::string>& needed,
                             const std::string& hint) {
  if (!has(option) || std::ranges::any_of(needed, [&](const std::string& other) { return has(other); })) return;
  std::string list;
  for (std::size_t i = 0; i < needed.size(); ++i) {
    list += (i == 0 ? "--" : i + 1 == needed.size() ? " or --" : ", --") + needed[i];
  }
  problem(fmt::format("--{} does nothing without {}", option, list), hint);
}

void OptionReader::problem(std::string what, std::string hint) {
  problems_.push_back({whole_file(program_), std::move(what), std::move(hint)});
}

void add_width_option(cxxopts::OptionAdder& add, const std::string& explanation) {
  add("width", explanation, cxxopts::value<std::string>()->default_value(std::to_string(k_usual_px)), "PIXELS");
}

int width_px(OptionReader& reader, int narrowest_px) {
  const auto written = reader.text("width");
  if (!written) return k_usual_px;
  const double width = number_from_text(*written).value_or(0);
  if (width >= narrowest_px && width <= k_widest_image_px && width == std::floor(width)) {
    return static_cast<int>(width);
  }
  reader.problem("--width " + evenlit::quoted(*written) + " is not a width in pixels",
                 fmt::format("write a whole number from {} to {}", narrowest_px, k_widest_image_px));
  return 0;
}

}  // namespace evenlit
