#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evenlit/job/ceiling.hpp"
#include "evenlit/report/cautions.hpp"
#include "evenlit/report/location.hpp"
#include "evenlit/report/plain_text.hpp"
#include "evenlit/report/set_out_report.hpp"
#include "text_layout.hpp"

namespace evenlit {
namespace {

using Kind = Column::Kind;

constexpr int k_longest_name = 24;  ///< of a wall or a can type in a table

/// A tape reading as a cell has it: the inches alone may go on a line of their own.
std::string reading_cell(double metres, Units units) {
  std::string text = tape_reading(metres, units);
  if (const auto bracket = text.find(" ("); bracket != std::string::npos) text[bracket] = '\n';
  return text;
}

std::string name_of(std::string_view name) { return shortened(printable(name), k_longest_name); }

/// `the south wall`, `wall 3`
std::string wall_text(std::string_view wall) {
  return wall.starts_with("wall") ? name_of(wall) : fmt::format("the {} wall", name_of(wall));
}

/// `the southwest corner`, `the corner of the hall wall and the nook wall`
std::string corner_text(const Shape& room, std::size_t corner) {
  const std::vector<std::string> names = corner_names(room, corner);
  constexpr std::size_t k_by_walls_only = 2;
  if (names.size() > k_by_walls_only) return fmt::format("the {} corner", names.front());
  const std::size_t before = (corner + room.wall_names.size() - 1) % room.wall_names.size();
  return fmt::format("the corner of {} and {}", wall_text(room.wall_names[before]), wall_text(room.wall_names[corner]));
}

std::string number(std::size_t index) { return std::to_string(index + 1); }

/// `Can 3`, `Cans 3 and 4`
std::string cans_text(const std::vector<std::string>& numbers) {
  return fmt::format("{} {}", numbers.size() == 1 ? "Can" : "Cans", listed(numbers));
}

std::string nearest_step(Units units) { return units == Units::imperial ? "1/16 in" : "millimetre"; }

/// Writes a set-out down.
class Writer {
 public:
  Writer(const Job& job, const SetOut& set_out, const std::vector<MovedCan>& moved)
      : job_(job), set_out_(set_out), moved_(moved), ceiling_(ceiling_of(job.room)) {}

  [[nodiscard]] Document document() const {
    Document document{.title = name_of(job_.room.name) + ": set-out sheet", .sections = {}};
    document.sections = {marking(), cans(), rows()};
    if (set_out_.line) document.sections.push_back(corner_line());
    if (!moved_.empty()) document.sections.push_back(moves());
    document.sections.push_back(holes());
    document.sections.push_back({"Wiring", {}, caution_list(Step::wiring), {}});
    return document;
  }

 private:
  [[nodiscard]] static std::vector<std::string> caution_list(Step step) {
    const auto sentences = cautions(step);
    return {sentences.begin(), sentences.end()};
  }

  [[nodiscard]] std::string reading(double metres) const { return reading_cell(metres, job_.units); }

  /// As a sentence or a narrow cell has it: one unit.
  [[nodiscard]] std::string length(double metres) const {
    return job_.units == Units::imperial ? feet_inches(metres) : tape_reading(metres, job_.units);
  }

  [[nodiscard]] const Can& can_at(std::size_t index) const {
    return job_.cans[static_cast<std::size_t>(set_out_.cans[index].can)];
  }
  [[nodiscard]] const CanType& type_at(std::size_t index) const {
    return *std::ranges::find(job_.can_types, can_at(index).type, &CanType::name);
  }

  // What to check before marking.

  [[nodiscard]] Section marking() const {
    Section section{"Before you mark", {}, caution_list(Step::marking), {}};
    if (!set_out_.room.empty() || !set_out_.outermost.empty()) {
      section.paragraphs.push_back(squareness());
      section.tables.push_back(diagonals());
    }
    return section;
  }

  /// How far two diagonals differ; 0 where there are not two, or by less than a tape shows.
  [[nodiscard]] static double difference_m(const std::vector<Diagonal>& diagonals) {
    constexpr double k_alike_m = k_metres_per_inch / 32;
    if (diagonals.size() != 2) return 0;
    const double difference = std::abs(diagonals[0].length_m - diagonals[1].length_m);
    return difference > k_alike_m ? difference : 0;
  }

  [[nodiscard]] std::string squareness() const {
    std::string text;
    if (job_.room.corners_m.size() == 4 && set_out_.room.size() == 2) {
      const double off_m = difference_m(set_out_.room);
      text = off_m > 0 ? fmt::format("The room is out of square: its diagonals differ by {}. ", length(off_m))
                       : "The room's diagonals are alike. ";
    }
    if (set_out_.outermost.size() == 2) {
      const double off_m = difference_m(set_out_.outermost);
      text += off_m > 0
                  ? fmt::format("Those of the outermost cans differ by {}: they make no rectangle. ", length(off_m))
                  : "Those of the outermost cans are alike: mark these first and check them. ";
    }
    return text + "Check each diagonal against its own figure before you mark the rest.";
  }

