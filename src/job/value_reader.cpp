#include "value_reader.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "evenlit/base/light_units.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"

namespace evenlit {

/// A quantity that is written as text with a unit.
struct WrittenQuantity {
  tl::expected<double, TextProblem> (*from_text)(std::string_view);
  std::string_view kind;
  std::string_view examples;  ///< format of one number
};

namespace {

constexpr WrittenQuantity k_length{metres_from_text, "a length", R"("{0} in", "{0} ft" or "{0} m")"};
constexpr WrittenQuantity k_illuminance{lux_from_text, "an illuminance", R"("{0} fc" or "{0} lx")"};

std::string limits_text(const Range& range) {
  return fmt::format("allowed: {} {}, {} {}", range.least.is_included ? "at least" : "above", range.least.text,
                     range.most.is_included ? "at most" : "below", range.most.text);
}

bool looks_like_percent(double number) { return number >= 2 && number <= 100; }

/// The value as a message shows it.
std::string shown(const TomlValue& value) {
  if (const auto* text = std::get_if<std::string>(&value.content)) return quoted(*text);
  const auto* number = std::get_if<double>(&value.content);
  return number != nullptr ? shortest_text(*number) : std::string{};
}

std::string_view kind_of(const TomlValue& value) {
  constexpr std::array<std::string_view, 6> k_kinds{"a date", "true or false", "a number", "text", "a list", "a table"};
  return k_kinds[value.content.index()];
}

}  // namespace

void ValueReader::problem(const Place& place, std::string what, std::string hint) {
  problems_.push_back({place, std::move(what), std::move(hint)});
}

void ValueReader::unknown_name(const Place& place, std::string what, std::string_view name,
                               const std::vector<std::string_view>& known) {
  constexpr std::size_t k_most_listed = 12;
  const auto nearest = nearest_name(name, known);
  if (!nearest.empty()) {
    problem(place, std::move(what), fmt::format("did you mean {}?", quoted(nearest)));
  } else if (known.size() <= k_most_listed) {
    problem(place, std::move(what), fmt::format("known are {}", fmt::join(known, ", ")));
  } else {
    problem(place, std::move(what), {});
  }
}

Problems ValueReader::problems() const {
  auto sorted = problems_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Problem& a, const Problem& b) {
    return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
  });
  return sorted;
}

void ValueReader::wrong_kind(const TomlValue& value, std::string_view label, std::string_view expected,
                             std::string hint) {
  problem(value.place, fmt::format("{} is {}, not {}", label, kind_of(value), expected), std::move(hint));
}

std::optional<double> ValueReader::in_range(const TomlValue& value, double number, std::string_view label,
                                            const Range& range) {
  const auto& least = range.least;
  const auto& most = range.most;
  const auto complain = [&](std::string_view relation, const Limit& limit) {
    problem(value.place, fmt::format("{} {} is {} {}", label, shown(value), relation, limit.text),
            range.hint.empty() ? limits_text(range) : std::string(range.hint));
    return std::nullopt;
  };
  if (!std::isfinite(number)) {
    problem(value.place, fmt::format("{} {} is not a finite number", label, shown(value)), {});
    return std::nullopt;
  }
  if (number < least.value) return complain("below", least);
  if (number > most.value) return complain("above", most);
  if (number == least.value && !least.is_included) return complain("not above", least);
  if (number == most.value && !most.is_included) return complain("not below", most);
  return number;
}

std::optional<double> ValueReader::number(const TomlValue* value, std::string_view label, const Range& range) {
  if (value == nullptr) return std::nullopt;
  if (const auto* number = std::get_if<double>(&value->content)) return in_range(*value, *number, label, range);
  wrong_kind(*value, label, "a number", "write the number without quotes");
  return std::nullopt;
}

std::optional<double> ValueReader::quantity(const TomlValue* value, std::string_view label, const Range& range,
                                            const WrittenQuantity& written) {
  if (value == nullptr) return std::nullopt;
  if (const auto* number = std::get_if<double>(&value->content)) {
    if (*number == 0) return in_range(*value, 0, label, range);
    problem(value->place, fmt::format("{} {} has no unit", label, shown(*value)),
            "write the unit too, in quotes: " + fmt::format(fmt::runtime(written.examples), shown(*value)));
    return std::nullopt;
  }
  const auto* text = std::get_if<std::string>(&value->content);
  if (text == nullptr) {
    wrong_kind(*value, label, written.kind, "write text like " + fmt::format(fmt::runtime(written.examples), 30));
    return std::nullopt;
  }
  const auto read = written.from_text(*text);
  if (read) return in_range(*value, *read, label, range);
  problem(value->place, fmt::format("{} {}", label, read.error().what), read.error().hint);
  return std::nullopt;
}

