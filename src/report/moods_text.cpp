#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "comparison_words.hpp"
#include "evenlit/base/figures.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/job/wire.hpp"
#include "evenlit/moods/circuits.hpp"
#include "evenlit/moods/dimming.hpp"
#include "evenlit/report/light_words.hpp"
#include "evenlit/report/moods_report.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/search_report.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr const char* k_none = "-";
constexpr int k_name = 22;           ///< of a row
constexpr int k_cell = 11;           ///< of a mood's column
constexpr std::size_t k_across = 5;  ///< moods side by side in a table

/// Words filled into lines that stand below a name.
std::string nested(const std::string& text) { return std::string(4, ' ') + filled(text, k_columns - 4, 6); }

/// Tables with a column for each mood, as many side by side as a line has room for.
class MoodTables {
 public:
  MoodTables(const RoomMoods& moods, std::size_t first)
      : first_(first), count_(std::min(k_across, moods.moods.size() - first)), moods_(moods) {}

  [[nodiscard]] std::string head() const {
    return line("", [](const MoodLight& mood) { return shortened(printable(mood.name), k_cell - 1); });
  }

  template <class Cell>
  [[nodiscard]] std::string line(const std::string& name, const Cell& cell) const {
    std::string text = fmt::format("  {:<{}}", shortened(name, k_name), k_name);
    for (std::size_t i = first_; i < first_ + count_; ++i) text += fmt::format("{:>{}}", cell(moods_.moods[i]), k_cell);
    return text + '\n';
  }

 private:
  std::size_t first_;
  std::size_t count_;
  const RoomMoods& moods_;
};

/// Whole percent, but what is on is not told to be off.
std::string share_cell(double share) {
  if (share <= 0) return "off";
  return share < 0.01 ? "<1 %" : percent_text(share);
}

std::string circuits_rows(const Job& job, const MoodTables& table) {
  std::string text;
  for (std::size_t i = 0; i < job.circuits.size(); ++i) {
    const std::string name = printable(job.circuits[i].name);
    text += table.line(name + ", dimmer", [&](const MoodLight& mood) -> std::string {
      if (job.circuits[i].dimmer) return share_cell(mood.settings[i]);
      return mood.settings[i] > 0 ? "on" : "off";
    });
    if (!job.circuits[i].dimmer) continue;
    text += table.line("  by the meter", [&](const MoodLight& mood) { return share_cell(mood.circuit_light[i]); });
    text += table.line("  to the eye",
                       [&](const MoodLight& mood) { return share_cell(perceived_brightness(mood.circuit_light[i])); });
  }
  return text;
}

std::string light_rows(const Job& job, const RoomMoods& moods, const MoodTables& table) {
  const auto cell = [&](const Estimate& estimate) { return light_cell(estimate.value, estimate.error, job.units); };
  std::string text = table.line("work plane, average", [&](const MoodLight& mood) {
    const WorkPlaneLight& plane = mood.light.work_plane;
    return cell({plane.statistics.average_lx, plane.average_error_lx});
  });
  text += table.line("  darkest point", [&](const MoodLight& mood) {
    const WorkPlaneLight& plane = mood.light.work_plane;
    return cell({plane.statistics.minimum_lx, plane.field.error_lx[plane.statistics.minimum_at]});
  });
  const Readings& readings = moods.moods.front().light.readings.readings;
  for (std::size_t i = 0; i < readings.task_areas.size(); ++i) {
    text += table.line(printable(readings.task_areas[i].name),
                       [&](const MoodLight& mood) { return cell(mood.light.readings.task_areas[i].average_lx); });
  }
  return text;
}

std::string surface_rows(const RoomMoods& moods, const MoodTables& table) {
  std::string text;
  const Readings& readings = moods.moods.front().light.readings.readings;
  for (std::size_t i = 0; i < readings.surfaces.size(); ++i) {
    text += table.line(printable(readings.surfaces[i].name), [&](const MoodLight& mood) {
      const auto& luminance = mood.light.readings.surfaces[i].luminance_cd_m2;
      return luminance ? rounded_text(luminance->value, luminance->error) : std::string(k_none);
    });
  }
  return text;
}

