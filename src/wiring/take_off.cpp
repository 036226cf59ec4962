#include "evenlit/wiring/take_off.hpp"

#include <algorithm>
#include <map>

#include "evenlit/job/ceiling.hpp"
#include "evenlit/job/walls.hpp"
#include "evenlit/job/wire.hpp"
#include "evenlit/moods/circuits.hpp"
#include "evenlit/wiring/path.hpp"

namespace evenlit {
namespace {

/// A sum of parts of which one may not be known.
using Sum = std::optional<double>;

Sum sum_of(const Sum& a, const Sum& b) { return a && b ? Sum(*a + *b) : std::nullopt; }

/// Makes the take-off of a job, from the feed to the last can.
class TakingOff {
 public:
  TakingOff(const Job& job, const Scene& scene)
      : job_(job),
        scene_(scene),
        wiring_(job.wiring.value()),
        ceiling_(ceiling_of(job.room)),
        routes_(job),
        volts_(job.supply.value_or(Supply{}).volts) {}

  TakeOff all() {
    const std::vector<Stop> boxes = boxes_in_order();
    add_trunk(boxes);
    for (const Stop& box : boxes) add_circuits(box);
    add_boxes();
    leave_out();
    add_limits();
    return std::move(take_off_);
  }

 private:
  [[nodiscard]] Stop stop_at(Stop::Kind kind, int index, const WallPlace& place) const {
    const Eigen::Vector2d plan_m = plan_position(job_.room, place);
    return {kind, index, plan_m, ceiling_.height_m(plan_m) - place.height_m};
  }

  [[nodiscard]] const SwitchBox& box(int index) const { return wiring_.switches[static_cast<std::size_t>(index)]; }

  [[nodiscard]] Stop first_stop(int index) const { return stop_at(Stop::Kind::switch_box, index, box(index).at); }

  /// Where the cables to the cans of a box begin.
  [[nodiscard]] Stop last_stop(int index) const {
    const auto& also = box(index).also;
    return also ? stop_at(Stop::Kind::second_box, index, *also) : first_stop(index);
  }

  [[nodiscard]] Stop can_stop(int index) const {
    const Can& can = job_.cans[static_cast<std::size_t>(index)];
    const Eigen::Vector2d plan_m = plan_position(job_.room, can).value();
    const double below_m = can.height_m ? std::max(0.0, ceiling_.height_m(plan_m) - *can.height_m) : 0;
    return {Stop::Kind::can, index, plan_m, below_m};
  }

  /// The feed's own box in the ceiling; empty where the feed comes in at a switch.
  [[nodiscard]] std::optional<Stop> feed_stop() const {
    const auto* point = std::get_if<CeilingPoint>(&wiring_.feed.at);
    if (point == nullptr) return std::nullopt;
    return Stop{Stop::Kind::feed, 0, plan_position(job_.room, point->from).value(), 0};
  }

  [[nodiscard]] double cut_m(const Stop& from, const Stop& to, const Route& route) const {
    return route.length_m + from.below_m + to.below_m + 2 * wiring_.slack_m;
  }

  [[nodiscard]] Way way(const Stop& from, const Stop& to) const {
    const Route route = routes_.between(from.plan_m, to.plan_m);
    return {static_cast<int>(route.crossings.size()), cut_m(from, to, route)};
  }

  /// The order in which a cable visits stops.
  [[nodiscard]] VisitOrder order(const Stop& start, const std::vector<Stop>& stops) const {
    const auto at = [&](int i) -> const Stop& { return stops[static_cast<std::size_t>(i)]; };
    return best_order(
        static_cast<int>(stops.size()), [&](int i) { return way(start, at(i)); },
        [&](int a, int b) { return way(at(a), at(b)); });
  }

