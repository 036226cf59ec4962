#include <array>
#include <cmath>
#include <numbers>

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

}  // namespace

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