  [[nodiscard]] Table diagonals() const {
    Table table{"Diagonals", {{"From"}, {"To"}, {"Measures", Kind::number}}, {}};
    for (const auto& [ends, length_m] : set_out_.room) {
      table.rows.push_back({corner_text(job_.room, ends[0]), corner_text(job_.room, ends[1]), reading(length_m)});
    }
    for (const auto& [ends, length_m] : set_out_.outermost) {
      table.rows.push_back({fmt::format("can {}", ends[0] + 1), fmt::format("can {}", ends[1] + 1), reading(length_m)});
    }
    return table;
  }

  // The cans.

  [[nodiscard]] Section cans() const {
    Section section{"Cans in the order of work", misfit_warnings(), {}, {}};
    section.paragraphs.push_back(fmt::format(
        "Tape square to the finished face of each wall, to the middle of the can. Every figure is from the wall itself "
        "and rounded to the nearest {} by itself: never add figures up. \"In the job\" is the can's number in other "
        "reports.",
        nearest_step(job_.units)));
    for (std::string& note : reach_notes()) section.paragraphs.push_back(std::move(note));
    Table table{"Centres of the cans",
                {{"No.", Kind::number},
                 {"In the job", Kind::number},
                 {fmt::format("From {}", wall_text(set_out_.walls[0])), Kind::number},
                 {fmt::format("From {}", wall_text(set_out_.walls[1])), Kind::number},
                 {"Hole"},
                 {"Marked", Kind::tick},
                 {"Probed", Kind::tick},
                 {"Cut", Kind::tick},
                 {"Wired", Kind::tick},
                 {"Trimmed", Kind::tick}},
                {}};
    for (std::size_t i = 0; i < set_out_.cans.size(); ++i) {
      const MarkedCan& can = set_out_.cans[i];
      table.rows.push_back({number(i), std::to_string(can.can + 1), from_cell(can, 0), from_cell(can, 1), hole_cell(i),
                            "", "", set_out_.has_room(can) ? "" : "NO", "", ""});
    }
    section.tables.push_back(std::move(table));
    return section;
  }

  /// A reading, with its wall where that is not the column's.
  [[nodiscard]] std::string from_cell(const MarkedCan& can, std::size_t column) const {
    const Taped& from = can.from[column];
    std::string text = reading(from.distance_m);
    return from.wall == set_out_.walls[column] ? text : text + "\nfrom " + wall_text(from.wall);
  }

  [[nodiscard]] std::string hole_cell(std::size_t index) const {
    const Can& can = can_at(index);
    if (can.height_m) return length(*can.height_m) + "\nabove floor";
    if (can.drop_m.value_or(0) > 0) return fmt::format("hangs\n{}", length(*can.drop_m));
    const auto& hole_m = type_at(index).hole_m;
    return hole_m ? length(*hole_m) : "see leaflet";
  }

  [[nodiscard]] std::vector<std::string> misfit_warnings() const {
    std::vector<std::string> warnings;
    for (std::size_t i = 0; i < set_out_.cans.size(); ++i) {
      if (set_out_.has_room(set_out_.cans[i])) continue;
      const auto& hole = set_out_.cans[i].hole;
      warnings.push_back(
          fmt::format("Can {} (in the job {}) does not fit: {}. Do not cut it. evenlit holes tells where "
                      "it would.",
                      i + 1, set_out_.cans[i].can + 1,
                      printable(hit_text(by_sheet(set_out_.check.holes[*hole].hits.front()), job_.units))));
    }
    return warnings;
  }

  /// A hit on another can with the number that it has on the sheet.
  [[nodiscard]] Hit by_sheet(Hit hit) const {
    if (hit.kind != Obstacle::Kind::can) return hit;
    const auto other = std::ranges::find(set_out_.cans, hit.name,
                                         [](const MarkedCan& can) { return fmt::format("can {}", can.can + 1); });
    hit.name = fmt::format("can {}", other - set_out_.cans.begin() + 1);
    return hit;
  }

