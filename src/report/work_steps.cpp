#include "work_steps.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/length.hpp"
#include "evenlit/report/plain_text.hpp"

namespace evenlit {
namespace {

bool has_three_way(const WiredJob& wired) {
  return std::ranges::any_of(wired.job.wiring->switches, [](const SwitchBox& box) { return box.also.has_value(); });
}

bool has_dimmer(const WiredJob& wired) {
  return std::ranges::any_of(wired.take_off.circuits, [&](const CircuitRun& run) {
    return wired.job.circuits[static_cast<std::size_t>(run.circuit)].dimmer.has_value();
  });
}

bool is_bored(const WiredJob& wired) { return crossings(wired.take_off) > 0; }

std::string hole_text(const WiredJob& wired) {
  std::string sizes;
  for (const CanType& type : wired.job.can_types) {
    if (!type.hole_m) continue;
    sizes += fmt::format("{}\"{}\" {}", sizes.empty() ? "" : ", ", printable(type.name),
                         length_text(*type.hole_m, wired.job.units));
  }
  return sizes.empty() ? "Cut the holes by the template that comes with each can."
                       : "Cut the holes, " + sizes + "; hold the template against the line first.";
}

std::string pull_text(const WiredJob& wired) {
  const Wiring& wiring = *wired.job.wiring;
  const std::string slack = length_text(wiring.slack_m, wired.job.units);
  if (!is_bored(wired)) {
    return fmt::format("Lay the cables from box to box in the order of the table, leave {} at each end, staple them.",
                       slack);
  }
  if (wiring.framing == Wiring::Framing::engineered) {
    return fmt::format(
        "Bore no joist: its maker must say in writing where a cable may go through, or the cables go another way. Then "
        "pull them from box to box in the order of the table, leave {} at each end, staple them.",
        slack);
  }
  return fmt::format(
      "Bore the joists where the table has holes, {} each, in the middle of their depth. Pull the cables "
      "from box to box in the order of the table, leave {} at each end, staple them.",
      length_text(cable_hole_m(wiring.cable), wired.job.units), slack);
}

}  // namespace

std::vector<WorkStep> work_steps(const WiredJob& wired) {
  std::vector<WorkStep> steps{
      {"Get the permit where the law wants one, and ask who may do the work.", {Caution::licence}},
      {"Read the instructions of cans and dimmers: how many cables a can's box takes, which dimmers suit it.",
       {Caution::insulation}},
      {"Switch the circuit off and test that it is dead.", {Caution::dead, Caution::lock, Caution::tester}},
      {"Look at the ceiling and into a box of the circuit that feeds this: age, wires, ground.",
       {Caution::old_ceiling, Caution::old_wiring}},
      {"Mark the centres of the cans lightly with a pencil. Probe each with a bent wire through a pilot hole before "
       "anything is cut.",
       {Caution::plan, Caution::look_above, Caution::structure}},
      {hole_text(wired), {Caution::dust, Caution::ladder}},
      {pull_text(wired), {}}};
  if (is_bored(wired)) steps.back().cautions = {Caution::structure};
  steps.push_back(
      {"Cut in the switch boxes and bring their cables down; guard the cables with steel plates where a hole "
       "is near the edge of wood.",
       {Caution::look_above}});
  steps.push_back({"Have the rough work inspected where the permit says so, before anything is covered."});
  steps.push_back({"Connect the cans: black to black, white to white, ground to ground; close their boxes.",
                   {Caution::insulation}});
  steps.push_back({"Set the housings into their holes, put in lamps and trims."});
  const std::string devices = has_dimmer(wired) ? "switches and dimmers" : "switches";
  steps.push_back({fmt::format("Connect the {} by their leaflets: switch the black wire only, join the whites, ground "
                               "every box and device.{}",
                               devices,
                               has_three_way(wired) ? " Between two places the red and the black of the cable of three "
                                                      "wires are travellers; mark what is re-identified."
                                                    : ""),
                   {Caution::dead, Caution::tester}});
  const std::string dimmers = has_dimmer(wired) ? " and each dimmer from its lowest to its highest setting" : "";
  steps.push_back({fmt::format("Close all boxes, switch the circuit on, try each switch{}; write the circuit into the "
                               "panel's list.",
                               dimmers),
                   {Caution::licence}});
  return steps;
}

std::vector<WorkRule> work_rules(const WiredJob& wired) {
  std::vector<WorkRule> rules{
      {"NEC 314.16(B)", "volume of a box for its wires, clamps and devices"},
      {"NEC 404.2(C)", "a neutral in each switch box"},
      {"NEC 210.19(A)(1), 210.20(A)", "light that burns for three hours and more loads a breaker to 80 % at most"},
      {"NEC 210.19(A), informational note", "advice, no more than 3 % of the voltage lost in a branch circuit"},
      {"NEC 240.4(D)", "breakers of at most 15 A for 14 AWG, 20 A for 12 AWG, 30 A for 10 AWG copper"},
      {"NEC 334.30",
       "staples within 12 in of a box and no more than 4-1/2 ft apart; cable fished in closed walls needs "
       "none, 334.30(B)(1)"},
      {"NEC 300.4(A)(1)", "a cable less than 1-1/4 in from the edge of wood has a steel plate"},
      {"NEC 410.116", "recessed cans and insulation"}};
  if (is_bored(wired)) {
    rules.push_back({"IRC R502.8.1, R802.7.1",
                     "a hole in a solid joist: at most a third of its depth, 2 in or more from its edges"});
  } else if (wired.job.wiring->path == Wiring::Path::open) {
    rules.push_back({"NEC 334.23, 320.23 (from memory)",
                     "cable over the top of attic joists has guard strips where people can get at it"});
  }
  return rules;
}

std::string stop_name(const WiredJob& wired, const Stop& stop) {
  const auto& switches = wired.job.wiring->switches;
  switch (stop.kind) {
    case Stop::Kind::switch_box:
      return printable(switches[static_cast<std::size_t>(stop.index)].name);
    case Stop::Kind::second_box:
      return printable(switches[static_cast<std::size_t>(stop.index)].name) + ", second place";
    case Stop::Kind::feed:
      return "feed";
    case Stop::Kind::can:
      break;
  }
  return "can " + std::to_string(stop.index + 1);
}

}  // namespace evenlit