std::string power_rows(const Job& job, const MoodTables& table) {
  std::string text = table.line(
      "power, W", [](const MoodLight& mood) { return mood.watts ? rounded_text(*mood.watts) : std::string(k_none); });
  text += table.line("a year, kWh", [](const MoodLight& mood) {
    return mood.energy ? rounded_text(mood.energy->kwh) : std::string(k_none);
  });
  text += table.line("a year, cost", [&](const MoodLight& mood) {
    return mood.energy && mood.energy->cost ? money_text(*mood.energy->cost, job.currency) : std::string(k_none);
  });
  text += table.line("colour, K", [](const MoodLight& mood) {
    return mood.colour && mood.colour->tone ? fixed_text(std::round(mood.colour->tone->kelvin / 10) * 10, 0)
                                            : std::string(k_none);
  });
  return text;
}

std::string tables(const Job& job, const RoomMoods& moods) {
  std::string text;
  const bool is_imperial = job.units == Units::imperial;
  for (std::size_t first = 0; first < moods.moods.size(); first += k_across) {
    const MoodTables table(moods, first);
    text += fmt::format("\n{}{}\n  Light, {}\n{}\n  Average luminance, cd/m2\n{}\n{}", table.head(),
                        circuits_rows(job, table), is_imperial ? "fc" : "lx", light_rows(job, moods, table),
                        surface_rows(moods, table), power_rows(job, table));
  }
  return text + paragraph(
                    "Dimmer: where it is set, of its travel. By the meter: light, of full. To the eye: how bright that "
                    "looks beside full light, the square root (square law of the lighting handbooks). Power by the "
                    "drivers' tables, or a tenth of full while on and the rest with the light (common practice, no "
                    "source).");
}

std::string area_name(const std::string& name) { return name.empty() ? "work plane" : printable(name); }

std::string wish_line(const Job& job, const WishLight& wish) {
  const auto light = [&](double lx) { return illuminance_text(lx, 0, job.units); };
  const auto wished = [&]() -> std::string {
    switch (wish.kind) {
      case LevelWish::Kind::at_least:
        return fmt::format("at least {}", light(wish.value));
      case LevelWish::Kind::at_most:
        return fmt::format("at most {}", light(wish.value));
      case LevelWish::Kind::about:
        return fmt::format("about {}", light(wish.value));
      case LevelWish::Kind::ratio:
        break;
    }
    return fmt::format("{} times {}", rounded_text(wish.value), area_name(wish.other));
  }();
  const std::string has = wish.kind == LevelWish::Kind::ratio
                              ? (std::isfinite(wish.result.has) ? rounded_text(wish.result.has) + " times" : "all")
                              : light(wish.result.has);
  // Closer than a hundredth is as wished to any meter and any eye.
  constexpr double k_as_wished = 0.01;
  const double off = wish.result.off_by;
  const std::string verdict =
      std::abs(off) < k_as_wished ? "as wished"
      : std::isfinite(off) ? fmt::format("{} {}", percent_text(std::abs(off)), off < 0 ? "too little" : "too much")
                           : "too much";
  return fmt::format("    {}: {}, has {}: {}\n", area_name(wish.area), wished, has, verdict);
}

std::string can_list(const std::vector<int>& dimmed, const std::vector<int>& cans) {
  std::string text;
  for (std::size_t i = 0; i < cans.size(); ++i) {
    if (i > 0) text += i + 1 == cans.size() ? " and " : ", ";
    text += std::to_string(dimmed[static_cast<std::size_t>(cans[i])] + 1);
  }
  return text;
}