  /// What a tape alone does not tell of some cans.
  [[nodiscard]] std::vector<std::string> reach_notes() const {
    std::vector<std::string> under_slope;
    std::vector<std::string> out_of_reach;
    for (std::size_t i = 0; i < set_out_.cans.size(); ++i) {
      const MarkedCan& can = set_out_.cans[i];
      if (!can_at(i).height_m && is_under_slope(can.centre_m)) under_slope.push_back(number(i));
      if (can.is_in_reach != std::array{true, true}) out_of_reach.push_back(number(i));
    }
    std::vector<std::string> notes;
    if (!under_slope.empty()) {
      notes.push_back(cans_text(under_slope) +
                      " under a slope: all distances are level, as on the floor. Mark the floor and plumb up with a "
                      "laser or a bob; a tape laid along the slope reads more.");
    }
    if (!out_of_reach.empty()) {
      notes.push_back(cans_text(out_of_reach) +
                      ": a tape square to the wall does not meet it. Carry the wall's line on with a string or a laser "
                      "and tape from that.");
    }
    return notes;
  }

  [[nodiscard]] bool is_under_slope(const Eigen::Vector2d& point_m) const {
    return ceiling_.planes[static_cast<std::size_t>(ceiling_.plane_over(point_m))].wall.has_value();
  }

  // Rows.

  [[nodiscard]] Section rows() const {
    Section section{"Rows, by running dimensions", {}, {}, {}};
    section.paragraphs.push_back(followed_text());
    section.paragraphs.push_back(
        "Snap each line parallel to the wall that it follows. Hook the tape where the line meets its first wall, leave "
        "it "
        "there and mark every can of the row, so that errors do not add up. The steps from can to can are a check.");
    Table lines{"Lines to snap",
                {{"Row", Kind::number},
                 {"Off the wall", Kind::number},
                 {"Follows"},
                 {"Begins at"},
                 {"Ends at"},
                 {"Its length", Kind::number}},
                {}};
    Table along{"Along each line",
                {{"Row", Kind::number},
                 {"No.", Kind::number},
                 {"From where it begins", Kind::number},
                 {"To the next can", Kind::number},
                 {"To the end", Kind::number}},
                {}};
    for (std::size_t i = 0; i < set_out_.rows.size(); ++i) {
      const MarkedRow& row = set_out_.rows[i];
      const double length_m = (row.end_m - row.start_m).norm();
      lines.rows.push_back({number(i), reading(row.wall.distance_m), wall_text(row.wall.wall),
                            wall_text(row.start_wall), wall_text(row.end_wall), reading(length_m)});
      for (std::size_t k = 0; k < row.cans.size(); ++k) {
        const bool is_last = k + 1 == row.cans.size();
        along.rows.push_back({number(i), number(row.cans[k]), reading(row.stations_m[k]),
                              is_last ? "" : reading(row.stations_m[k + 1] - row.stations_m[k]),
                              is_last ? reading(length_m - row.stations_m[k]) : ""});
      }
    }
    section.tables = {std::move(lines), std::move(along)};
    return section;
  }

  /// Which wall the rows follow.
  [[nodiscard]] std::string followed_text() const {
    std::vector<std::string> walls;
    for (const MarkedRow& row : set_out_.rows) {
      if (std::ranges::find(walls, row.wall.wall) == walls.end()) walls.push_back(row.wall.wall);
    }
    if (walls.size() == 1) return fmt::format("The rows follow {}: they are parallel to it.", wall_text(walls[0]));
    std::string text = "The rows do not all follow one wall.";
    for (const std::string& wall : walls) {
      std::vector<std::string> numbers;
      for (std::size_t i = 0; i < set_out_.rows.size(); ++i) {
        if (set_out_.rows[i].wall.wall == wall) numbers.push_back(number(i));
      }
      text += fmt::format(" {} {} parallel to {}.", numbers.size() == 1 ? "Row" : "Rows",
                          listed(numbers) + (numbers.size() == 1 ? " is" : " are"), wall_text(wall));
    }
    return text;
  }

  [[nodiscard]] Section corner_line() const {
    const CornerLine& line = *set_out_.line;
    const std::string corner = corner_text(job_.room, line.corner);
    Section section{"From one corner, by string or laser", {}, {}, {}};
    section.paragraphs.push_back(
        fmt::format("Lay the line along {} from {}. The first figure is along it from the corner, the second square to "
                    "it, into the "
                    "room. A figure below 0 is behind the corner.",
                    wall_text(line.wall), corner));
    Table table{fmt::format("From {}", corner),
                {{"No.", Kind::number},
                 {fmt::format("Along {}", wall_text(line.wall)), Kind::number},
                 {"Square to it", Kind::number}},
                {}};
    for (std::size_t i = 0; i < line.offsets_m.size(); ++i) {
      table.rows.push_back({number(i), reading(line.offsets_m[i].x()), reading(line.offsets_m[i].y())});
    }
    section.tables.push_back(std::move(table));
    return section;
  }

  // Holes.

