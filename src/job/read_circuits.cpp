#include <fmt/format.h>

#include "can_words.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_dimmers = 100;
constexpr std::size_t k_most_circuits = 100;
constexpr std::size_t k_most_pairs = 200;
constexpr Range k_trim{{.value = 0, .text = "0"}, {.value = 1, .text = "1"}, "a trim is a fraction of full output"};
constexpr Range k_rated{{.value = 0, .text = "0", .is_included = false}, {.value = 1e5, .text = "100000"}};
constexpr Range k_ganged{{.value = 0, .text = "0", .is_included = false},
                         {.value = 1, .text = "1"},
                         "write the part of its rating that the dimmer keeps beside others in one box"};
constexpr Range k_amperes{{.value = 0, .text = "0", .is_included = false}, {.value = 200, .text = "200"}};
constexpr Range k_volts{{.value = 50, .text = "50"}, {.value = 1000, .text = "1000"}};

/// A fraction where `range` is one, otherwise a plain number.
std::optional<double> read_number(const TomlValue& value, std::string_view label, const Range& range,
                                  ValueReader& reader) {
  const bool is_share = range.most.value <= 1;
  return is_share ? reader.fraction(&value, label, range) : reader.number(&value, label, range);
}

/// Reports a pair that turns back from the one before it.
bool rises(const TablePoint& before, const TablePoint& point, const TomlValue& pair, const PairWords& words,
           ValueReader& reader) {
  if (point.at > before.at && point.value >= before.value) return true;
  const bool at_rises = point.at > before.at;
  reader.problem(pair.place,
                 fmt::format("{}: the {} {}", words.label, at_rises ? words.value : words.at,
                             at_rises ? "falls" : "does not rise"),
                 fmt::format("list the pairs with rising {}; the {} may stay, but not fall", words.at, words.value));
  return false;
}

Dimmer read_dimmer(const std::string& name, const TomlValue& value, ValueReader& reader) {
  Fields fields(value, fmt::format("dimmer {}", quoted(name)), reader);
  Dimmer dimmer;
  dimmer.name = name;
  dimmer.origin = {value.place};
  if (const auto* curve = fields.find("curve")) dimmer.curve = read_curve(*curve, "curve of the dimmer", reader);
  const auto* high_end = fields.find("high_end");
  dimmer.low_end = reader.fraction(fields.find("low_end"), "low_end", k_trim).value_or(dimmer.low_end);
  dimmer.high_end = reader.fraction(high_end, "high_end", k_trim).value_or(dimmer.high_end);
  dimmer.cut_off = reader.fraction(fields.find("cut_off"), "cut_off", k_share).value_or(dimmer.cut_off);
  dimmer.rated_w = reader.number(fields.find("rated"), "rated load", k_rated);
  dimmer.rated_va = reader.number(fields.find("rated_va"), "rated volt-amperes", k_rated);
  dimmer.ganged = reader.fraction(fields.find("ganged"), "ganged", k_ganged).value_or(dimmer.ganged);
  dimmer.minimum_load_w = reader.number(fields.find("minimum_load"), "minimum load", k_watts);
  fields.refuse_other_keys();
  if (dimmer.low_end >= dimmer.high_end) {
    reader.problem(high_end != nullptr ? high_end->place : value.place, "low_end is not below high_end",
                   "low_end trims the lowest setting, high_end the highest");
  }
  return dimmer;
}

