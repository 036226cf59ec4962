#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "evenlit/base/utf8.hpp"
#include "evenlit/placing/moved_layout.hpp"
#include "evenlit/report/cautions.hpp"
#include "evenlit/report/holes_report.hpp"
#include "evenlit/report/location.hpp"
#include "evenlit/report/plain_text.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

constexpr int k_mark_columns = 31;

std::string length_or_none(double metres, Units units) {
  return std::isfinite(metres) ? length_text(metres, units) : "none";
}

/// The way and the gap: `W 4-1/16"`.
std::string side_cell(const SideGap& side, Units units) {
  return fmt::format("{:>13}",
                     std::string(compass_point(side.toward).initials) + " " + length_or_none(side.gap_m, units));
}

std::string hole_row(const Job& job, const CanHole& hole) {
  const std::string mark = mark_text(job.room, hole.centre_m, job.units);
  const int width = code_points(mark);
  std::string line = fmt::format("  {:>3}  {}", hole.can + 1, mark);
  line += width > k_mark_columns ? "\n" + std::string(7 + k_mark_columns, ' ')
                                 : std::string(static_cast<std::size_t>(k_mark_columns - width), ' ');
  for (const SideGap& side : hole.sides) line += side_cell(side, job.units);
  line += fmt::format("{:>9}", length_or_none(hole.probe_clear_m, job.units));
  return line + (hole.hits.empty() ? "  fits\n" : "  NO\n");
}

std::string table(const Job& job, const HoleCheck& check) {
  std::string text = fmt::format("\n  Can  {:<{}}{:>26}{:>9}\n", "Centre from the walls", k_mark_columns,
                                 "Hole to framing, each way", "Probe");
  for (const CanHole& hole : check.holes) text += hole_row(job, hole);
  return text + paragraph(
                    "How far a hole may go each way across the joists before it touches framing, a keep-out or a wall "
                    "(below 0: it cuts into it), and how far a probe at its centre is clear of framing and keep-outs.");
}

/// `2-1/4" to 6" west`
std::string move_text(const Move& move, Units units) {
  const std::string from = length_text(move.distance_m[0], units);
  const std::string to = length_text(move.distance_m[1], units);
  return (from == to ? from : from + " to " + to) + " " + compass_point(move.toward).name;
}

std::string shortfall_text(const Shortfall& shortfall, Units units) {
  const std::string what =
      shortfall.what == Shortfall::What::bay ? "the widest bay on its line is" : "along the joists the room is";
  return fmt::format("{} {} clear and it needs {}, {} more", what, length_text(shortfall.has_m, units),
                     length_text(shortfall.needs_m, units), length_text(shortfall.needs_m - shortfall.has_m, units));
}

std::string places_text(const Job& job, const CanHole& hole) {
  if (!hole.nearest_m) {
    std::string text = "It fits nowhere in this ceiling";
    for (const Shortfall& shortfall : hole.shortfalls) {
      text += (&shortfall == &hole.shortfalls.front() ? ": " : "; ") + shortfall_text(shortfall, job.units);
    }
    return text + ".";
  }
  std::string text;
  if (!hole.moves.empty()) {
    text = "Moved straight it fits ";
    for (const Move& move : hole.moves) {
      if (&move != &hole.moves.front()) text += "; ";
      text += move_text(move, job.units);
    }
    text += ". ";
  }
  const Eigen::Vector2d way = *hole.nearest_m - hole.centre_m;
  return text + fmt::format("The nearest place is {} {}: {}.", length_text(way.norm(), job.units),
                            compass_point(way).name, mark_text(job.room, *hole.nearest_m, job.units));
}