std::optional<double> ValueReader::length_m(const TomlValue* value, std::string_view label, const Range& range) {
  return quantity(value, label, range, k_length);
}

std::optional<double> ValueReader::illuminance_lx(const TomlValue* value, std::string_view label, const Range& range) {
  return quantity(value, label, range, k_illuminance);
}

std::optional<double> ValueReader::fraction(const TomlValue* value, std::string_view label, const Range& range) {
  if (value == nullptr) return std::nullopt;
  if (const auto* number = std::get_if<double>(&value->content)) {
    if (!looks_like_percent(*number)) return in_range(*value, *number, label, range);
    const std::string percent = shortest_text(*number);
    problem(value->place, fmt::format("{} {} is above 1", label, percent),
            fmt::format(R"(a fraction is 0 to 1; for {0} percent write "{0} %")", percent));
    return std::nullopt;
  }
  const auto* text = std::get_if<std::string>(&value->content);
  if (text == nullptr) {
    wrong_kind(*value, label, "a fraction", R"(write a number like 0.8, or text like "80 %")");
    return std::nullopt;
  }
  const auto read = fraction_from_text(*text);
  if (read) return in_range(*value, *read, label, range);
  problem(value->place, fmt::format("{} {}", label, read.error().what), read.error().hint);
  return std::nullopt;
}

std::optional<bool> ValueReader::yes_or_no(const TomlValue* value, std::string_view label) {
  if (value == nullptr) return std::nullopt;
  if (const auto* is = std::get_if<bool>(&value->content)) return *is;
  wrong_kind(*value, label, "true or false", "write true or false, without quotes");
  return std::nullopt;
}

std::optional<std::string> ValueReader::text(const TomlValue* value, std::string_view label) {
  if (value == nullptr) return std::nullopt;
  const auto* text = std::get_if<std::string>(&value->content);
  if (text == nullptr) {
    wrong_kind(*value, label, "text", "write it in quotes");
    return std::nullopt;
  }
  if (text->empty()) {
    problem(value->place, fmt::format("{} is empty", label), "write it between the quotes");
    return std::nullopt;
  }
  return *text;
}

const TomlTable* ValueReader::table(const TomlValue* value, std::string_view label) {
  if (value == nullptr) return nullptr;
  const auto* table = std::get_if<TomlTable>(&value->content);
  if (table == nullptr)
    wrong_kind(*value, label, "a table", "write its keys and values in braces, or under its header");
  return table;
}

const TomlArray* ValueReader::array(const TomlValue* value, std::string_view label, std::string_view hint) {
  if (value == nullptr) return nullptr;
  const auto* array = std::get_if<TomlArray>(&value->content);
  if (array == nullptr) wrong_kind(*value, label, "a list", std::string(hint));
  return array;
}

Fields::Fields(const TomlValue& value, std::string title, ValueReader& reader)
    : table_(reader.table(&value, title)), place_(value.place), title_(std::move(title)), reader_(reader) {}

const TomlValue* Fields::find(std::string_view key) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.push_back(key);
  if (table_ == nullptr) return nullptr;
  const auto found = std::find_if(table_->entries.begin(), table_->entries.end(),
                                  [&](const TomlEntry& entry) { return entry.key == key; });
  return found == table_->entries.end() ? nullptr : &found->value;
}

const TomlValue* Fields::require(std::string_view key, std::string_view hint) {
  const auto* value = find(key);
  if (value == nullptr && table_ != nullptr) {
    reader_.problem(place_, fmt::format("{} has no {}", title_, key), std::string(hint));
  }
  return value;
}

void Fields::refuse_other_keys() {
  if (table_ == nullptr) return;
  for (const auto& entry : table_->entries) {
    if (std::find(known_.begin(), known_.end(), entry.key) != known_.end()) continue;
    reader_.unknown_name(entry.key_place, fmt::format("{} knows no key {}", title_, quoted(entry.key)), entry.key,
                         known_);
  }
}

}  // namespace evenlit
