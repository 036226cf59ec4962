#include <fmt/format.h>

#include <cmath>

#include "can_words.hpp"
#include "evenlit/base/names.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_can_types = 200;
constexpr Range k_light_loss{{.value = 0, .text = "0", .is_included = false}, {.value = 1, .text = "1"}};
constexpr Range k_lumens{{.value = 0, .text = "0", .is_included = false}, {.value = 1e7, .text = "10000000"}};
constexpr Range k_beam_angle{{.value = 5, .text = "5"}, {.value = 150, .text = "150"}};
constexpr Range k_field_angle{{.value = 5, .text = "5"}, {.value = 360, .text = "360"}};
constexpr Range k_cut_off{{.value = 5, .text = "5"}, {.value = 180, .text = "180"}};
constexpr Range k_peak{{.value = 1, .text = "1"}, {.value = 75, .text = "75"}};
constexpr Range k_lamp_set{{.value = 1, .text = "1"}, {.value = 20, .text = "20"}};
constexpr Range k_kelvin{{.value = 1000, .text = "1000"}, {.value = 20000, .text = "20000"}};
constexpr Range k_power_factor{{.value = 0, .text = "0", .is_included = false}, {.value = 1, .text = "1"}};
constexpr Range k_turn{{.value = 0, .text = "0"}, {.value = 270, .text = "270"}};

Batwing read_batwing(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "batwing", reader);
  constexpr std::string_view k_example = "write batwing = { peak = 30, centre = 0.6 }";
  Batwing batwing;
  batwing.peak_deg = reader.number(fields.require("peak", k_example), "peak of the batwing", k_peak).value_or(1);
  batwing.centre_fraction =
      reader.fraction(fields.require("centre", k_example), "centre of the batwing", k_share).value_or(1);
  fields.refuse_other_keys();
  return batwing;
}

SyntheticBeam read_beam(const TomlValue& value, ValueReader& reader) {
  const std::size_t problems_before = reader.problems().size();
  Fields fields(value, "beam", reader);
  constexpr std::string_view k_example = "write beam = { lumens = 900, angle = 60 }";
  SyntheticBeam beam;
  beam.lumens = reader.number(fields.require("lumens", k_example), "beam lumens", k_lumens).value_or(0);
  beam.beam_angle_deg = reader.number(fields.require("angle", k_example), "beam angle", k_beam_angle).value_or(0);
  beam.field_angle_deg = reader.number(fields.find("field"), "field angle", k_field_angle);
  beam.cut_off_deg = reader.number(fields.find("cut_off"), "cut-off", k_cut_off).value_or(90);
  if (const auto* batwing = fields.find("batwing")) beam.batwing = read_batwing(*batwing, reader);
  fields.refuse_other_keys();
  if (reader.problems().size() > problems_before) return beam;
  if (const auto made = synthetic_beam(beam, value.place); !made) {
    for (const Problem& problem : made.error()) reader.problem(problem.place, problem.what, problem.hint);
  }
  return beam;
}

/// What is done to a photometric file once it is read.
void read_changes(Fields& fields, CanType& type, ValueReader& reader) {
  const auto* lumens = fields.find("lumens");
  const auto* lamp_set = fields.find("lamp_set");
  const auto* turn = fields.find("turn");
  type.lumens = reader.number(lumens, "lumens", k_lumens);
  const double set = reader.number(lamp_set, "lamp set", k_lamp_set).value_or(1);
  const double turn_deg = reader.number(turn, "turn", k_turn).value_or(0);
  if (set != std::floor(set)) reader.problem(lamp_set->place, "lamp set is not a whole number", "write lamp_set = 2");
  if (std::fmod(turn_deg, 90) != 0) {
    reader.problem(turn->place, "turn is not a quarter turn", "write 0, 90, 180 or 270");
  }
  type.lamp_set = static_cast<int>(set);
  type.quarters = static_cast<int>(turn_deg / 90);
  for (const auto& [change, key] : {std::pair{lumens, "lumens"}, {lamp_set, "lamp_set"}, {turn, "turn"}}) {
    if (change == nullptr || !type.beam) continue;
    reader.problem(change->place, fmt::format("{} changes a photometric file, and the can type has a beam", key),
                   "take it out");
  }
}

OpeningSize read_opening(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "opening", reader);
  OpeningSize size;
  if (const auto* diameter = fields.find("diameter")) {
    size.width_m = reader.length_m(diameter, "opening diameter", k_part_size).value_or(0);
  } else {
    constexpr std::string_view k_example =
        R"(write opening = { diameter = "5in" }, or { width = "5in", length = "5in" })";
    size.width_m = reader.length_m(fields.require("width", k_example), "opening width", k_part_size).value_or(0);
    size.length_m = reader.length_m(fields.require("length", k_example), "opening length", k_part_size).value_or(0);
  }
  fields.refuse_other_keys();
  return size;
}

Housing read_housing(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "housing", reader);
  constexpr std::string_view k_example = R"(write housing = { width = "6-1/2in", length = "11in" })";
  Housing housing;
  housing.width_m = reader.length_m(fields.require("width", k_example), "housing width", k_part_size).value_or(0);
  housing.length_m = reader.length_m(fields.require("length", k_example), "housing length", k_part_size).value_or(0);
  housing.kind = read_word(fields.find("kind"), "housing kind", k_housing_kinds, reader);
  housing.lies = read_word(fields.find("lies"), "housing lies", k_housing_lies, reader);
  const auto* widest = fields.find("widest_bay");
  housing.narrowest_bay_m = reader.length_m(fields.find("narrowest_bay"), "narrowest bay", k_part_size);
  housing.widest_bay_m = reader.length_m(widest, "widest bay", k_part_size);
  if (housing.widest_bay_m && housing.widest_bay_m < housing.narrowest_bay_m.value_or(0)) {
    reader.problem(widest->place, "the widest bay is narrower than the narrowest", "exchange them");
  }
  fields.refuse_other_keys();
  return housing;
}

