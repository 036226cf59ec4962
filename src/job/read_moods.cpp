#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/figures.hpp"
#include "tables.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_most_moods = 100;
constexpr std::size_t k_most_wishes = 100;
constexpr std::size_t k_most_groups = 100;
constexpr Range k_ratio{{.value = 0, .text = "0", .is_included = false}, {.value = 1000, .text = "1000"}};
constexpr Range k_weight{{.value = 0, .text = "0", .is_included = false}, {.value = 1000, .text = "1000"}};
constexpr std::string_view k_wish_example = R"(write at_least, at_most or about, like about = "10 fc", or ratio = 3)";

const Circuit* circuit_named(const std::vector<Circuit>& circuits, std::string_view name) {
  const auto found = std::ranges::find(circuits, name, &Circuit::name);
  return found == circuits.end() ? nullptr : &*found;
}

/// Levels or settings by circuit; `noun` is one of them.
std::map<std::string, double> read_by_circuit(const TomlValue& value, std::string_view noun,
                                              const std::vector<Circuit>& circuits, ValueReader& reader) {
  std::map<std::string, double> by_circuit;
  const auto* table = reader.table(&value, fmt::format("{}s", noun));
  if (table == nullptr) return by_circuit;
  for (const auto& [name, key_place, fraction_value] : table->entries) {
    check_known(key_place, "circuit", name, circuits, reader);
    const auto fraction =
        reader.fraction(&fraction_value, fmt::format("{} of circuit {}", noun, quoted(name)), k_share);
    by_circuit[name] = fraction.value_or(0);
    const Circuit* circuit = circuit_named(circuits, name);
    if (circuit != nullptr && !circuit->dimmer && fraction && *fraction != 0 && *fraction != 1) {
      reader.problem(fraction_value.place, fmt::format("circuit {} is switched, not dimmed", quoted(name)),
                     "write 0 or 1, or give the circuit a dimmer");
    }
  }
  return by_circuit;
}

/// The task area of that key; absent is the work plane.
std::optional<std::string> read_area(const TomlValue* value, std::string_view key, const std::vector<TaskArea>& areas,
                                     ValueReader& reader) {
  auto name = reader.text(value, key);
  if (name) check_known(value->place, "task area", *name, areas, reader);
  return name;
}

/// What a wish for a ratio or an illuminance must and must not have.
void check_parts(Fields& fields, const TomlValue& value, ValueReader& reader) {
  const auto* ratio = fields.find("ratio");
  const auto* to = fields.find("to");
  const TomlValue* light = nullptr;
  for (const auto* key : {"at_least", "at_most", "about"}) light = light != nullptr ? light : fields.find(key);
  if (ratio == nullptr && light == nullptr) {
    reader.problem(value.place, "the wish does not say what is wanted", std::string(k_wish_example));
  } else if (ratio != nullptr && light != nullptr) {
    reader.problem(ratio->place, "the wish has both a ratio and an illuminance", "make two wishes of it");
  }
  if (to != nullptr && ratio == nullptr) {
    reader.problem(to->place, "the wish has to, but no ratio", R"(write ratio = 3, to = "floor")");
  }
}

Wish read_wish(const TomlValue& value, const std::vector<TaskArea>& areas, ValueReader& reader) {
  Fields fields(value, "a wish of the mood", reader);
  Wish wish;
  wish.origin = {value.place};
  wish.area = read_area(fields.find("area"), "area", areas, reader);
  wish.at_least_lx = reader.illuminance_lx(fields.find("at_least"), "at_least", k_target);
  wish.at_most_lx = reader.illuminance_lx(fields.find("at_most"), "at_most", k_target);
  wish.about_lx = reader.illuminance_lx(fields.find("about"), "about", k_target);
  const auto* ratio = fields.find("ratio");
  wish.ratio = reader.number(ratio, "ratio", k_ratio);
  wish.to = read_area(fields.find("to"), "to", areas, reader);
  wish.weight = reader.number(fields.find("weight"), "weight", k_weight).value_or(wish.weight);
  check_parts(fields, value, reader);
  if (wish.ratio && wish.area == wish.to) {
    reader.problem(ratio->place, "the ratio is of an area to itself",
                   "area and to are two areas; the one that is left out is the work plane");
  }
  fields.refuse_other_keys();
  return wish;
}

std::string area_text(const std::optional<std::string>& area) { return area ? quoted(*area) : "the work plane"; }

/// Reports wishes for one area that no light can meet together, at the later one.
void check_agreement(const std::vector<Wish>& wishes, Units units, ValueReader& reader) {
  struct Bounds {
    std::optional<double> least_lx;
    std::optional<double> most_lx;
  };
  std::map<std::optional<std::string>, Bounds> by_area;
  const auto text = [&](double lx) { return illuminance_text(lx, 0, units); };
  for (const Wish& wish : wishes) {
    auto& [least_lx, most_lx] = by_area[wish.area];
    for (const auto& at_least : {wish.at_least_lx, wish.about_lx}) {
      if (at_least) least_lx = std::max(*at_least, least_lx.value_or(0));
    }
    for (const auto& at_most : {wish.at_most_lx, wish.about_lx}) {
      if (at_most) most_lx = std::min(*at_most, most_lx.value_or(*at_most));
    }
    if (!least_lx || !most_lx || *least_lx <= *most_lx) continue;
    reader.problem(wish.origin.place,
                   fmt::format("{} is wanted at {} or more and at {} or less", area_text(wish.area), text(*least_lx),
                               text(*most_lx)),
                   "no light meets both: change one of them");
    by_area[wish.area] = {};
  }
}

