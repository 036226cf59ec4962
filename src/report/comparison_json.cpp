#include "comparison_words.hpp"
#include "doubts_json.hpp"
#include "evenlit/placing/hole_check.hpp"
#include "evenlit/report/comparison_report.hpp"
#include "json_values.hpp"
#include "wants_json.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

Json move_json(const PartMove& move) {
  const bool is_all = move.part == PartMove::Part::all;
  return {{"part", part_word(move.part)},
          {"number", is_all ? Json(nullptr) : Json(move.number)},
          {"east_m", length(move.by_m.x())},
          {"north_m", length(move.by_m.y())}};
}

/// What the eye finds of a layout's moves; null where it has none.
Json looks_json(const ComparedLayout& row) {
  if (row.moves.empty()) return nullptr;
  using Symmetry = MovedLayout::Symmetry;
  return {{"is_as_straight", row.is_straight},
          {"is_spacing_as_even", row.is_spacing_even},
          {"is_as_symmetric", row.symmetry == Symmetry::absent ? Json(nullptr) : Json(row.symmetry == Symmetry::kept)}};
}

Json part_json(const LayoutPart& part) {
  return {{"centre_x_m", length(part.centre_m.x())},
          {"centre_y_m", length(part.centre_m.y())},
          {"rows", part.rows},
          {"columns", part.columns},
          {"spacing_x_m", part.columns > 1 ? length(part.spacing_m.x()) : Json(nullptr)},
          {"spacing_y_m", part.rows > 1 ? length(part.spacing_m.y()) : Json(nullptr)}};
}

Json rule_json(const RuleOfThumb& rule, const Comparison& comparison, std::optional<double> target_lx) {
  const RuleResult result = result_of(rule, comparison, target_lx);
  const auto of_row = [&](const auto& value) {
    return result.row != nullptr ? Json(value(*result.row)) : Json(nullptr);
  };
  return {{"rule", rule.name},
          {"reckoning", rule.reckoning},
          {"lacks", rule.lacks.empty() ? Json(nullptr) : Json(rule.lacks)},
          {"cans", rule.count ? Json(*rule.count) : Json(nullptr)},
          {"layout", of_row([](const ComparedLayout& row) { return row.layout.name; })},
          {"cans_laid_out", of_row([](const ComparedLayout& row) { return row.count(); })},
          {"average_lx", of_row([](const ComparedLayout& row) { return number(row.statistics.average_lx); })},
          {"minimum_lx", of_row([](const ComparedLayout& row) { return number(row.statistics.minimum_lx); })},
          {"average_above_target_fraction", number(result.above_target)},
          {"cans_more_than_fewest", result.more_than_fewest ? Json(*result.more_than_fewest) : Json(nullptr)}};
}

Json layout_json(const ComparedLayout& row) {
  const Layout& layout = row.layout;
  const Statistics& s = row.statistics;
  Json positions = Json::array();
  for (const Eigen::Vector2d& position : layout.positions_m) {
    positions.push_back({{"x_m", length(position.x())}, {"y_m", length(position.y())}});
  }
  Json parts = Json::array();
  for (const LayoutPart& part : layout.parts) parts.push_back(part_json(part));
  Json moves = Json::array();
  for (const PartMove& move : row.moves) moves.push_back(move_json(move));
  const auto if_grid = [&](const Json& value) { return layout.rows > 0 ? value : Json(nullptr); };
  const std::optional<double> watts_per_m2 = row.watts ? std::optional(*row.watts / row.floor_area_m2) : std::nullopt;
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
          {"wants", wants_json(row.wants)},
          {"gives_all_wanted", row.gives_all()},
          {"cost", number(row.cost)},
          {"type", layout.type},
          {"power_w", number(row.watts)},
          {"power_density_w_m2", number(watts_per_m2)},
          {"misfits", row.misfits ? Json(*row.misfits) : Json(nullptr)},
          {"rows_run_x_m_per_m", number(layout.along.x())},
          {"rows_run_y_m_per_m", number(layout.along.y())},
          {"parts", std::move(parts)},
          {"moves", std::move(moves)},
          {"moved", looks_json(row)},
          {"positions", std::move(positions)},
          {"what_if", doubts_json(row.doubts)}};
}

Json job_json(const ComparedJob& compared) {
  Json json{{"room", compared.job.room.name},
            {"floor_area_m2", number(compared.row.floor_area_m2)},
            {"currency", compared.job.currency},
            {"target_lx", number(compared.job.target_lx)},
            {"is_ceiling_known", is_ceiling_known(compared.job)}};
  json.update(layout_json(compared.row));
  return json;
}

}  // namespace

std::string jobs_json(const std::vector<ComparedJob>& jobs, const Problems& warnings) {
  Json all = Json::array();
  for (const ComparedJob& each : jobs) all.push_back(job_json(each));
  return json_text({{"format", "evenlit compare jobs"},
                    {"version", k_version},
                    {"jobs", std::move(all)},
                    {"warnings", remarks(warnings)}});
}

std::string comparison_json(const Job& job, const Comparison& comparison, const WishedLayouts& wished,
                            const Problems& warnings) {
  Json layouts = Json::array();
  for (const ComparedLayout& row : comparison.rows) layouts.push_back(layout_json(row));
  Json rules = Json::array();
  for (const RuleOfThumb& rule : wished.rules) rules.push_back(rule_json(rule, comparison, job.target_lx));
  return json_text({{"format", "evenlit compare"},
                    {"version", k_version},
                    {"room", job.room.name},
                    {"target_lx", number(job.target_lx)},
                    {"is_ceiling_known", is_ceiling_known(job)},
                    {"type", comparison.type},
                    {"other_cans", comparison.others},
                    {"layouts", std::move(layouts)},
                    {"fewest_cans_at_target", comparison.fewest ? Json(*comparison.fewest) : Json(nullptr)},
                    {"counts_without_layout", wished.choice.without_layout},
                    {"left_out", comparison.left_out},
                    {"is_asked_spacing_too_close", wished.choice.is_wish_too_close},
                    {"not_centred", wished.not_centred},
                    {"not_cleared", comparison.stuck},
                    {"rules_of_thumb", std::move(rules)},
                    {"warnings", remarks(warnings)}});
}

}  // namespace evenlit