  /// The switch boxes as the feed reaches them.
  [[nodiscard]] std::vector<Stop> boxes_in_order() const {
    std::vector<Stop> others;
    std::optional<Stop> start = feed_stop();
    std::vector<Stop> ordered;
    for (int i = 0; i < std::ssize(wiring_.switches); ++i) {
      const auto* name = std::get_if<std::string>(&wiring_.feed.at);
      if (name != nullptr && *name == box(i).name) {
        start = first_stop(i);
        ordered.push_back(*start);
      } else {
        others.push_back(first_stop(i));
      }
    }
    for (const int place : order(start.value(), others).places) {
      ordered.push_back(others[static_cast<std::size_t>(place)]);
    }
    return ordered;
  }

  /// Volt-amperes of cans at full light.
  [[nodiscard]] Sum va_of(const std::vector<int>& cans) const {
    Sum sum = 0;
    for (const int can : cans) {
      const auto i = static_cast<std::size_t>(can);
      sum = sum_of(sum, full_va(type_of(job_, job_.cans[i]), scene_.luminaires[i].watts));
    }
    return sum;
  }

  [[nodiscard]] std::vector<int> cans_of(const std::string& circuit) const {
    std::vector<int> cans;
    for (int i = 0; i < std::ssize(job_.cans); ++i) {
      if (job_.cans[static_cast<std::size_t>(i)].circuit == circuit) cans.push_back(i);
    }
    return cans;
  }

  [[nodiscard]] Sum va_of_box(int index) const {
    Sum sum = 0;
    for (const std::string& circuit : box(index).circuits) sum = sum_of(sum, va_of(cans_of(circuit)));
    return sum;
  }

  /// @return what is lost in the leg
  Sum add_leg(const CableKind& cable, const Stop& from, const Stop& to, std::optional<int> circuit, const Sum& va) {
    Leg leg{.cable = cable, .from = from, .to = to, .circuit = circuit};
    leg.route = routes_.between(from.plan_m, to.plan_m);
    leg.length_m = cut_m(from, to, leg.route);
    if (va) leg.amperes = *va / volts_;
    if (va) leg.drop_v = voltage_drop_v(wire_of(cable.awg).value(), *leg.amperes, leg.length_m);
    take_off_.legs.push_back(leg);
    return leg.drop_v;
  }

  /// From the panel through the feed from box to box.
  void add_trunk(const std::vector<Stop>& boxes) {
    std::vector<Sum> beyond(boxes.size() + 1, Sum(0));
    for (std::size_t i = boxes.size(); i-- > 0;) beyond[i] = sum_of(beyond[i + 1], va_of_box(boxes[i].index));
    Sum lost = 0;
    if (wiring_.feed.run_m) {
      const int awg = job_.supply ? job_.supply->wire_awg : wiring_.cable.awg;
      if (beyond[0]) {
        take_off_.run_drop_v = voltage_drop_v(wire_of(awg).value(), *beyond[0] / volts_, *wiring_.feed.run_m);
      }
      lost = take_off_.run_drop_v;
    }
    std::optional<Stop> before = feed_stop();
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      if (before) lost = sum_of(lost, add_leg(wiring_.cable, *before, boxes[i], std::nullopt, beyond[i]));
      lost_at_[boxes[i].index] = lost;
      before = boxes[i];
    }
  }

  void add_circuits(const Stop& box_stop) {
    for (const std::string& name : box(box_stop.index).circuits) {
      const auto circuit = std::ranges::find(job_.circuits, name, &Circuit::name) - job_.circuits.begin();
      add_circuit(box_stop, static_cast<int>(circuit), cans_of(name));
    }
  }

