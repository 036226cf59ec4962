#include "doubts_json.hpp"
#include "evenlit/report/search_report.hpp"
#include "json_values.hpp"
#include "wants_json.hpp"

namespace evenlit {
namespace {

constexpr int k_version = 1;

const char* kind_name(SearchedLayout::Kind kind) {
  switch (kind) {
    case SearchedLayout::Kind::own:
      return "own";
    case SearchedLayout::Kind::brightest:
      return "brightest";
    case SearchedLayout::Kind::giving:
      return "giving";
    case SearchedLayout::Kind::free:
      break;
  }
  return "free";
}

Json layout_json(const SearchedLayout& searched) {
  const ComparedLayout& figures = searched.figures;
  const Layout& layout = figures.layout;
  Json positions = Json::array();
  for (const Eigen::Vector2d& position : layout.positions_m) {
    positions.push_back({{"x_m", length(position.x())}, {"y_m", length(position.y())}});
  }
  return {{"kind", kind_name(searched.kind)},
          {"name", layout.name},
          {"type", layout.type},
          {"cans", figures.count()},
          {"average_lx", number(figures.statistics.average_lx)},
          {"average_error_lx", number(figures.average_error_lx)},
          {"minimum_lx", number(figures.statistics.minimum_lx)},
          {"minimum_error_lx", number(figures.minimum_error_lx)},
          {"minimum_bound_lx", searched.kind == SearchedLayout::Kind::free ? number(searched.bound_lx) : Json(nullptr)},
          {"uniformity_minimum_over_average", number(figures.statistics.uniformity_min_avg)},
          {"power_w", number(figures.watts)},
          {"cost", number(figures.cost)},
          {"misfits", figures.misfits ? Json(*figures.misfits) : Json(nullptr)},
          {"wants", wants_json(figures.wants)},
          {"gives_all_wanted", figures.gives_all()},
          {"is_worth_weighing", searched.is_choice},
          {"positions", std::move(positions)},
          {"what_if", doubts_json(figures.doubts)}};
}

}  // namespace

std::string search_json(const Job& job, const SearchResult& result, const Problems& warnings) {
  Json layouts = Json::array();
  for (const SearchedLayout& layout : result.layouts) layouts.push_back(layout_json(layout));
  return json_text({{"format", "evenlit search"},
                    {"version", k_version},
                    {"room", job.room.name},
                    {"currency", job.currency},
                    {"layouts", std::move(layouts)},
                    {"cheapest_layout", result.cheapest ? Json(*result.cheapest + 1) : Json(nullptr)},
                    {"raster_m", length(result.step_m)},
                    {"places", result.places},
                    {"layouts_looked_at", result.looked_at},
                    {"types_without_hole", result.without_hole},
                    {"types_without_place", result.without_place},
                    {"is_whole", result.is_whole},
                    {"warnings", remarks(warnings)}});
}

}  // namespace evenlit
