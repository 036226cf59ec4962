#include <algorithm>
#include <array>

#include "evenlit/report/take_off_report.hpp"
#include "evenlit/wiring/cable_words.hpp"
#include "json_values.hpp"
#include "work_steps.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

Json point(const Eigen::Vector2d& point_m) { return {{"x_m", length(point_m.x())}, {"y_m", length(point_m.y())}}; }

Json stop(const WiredJob& wired, const Stop& stop) {
  constexpr std::array<const char*, 4> k_kinds{"feed", "switch", "second switch", "can"};
  const bool is_can = stop.kind == Stop::Kind::can;
  return {{"kind", k_kinds[static_cast<std::size_t>(stop.kind)]},
          {"name", stop_name(wired, stop)},
          {"can", is_can ? Json(stop.index + 1) : Json(nullptr)}};
}

Json circuit_name(const WiredJob& wired, const std::optional<int>& circuit) {
  return circuit ? Json(wired.job.circuits[static_cast<std::size_t>(*circuit)].name) : Json(nullptr);
}

Json numbers_of(const std::vector<int>& cans) {
  Json list = Json::array();
  for (const int can : cans) list.push_back(can + 1);
  return list;
}

Json leg(const WiredJob& wired, const Leg& leg) {
  Json points = Json::array();
  for (const Eigen::Vector2d& at : leg.route.points_m) points.push_back(point(at));
  Json holes = Json::array();
  for (const Crossing& crossing : leg.route.crossings) {
    Json hole = point(crossing.at_m);
    hole["member"] = crossing.member;
    holes.push_back(std::move(hole));
  }
  return {{"cable", cable_word(leg.cable)},   {"from", stop(wired, leg.from)},
          {"to", stop(wired, leg.to)},        {"circuit", circuit_name(wired, leg.circuit)},
          {"length_m", length(leg.length_m)}, {"amperes_a", number(leg.amperes)},
          {"drop_v", number(leg.drop_v)},     {"path", std::move(points)},
          {"holes", std::move(holes)}};
}

Json circuit(const WiredJob& wired, const CircuitRun& run) {
  const auto load = std::ranges::find(wired.take_off.loads, run.circuit, &DimmerLoad::circuit);
  const bool has_load = load != wired.take_off.loads.end();
  return {{"circuit", circuit_name(wired, run.circuit)},
          {"cans", numbers_of(run.cans)},
          {"is_order_exact", run.is_exact},
          {"load_va", number(run.va)},
          {"drop_share", number(run.drop_share)},
          {"loses_too_much", run.drop_share ? Json(*run.drop_share > k_most_drop) : Json(nullptr)},
          {"dimmer_has_too_much", has_load ? Json(load->is_too_much()) : Json(nullptr)},
          {"dimmer_has_too_little", has_load ? Json(load->is_too_little()) : Json(nullptr)}};
}

Json box(const WiredJob& wired, const FilledBox& box) {
  const BoxFill& fill = box.fill;
  const Stop::Kind kind = box.is_second ? Stop::Kind::second_box : Stop::Kind::switch_box;
  const bool is_known = fill.box_in3 > 0;
  return {{"name", stop_name(wired, {kind, box.box, {}, 0})},
          {"devices", box.devices},
          {"cables", box.cables},
          {"insulated_wires", fill.conductors},
          {"counted_clamps", fill.clamps},
          {"counted_devices", fill.devices},
          {"counted_grounds", number(fill.grounds)},
          {"needed_in3", number(fill.needed_in3)},
          {"box_in3", is_known ? number(fill.box_in3) : Json(nullptr)},
          {"is_too_small", is_known ? Json(fill.is_too_small()) : Json(nullptr)}};
}

Json joist(const std::optional<JoistHole>& hole) {
  if (!hole) return nullptr;
  return {{"hole_m", length(hole->hole_m)},
          {"most_hole_m", length(hole->most_hole_m)},
          {"edge_m", length(hole->edge_m)},
          {"is_allowed", hole->is_allowed},
          {"needs_plate", hole->needs_plate}};
}

Json branch(const TakeOff& take_off) {
  if (!take_off.branch) return nullptr;
  return {{"load_va", number(take_off.branch->va)},
          {"most_va", number(take_off.branch->most_va)},
          {"is_too_much", take_off.branch->va ? Json(take_off.branch->is_too_much()) : Json(nullptr)},
          {"most_breaker_a", number(take_off.most_breaker_a)}};
}

Json shopping(const WiredJob& wired) {
  Json items = Json::array();
  for (const ShoppingItem& item : wired.list.items) {
    items.push_back(
        {{"item", item.what}, {"count", item.count}, {"price", number(item.price)}, {"cost", number(item.cost())}});
  }
  Json loose = Json::array();
  for (const CableLength& cable : wired.list.loose) {
    loose.push_back({{"item", cable_name(cable.cable)}, {"length_m", length(cable.length_m)}});
  }
  const ShoppingList& list = wired.list;
  return {{"currency", wired.job.currency},          {"items", std::move(items)},
          {"cable_without_coils", std::move(loose)}, {"priced", list.has_prices ? number(list.priced) : Json(nullptr)},
          {"has_all_prices", list.is_complete},      {"work_h", number(list.hours)},
          {"labour_cost", number(list.labour_cost)}, {"total", number(list.total)}};
}

Json work(const WiredJob& wired) {
  Json steps = Json::array();
  for (const WorkStep& step : work_steps(wired)) {
    Json mind = Json::array();
    for (const Caution caution : step.cautions) mind.push_back(caution_text(caution));
    steps.push_back({{"step", step.text}, {"cautions", std::move(mind)}});
  }
  return steps;
}

Json rules(const WiredJob& wired) {
  Json list = Json::array();
  for (const WorkRule& rule : work_rules(wired)) {
    list.push_back({{"section", rule.section}, {"text", rule.text}, {"check", k_check_edition}});
  }
  return list;
}

Json job(const WiredJob& wired) {
  const TakeOff& take_off = wired.take_off;
  Json legs = Json::array();
  for (const Leg& each : take_off.legs) legs.push_back(leg(wired, each));
  Json circuits = Json::array();
  for (const CircuitRun& run : take_off.circuits) circuits.push_back(circuit(wired, run));
  Json boxes = Json::array();
  for (const FilledBox& each : take_off.boxes) boxes.push_back(box(wired, each));
  Json lengths = Json::array();
  for (const CableLength& cable : cable_lengths(*wired.job.wiring, take_off)) {
    lengths.push_back({{"cable", cable_word(cable.cable)}, {"with_waste_m", length(cable.length_m)}});
  }
  return {{"job", wired.name},
          {"room", wired.job.room.name},
          {"cables", std::move(legs)},
          {"cable_lengths", std::move(lengths)},
          {"holes", crossings(take_off)},
          {"joist_hole", joist(take_off.hole)},
          {"circuits", std::move(circuits)},
          {"cans_left_out", numbers_of(take_off.left_out)},
          {"switch_boxes", std::move(boxes)},
          {"branch_circuit", branch(take_off)},
          {"shopping", shopping(wired)},
          {"work", work(wired)},
          {"rules", rules(wired)}};
}

}  // namespace

std::string take_offs_json(const std::vector<WiredJob>& jobs, const Problems& warnings) {
  Json all = Json::array();
  for (const WiredJob& wired : jobs) all.push_back(job(wired));
  return json_text({{"format", "evenlit wiring"},
                    {"version", k_version},
                    {"jobs", std::move(all)},
                    {"warnings", remarks(warnings)}});
}

}  // namespace evenlit
