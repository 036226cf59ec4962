#include "evenlit/job/meter_readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "csv_lines.hpp"
#include "evenlit/base/light_units.hpp"
#include "evenlit/base/names.hpp"
#include "evenlit/base/number.hpp"
#include "evenlit/job/ceiling.hpp"

namespace evenlit {
namespace {

constexpr std::string_view k_digits = "0123456789";
constexpr std::string_view k_header_example =
    "write a first line like point,wall,distance,wall,distance,height,reading";
constexpr std::string_view k_place_example =
    R"(write two walls with distances and a height, like west,5ft,south,4ft 6in,30in)";

std::string lower(std::string_view text) {
  std::string low(text);
  for (char& c : low) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return low;
}

/// A column's name, and the unit in it: `reading (fc)`, `height in`.
struct ColumnTitle {
  std::string name;
  std::string unit;
};

ColumnTitle column_title(const std::string& text) {
  std::string words = lower(text);
  for (char& c : words) c = c == '(' || c == ')' || c == '[' || c == ']' || c == '_' ? ' ' : c;
  const auto begin = std::min(words.find_first_not_of(' '), words.size());
  const auto end = std::min(words.find(' ', begin), words.size());
  const auto unit = words.find_first_not_of(' ', end);
  if (unit == std::string::npos) return {words.substr(begin, end - begin), {}};
  return {words.substr(begin, end - begin), words.substr(unit, words.find_last_not_of(' ') - unit + 1)};
}

/// A cell of a row; none where the row is shorter or the table has no such column.
struct Value {
  const CsvCell* cell = nullptr;
  std::string_view unit;  ///< of bare numbers

  [[nodiscard]] bool is_empty() const { return cell == nullptr || cell->is_empty(); }
};

/// What a comma between digits stands for.
enum class Comma { none, decimal, unclear };

/// A comma with three digits behind it may part thousands, but not behind a lone 0 or more than three digits.
Comma comma_in(std::string_view text) {
  const auto comma = text.find(',');
  if (comma == std::string_view::npos || comma == 0) return Comma::none;
  if (text.find(',', comma + 1) != std::string_view::npos || text.find('.') != std::string_view::npos) {
    return Comma::none;
  }
  const auto before = text.find_last_not_of(k_digits, comma - 1);
  const auto first = before == std::string_view::npos ? 0 : before + 1;
  const auto whole = text.substr(first, comma - first);
  const auto decimals = text.substr(comma + 1, text.find_first_not_of(k_digits, comma + 1) - comma - 1);
  if (whole.empty() || decimals.empty()) return Comma::none;
  const bool may_part_thousands = decimals.size() == 3 && whole.size() <= 3 && whole.front() != '0';
  return may_part_thousands ? Comma::unclear : Comma::decimal;
}

/// The columns of the table by what they hold.
class Columns {
 public:
  enum Kind { point, wall, distance, second_wall, second_distance, height, facing, reading, kinds };

  Columns(const CsvLine& header, Problems& problems) {
    for (std::size_t i = 0; i < header.size(); ++i) {
      if (!header[i].is_empty()) take(header[i], i, problems);
    }
    if (!at_[reading] && problems.empty()) {
      problems.push_back(
          {header.front().place, "the table has no column named reading", std::string(k_header_example)});
    }
    if (!at_[point] && !at_[wall] && problems.empty()) {
      problems.push_back(
          {header.front().place, "no column says where the readings were taken", std::string(k_header_example)});
    }
  }

  [[nodiscard]] Value value(const CsvLine& row, Kind kind) const {
    const auto& at = at_[kind];
    if (!at || *at >= row.size()) return {};
    return {&row[*at], units_[kind]};
  }

  enum class Head { nameless, value, note };

  [[nodiscard]] Head head(std::size_t column) const { return column < heads_.size() ? heads_[column] : Head::nameless; }

