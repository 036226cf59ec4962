#include "write_controls.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "can_words.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/number.hpp"
#include "toml_text.hpp"

namespace evenlit {
namespace {

std::string curve_text(const DimmingCurve& curve) {
  if (const auto* table = std::get_if<RisingTable>(&curve)) return table_text(*table);
  const auto word =
      std::ranges::find(k_curve_laws, std::get<CurveLaw>(curve), &std::pair<std::string_view, CurveLaw>::second);
  return string_text(word->first);
}

std::string names_text(const std::vector<std::string>& names) {
  return list_text(names, [](const std::string& name) { return string_text(name); });
}

std::string number_line(std::string_view key, const std::optional<double>& number) {
  return number ? line(key, shortest_text(*number)) : std::string();
}

std::string dimmer_text(const Dimmer& dimmer) {
  std::string text = fmt::format("\n[dimmers.{}]\n", key_text(dimmer.name)) + line("curve", curve_text(dimmer.curve));
  if (dimmer.low_end != 0) text += line("low_end", shortest_text(dimmer.low_end));
  if (dimmer.high_end != 1) text += line("high_end", shortest_text(dimmer.high_end));
  if (dimmer.cut_off != 0) text += line("cut_off", shortest_text(dimmer.cut_off));
  text += number_line("rated", dimmer.rated_w) + number_line("rated_va", dimmer.rated_va);
  if (dimmer.ganged != 1) text += line("ganged", shortest_text(dimmer.ganged));
  return text + number_line("minimum_load", dimmer.minimum_load_w);
}

std::string circuit_text(const Circuit& circuit) {
  return fmt::format("\n[circuits.{}]\n", key_text(circuit.name)) +
         (circuit.dimmer ? line("dimmer", string_text(*circuit.dimmer)) : line("switch", "true"));
}

std::string by_circuit_text(const std::map<std::string, double>& by_circuit) {
  std::string text;
  for (const auto& [circuit, fraction] : by_circuit) {
    text += fmt::format("{}{} = {}", text.empty() ? "" : ", ", key_text(circuit), shortest_text(fraction));
  }
  return text.empty() ? "{}" : "{ " + text + " }";
}

std::string wish_text(std::string_view mood, const Wish& wish, Units units) {
  std::string text = fmt::format("\n[[moods.{}.wish]]\n", key_text(mood));
  if (wish.area) text += line("area", string_text(*wish.area));
  for (const auto& [key, lx] :
       {std::pair{"at_least", wish.at_least_lx}, {"at_most", wish.at_most_lx}, {"about", wish.about_lx}}) {
    if (lx) text += line(key, string_text(exact_illuminance_text(*lx, units)));
  }
  text += number_line("ratio", wish.ratio);
  if (wish.to) text += line("to", string_text(*wish.to));
  if (wish.weight != 1) text += line("weight", shortest_text(wish.weight));
  return text;
}

/// What a mood asks for, under the mood's header.
struct AsksText {
  const Mood& mood;
  Units units;

  std::string operator()(const CircuitLevels& levels) const { return line("levels", by_circuit_text(levels.of)); }
  std::string operator()(const CircuitSettings& settings) const {
    return line("settings", by_circuit_text(settings.of));
  }
  std::string operator()(const Wishes& wishes) const {
    std::string text;
    if (!wishes.off.empty()) text += line("off", names_text(wishes.off));
    if (!wishes.equal.empty()) text += line("equal", list_text(wishes.equal, names_text));
    for (const Wish& wish : wishes.wishes) text += wish_text(mood.name, wish, units);
    return text;
  }
};

std::string mood_text(const Mood& mood, Units units) {
  return fmt::format("\n[moods.{}]\n", key_text(mood.name)) + number_line("hours", mood.hours) +
         std::visit(AsksText{mood, units}, mood.asks);
}

std::string energy_text(const Energy& energy) {
  if (energy == Energy{}) return {};
  return "\n[energy]\n" + number_line("price", energy.price) + number_line("hours", energy.hours);
}

std::string supply_text(const Supply& supply, Units units) {
  std::string text =
      "\n[supply]\n" + line("breaker", shortest_text(supply.breaker_a)) + line("volts", shortest_text(supply.volts));
  if (supply.wire_awg != Supply{}.wire_awg) {
    const auto word = std::ranges::find(k_wire_sizes, supply.wire_awg, &std::pair<std::string_view, int>::second);
    text += line("wire", string_text(word->first));
  }
  if (supply.run_m) text += line("run", string_text(exact_length_text(*supply.run_m, units)));
  return text;
}

}  // namespace

std::string table_text(const RisingTable& table) {
  return list_text(table, [](const TablePoint& point) {
    return fmt::format("[{}, {}]", shortest_text(point.at), shortest_text(point.value));
  });
}

std::string driver_text(const Driver& driver) {
  std::string text = fmt::format("{{ least = {}, curve = {}", shortest_text(driver.least), curve_text(driver.curve));
  if (!driver.power.empty()) text += ", power = " + table_text(driver.power);
  return text + " }";
}

std::string controls_text(const Job& job) {
  std::string text;
  for (const auto& dimmer : job.dimmers) text += dimmer_text(dimmer);
  for (const auto& circuit : job.circuits) text += circuit_text(circuit);
  for (const auto& mood : job.moods) text += mood_text(mood, job.units);
  text += energy_text(job.energy);
  if (job.supply) text += supply_text(*job.supply, job.units);
  return text;
}

}  // namespace evenlit