std::string misfits_section(const Job& job, const HoleCheck& check) {
  std::string text;
  for (const CanHole& hole : check.holes) {
    if (hole.hits.empty()) continue;
    constexpr std::size_t k_most_told = 3;
    std::string line = fmt::format("Can {}: ", hole.can + 1);
    for (std::size_t i = 0; i < std::min(hole.hits.size(), k_most_told); ++i) {
      line += (i > 0 ? "; " : "") + printable(hit_text(hole.hits[i], job.units));
    }
    if (hole.hits.size() > k_most_told) line += fmt::format("; and {} more", hole.hits.size() - k_most_told);
    text += paragraph(line + ". " + places_text(job, hole));
  }
  return text.empty() ? text : heading("What does not fit, and where it would") + text;
}

std::string fan_section(const Job& job, const std::vector<FanHit>& fans) {
  if (fans.empty()) return {};
  std::string text = heading("Fans");
  for (const FanHit& hit : fans) {
    const std::string& fan = job.fans[static_cast<std::size_t>(hit.fan)].name;
    text += paragraph(fmt::format(
        "Can {}: the blades of \"{}\" turn in its light. They come within {} degrees of its aim, its field "
        "reaches {}. They chop the light, and it flickers: move the can, or choose a narrower beam.",
        hit.can + 1, printable(fan), fixed_text(hit.blade_angle_deg, 0), fixed_text(hit.field_angle_deg / 2, 0)));
  }
  return text + paragraph("The rule, no blade within the field angle, is common practice and has no source.");
}

/// What counts of a can type: its parts, its clearance, the wire that probes for it.
std::string type_text(const Job& job, const CanType& type, double probe_m) {
  const auto length = [&](double metres) { return length_text(metres, job.units); };
  std::string text = fmt::format("\"{}\": hole {}, ", printable(type.name), length(*type.hole_m));
  text += type.housing ? fmt::format("housing {} x {}", length(type.housing->width_m), length(type.housing->length_m))
                       : "no housing given, so that only the hole counts: leave room for the junction box";
  if (type.housing && type.housing->kind == Housing::Kind::new_work) {
    text += " for new work, set before the ceiling is closed";
  }
  text += type.rating == Rating::ic
              ? ". Rated IC: it may touch wood and insulation."
              : fmt::format(". {}: it keeps {} from wood, insulation keeps {} away and off its top.",
                            type.rating == Rating::non_ic ? "Not rated IC" : "Not known to be rated IC",
                            length(k_wood_clearance_m), length(k_insulation_clearance_m));
  return text + fmt::format(" Bend the probe wire to {}.", length(probe_m));
}

std::string types_section(const Job& job, const HoleCheck& check) {
  std::string text;
  for (const CanType& type : job.can_types) {
    const auto used = std::ranges::find_if(check.holes, [&](const CanHole& hole) {
      return job.cans[static_cast<std::size_t>(hole.can)].type == type.name;
    });
    if (used != check.holes.end()) text += paragraph(type_text(job, type, used->probe_needed_m));
  }
  if (text.empty()) return text;
  return heading("What the cans need") + text +
         paragraph(
             "Clearances as in NEC 410.116 (from memory): check the locally adopted edition and the fixture's "
             "instructions.");
}

std::string can_list(const std::vector<int>& cans) {
  std::string text = cans.size() == 1 ? "Can " : "Cans ";
  for (std::size_t i = 0; i < cans.size(); ++i) text += (i > 0 ? ", " : "") + std::to_string(cans[i] + 1);
  return text;
}

std::string caution_section() {
  std::string text = heading("Before cutting");
  text += paragraph(
      "Drill a pilot hole at the centre and turn a bent wire through it all the way round: where the can fits the wire "
      "finds nothing. Stop when it does; the framing is never quite where it was measured.");
  for (const std::string_view caution : cautions()) text += paragraph(caution);
  return text;
}

/// `the doubled joist`, `the west wall`, `can 3`
std::string hit_name(const Hit& hit) {
  if (hit.kind == Obstacle::Kind::can) return hit.name;
  return "the " + hit.name + (hit.kind == Obstacle::Kind::wall ? " wall" : "");
}