std::string wishes_section(const Job& job, const RoomMoods& moods) {
  std::string text;
  for (const MoodLight& mood : moods.moods) {
    if (mood.wishes.empty()) continue;
    text += fmt::format("  {}\n", printable(mood.name));
    for (const WishLight& wish : mood.wishes) text += wish_line(job, wish);
    if (!mood.split) continue;
    const std::string& circuit = job.circuits[static_cast<std::size_t>(mood.split->dimmer)].name;
    text += nested(fmt::format("{} {} of \"{}\" on a dimmer of {} own would bring this nearer.",
                               mood.split->leaving.size() == 1 ? "Can" : "Cans",
                               can_list(moods.dimmed, mood.split->leaving), printable(circuit),
                               mood.split->leaving.size() == 1 ? "its" : "their"));
  }
  return text.empty() ? text : heading("Wishes") + text;
}

std::string seat_text(const Job& job, const RoomMoods& moods, std::size_t seat) {
  std::string text;
  for (const MoodLight& mood : moods.moods) {
    const SeatView& view = mood.seats[seat];
    std::string line;
    if (view.glare.unified_rating && view.glare.worst) {
      line += fmt::format("UGR {}, {}, most by can {}", fixed_text(*view.glare.unified_rating, 0),
                          glare_words(*view.glare.unified_rating), *view.glare.worst + 1);
    } else {
      line += "no can glares";
    }
    for (const ScreenImages& screen : view.screens) {
      std::string cans;
      for (const MirrorImage& image : screen.images) {
        if (!cans.empty()) cans += ", ";
        cans += std::to_string(image.luminaire + 1);
      }
      line += fmt::format("; \"{}\" mirrors can {}", printable(screen.screen), cans);
    }
    if (view.screens.empty() && !job.screens.empty()) line += "; no screen mirrors a can";
    if (view.balance && view.balance->to_background.task_over_other && !view.balance->to_background.is_within) {
      line += fmt::format("; what they look at is {} times as bright as the walls",
                          rounded_text(*view.balance->to_background.task_over_other));
    }
    text += nested(fmt::format("{}: {}.", printable(mood.name), line));
  }
  return text;
}

std::string seats_section(const Job& job, const RoomMoods& moods) {
  const auto& seats = moods.moods.front().seats;
  if (seats.empty()) return {};
  std::string text = heading("From the seats");
  for (std::size_t i = 0; i < seats.size(); ++i) {
    text += fmt::format("  {}\n", printable(seats[i].seat)) + seat_text(job, moods, i);
  }
  return text + paragraph(
                    "UGR: unified glare rating (CIE 117): 13 is hardly noticed, 19 is the usual limit in offices, "
                    "28 is hard to bear. Advice: nothing limits it in homes.");
}

std::string limit_text(const std::optional<double>& has, const std::optional<double>& most, const char* unit) {
  if (!most) return {};
  return fmt::format("{} {} of {} {}", has ? rounded_text(*has) : "unknown", unit, rounded_text(*most), unit);
}

/// How many cans such as the job's the branch circuit may feed.
std::string most_cans_text(const BranchLoad& branch, std::size_t cans) {
  if (!(branch.va.value_or(0) > 0)) return {};
  const double most = std::floor(branch.most_va / (*branch.va / static_cast<double>(cans)));
  return fmt::format(", {} such cans at most", fixed_text(most, 0));
}

