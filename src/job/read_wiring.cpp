#include <fmt/format.h>

#include <algorithm>

#include "can_words.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/job/walls.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_switches = 100;
constexpr std::size_t k_most_coils = 12;
constexpr Range k_slack{{.value = 0, .text = "0"}, {.value = 10, .text = "10 m"}};
constexpr Range k_coil{{.value = 1, .text = "1 m"}, {.value = 1000, .text = "1 km"}};
constexpr Range k_joist_depth{{.value = 0.02, .text = "2 cm"}, {.value = 2, .text = "2 m"}};
constexpr Range k_box_volume{{.value = 1, .text = "1 cubic inch"},
                             {.value = 1000, .text = "1000 cubic inches"},
                             "write the cubic inches that are stamped in the box: 20"};
constexpr Range k_work_hours{{.value = 0, .text = "0"}, {.value = 1000, .text = "1000"}};

template <std::size_t count, class Meaning>
std::vector<std::string_view> words_of(const std::array<std::pair<std::string_view, Meaning>, count>& known) {
  std::vector<std::string_view> words;
  for (const auto& entry : known) words.push_back(entry.first);
  return words;
}

/// Reports places off the wall or above the ceiling there, in mid-air.
void check_place(const Place& place, const WallPlace& at, const Shape& room, Units units, ValueReader& reader) {
  const auto wall = wall_index(room, at.wall);
  if (!wall || !wall_index(room, at.from.wall)) return;
  const double length_m = wall_length_m(room, *wall);
  if (at.from.distance_m > length_m) {
    reader.problem(place,
                   fmt::format("the switch is {} along wall {}, which is {} long",
                               length_text(at.from.distance_m, units), quoted(at.wall), length_text(length_m, units)),
                   "from is along the wall, from the corner with its neighbour");
    return;
  }
  check_below_ceiling(place, "switch", at.height_m, ceiling_of(room).height_m(plan_position(room, at)), units, reader);
}

/// The keys `wall`, `from` and `height` of a place on a wall.
WallPlace read_place(Fields& fields, const Place& place, const Shape* room, Units units, ValueReader& reader) {
  WallPlace at;
  const auto* wall_value = fields.require("wall", R"(add a line like wall = "west")");
  const auto wall = reader.text(wall_value, "wall of the switch");
  if (wall) {
    at.wall = *wall;
    if (room != nullptr) check_wall_name(*room, *wall, wall_value->place, reader);
  }
  const auto* from_value = fields.require("from", R"(add a line like from = { south = "1ft" }: along the wall)");
  const auto from = from_value != nullptr ? read_along(*from_value, "switch", at.wall, room, reader) : std::nullopt;
  const auto* height_value = fields.find("height");
  const auto height_m = reader.length_m(height_value, "switch height", k_distance);
  at.height_m = height_m.value_or(at.height_m);
  if (!from) return at;
  at.from = *from;
  if (room != nullptr && (height_m || height_value == nullptr)) {
    check_place(height_value != nullptr ? height_value->place : place, at, *room, units, reader);
  }
  return at;
}

WallPlace read_second_place(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  if (reader.table(&value, "also") == nullptr) return {};
  Fields fields(value, "also", reader);
  const WallPlace at = read_place(fields, value.place, room, units, reader);
  fields.refuse_other_keys();
  return at;
}

/// The circuits of a box, none of them in an earlier box or twice in this one.
std::vector<std::string> read_box_circuits(const TomlValue& value, const std::vector<Circuit>& known,
                                           const std::vector<SwitchBox>& earlier, ValueReader& reader) {
  constexpr std::string_view k_example = R"(write circuits = ["general", "entry"])";
  const auto* list = reader.array(&value, "circuits of the switch", k_example);
  if (list == nullptr) return {};
  if (list->empty()) reader.problem(value.place, "the switch has no circuits", std::string(k_example));
  std::vector<std::string> circuits;
  for (const TomlValue& element : *list) {
    const auto name = reader.text(&element, "circuit of the switch");
    if (!name) continue;
    check_known(element.place, "circuit", *name, known, reader);
    const bool is_here = std::ranges::find(circuits, *name) != circuits.end();
    const bool is_elsewhere = std::ranges::any_of(
        earlier, [&](const SwitchBox& box) { return std::ranges::find(box.circuits, *name) != box.circuits.end(); });
    if (is_here || is_elsewhere) {
      reader.problem(element.place, fmt::format("circuit {} is on two switches", quoted(*name)),
                     "a second place that switches it too is written as also = { ... } of the first");
    }
    circuits.push_back(*name);
  }
  return circuits;
}

SwitchBox read_switch(const TomlValue& value, const Shape* room, const Job& job, const std::vector<SwitchBox>& earlier,
                      ValueReader& reader) {
  Fields fields(value, "a switch in [[wiring.switches]]", reader);
  SwitchBox box;
  box.origin = {value.place};
  const auto* name_value = fields.require("name", R"(add a line like name = "by the door")");
  if (const auto name = reader.text(name_value, "switch name")) {
    box.name = *name;
    check_name(*name_value, "switch", *name, earlier, reader);
  }
  box.at = read_place(fields, value.place, room, job.units, reader);
  if (const auto* also = fields.find("also")) box.also = read_second_place(*also, room, job.units, reader);
  if (const auto* circuits = fields.require("circuits", R"(add a line like circuits = ["general"])")) {
    box.circuits = read_box_circuits(*circuits, job.circuits, earlier, reader);
  }
  box.box_in3 = reader.number(fields.find("box"), "volume of the box", k_box_volume);
  fields.refuse_other_keys();
  return box;
}

