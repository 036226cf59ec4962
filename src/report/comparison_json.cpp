#include "evenlit/placing/hole_check.hpp"
#include "evenlit/report/comparison_report.hpp"
#include "json_values.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

Json move_json(const PartMove& move) {
  const bool is_all = move.part == PartMove::Part::all;
  return {{"part", is_all                             ? "all"
                   : move.part == PartMove::Part::row ? "row"
                                                      : "column"},
          {"number", is_all ? Json(nullptr) : Json(move.number)},
          {"east_m", length(move.by_m.x())},
          {"north_m", length(move.by_m.y())}};
}

Json layout_json(const Comparison& comparison, const ComparedLayout& row) {
  const Layout& layout = row.layout;
  const Statistics& s = row.statistics;
  Json positions = Json::array();
  for (const Eigen::Vector2d& position : layout.positions_m) {
    positions.push_back({{"x_m", length(position.x())}, {"y_m", length(position.y())}});
  }
  Json moves = Json::array();
  for (const PartMove& move : row.moves) moves.push_back(move_json(move));
  const auto if_grid = [&](const Json& value) { return layout.rows > 0 ? value : Json(nullptr); };
  const std::optional<double> watts_per_m2 =
      row.watts ? std::optional(*row.watts / comparison.floor_area_m2) : std::nullopt;
  return {{"name", layout.name},
          {"cans", row.count()},
          {"rows", if_grid(layout.rows)},
          {"columns", if_grid(layout.columns)},
          {"spacing_x_m", has_spacing(layout, 0) ? length(layout.spacing_m.x()) : Json(nullptr)},
          {"spacing_y_m", has_spacing(layout, 1) ? length(layout.spacing_m.y()) : Json(nullptr)},
          {"wall_offset_x_m", row.count() > 0 ? length(layout.wall_offset_m.x()) : Json(nullptr)},
          {"wall_offset_y_m", row.count() > 0 ? length(layout.wall_offset_m.y()) : Json(nullptr)},
          {"average_lx", number(s.average_lx)},
          {"average_error_lx", number(row.average_error_lx)},
          {"minimum_lx", number(s.minimum_lx)},
          {"minimum_error_lx", number(row.minimum_error_lx)},
          {"uniformity_minimum_over_average", number(s.uniformity_min_avg)},
          {"percentile_10_lx", number(s.p10_lx)},
          {"share_at_target_fraction", number(s.share_at_target)},
          {"gives_all_wanted", row.gives_all()},
          {"cost", number(row.cost)},
          {"type", layout.type},
          {"power_w", number(row.watts)},
          {"power_density_w_m2", number(watts_per_m2)},
          {"misfits", row.misfits ? Json(*row.misfits) : Json(nullptr)},
          {"moves", std::move(moves)},
          {"positions", std::move(positions)}};
}

}  // namespace

std::string comparison_json(const Job& job, const Comparison& comparison, const std::vector<int>& without_layout,
                            const Problems& warnings) {
  Json layouts = Json::array();
  for (const ComparedLayout& row : comparison.rows) layouts.push_back(layout_json(comparison, row));
  return json_text({{"format", "evenlit compare"},
                    {"version", k_version},
                    {"room", job.room.name},
                    {"target_lx", number(job.target_lx)},
                    {"is_ceiling_known", is_ceiling_known(job)},
                    {"type", comparison.type},
                    {"other_cans", comparison.others},
                    {"layouts", std::move(layouts)},
                    {"fewest_cans_at_target", comparison.fewest ? Json(*comparison.fewest) : Json(nullptr)},
                    {"counts_without_layout", without_layout},
                    {"left_out", comparison.left_out},
                    {"not_cleared", comparison.stuck},
                    {"warnings", remarks(warnings)}});
}

}  // namespace evenlit
