#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <map>

#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/search_report.hpp"
#include "evenlit/report/take_off_report.hpp"
#include "evenlit/wiring/cable_words.hpp"
#include "text_layout.hpp"
#include "work_steps.hpp"

namespace evenlit {
namespace {

constexpr const char* k_unknown = "-";
constexpr int k_place = 21;  ///< of a cable's end
constexpr int k_item = 44;   ///< of what is bought

std::string plural(int count, const std::string& one) {
  return fmt::format("{} {}{}", count, one, count == 1 ? "" : one.ends_with("x") ? "es" : "s");
}

std::string list_of(const std::vector<int>& cans) {
  std::string text;
  for (std::size_t i = 0; i < cans.size(); ++i) text += (i > 0 ? ", " : "") + std::to_string(cans[i] + 1);
  return text;
}

const Circuit& circuit_of(const WiredJob& wired, int circuit) {
  return wired.job.circuits[static_cast<std::size_t>(circuit)];
}

std::string title(const WiredJob& wired) {
  std::size_t cans = 0;
  for (const CircuitRun& run : wired.take_off.circuits) cans += run.cans.size();
  std::string text =
      fmt::format("{}: {} on {}, {}", printable(wired.job.room.name), plural(static_cast<int>(cans), "can"),
                  plural(static_cast<int>(wired.take_off.circuits.size()), "circuit"),
                  plural(static_cast<int>(wired.take_off.boxes.size()), "switch box"));
  for (const CableLength& cable : cable_lengths(*wired.job.wiring, wired.take_off)) {
    text += fmt::format(", {} of {}", cable_length_text(cable.length_m, wired.job.units), cable_name(cable.cable));
  }
  return filled(text + ".", k_columns, 2);
}

std::string leg_line(const WiredJob& wired, int number, const Leg& leg) {
  const auto place = [&](const Stop& stop) { return shortened(stop_name(wired, stop), k_place); };
  return fmt::format("  {:>3}  {:<{}}  {:<{}} {:>5}{:>9}{:>6}{:>7}\n", number, place(leg.from), k_place, place(leg.to),
                     k_place, cable_word(leg.cable), cable_length_text(leg.length_m, wired.job.units),
                     leg.route.crossings.empty() ? k_unknown : std::to_string(leg.route.crossings.size()),
                     leg.amperes ? fixed_text(*leg.amperes, 2) : k_unknown);
}

std::string legs_section(const WiredJob& wired) {
  const Wiring& wiring = *wired.job.wiring;
  std::string text =
      heading("Cables, box to box") + fmt::format("  {:>3}  {:<{}}  {:<{}} {:>5}{:>9}{:>6}{:>7}\n", "", "from", k_place,
                                                  "to", k_place, "cable", "length", "holes", "A");
  for (std::size_t i = 0; i < wired.take_off.legs.size(); ++i) {
    text += leg_line(wired, static_cast<int>(i) + 1, wired.take_off.legs[i]);
  }
  const bool is_exact =
      std::ranges::all_of(wired.take_off.circuits, [](const CircuitRun& run) { return run.is_exact; });
  const std::string_view goal =
      wiring.path == Wiring::Path::open ? "the least cable" : "the fewest holes, then the least cable";
  text += paragraph(fmt::format(
      "Length to cut, with {} of slack at each end. The order of the cans is that of {}{}. A: current with all cans "
      "beyond at full light.",
      length_text(wiring.slack_m, wired.job.units), goal,
      is_exact ? "" : "; with more than fifteen cans on a circuit a better order may be left"));
  if (std::ranges::any_of(wired.take_off.legs, [](const Leg& leg) { return leg.cable.insulated == 3; })) {
    text += paragraph("Between two places that switch a circuit runs cable of three wires (common practice).");
  }
  if (!wired.take_off.left_out.empty()) {
    text +=
        paragraph(fmt::format("NOT COUNTED, on no circuit that a switch has: {} {}.",
                              wired.take_off.left_out.size() == 1 ? "can" : "cans", list_of(wired.take_off.left_out)));
  }
  return text;
}

/// Holes by what they go through, in the order in which the cables meet it.
std::string holes_list(const WiredJob& wired) {
  std::vector<std::pair<std::string, std::vector<int>>> by_member;
  for (std::size_t i = 0; i < wired.take_off.legs.size(); ++i) {
    for (const Crossing& crossing : wired.take_off.legs[i].route.crossings) {
      auto found = std::ranges::find(by_member, crossing.member, &std::pair<std::string, std::vector<int>>::first);
      if (found == by_member.end()) found = by_member.insert(found, {crossing.member, {}});
      found->second.push_back(static_cast<int>(i));
    }
  }
  std::string text;
  for (const auto& [member, legs] : by_member) {
    text += fmt::format("{}{} (cable {})", text.empty() ? "" : "; ", printable(member), list_of(legs));
  }
  return text;
}

std::string joist_text(const WiredJob& wired) {
  const Wiring& wiring = *wired.job.wiring;
  const auto length = [&](double metres) { return length_text(metres, wired.job.units); };
  if (wiring.framing == Wiring::Framing::engineered) {
    return "ENGINEERED MEMBERS: bore none of them without the maker's written word for that hole at that place. Lay "
           "the cable over them where it can be.";
  }
  if (!wired.take_off.hole)
    return "The depth of the joists is not told (joist_depth): check each hole against R502.8.1.";
  const JoistHole& hole = *wired.take_off.hole;
  if (hole.is_allowed) {
    std::string text = fmt::format(
        "Solid joists {} deep may have holes of up to {}, 2 in or more from either edge (IRC R502.8.1, "
        "R802.7.1: {}). One of {} in the middle of the depth leaves {}.",
        length(*wiring.joist_depth_m), length(hole.most_hole_m), k_check_edition, length(hole.hole_m),
        length(hole.edge_m));
    return text;
  }
  return fmt::format(
      "NO HOLE: of a joist {} deep a hole of {} leaves {} to the edges, a third of its depth is {}; IRC "
      "R502.8.1 and R802.7.1 ask for 2 in and a third ({}). Lay the cable over the joists.",
      length(*wiring.joist_depth_m), length(hole.hole_m), length(std::max(0.0, hole.edge_m)), length(hole.most_hole_m),
      k_check_edition);
}

std::string holes_section(const WiredJob& wired) {
  const int count = crossings(wired.take_off);
  if (count == 0) return {};
  return heading(plural(count, "hole") + " through framing") + paragraph(holes_list(wired) + ".") +
         paragraph(joist_text(wired)) +
         paragraph(fmt::format("One hole of {} for each cable (common practice, no source). Joists count from the wall "
                               "that their series is measured from.",
                               length_text(cable_hole_m(wired.job.wiring->cable), wired.job.units)));
}

std::string box_line(const WiredJob& wired, const FilledBox& box) {
  const BoxFill& fill = box.fill;
  const Stop::Kind kind = box.is_second ? Stop::Kind::second_box : Stop::Kind::switch_box;
  std::string line = fmt::format(
      "{}: {}, {}; counts {} for wires, {} for clamps, {} for devices, {} for grounds, {} cu in each: {} cu in",
      stop_name(wired, {kind, box.box, {}, 0}), plural(box.cables, "cable"), plural(box.devices, "device"),
      fill.conductors, fill.clamps, fill.devices, shortest_text(fill.grounds),
      fixed_text(conductor_volume_in3(wired.job.wiring->cable.awg), 2), fixed_text(fill.needed_in3, 2));
  if (fill.box_in3 == 0) return line + ". Choose a box of that volume or more.";
  return line + fmt::format(" of {}: {}.", fixed_text(fill.box_in3, 2), fill.is_too_small() ? "TOO SMALL" : "fits");
}

std::string boxes_section(const WiredJob& wired) {
  std::string text = heading("Switch boxes");
  for (const FilledBox& box : wired.take_off.boxes) text += paragraph(box_line(wired, box));
  return text + paragraph(fmt::format("NEC 314.16(B): {}. How many cables a can's own box takes is on its label.",
                                      k_check_edition));
}

std::string circuit_line(const WiredJob& wired, const CircuitRun& run) {
  std::string line =
      fmt::format("{}: {} {}; {} VA", printable(circuit_of(wired, run.circuit).name),
                  run.cans.size() == 1 ? "can" : "cans", list_of(run.cans), run.va ? rounded_text(*run.va) : "unknown");
  if (run.drop_share) {
    line += fmt::format(", {} % of the voltage lost at can {}{}", fixed_text(100 * *run.drop_share, 2),
                        run.cans.back() + 1, *run.drop_share > k_most_drop ? ": MORE THAN THE 3 % ADVISED" : "");
  }
  const auto load = std::ranges::find(wired.take_off.loads, run.circuit, &DimmerLoad::circuit);
  if (load != wired.take_off.loads.end()) {
    if (load->is_too_much()) line += "; TOO MUCH for its dimmer";
    if (load->is_too_little()) line += "; below its dimmer's minimum load";
    if (load->is_unknown()) line += "; what its dimmer carries is not all known";
  }
  return line + ".";
}

std::string loads_section(const WiredJob& wired) {
  const TakeOff& take_off = wired.take_off;
  std::string text = heading("Load and voltage, all cans full");
  for (const CircuitRun& run : take_off.circuits) text += paragraph(circuit_line(wired, run));
  if (take_off.branch) {
    text += paragraph(fmt::format(
        "Branch circuit: {} VA of {} VA{}.", take_off.branch->va ? rounded_text(*take_off.branch->va) : "unknown",
        rounded_text(take_off.branch->most_va), take_off.branch->is_too_much() ? ": TOO MUCH" : ""));
    text += paragraph(std::string(k_branch_caution));
  }
  if (take_off.most_breaker_a) {
    text +=
        paragraph(fmt::format("BREAKER TOO LARGE: {} AWG copper may have {} A at most, the job has {} A (NEC "
                              "240.4(D): {}).",
                              wired.job.wiring->cable.awg, rounded_text(*take_off.most_breaker_a),
                              rounded_text(wired.job.supply->breaker_a), k_check_edition));
  }
  const auto& run_m = wired.job.wiring->feed.run_m;
  return text + paragraph(fmt::format(
                    "The voltage is lost piece by piece of cable, each with the current of what lies "
                    "beyond it, {}. 3 % is advice (NEC 210.19(A), informational note: {}).",
                    run_m ? fmt::format("and {} from the panel to the feed", cable_length_text(*run_m, wired.job.units))
                          : std::string("from the feed on; the run from the panel is not told"),
                    k_check_edition));
}

std::string item_line(const std::string& what, const std::string& count, const std::string& each,
                      const std::string& cost) {
  return fmt::format("  {:<{}}{:>10}{:>11}{:>11}\n", shortened(what, k_item), k_item, count, each, cost);
}

std::string shopping_section(const WiredJob& wired) {
  const ShoppingList& list = wired.list;
  const auto money = [&](const std::optional<double>& amount) {
    return amount ? printable(money_text(*amount, wired.job.currency)) : std::string();
  };
  std::string text = heading("What to buy");
  text += list.has_prices ? item_line("", "", "each", "cost") : std::string();
  for (const ShoppingItem& item : list.items) {
    text += item_line(printable(item.what), std::to_string(item.count), money(item.price), money(item.cost()));
  }
  for (const CableLength& cable : list.loose) {
    text += item_line(cable_name(cable.cable), cable_length_text(cable.length_m, wired.job.units), "", "");
  }
  if (list.has_prices) text += item_line("  what has a price", "", "", money(list.priced));
  if (list.hours) {
    text += item_line("  hours of work", rounded_text(*list.hours), money(wired.job.wiring->labour.rate),
                      money(list.labour_cost));
  }
  if (list.has_prices && list.labour_cost) text += item_line("  together", "", "", money(list.total));
  text += paragraph(
      fmt::format("Cable with {} for waste, rounded up to coils{}. Small parts by rule (common practice, no "
                  "source): three wire connectors in each can and box, a connector for each cable end in a "
                  "can, a plate for each cable down a wall.",
                  percent_text(wired.job.wiring->waste), wired.list.loose.empty() ? "" : " where coils are told"));
  if (list.has_prices && !list.is_complete) text += paragraph("What has no price is not in the sums.");
  return text;
}

std::string work_section(const WiredJob& wired) {
  std::string text = heading("Order of work");
  int number = 0;
  for (const WorkStep& step : work_steps(wired)) {
    text += fmt::format("  {:>2}. {}", ++number, filled(step.text, k_columns - 6, 6));
    for (const Caution caution : step.cautions) {
      text += fmt::format("      ! {}", filled(caution_text(caution), k_columns - 8, 8));
    }
  }
  return text;
}

std::string rules_section(const WiredJob& wired) {
  std::string text = heading(fmt::format("Rules: {}", k_check_edition));
  for (const WorkRule& rule : work_rules(wired)) text += paragraph(fmt::format("{}: {}.", rule.section, rule.text));
  return text;
}

/// A line of a table of jobs.
std::string jobs_line(const std::string& name, const std::vector<WiredJob>& jobs,
                      const std::function<std::string(const WiredJob&)>& cell) {
  constexpr int k_name = 38;
  const int width = (k_columns - 2 - k_name) / static_cast<int>(jobs.size());
  std::string text = fmt::format("  {:<{}}", shortened(name, k_name - 1), k_name);
  for (const WiredJob& wired : jobs) text += fmt::format("{:>{}}", shortened(cell(wired), width - 1), width);
  return text + '\n';
}

/// What any of the jobs needs, in the order of the first that does.
std::vector<std::string> all_items(const std::vector<WiredJob>& jobs) {
  std::vector<std::string> names;
  for (const WiredJob& wired : jobs) {
    for (const ShoppingItem& item : wired.list.items) {
      if (std::ranges::find(names, item.what) == names.end()) names.push_back(item.what);
    }
  }
  return names;
}

std::string worst_drop(const WiredJob& wired) {
  std::optional<double> worst;
  for (const CircuitRun& run : wired.take_off.circuits) {
    if (run.drop_share) worst = std::max(worst.value_or(0), *run.drop_share);
  }
  return worst ? fixed_text(100 * *worst, 2) + " %" : k_unknown;
}

}  // namespace

std::string take_off_text(const WiredJob& wired, const Problems& warnings) {
  return title(wired) + legs_section(wired) + holes_section(wired) + boxes_section(wired) + loads_section(wired) +
         shopping_section(wired) + work_section(wired) + rules_section(wired) + warning_section(warnings);
}

std::string take_offs_text(const std::vector<WiredJob>& jobs, const Problems& warnings) {
  const std::string& currency = jobs.front().job.currency;
  const auto money = [&](const std::optional<double>& amount) {
    return amount ? printable(money_text(*amount, currency)) : std::string(k_unknown);
  };
  std::string text = fmt::format("{} jobs side by side.\n\n", jobs.size());
  text += jobs_line("", jobs, [](const WiredJob& wired) { return printable(wired.name); });
  text += jobs_line("cable, all kinds, with waste", jobs, [](const WiredJob& wired) {
    double sum_m = 0;
    for (const CableLength& cable : cable_lengths(*wired.job.wiring, wired.take_off)) sum_m += cable.length_m;
    return cable_length_text(sum_m, wired.job.units);
  });
  text += jobs_line("holes through framing", jobs,
                    [](const WiredJob& wired) { return std::to_string(crossings(wired.take_off)); });
  text += jobs_line("most voltage lost", jobs, worst_drop);
  for (const std::string& item : all_items(jobs)) {
    text += jobs_line(printable(item), jobs, [&](const WiredJob& wired) {
      const auto found = std::ranges::find(wired.list.items, item, &ShoppingItem::what);
      return found == wired.list.items.end() ? std::string(k_unknown) : std::to_string(found->count);
    });
  }
  text += jobs_line("hours of work", jobs, [](const WiredJob& wired) {
    return wired.list.hours ? rounded_text(*wired.list.hours) : std::string(k_unknown);
  });
  text += jobs_line("what has a price", jobs, [&](const WiredJob& wired) {
    return money(wired.list.has_prices ? std::optional(wired.list.priced) : std::nullopt);
  });
  text += jobs_line("labour", jobs, [&](const WiredJob& wired) { return money(wired.list.labour_cost); });
  text += jobs_line("together", jobs, [&](const WiredJob& wired) { return money(wired.list.total); });
  const bool is_complete = std::ranges::all_of(jobs, [](const WiredJob& wired) { return wired.list.is_complete; });
  if (!is_complete) text += paragraph("What has no price is not in the sums.");
  text += heading("Before the work");
  for (const std::string_view caution : cautions()) text += paragraph(caution);
  return text + warning_section(warnings);
}

}  // namespace evenlit
