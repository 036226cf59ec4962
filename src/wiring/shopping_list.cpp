#include "evenlit/wiring/shopping_list.hpp"

#include <algorithm>
#include <map>

#include "evenlit/base/length.hpp"
#include "evenlit/wiring/cable_words.hpp"
#include "evenlit/wiring/coils.hpp"

namespace evenlit {
namespace {

/// What the small parts are counted from.
struct Counts {
  int ceiling_boxes = 0;
  int connectors = 0;
  int splices = 0;
  int staples = 0;
  int plates = 0;
};

bool is_flush(const Job& job, const Stop& stop) {
  const Can& can = job.cans[static_cast<std::size_t>(stop.index)];
  return !can.drop_m && !can.height_m;
}

/// Those of one end of a cable.
void count_end(const Job& job, const Stop& stop, Counts& counts) {
  const bool is_in_switch_box = stop.kind == Stop::Kind::switch_box || stop.kind == Stop::Kind::second_box;
  if (!is_in_switch_box) ++counts.connectors;
  const bool is_on_wall =
      is_in_switch_box || (stop.kind == Stop::Kind::can && !is_flush(job, stop) && stop.below_m > 0);
  if (is_on_wall) ++counts.plates;
}

Counts counts_of(const Job& job, const TakeOff& take_off) {
  constexpr int k_splices = 3;
  Counts counts;
  for (const Leg& leg : take_off.legs) {
    count_end(job, leg.from, counts);
    count_end(job, leg.to, counts);
    counts.staples += staples(leg.route.length_m);
    if (take_off.hole && take_off.hole->needs_plate) counts.plates += 2 * static_cast<int>(leg.route.crossings.size());
  }
  for (const CircuitRun& run : take_off.circuits) {
    counts.splices += k_splices * static_cast<int>(run.cans.size());
    for (const int can : run.cans) counts.ceiling_boxes += is_flush(job, {.index = can}) ? 0 : 1;
  }
  counts.splices += k_splices * static_cast<int>(take_off.boxes.size());
  const bool is_fed_in_ceiling = std::holds_alternative<CeilingPoint>(job.wiring->feed.at);
  if (is_fed_in_ceiling) {
    ++counts.ceiling_boxes;
    ++counts.connectors;  // of the cable from the panel
    counts.splices += k_splices;
  }
  return counts;
}

/// Puts a list together.
class Listing {
 public:
  Listing(const Job& job, const TakeOff& take_off) : job_(job), wiring_(job.wiring.value()), take_off_(take_off) {}

  ShoppingList list() {
    add_cans();
    for (const CableLength& cable : cable_lengths(wiring_, take_off_)) add_cable(cable);
    add_boxes();
    add_devices();
    const Counts counts = counts_of(job_, take_off_);
    add("ceiling box", counts.ceiling_boxes, price_of(Piece::ceiling_box));
    add("cable connector", counts.connectors, price_of(Piece::connector));
    add("wire connector", counts.splices, price_of(Piece::splice));
    add("cable staple", counts.staples, price_of(Piece::staple));
    add("steel plate", counts.plates, price_of(Piece::plate));
    add_totals();
    return std::move(list_);
  }

 private:
  void add(std::string what, int count, const std::optional<double>& price) {
    if (count > 0) list_.items.push_back({std::move(what), count, price});
  }

  [[nodiscard]] std::optional<double> price_of(Piece piece) const {
    const auto found = wiring_.prices.find(piece);
    return found == wiring_.prices.end() ? std::nullopt : std::optional(found->second);
  }

  void add_cans() {
    for (const CanType& type : job_.can_types) {
      const auto count = std::ranges::count_if(job_.cans, [&](const Can& can) { return can.type == type.name; });
      add("can \"" + type.name + "\"", static_cast<int>(count), type.price);
    }
  }

  void add_cable(const CableLength& needed) {
    std::vector<Coil> coils;
    for (const Coil& coil : wiring_.coils) {
      if (coil.cable == needed.cable) coils.push_back(coil);
    }
    if (coils.empty()) {
      list_.loose.push_back(needed);
      return;
    }
    const CoilPurchase purchase = coils_for(needed.length_m, coils);
    for (std::size_t i = 0; i < coils.size(); ++i) {
      add(cable_name(needed.cable) + ", coil of " + length_text(coils[i].length_m, job_.units), purchase.counts[i],
          coils[i].price);
    }
  }

  /// An old-work box has a gang for each of its devices.
  void add_boxes() {
    std::map<int, int> by_gangs;
    for (const FilledBox& box : take_off_.boxes) ++by_gangs[box.devices];
    for (const auto& [gangs, count] : by_gangs) {
      const auto gang = price_of(Piece::switch_box);
      add("old-work switch box, " + std::to_string(gangs) + (gangs == 1 ? " gang" : " gangs"), count,
          gang ? std::optional(gangs * *gang) : std::nullopt);
    }
  }

  void add_devices() {
    int one_pole = 0;
    int three_way = 0;
    std::map<std::string, int> dimmers;
    for (const SwitchBox& box : wiring_.switches) {
      const bool is_three_way = box.also.has_value();
      for (const std::string& name : box.circuits) {
        const auto& dimmer = std::ranges::find(job_.circuits, name, &Circuit::name)->dimmer;
        if (dimmer) ++dimmers["dimmer \"" + *dimmer + (is_three_way ? "\", three-way" : "\"")];
        if (is_three_way) three_way += dimmer ? 1 : 2;
        if (!is_three_way && !dimmer) ++one_pole;
      }
    }
    for (const auto& [what, count] : dimmers) add(what, count, price_of(Piece::dimmer));
    add("switch", one_pole, price_of(Piece::one_pole_switch));
    add("three-way switch", three_way, price_of(Piece::three_way_switch));
  }

  void add_totals() {
    list_.is_complete = list_.loose.empty();
    for (const ShoppingItem& item : list_.items) {
      list_.has_prices = list_.has_prices || item.price;
      list_.is_complete = list_.is_complete && item.price;
      list_.priced += item.cost().value_or(0);
    }
    const Labour& labour = wiring_.labour;
    if (labour.hours_per_can || labour.hours_per_switch) {
      std::size_t cans = 0;
      for (const CircuitRun& run : take_off_.circuits) cans += run.cans.size();
      int devices = 0;
      for (const FilledBox& box : take_off_.boxes) devices += box.devices;
      list_.hours =
          static_cast<double>(cans) * labour.hours_per_can.value_or(0) + devices * labour.hours_per_switch.value_or(0);
      if (labour.rate) list_.labour_cost = *list_.hours * *labour.rate;
    }
    if (list_.has_prices || list_.labour_cost) list_.total = list_.priced + list_.labour_cost.value_or(0);
  }

  const Job& job_;
  const Wiring& wiring_;
  const TakeOff& take_off_;
  ShoppingList list_;
};

}  // namespace

ShoppingList shopping_list(const Job& job, const TakeOff& take_off) { return Listing(job, take_off).list(); }

}  // namespace evenlit