/// What is in the way at the wished place, the worst of it.
std::string obstacle_text(const Job& job, const PlacedCan& placed) {
  return placed.hits.empty() ? "it would be inside of the " + placed.inside : hit_text(placed.hits.front(), job.units);
}

/// `in line with cans 1 and 4`
std::string line_text(const CanLine& line) {
  std::vector<std::string> numbers;
  for (const int can : line.cans) numbers.push_back(std::to_string(can + 1));
  const std::string cans = (numbers.size() == 1 ? "can " : "cans ") + listed(numbers);
  switch (line.kind) {
    case CanLine::Kind::row:
      return "in line with " + cans;
    case CanLine::Kind::midway:
      return "midway between " + cans;
    case CanLine::Kind::middle:
      break;
  }
  return line.axis == 0 ? "in the middle of the room's width" : "in the middle of the room's depth";
}

}  // namespace

std::string place_words(const Job& job, const PlacedCan& placed) {
  if (!placed.place_m) {
    return fmt::format("{}, and it fits nowhere within {}", obstacle_text(job, placed),
                       length_text(k_farthest_shift_m, job.units));
  }
  std::vector<std::string> lines;
  for (const CanLine& line : placed.lines) lines.push_back(line_text(line));
  std::string text = listed(lines);
  if (!placed.fits_there()) {
    text += fmt::format("{}moved {} off {}", text.empty() ? "" : ", ",
                        length_text((*placed.place_m - placed.wished_m).norm(), job.units),
                        placed.hits.empty() ? "the " + placed.inside : hit_name(placed.hits.front()));
  }
  return text.empty() ? "it fits there" : text;
}

std::string place_text(const Job& job, int can, const PlacedCan& placed, const Problems& warnings) {
  std::string text = filled(fmt::format("{}, can {}: wished at {}.", printable(job.room.name), can + 1,
                                        mark_text(job.room, placed.wished_m, job.units)),
                            k_columns, 2);
  if (!placed.fits_there()) text += paragraph("There " + printable(obstacle_text(job, placed)) + ".");
  text +=
      placed.place_m
          ? paragraph(fmt::format("Put it at {}: {}.", mark_text(job.room, *placed.place_m, job.units),
                                  printable(place_words(job, placed))))
          : paragraph(fmt::format("It fits nowhere within {} of there.", length_text(k_farthest_shift_m, job.units)));
  if (!needs_hole(job, job.cans[static_cast<std::size_t>(can)])) {
    text += paragraph("It hangs, or the job tells no hole of its type: what is above the ceiling was not checked.");
  } else if (!is_ceiling_known(job)) {
    text += paragraph("The job tells nothing of joists and what else is above: only walls and other cans count here.");
  }
  return text + caution_section() + warning_section(warnings);
}

std::string holes_text(const Job& job, const HoleCheck& check, const std::vector<FanHit>& fans,
                       const Problems& warnings) {
  const auto misfits = std::ranges::count_if(check.holes, [](const CanHole& hole) { return !hole.hits.empty(); });
  std::string text = filled(fmt::format("{}: {} of {} holes fit.", printable(job.room.name),
                                        static_cast<std::ptrdiff_t>(check.holes.size()) - misfits, check.holes.size()),
                            k_columns, 2);
  if (!check.holes.empty()) text += table(job, check);
  text += misfits_section(job, check) + fan_section(job, fans) + types_section(job, check);
  if (!is_ceiling_known(job) || !check.without_hole.empty()) text += heading("What was not checked");
  if (!is_ceiling_known(job)) {
    text += paragraph("The job tells nothing of joists and what else is above: only walls and other cans count here.");
  }
  if (!check.without_hole.empty()) {
    text +=
        paragraph(can_list(check.without_hole) + ": not flush with the ceiling, or without a hole in the can type.");
  }
  return text + caution_section() + warning_section(warnings);
}

}  // namespace evenlit