 private:
  void take(const CsvCell& cell, std::size_t column, Problems& problems) {
    constexpr std::array<std::pair<std::string_view, Kind>, 6> k_names{{{"point", point},
                                                                        {"wall", wall},
                                                                        {"distance", distance},
                                                                        {"height", height},
                                                                        {"facing", facing},
                                                                        {"reading", reading}}};
    heads_.resize(column + 1, Head::nameless);
    const ColumnTitle title = column_title(cell.text);
    heads_[column] = title.name == "note" ? Head::note : Head::value;
    if (title.name == "note") return;
    const auto* found = std::ranges::find(k_names, title.name, &std::pair<std::string_view, Kind>::first);
    if (found == k_names.end()) {
      unknown(cell, title.name, problems);
      return;
    }
    Kind kind = found->second;
    if (kind == wall && at_[wall]) kind = second_wall;
    if (kind == distance && at_[distance]) kind = second_distance;
    if (at_[kind]) {
      problems.push_back({cell.place, fmt::format("column {} is there once too often", quoted(title.name)),
                          "name a column that does not count note"});
      return;
    }
    at_[kind] = column;
    units_[kind] = title.unit;
    check_unit(cell, kind, title.unit, problems);
  }

  static void unknown(const CsvCell& cell, const std::string& name, Problems& problems) {
    constexpr std::array<std::string_view, 7> k_known{"point",  "wall",    "distance", "height",
                                                      "facing", "reading", "note"};
    const std::string nearest = nearest_name(name, k_known);
    problems.push_back({cell.place, fmt::format("column {} is unknown", quoted(cell.text)),
                        nearest.empty() ? "columns are point, wall, distance, height, facing, reading, note"
                                        : fmt::format("did you mean {}?", quoted(nearest))});
  }

  static void check_unit(const CsvCell& cell, Kind kind, const std::string& unit, Problems& problems) {
    if (unit.empty()) return;
    const bool is_light = kind == reading;
    const bool is_length = kind == distance || kind == second_distance || kind == height;
    const bool is_known = (is_light && lux_from_text("1 " + unit)) || (is_length && metres_from_text("1 " + unit)) ||
                          (kind == facing && lower(unit).starts_with("deg")) ||
                          ((kind == point || kind == wall || kind == second_wall) && !unit.empty());
    if (is_known) return;
    problems.push_back({cell.place, fmt::format("{} is no unit of the column {}", quoted(unit), quoted(cell.text)),
                        is_light ? "write reading (lx) or reading (fc)" : "write a unit like (in), (ft) or (m)"});
  }

  std::array<std::optional<std::size_t>, kinds> at_;
  std::array<std::string, kinds> units_;
  std::vector<Head> heads_;
};

/// Reads row by row.
class ReadingTable {
 public:
  ReadingTable(const Job& job, const CsvLine& header) : job_(job), columns_(header, problems_) {}

  void add(const CsvLine& row) {
    const std::size_t before = problems_.size();
    check_parted(row);
    MeterReading reading{.point = point(row)};
    if (const auto lx = illuminance_lx(row, columns_.value(row, Columns::reading))) {
      reading.lx = *lx;
      reading.origin = {columns_.value(row, Columns::reading).cell->place};
    }
    if (problems_.size() == before) readings_.push_back(std::move(reading));
  }

  [[nodiscard]] const Problems& problems() const { return problems_; }
  [[nodiscard]] std::vector<MeterReading> take() { return std::move(readings_); }