  [[nodiscard]] Section holes() const {
    Section section{"Holes", {}, caution_list(Step::cutting), {}};
    if (!is_ceiling_known(job_)) {
      section.warnings.emplace_back(
          "The job tells nothing of what is above this ceiling: no joist, pipe or duct was checked.");
    }
    if (!set_out_.check.holes.empty()) {
      section.paragraphs.emplace_back(
          "Clear each side: from the edge of the hole to framing, a keep-out or a wall, across the joists. Probe: so "
          "long "
          "a wire, turned about the middle, must find nothing; beside it how far the plan has it clear.");
      section.tables.push_back(hole_table());
    }
    section.tables.push_back(type_table());
    return section;
  }

  [[nodiscard]] std::string gap_cell(const SideGap& side) const {
    if (!std::isfinite(side.gap_m)) return "none";
    return fmt::format("{} {}\n{}", compass_point(side.toward).initials, length(side.gap_m), name_of(side.name));
  }

  // What was planned elsewhere.

  /// How far a point is off a wall's line.
  [[nodiscard]] double off_wall_m(const std::string& name, const Eigen::Vector2d& point_m) const {
    const int wall = wall_index(job_.room, name).value();
    const Eigen::Vector2d along = along_wall(job_.room, wall);
    return Eigen::Vector2d(-along.y(), along.x()).dot(point_m - job_.room.corners_m[static_cast<std::size_t>(wall)]);
  }

  [[nodiscard]] Section moves() const {
    Section section{"What was moved, and why", {}, {}, {}};
    section.paragraphs.emplace_back("The earlier plan had these cans elsewhere. Marks made by it no longer count.");
    Table table{"Moved cans", {{"No.", Kind::number}, {"Was"}, {"Why"}}, {}};
    for (const MovedCan& moved : moved_) {
      const auto marked = std::ranges::find(set_out_.cans, moved.can, &MarkedCan::can);
      const std::string& first = marked->from[0].wall;
      const std::string& second = marked->from[1].wall;
      const std::string why = moved.hits.empty() ? std::string("nothing known was in its way")
                                                 : printable(hit_text(moved.hits.front(), job_.units));
      table.rows.push_back({number(static_cast<std::size_t>(marked - set_out_.cans.begin())),
                            fmt::format("{} from {}\n{} from {}", length(off_wall_m(first, moved.was_m)),
                                        wall_text(first), length(off_wall_m(second, moved.was_m)), wall_text(second)),
                            why});
    }
    section.tables.push_back(std::move(table));
    return section;
  }

  [[nodiscard]] Table hole_table() const {
    Table table{"What is beside each hole",
                {{"No.", Kind::number},
                 {"Hole", Kind::number},
                 {"Clear, one side"},
                 {"Clear, other side"},
                 {"Probe", Kind::number},
                 {"Clear by plan", Kind::number},
                 {"Fits"}},
                {}};
    for (std::size_t i = 0; i < set_out_.cans.size(); ++i) {
      if (!set_out_.cans[i].hole) {
        table.rows.push_back({number(i), "see leaflet", "-", "-", "-", "-", "not checked"});
        continue;
      }
      const CanHole& hole = set_out_.check.holes[*set_out_.cans[i].hole];
      const bool is_clear_known = std::isfinite(hole.probe_clear_m);
      table.rows.push_back({number(i), length(*type_at(i).hole_m), gap_cell(hole.sides[0]), gap_cell(hole.sides[1]),
                            length(hole.probe_needed_m), is_clear_known ? length(hole.probe_clear_m) : "not known",
                            hole.hits.empty() ? "yes" : "NO"});
    }
    return table;
  }

  /// Diameters by can type; what the job does not tell is in the fixture's leaflet.
  [[nodiscard]] Table type_table() const {
    Table table{"Can types", {{"Type"}, {"Cans"}, {"Hole to cut", Kind::number}, {"Housing"}}, {}};
    for (const CanType& type : job_.can_types) {
      std::vector<std::string> numbers;
      for (std::size_t i = 0; i < set_out_.cans.size(); ++i) {
        if (can_at(i).type == type.name) numbers.push_back(number(i));
      }
      if (numbers.empty()) continue;
      table.rows.push_back(
          {name_of(type.name), listed(numbers), type.hole_m ? length(*type.hole_m) : "see leaflet",
           type.housing ? length(type.housing->width_m) + " x " + length(type.housing->length_m) : "see leaflet"});
    }
    return table;
  }

  const Job& job_;
  const SetOut& set_out_;
  const std::vector<MovedCan>& moved_;
  Ceiling ceiling_;
};

}  // namespace

Document set_out_document(const Job& job, const SetOut& set_out, const std::vector<MovedCan>& moved) {
  return Writer(job, set_out, moved).document();
}

}  // namespace evenlit