std::string loads_section(const Job& job, const RoomMoods& moods) {
  std::string text;
  for (const DimmerLoad& load : moods.loads) {
    std::string line = limit_text(load.watts, load.most_w, "W");
    const std::string va = limit_text(load.va, load.most_va, "VA");
    if (!va.empty() && !line.empty()) line += ", ";
    line += va;
    if (line.empty()) line = "no rating given";
    if (load.is_too_much()) line += ": TOO MUCH for this dimmer";
    if (load.is_too_little()) line += fmt::format(": below its minimum load of {} W", rounded_text(*load.least_w));
    if (load.is_unknown()) line += ": not all of the load is known";
    text += fmt::format("  {:<{}}{}\n",
                        shortened(printable(job.circuits[static_cast<std::size_t>(load.circuit)].name), k_name), k_name,
                        line);
  }
  if (moods.branch) {
    text +=
        fmt::format("  {:<{}}{} VA of {} VA{}\n", "branch circuit", k_name,
                    moods.branch->va ? rounded_text(*moods.branch->va) : "unknown", rounded_text(moods.branch->most_va),
                    moods.branch->is_too_much() ? ": TOO MUCH"
                    : moods.branch->va          ? most_cans_text(*moods.branch, job.cans.size())
                                                : ": add va or power_factor to every can type");
    if (moods.branch->drop_share) {
      text +=
          fmt::format("  {:<{}}{} % at the far end of {} of {} AWG{}\n", "voltage drop", k_name,
                      fixed_text(100 * *moods.branch->drop_share, 2), length_text(job.supply->run_m.value(), job.units),
                      job.supply->wire_awg, moods.branch->loses_too_much() ? ": MORE THAN THE 3 % ADVISED" : "");
    }
    if (job.supply->breaker_a > wire_of(job.supply->wire_awg).value().most_breaker_a) {
      text += paragraph(fmt::format("BREAKER TOO LARGE: {} AWG copper is protected by {} A at most (NEC 240.4(D)).",
                                    job.supply->wire_awg,
                                    shortest_text(wire_of(job.supply->wire_awg).value().most_breaker_a)));
    }
    text += paragraph(std::string(k_branch_caution));
  }
  return text.empty() ? text : heading("Load of the dimmers, all cans full") + text;
}

std::string grouping_text(const Job& job, const RoomMoods& moods, const Grouping& grouping) {
  const int dimmers = 1 + *std::ranges::max_element(grouping.dimmer_of);
  std::string text = heading(fmt::format("Cans on {} {}", dimmers, dimmers == 1 ? "dimmer" : "dimmers"));
  for (int dimmer = 0; dimmer < dimmers; ++dimmer) {
    std::vector<int> cans;
    for (int i = 0; i < std::ssize(grouping.dimmer_of); ++i) {
      if (grouping.dimmer_of[static_cast<std::size_t>(i)] == dimmer) cans.push_back(i);
    }
    std::string levels;
    for (const SolvedLevels& mood : grouping.moods) {
      if (!levels.empty()) levels += ", ";
      levels += share_cell(mood.levels[cans.front()]);
    }
    text += paragraph(fmt::format("{}: {} {}: {}.", dimmer + 1, cans.size() == 1 ? "can" : "cans",
                                  can_list(moods.dimmed, cans), levels));
  }
  double now = 0;
  for (const MoodLight& mood : moods.moods) {
    for (const WishLight& wish : mood.wishes) now += std::pow(std::min(std::abs(wish.result.off_by), 10.0), 2);
  }
  std::string names;
  for (const Mood& mood : job.moods) {
    if (!std::holds_alternative<Wishes>(mood.asks)) continue;
    if (!names.empty()) names += ", ";
    names += printable(mood.name);
  }
  return text + paragraph(fmt::format(
                    "Light, of full, in the order of the moods that state wishes: {}. Off by, squared and "
                    "summed over all wishes: {} so, {} on the job's circuits. {}",
                    names, fixed_text(grouping.misfit, 3), fixed_text(now, 3),
                    grouping.is_exact ? "No other grouping does better." : "Not all groupings could be tried."));
}

}  // namespace

std::string moods_text(const Job& job, const RoomMoods& moods, const Problems& warnings) {
  return filled(fmt::format("{}: {} {}.", printable(job.room.name), moods.moods.size(),
                            moods.moods.size() == 1 ? "mood" : "moods"),
                k_columns, 2) +
         tables(job, moods) + wishes_section(job, moods) + seats_section(job, moods) + loads_section(job, moods) +
         heading("Before wiring") +
         paragraph(
             "Dimmer and can must suit each other: see the can maker's list of dimmers. Prove the circuit dead, "
             "wiring is for a licensed electrician, under the local code.") +
         warning_section(warnings) + (moods.proposed ? grouping_text(job, moods, *moods.proposed) : std::string());
}

}  // namespace evenlit
