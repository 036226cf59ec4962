#include <array>
#include <cmath>
#include <numbers>

#include "evenlit/placing/line.hpp"
#include "evenlit/report/holes_report.hpp"
#include "evenlit/report/location.hpp"
#include "json_values.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

Json length_or_null(double metres) { return std::isfinite(metres) ? length(metres) : Json(nullptr); }

Json direction_deg(const Eigen::Vector2d& direction) {
  return number(std::atan2(direction.y() + 0.0, direction.x()) * 180 / std::numbers::pi);
}

const char* part_name(Hit::Part part) {
  constexpr std::array<const char*, 3> k_names{"hole", "housing", "bars"};
  return k_names[static_cast<std::size_t>(part)];
}

const char* kind_name(Obstacle::Kind kind) {
  constexpr std::array<const char*, 5> k_names{"framing", "keep_out", "wall", "obstruction", "can"};
  return k_names[static_cast<std::size_t>(kind)];
}

Json place(const Shape& room, const Eigen::Vector2d& point_m) {
  Json taped = Json::array();
  for (const Taped& each : taped_location(room, point_m)) {
    taped.push_back({{"wall", each.wall}, {"distance_m", length(each.distance_m)}});
  }
  return {{"x_m", length(point_m.x())}, {"y_m", length(point_m.y())}, {"from", taped}};
}

Json point_json(const Eigen::Vector2d& point_m) { return Json::array({length(point_m.x()), length(point_m.y())}); }

Json can(const Job& job, const CanHole& hole) {
  Json hits = Json::array();
  for (const Hit& hit : hole.hits) {
    hits.push_back({{"part", part_name(hit.part)},
                    {"kind", kind_name(hit.kind)},
                    {"name", hit.name},
                    {"overlap_m", length(hit.overlap_m)}});
  }
  Json sides = Json::array();
  for (const SideGap& side : hole.sides) {
    sides.push_back({{"toward_deg", direction_deg(side.toward)},
                     {"gap_m", length_or_null(side.gap_m)},
                     {"name", side.name.empty() ? Json(nullptr) : Json(side.name)}});
  }
  Json moves = Json::array();
  for (const Move& move : hole.moves) {
    moves.push_back({{"toward_deg", direction_deg(move.toward)},
                     {"least_m", length(move.distance_m[0])},
                     {"most_m", length(move.distance_m[1])}});
  }
  Json shortfalls = Json::array();
  for (const Shortfall& shortfall : hole.shortfalls) {
    shortfalls.push_back({{"what", shortfall.what == Shortfall::What::bay ? "bay" : "room"},
                          {"has_m", length(shortfall.has_m)},
                          {"needs_m", length(shortfall.needs_m)}});
  }
  return {{"number", hole.can + 1},
          {"type", job.cans[static_cast<std::size_t>(hole.can)].type},
          {"centre", place(job.room, hole.centre_m)},
          {"fits", hole.hits.empty()},
          {"hits", std::move(hits)},
          {"sides", std::move(sides)},
          {"probe_clear_m", length_or_null(hole.probe_clear_m)},
          {"probe_needed_m", length(hole.probe_needed_m)},
          {"moves", std::move(moves)},
          {"nearest", hole.nearest_m ? place(job.room, *hole.nearest_m) : Json(nullptr)},
          {"shortfalls", std::move(shortfalls)}};
}

/// A line as far as it is in the room around a place of it.
Json line_json(const Shape& room, const Line& line, const Eigen::Vector2d& place_m) {
  const double station = line.station_of(place_m);
  for (const Span& span : spans_within(room.corners_m, line)) {
    if (station < span[0] - k_touch_m || station > span[1] + k_touch_m) continue;
    return Json::array({point_json(line.at(span[0])), point_json(line.at(span[1]))});
  }
  return nullptr;
}

Json lines_json(const Job& job, const PlacedCan& placed) {
  constexpr std::array<const char*, 3> k_kinds{"row", "midway", "middle"};
  Json lines = Json::array();
  for (const CanLine& line : placed.lines) {
    Json with = Json::array();
    for (const int other : line.cans) with.push_back(other + 1);
    lines.push_back({{"kind", k_kinds[static_cast<std::size_t>(line.kind)]},
                     {"with", std::move(with)},
                     {"axis", line.axis == 0 ? "x" : "y"},
                     {"line", line_json(job.room, line.line, placed.place_m.value())}});
  }
  return lines;
}

}  // namespace

std::string place_json(const Job& job, int can, const PlacedCan& placed, const Problems& warnings) {
  Json hits = Json::array();
  for (const Hit& hit : placed.hits) hits.push_back(hit_text(hit, job.units));
  if (!placed.inside.empty()) hits.push_back("it would be inside of the " + placed.inside);
  return json_text({{"format", "evenlit place"},
                    {"version", k_version},
                    {"room", job.room.name},
                    {"can", can + 1},
                    {"wished", place(job.room, placed.wished_m)},
                    {"fits_there", placed.fits_there()},
                    {"hits", std::move(hits)},
                    {"place", placed.place_m ? place(job.room, *placed.place_m) : Json(nullptr)},
                    {"in_line", lines_json(job, placed)},
                    {"text", place_words(job, placed)},
                    {"warnings", remarks(warnings)}});
}

std::string holes_json(const Job& job, const HoleCheck& check, const std::vector<FanHit>& fans,
                       const Problems& warnings) {
  Json cans = Json::array();
  for (const CanHole& hole : check.holes) cans.push_back(can(job, hole));
  Json without_hole = Json::array();
  for (const int index : check.without_hole) without_hole.push_back(index + 1);
  Json blades = Json::array();
  for (const FanHit& hit : fans) {
    blades.push_back({{"can", hit.can + 1},
                      {"fan", job.fans[static_cast<std::size_t>(hit.fan)].name},
                      {"field_angle_deg", number(hit.field_angle_deg)},
                      {"blade_angle_deg", number(hit.blade_angle_deg)}});
  }
  return json_text({{"format", "evenlit holes"},
                    {"version", k_version},
                    {"room", job.room.name},
                    {"is_ceiling_known", is_ceiling_known(job)},
                    {"clearance_source", "NEC 410.116, from memory: check the locally adopted edition"},
                    {"cans", std::move(cans)},
                    {"not_checked", std::move(without_hole)},
                    {"fans", std::move(blades)},
                    {"warnings", remarks(warnings)}});
}

}  // namespace evenlit