 private:
  /// A decimal comma parts a cell where commas part cells: its decimals stand in a column without a name, or in a note.
  void check_parted(const CsvLine& row) {
    constexpr const char* k_hint = "a comma in a cell parts it: put the cell between quotes, or write a point";
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i].is_empty()) continue;
      const Columns::Head head = columns_.head(i);
      if (head == Columns::Head::nameless) {
        problem(row[i].place, fmt::format("{} stands in a column without a name", quoted(row[i].text)), k_hint);
        return;
      }
      if (head == Columns::Head::note && row[i].text.find_first_not_of(k_digits) == std::string::npos) {
        problem(row[i].place, fmt::format("the note {} is a number alone", quoted(row[i].text)), k_hint);
      }
    }
  }

  /// Where the row's reading was taken.
  NamedPoint point(const CsvLine& row) {
    using enum Columns::Kind;
    const Value name = columns_.value(row, Columns::point);
    const bool is_taped =
        std::ranges::any_of(std::array{wall, distance, second_wall, second_distance, height},
                            [&](Columns::Kind kind) { return !columns_.value(row, kind).is_empty(); });
    return is_taped ? taped_point(row, name) : job_point(row, name);
  }

  NamedPoint job_point(const CsvLine& row, const Value& name) {
    if (name.is_empty()) {
      problem(first_of(row), "the row names no point and gives no place", std::string(k_place_example));
      return {};
    }
    const auto found = std::ranges::find(job_.points, name.cell->text, &NamedPoint::name);
    if (found == job_.points.end()) {
      unknown_point(*name.cell);
      return {};
    }
    if (!std::holds_alternative<Facing>(found->reads)) {
      problem(name.cell->place, fmt::format("point {} is not what a lux meter reads", quoted(found->name)),
              R"(a meter faces one way: give the point facing = "up" in the job, or the place by tape)");
    }
    if (const Value facing = columns_.value(row, Columns::facing); !facing.is_empty()) {
      problem(facing.cell->place, fmt::format("the job says where point {} faces", quoted(found->name)),
              "leave facing empty");
    }
    NamedPoint point = *found;
    point.origin = {name.cell->place};
    return point;
  }

  void unknown_point(const CsvCell& cell) {
    std::vector<std::string_view> known;
    for (const NamedPoint& point : job_.points) known.emplace_back(point.name);
    const std::string nearest = nearest_name(cell.text, known);
    problem(cell.place, fmt::format("the job has no point {}", quoted(cell.text)),
            nearest.empty() ? std::string(k_place_example) : fmt::format("did you mean {}?", quoted(nearest)));
  }

  NamedPoint taped_point(const CsvLine& row, const Value& name) {
    NamedPoint point;
    point.name = name.is_empty() ? fmt::format("line {}", row.front().place.line) : name.cell->text;
    point.origin = {first_of(row)};
    if (std::ranges::find(job_.points, point.name, &NamedPoint::name) != job_.points.end()) {
      problem(name.cell->place, fmt::format("point {} has its place in the job", quoted(point.name)),
              "leave walls, distances and height empty, or give this place another name");
    }
    const std::size_t before = problems_.size();
    point.from[0] = taped(row, Columns::wall, Columns::distance);
    point.from[1] = taped(row, Columns::second_wall, Columns::second_distance);
    const auto height_m = length_m(row, columns_.value(row, Columns::height), "height above the floor");
    point.height_m = height_m.value_or(0);
    point.reads = facing(columns_.value(row, Columns::facing));
    if (problems_.size() == before) check_place(row, point);
    return point;
  }

  Taped taped(const CsvLine& row, Columns::Kind wall, Columns::Kind distance) {
    const Value name = columns_.value(row, wall);
    if (name.is_empty()) {
      problem(first_of(row), "the row does not name two walls", std::string(k_place_example));
      return {};
    }
    const std::string found = wall_name(*name.cell);
    return {found, length_m(row, columns_.value(row, distance), "distance from wall " + quoted(found)).value_or(0)};
  }

  /// The room's wall that is meant, whatever its capitals.
  std::string wall_name(const CsvCell& cell) {
    std::vector<std::string_view> known;
    for (const std::string& wall : job_.room.wall_names) {
      if (wall == cell.text || lower(wall) == lower(cell.text)) return wall;
      known.emplace_back(wall);
    }
    const std::string nearest = nearest_name(cell.text, known);
    problem(cell.place, fmt::format("the room has no wall {}", quoted(cell.text)),
            nearest.empty() ? fmt::format("its walls are {}", fmt::join(known, ", "))
                            : fmt::format("did you mean {}?", quoted(nearest)));
    return cell.text;
  }

  Facing facing(const Value& value) {
    if (value.is_empty() || lower(value.cell->text) == "up") return {};
    if (lower(value.cell->text) == "down") return {.tilt_deg = 180};
    const auto degrees = number_from_text(value.cell->text);
    if (degrees && *degrees >= -360 && *degrees <= 360) return {.tilt_deg = 90, .toward_deg = *degrees};
    problem(value.cell->place, fmt::format("facing {} is unknown", quoted(value.cell->text)),
            "write up, down, or a direction on the plan in degrees: 0 east, 90 north");
    return {};
  }

  void check_place(const CsvLine& row, const NamedPoint& point) {
    const auto plan = plan_position(job_.room, point);
    if (!plan) {
      problem(columns_.value(row, Columns::second_wall).cell->place,
              fmt::format("walls {} and {} are parallel", quoted(point.from[0].wall), quoted(point.from[1].wall)),
              "measure from two walls that meet at an angle");
      return;
    }
    if (!is_inside(job_.room.corners_m, *plan)) {
      problem(columns_.value(row, Columns::distance).cell->place,
              fmt::format("the reading was taken {} outside the room",
                          length_text(distance_to_outline(job_.room.corners_m, *plan), job_.units)),
              "each distance is square to its wall, from the wall into the room");
      return;
    }
    const double ceiling_m = ceiling_of(job_.room).height_m(*plan);
    if (point.height_m <= ceiling_m) return;
    problem(columns_.value(row, Columns::height).cell->place,
            fmt::format("the height {} is above the ceiling at {}", length_text(point.height_m, job_.units),
                        length_text(ceiling_m, job_.units)),
            "heights are above the floor");
  }

  /// A cell's text with a point for a decimal comma, and the unit of its column.
  std::optional<std::string> measured_text(const Value& value) {
    std::string text = value.cell->text;
    switch (comma_in(text)) {
      case Comma::none:
        break;
      case Comma::decimal:
        text[text.find(',')] = '.';
        break;
      case Comma::unclear:
        problem(value.cell->place, fmt::format("the comma in {} may stand for decimals or thousands", quoted(text)),
                "write decimals after a point and thousands without a comma");
        return std::nullopt;
    }
    if (!value.unit.empty() && number_from_text(text)) text.append(" ").append(value.unit);
    return text;
  }

  std::optional<double> length_m(const CsvLine& row, const Value& value, const std::string& label) {
    if (value.is_empty()) {
      problem(first_of(row), fmt::format("the {} is missing", label), std::string(k_place_example));
      return std::nullopt;
    }
    const auto text = measured_text(value);
    if (!text) return std::nullopt;
    const auto metres = metres_from_text(*text);
    if (metres && *metres >= 0) return *metres;
    if (metres) {
      problem(value.cell->place, fmt::format("the {} is {}: below 0", label, length_text(*metres, job_.units)),
              "measure from the wall into the room, and up from the floor");
    } else {
      problem(value.cell->place, fmt::format("{}: {}", label, metres.error().what), metres.error().hint);
    }
    return std::nullopt;
  }

  std::optional<double> illuminance_lx(const CsvLine& row, const Value& value) {
    constexpr double k_most_lx = 200'000;  // full sun gives some 100 000 lx: common practice, no source
    if (value.is_empty()) {
      problem(first_of(row), "the row has no reading", "write it like 300 lx or 28 fc, or begin the row with #");
      return std::nullopt;
    }
    const auto text = measured_text(value);
    if (!text) return std::nullopt;
    const auto lx = lux_from_text(*text);
    if (lx && *lx <= k_most_lx) return *lx;
    if (lx) {
      problem(value.cell->place, fmt::format("a reading of {} is brighter than full sun", quoted(*text)),
              "check the decimal point and the unit");
    } else {
      problem(value.cell->place, lx.error().what, lx.error().hint);
    }
    return std::nullopt;
  }

  /// Where the row begins.
  static Place first_of(const CsvLine& row) {
    return std::ranges::find_if(row, [](const CsvCell& cell) { return !cell.is_empty(); })->place;
  }

  void problem(const Place& place, std::string what, std::string hint) {
    problems_.push_back({place, std::move(what), std::move(hint)});
  }

  const Job& job_;
  Problems problems_;
  Columns columns_;
  std::vector<MeterReading> readings_;
};

}  // namespace