Driver read_driver(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "dimming", reader);
  Driver driver;
  driver.least = reader.fraction(fields.find("least"), "least light of the driver", k_share).value_or(0);
  if (const auto* curve = fields.find("curve")) driver.curve = read_curve(*curve, "curve of the driver", reader);
  if (const auto* power = fields.find("power")) {
    constexpr PairWords k_words{.label = "power of the driver",
                                .at = "level",
                                .value = "share of the watts",
                                .example = "write power = [[0, 0.02], [0.1, 0.2], [1, 1]]"};
    driver.power = read_rising_table(*power, k_words, k_share, k_share, reader);
    if (!driver.power.empty() && driver.power.back() != TablePoint{1, 1}) {
      reader.problem(power->place, "power of the driver does not end at full light and full watts",
                     "write [1, 1] as its last pair");
    }
  }
  fields.refuse_other_keys();
  return driver;
}

/// The colour of the light: the same at every level, or warmer the lower it is.
void read_colour(Fields& fields, CanType& type, ValueReader& reader) {
  const auto* cct = fields.find("cct");
  const auto* warm_dim = fields.find("warm_dim");
  type.cct_k = reader.number(cct, "cct", k_kelvin);
  if (warm_dim == nullptr) return;
  constexpr PairWords k_words{.label = "warm_dim",
                              .at = "level",
                              .value = "colour temperature",
                              .example = "write warm_dim = [[0.05, 1800], [1, 3000]]"};
  type.warm_dim_k = read_rising_table(*warm_dim, k_words, k_share, k_kelvin, reader);
  if (cct == nullptr) return;
  reader.problem(cct->place, "the can type has both cct and warm_dim",
                 "leave out cct: the last pair of warm_dim is the colour at full level");
}

void read_volt_amperes(Fields& fields, CanType& type, ValueReader& reader) {
  const auto* va = fields.find("va");
  const auto* power_factor = fields.find("power_factor");
  type.va = reader.number(va, "va", k_watts);
  type.power_factor = reader.fraction(power_factor, "power factor", k_power_factor);
  if (va != nullptr && power_factor != nullptr) {
    reader.problem(power_factor->place, "the can type has both va and power_factor",
                   "leave one of them out: va is watts over power factor");
  }
  if (type.va && type.watts && *type.va < *type.watts) {
    reader.problem(va->place, "va is less than watts", "the volt-amperes of a can are at least its watts");
  }
}

CanType read_can_type(const TomlEntry& entry, ValueReader& reader) {
  const auto& [name, key_place, value] = entry;
  Fields fields(value, fmt::format("can type {}", quoted(name)), reader);
  CanType type;
  type.name = name;
  if (name.empty()) reader.problem(key_place, "a can type has an empty name", "write [can_types.six_inch]");

  const auto* file = fields.find("file");
  const auto* beam = fields.find("beam");
  const auto* opening = fields.find("opening");
  type.origin = {file != nullptr ? file->place : value.place};
  type.file = reader.text(file, "photometric file").value_or("");
  if (beam != nullptr) type.beam = read_beam(*beam, reader);
  if ((file == nullptr) == (beam == nullptr)) {
    reader.problem(
        file != nullptr ? beam->place : value.place,
        fmt::format("can type {} has {} file {} beam", quoted(name), file != nullptr ? "both" : "neither",
                    file != nullptr ? "and" : "nor"),
        R"(write one of file = "../photometry/six-inch-medium.ies" and beam = { lumens = 900, angle = 60 })");
  }
  read_changes(fields, type, reader);
  type.light_loss_factor = reader.fraction(fields.find("light_loss"), "light loss factor", k_light_loss).value_or(1);
  type.watts = reader.number(fields.find("watts"), "watts", k_watts);
  type.price = reader.number(fields.find("price"), "price", k_money);
  type.hole_m = reader.length_m(fields.find("hole"), "hole diameter", k_part_size);
  if (const auto* housing = fields.find("housing")) type.housing = read_housing(*housing, reader);
  type.rating = read_word(fields.find("rating"), "rating", k_ratings, reader);
  if (opening != nullptr) type.opening = read_opening(*opening, reader);
  if (const auto* dimming = fields.find("dimming")) type.dimming = read_driver(*dimming, reader);
  read_colour(fields, type, reader);
  read_volt_amperes(fields, type, reader);
  fields.refuse_other_keys();
  return type;
}

}  // namespace

std::vector<CanType> read_can_types(const TomlValue& value, ValueReader& reader) {
  std::vector<CanType> types;
  const auto* table = reader.table(&value, "can_types");
  if (table == nullptr) return types;
  if (table->entries.empty() || table->entries.size() > k_most_can_types) {
    reader.problem(value.place, fmt::format("the job has {} can types", table->entries.size()),
                   fmt::format("a job has 1 to {} can types", k_most_can_types));
    return types;
  }
  for (const auto& entry : table->entries) types.push_back(read_can_type(entry, reader));
  return types;
}

}  // namespace evenlit