std::vector<Wish> read_wish_list(const TomlValue& value, const Job& job, ValueReader& reader) {
  std::vector<Wish> wishes;
  const auto* list =
      reader.array(&value, "wish", "write its header in double brackets: [[moods.dinner.wish]] for a mood dinner");
  if (list == nullptr) return wishes;
  if (list->empty() || list->size() > k_most_wishes) {
    reader.problem(value.place, fmt::format("the mood has {} wishes", list->size()),
                   fmt::format("a mood has 1 to {} wishes", k_most_wishes));
    return wishes;
  }
  for (const auto& element : *list) wishes.push_back(read_wish(element, job.task_areas, reader));
  check_agreement(wishes, job.units, reader);
  const bool asks_for_light = std::ranges::any_of(
      wishes, [](const Wish& wish) { return wish.at_least_lx.value_or(0) > 0 || wish.about_lx.value_or(0) > 0; });
  if (!asks_for_light && reader.problems().empty()) {
    reader.problem(value.place, "no light at all would meet every wish of the mood",
                   R"(add to one of them at_least or about, as in about = "7 fc")");
  }
  return wishes;
}

std::vector<std::string> read_circuit_names(const TomlValue& value, std::string_view key,
                                            const std::vector<Circuit>& circuits, ValueReader& reader) {
  std::vector<std::string> names;
  const auto* list = reader.array(&value, key, R"(write a list of circuits like ["ceiling", "cove"])");
  if (list == nullptr) return names;
  for (const auto& element : *list) {
    const auto name = reader.text(&element, fmt::format("a circuit in {}", key));
    if (!name) continue;
    check_known(element.place, "circuit", *name, circuits, reader);
    if (std::ranges::find(names, *name) != names.end()) {
      reader.problem(element.place, fmt::format("circuit {} is named twice", quoted(*name)), "name it once");
    }
    names.push_back(*name);
  }
  return names;
}

std::vector<std::vector<std::string>> read_equal(const TomlValue& value, const std::vector<Circuit>& circuits,
                                                 ValueReader& reader) {
  std::vector<std::vector<std::string>> groups;
  constexpr std::string_view k_example = R"(write equal = [["ceiling", "cove"]]: a list of groups of circuits)";
  const auto* list = reader.array(&value, "equal", k_example);
  if (list == nullptr) return groups;
  if (list->size() > k_most_groups) {
    reader.problem(value.place, fmt::format("equal has {} groups", list->size()),
                   fmt::format("a mood has at most {} groups of equal circuits", k_most_groups));
    return groups;
  }
  for (const auto& element : *list) {
    groups.push_back(read_circuit_names(element, "equal", circuits, reader));
    const auto* group = std::get_if<TomlArray>(&element.content);
    if (group != nullptr && group->size() < 2) {
      reader.problem(element.place, fmt::format("a group of {} that is to be equal", group->size()),
                     std::string(k_example));
    }
  }
  return groups;
}

Wishes read_wishes(const TomlValue& wish, Fields& fields, const Job& job, ValueReader& reader) {
  Wishes wishes;
  wishes.wishes = read_wish_list(wish, job, reader);
  if (const auto* off = fields.find("off")) wishes.off = read_circuit_names(*off, "off", job.circuits, reader);
  if (const auto* equal = fields.find("equal")) wishes.equal = read_equal(*equal, job.circuits, reader);
  return wishes;
}

Mood read_mood(const std::string& name, const TomlValue& value, const Job& job, ValueReader& reader) {
  Fields fields(value, fmt::format("mood {}", quoted(name)), reader);
  Mood mood;
  mood.name = name;
  mood.origin = {value.place};
  mood.hours = reader.number(fields.find("hours"), "hours", k_hours);
  const auto* levels = fields.find("levels");
  const auto* settings = fields.find("settings");
  const auto* wish = fields.find("wish");
  if ((levels != nullptr) + (settings != nullptr) + (wish != nullptr) != 1) {
    reader.problem(value.place, fmt::format("mood {} needs one of levels, settings and wishes", quoted(name)),
                   R"(write levels = { ceiling = "40 %" } for light, settings = { ceiling = "60 %" } for where the )"
                   "dimmer is set, or wishes under [[moods.NAME.wish]]");
  }
  if (levels != nullptr) mood.asks = CircuitLevels{read_by_circuit(*levels, "level", job.circuits, reader)};
  if (settings != nullptr) mood.asks = CircuitSettings{read_by_circuit(*settings, "setting", job.circuits, reader)};
  if (wish != nullptr) {
    mood.asks = read_wishes(*wish, fields, job, reader);
  } else {
    for (const auto* key : {"off", "equal"}) {
      const auto* of_wishes = fields.find(key);
      if (of_wishes == nullptr) continue;
      reader.problem(of_wishes->place, fmt::format("{} goes with wishes only", key),
                     "circuits that levels or settings do not name are off");
    }
  }
  fields.refuse_other_keys();
  return mood;
}

}  // namespace

std::vector<Mood> read_moods(const TomlValue& value, const Job& job, ValueReader& reader) {
  return read_each_named<Mood>(
      value, "moods", "moods", k_most_moods, reader,
      [&](const std::string& name, const TomlValue& table) { return read_mood(name, table, job, reader); });
}

}  // namespace evenlit