  void add_circuit(const Stop& box_stop, int circuit, const std::vector<int>& cans) {
    Sum lost = lost_at_[box_stop.index];
    const Stop start = last_stop(box_stop.index);
    if (box(box_stop.index).also) {
      lost = sum_of(lost, add_leg({wiring_.cable.awg, 3}, box_stop, start, circuit, va_of(cans)));
    }
    if (cans.empty()) return;
    std::vector<Stop> stops;
    for (const int can : cans) stops.push_back(can_stop(can));
    const VisitOrder visits = order(start, stops);
    CircuitRun run{.circuit = circuit, .box = box_stop.index, .is_exact = visits.is_exact, .va = va_of(cans)};
    for (const int place : visits.places) run.cans.push_back(cans[static_cast<std::size_t>(place)]);
    Stop before = start;
    for (std::size_t i = 0; i < run.cans.size(); ++i) {
      const std::vector<int> beyond(run.cans.begin() + static_cast<std::ptrdiff_t>(i), run.cans.end());
      const Stop next = can_stop(run.cans[i]);
      lost = sum_of(lost, add_leg(wiring_.cable, before, next, circuit, va_of(beyond)));
      before = next;
    }
    if (lost) run.drop_share = *lost / volts_;
    take_off_.circuits.push_back(std::move(run));
  }

  [[nodiscard]] std::vector<CableKind> cables_in(int index, bool is_second) const {
    std::vector<CableKind> cables;
    const Stop::Kind kind = is_second ? Stop::Kind::second_box : Stop::Kind::switch_box;
    for (const Leg& leg : take_off_.legs) {
      for (const Stop* stop : {&leg.from, &leg.to}) {
        if (stop->kind == kind && stop->index == index) cables.push_back(leg.cable);
      }
    }
    const auto* fed = std::get_if<std::string>(&wiring_.feed.at);
    if (!is_second && fed != nullptr && *fed == box(index).name) cables.push_back(wiring_.cable);
    return cables;
  }

  void add_boxes() {
    for (int i = 0; i < std::ssize(wiring_.switches); ++i) {
      const int devices = static_cast<int>(box(i).circuits.size());
      for (const bool is_second : {false, true}) {
        if (is_second && !box(i).also) continue;
        const std::vector<CableKind> cables = cables_in(i, is_second);
        take_off_.boxes.push_back({.box = i,
                                   .is_second = is_second,
                                   .devices = devices,
                                   .cables = static_cast<int>(cables.size()),
                                   .fill = box_fill(cables, devices, box(i).box_in3)});
      }
    }
  }

  void leave_out() {
    for (int i = 0; i < std::ssize(job_.cans); ++i) {
      const bool is_wired = std::ranges::any_of(
          take_off_.circuits, [&](const CircuitRun& run) { return std::ranges::find(run.cans, i) != run.cans.end(); });
      if (!is_wired) take_off_.left_out.push_back(i);
    }
  }

  void add_limits() {
    if (wiring_.joist_depth_m && wiring_.framing == Wiring::Framing::lumber) {
      take_off_.hole = joist_hole(*wiring_.joist_depth_m, cable_hole_m(wiring_.cable));
    }
    take_off_.loads = dimmer_loads(job_, scene_);
    if (!job_.supply) return;
    take_off_.branch = branch_load(job_, scene_, *job_.supply);
    const double most_a = wire_of(wiring_.cable.awg).value().most_breaker_a;
    if (job_.supply->breaker_a > most_a) take_off_.most_breaker_a = most_a;
  }

  const Job& job_;
  const Scene& scene_;
  const Wiring& wiring_;
  Ceiling ceiling_;
  CeilingRoutes routes_;
  double volts_;
  std::map<int, Sum> lost_at_;  ///< from the panel to a switch box, by its index
  TakeOff take_off_;
};

}  // namespace

std::vector<CableLength> cable_lengths(const Wiring& wiring, const TakeOff& take_off) {
  std::map<CableKind, double> lengths_m;
  for (const Leg& leg : take_off.legs) lengths_m[leg.cable] += leg.length_m;
  std::vector<CableLength> lengths;
  for (const auto& [cable, length_m] : lengths_m) lengths.push_back({cable, (1 + wiring.waste) * length_m});
  return lengths;
}

int crossings(const TakeOff& take_off) {
  std::size_t sum = 0;
  for (const Leg& leg : take_off.legs) sum += leg.route.crossings.size();
  return static_cast<int>(sum);
}

TakeOff take_off(const Job& job, const Scene& scene) { return TakingOff(job, scene).all(); }

}  // namespace evenlit