Result<std::vector<MeterReading>> read_meter_readings(std::string_view bytes, std::string_view name, const Job& job) {
  constexpr std::size_t k_most_problems = 100;
  const auto lines = csv_lines(bytes, name);
  if (!lines) return tl::unexpected(lines.error());
  if (lines->empty()) {
    return failure({.file = std::string(name), .line = 1, .column = 1}, "there are no readings",
                   std::string(k_header_example));
  }
  ReadingTable table(job, lines->front());
  if (!table.problems().empty()) return tl::unexpected(table.problems());
  if (lines->size() == 1) {
    return failure(lines->front().front().place, "there are no readings below the column names",
                   "add a line for each reading");
  }
  if (lines->size() > k_most_meter_readings + 1) {
    return failure((*lines)[k_most_meter_readings + 1].front().place,
                   fmt::format("the table has {} readings", lines->size() - 1),
                   fmt::format("at most {} are compared at once", k_most_meter_readings));
  }
  for (std::size_t i = 1; i < lines->size() && table.problems().size() < k_most_problems; ++i) table.add((*lines)[i]);
  if (table.problems().empty()) return table.take();
  Problems problems = table.problems();
  std::ranges::stable_sort(problems, {},
                           [](const Problem& problem) { return std::pair(problem.place.line, problem.place.column); });
  return tl::unexpected(std::move(problems));
}

}  // namespace evenlit