CableKind read_cable(const TomlValue* value, const CableKind& usual, ValueReader& reader) {
  const auto name = reader.text(value, "cable");
  if (!name) return usual;
  const auto* known = std::ranges::find(k_cables, *name, &std::pair<std::string_view, CableKind>::first);
  if (known != k_cables.end()) return known->second;
  reader.unknown_name(value->place, fmt::format("cable {} is unknown", quoted(*name)), *name, words_of(k_cables));
  return usual;
}

Coil read_coil(const TomlValue& value, const CableKind& usual, ValueReader& reader) {
  Fields fields(value, "a coil in [[wiring.coils]]", reader);
  Coil coil;
  coil.cable = read_cable(fields.find("cable"), usual, reader);
  coil.length_m =
      reader.length_m(fields.require("length", R"(add a line like length = "250ft")"), "coil length", k_coil)
          .value_or(0);
  coil.price = reader.number(fields.find("price"), "price of a coil", k_money);
  fields.refuse_other_keys();
  return coil;
}

CeilingPoint read_ceiling_point(const TomlValue& value, const Shape* room, Units units, ValueReader& reader) {
  CeilingPoint point;
  if (read_from(value, "feed", room, point.from, reader) && room != nullptr) {
    check_centre(value, "feed", plan_position(*room, point.from), *room, units, reader);
  }
  return point;
}

/// @param switches of the job, of which the first has the feed where nothing else is said
Feed read_feed(const TomlValue* value, const Shape* room, Units units, const std::vector<SwitchBox>& switches,
               ValueReader& reader) {
  Feed feed;
  if (!switches.empty()) feed.at = switches.front().name;
  if (value == nullptr || reader.table(value, "feed") == nullptr) return feed;
  Fields fields(*value, "feed", reader);
  const auto* box = fields.find("switch");
  const auto* from = fields.find("from");
  if (box != nullptr && from != nullptr) {
    reader.problem(value->place, "the feed is both at a switch and in the ceiling", "write one of switch and from");
  }
  if (const auto name = reader.text(box, "switch of the feed")) {
    check_known(box->place, "switch", *name, switches, reader);
    feed.at = *name;
  }
  if (from != nullptr) feed.at = read_ceiling_point(*from, room, units, reader);
  feed.run_m = reader.length_m(fields.find("run"), "run", k_distance);
  fields.refuse_other_keys();
  return feed;
}

std::map<Piece, double> read_prices(const TomlValue& value, ValueReader& reader) {
  std::map<Piece, double> prices;
  Fields fields(value, "prices", reader);
  for (const auto& [name, piece] : k_pieces) {
    if (const auto price = reader.number(fields.find(name), fmt::format("price of a {}", name), k_money)) {
      prices[piece] = *price;
    }
  }
  fields.refuse_other_keys();
  return prices;
}

Labour read_labour(const TomlValue& value, ValueReader& reader) {
  Fields fields(value, "labour", reader);
  Labour labour;
  labour.hours_per_can = reader.number(fields.find("per_can"), "hours per can", k_work_hours);
  labour.hours_per_switch = reader.number(fields.find("per_switch"), "hours per switch", k_work_hours);
  labour.rate = reader.number(fields.find("rate"), "rate of an hour", k_money);
  fields.refuse_other_keys();
  return labour;
}

/// Cans hang on cable of two insulated wires; that of three runs between switches only.
void check_two_wires(const TomlValue& value, const CableKind& cable, ValueReader& reader) {
  if (cable.insulated == 2) return;
  reader.problem(
      value.place, "the cable to the cans has two insulated wires",
      fmt::format("write cable = \"{}/2\": the cable between three-way switches follows from it", cable.awg));
}

}  // namespace

Wiring read_wiring(const TomlValue& value, const Shape* room, const Job& job, ValueReader& reader) {
  Fields fields(value, "[wiring]", reader);
  Wiring wiring;
  const auto* cable = fields.find("cable");
  wiring.cable = read_cable(cable, wiring.cable, reader);
  if (cable != nullptr) check_two_wires(*cable, wiring.cable, reader);
  wiring.path = read_word(fields.find("path"), "path", k_cable_paths, reader);
  wiring.framing = read_word(fields.find("framing"), "framing", k_framing_kinds, reader);
  wiring.joist_depth_m = reader.length_m(fields.find("joist_depth"), "joist depth", k_joist_depth);
  wiring.slack_m = reader.length_m(fields.find("slack"), "slack", k_slack).value_or(wiring.slack_m);
  wiring.waste = reader.fraction(fields.find("waste"), "waste", k_share).value_or(wiring.waste);
  if (const auto* coils = fields.find("coils")) {
    wiring.coils = read_each<Coil>(
        *coils, "wiring.coils", "coils", k_most_coils, reader,
        [&](const TomlValue& element, const std::vector<Coil>&) { return read_coil(element, wiring.cable, reader); });
  }
  const auto* switches =
      fields.require("switches", R"(add a table [[wiring.switches]] with name, wall, from and circuits)");
  if (switches != nullptr) {
    wiring.switches = read_each<SwitchBox>(*switches, "wiring.switches", "switches", k_most_switches, reader,
                                           [&](const TomlValue& element, const std::vector<SwitchBox>& earlier) {
                                             return read_switch(element, room, job, earlier, reader);
                                           });
    if (wiring.switches.empty()) {
      reader.problem(switches->place, "[wiring] has no switches", "add a table [[wiring.switches]]");
    }
  }
  wiring.feed = read_feed(fields.find("feed"), room, job.units, wiring.switches, reader);
  if (const auto* prices = fields.find("prices")) wiring.prices = read_prices(*prices, reader);
  if (const auto* labour = fields.find("labour")) wiring.labour = read_labour(*labour, reader);
  fields.refuse_other_keys();
  return wiring;
}

}  // namespace evenlit