Circuit read_circuit(const std::string& name, const TomlValue& value, const std::vector<Dimmer>& dimmers,
                     ValueReader& reader) {
  Fields fields(value, fmt::format("circuit {}", quoted(name)), reader);
  Circuit circuit;
  circuit.name = name;
  circuit.origin = {value.place};
  const auto* dimmer = fields.find("dimmer");
  circuit.dimmer = reader.text(dimmer, "dimmer");
  if (circuit.dimmer) check_known(dimmer->place, "dimmer", *circuit.dimmer, dimmers, reader);
  const auto* switch_value = fields.find("switch");
  const auto is_switched = reader.yes_or_no(switch_value, "switch");
  if ((switch_value == nullptr || is_switched) && is_switched.value_or(false) == (dimmer != nullptr)) {
    reader.problem(switch_value != nullptr ? switch_value->place : value.place,
                   fmt::format("circuit {} has {} switch", quoted(name),
                               dimmer != nullptr ? "both dimmer and" : "neither dimmer nor"),
                   "write one of dimmer = \"the name of a dimmer\" and switch = true");
  }
  fields.refuse_other_keys();
  return circuit;
}

}  // namespace

RisingTable read_rising_table(const TomlValue& value, const PairWords& words, const Range& at_range,
                              const Range& value_range, ValueReader& reader) {
  const auto* list = reader.array(&value, words.label, words.example);
  if (list == nullptr) return {};
  if (list->size() < 2 || list->size() > k_most_pairs) {
    reader.problem(value.place, fmt::format("{} has {} pairs, not 2 to {}", words.label, list->size(), k_most_pairs),
                   std::string(words.example));
    return {};
  }
  RisingTable table;
  for (const auto& pair : *list) {
    const auto* members = reader.array(&pair, fmt::format("{}: a pair", words.label), words.example);
    if (members == nullptr) return {};
    if (members->size() != 2) {
      reader.problem(pair.place, fmt::format("{}: a pair of {} numbers, not of 2", words.label, members->size()),
                     std::string(words.example));
      return {};
    }
    const auto at = read_number(members->front(), fmt::format("{}: {}", words.label, words.at), at_range, reader);
    const auto second =
        read_number(members->back(), fmt::format("{}: {}", words.label, words.value), value_range, reader);
    if (!at || !second) return {};
    const TablePoint point{*at, *second};
    if (!table.empty() && !rises(table.back(), point, pair, words, reader)) return {};
    table.push_back(point);
  }
  return table;
}

DimmingCurve read_curve(const TomlValue& value, std::string_view label, ValueReader& reader) {
  if (std::holds_alternative<std::string>(value.content)) return read_word(&value, label, k_curve_laws, reader);
  const PairWords words{
      .label = label,
      .at = "setting",
      .value = "output",
      .example = R"(write curve = "linear", "square" or "logarithmic", or pairs like [[0, 0], [0.5, 0.2], [1, 1]])"};
  return read_rising_table(value, words, k_share, k_share, reader);
}

std::vector<Dimmer> read_dimmers(const TomlValue& value, ValueReader& reader) {
  return read_each_named<Dimmer>(
      value, "dimmers", "dimmers", k_most_dimmers, reader,
      [&](const std::string& name, const TomlValue& table) { return read_dimmer(name, table, reader); });
}

std::vector<Circuit> read_circuits(const TomlValue& value, const std::vector<Dimmer>& dimmers, ValueReader& reader) {
  return read_each_named<Circuit>(
      value, "circuits", "circuits", k_most_circuits, reader,
      [&](const std::string& name, const TomlValue& table) { return read_circuit(name, table, dimmers, reader); });
}

Energy read_energy(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "[energy]", reader);
  Energy energy;
  energy.price = reader.number(fields.find("price"), "price of a kWh", k_money);
  energy.hours = reader.number(fields.find("hours"), "hours", k_hours);
  fields.refuse_other_keys();
  return energy;
}

Supply read_supply(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "[supply]", reader);
  Supply supply;
  supply.breaker_a =
      reader.number(fields.require("breaker", "add a line like breaker = 15: its amperes"), "breaker", k_amperes)
          .value_or(0);
  supply.volts = reader.number(fields.find("volts"), "volts", k_volts).value_or(supply.volts);
  supply.wire_awg = read_word(fields.find("wire"), "wire", k_wire_sizes, reader);
  supply.run_m = reader.length_m(fields.find("run"), "run", k_distance);
  fields.refuse_other_keys();
  return supply;
}

}  // namespace evenlit
