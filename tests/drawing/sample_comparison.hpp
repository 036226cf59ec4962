#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "drawing/sample_light.hpp"
#include "evenlit/placing/comparison.hpp"

namespace evenlit::sample {

// Layouts of invented rooms with made-up light, all rooms of one plan and one grid.

/// A lit room as a layout of a comparison.
inline ComparedLayout layout_of(const Lit& lit, const std::string& name) {
  ComparedLayout layout{.layout = {.name = name},
                        .cans = lit.job.cans,
                        .luminaires = lit.scene.luminaires,
                        .field = lit.light.field,
                        .statistics = lit.light.statistics,
                        .average_error_lx = lit.light.average_error_lx,
                        .minimum_error_lx = lit.light.field.error_lx[lit.light.statistics.minimum_at],
                        .watts = lit.light.watts,
                        .wants = {{.kind = Want::Kind::average,
                                   .wanted = *lit.job.target_lx,
                                   .has = {lit.light.statistics.average_lx, lit.light.average_error_lx}}},
                        .misfits = 0};
  for (const Luminaire& luminaire : lit.scene.luminaires) {
    layout.layout.positions_m.emplace_back(luminaire.position_m.head<2>());
  }
  return layout;
}

/// The rooms' layouts side by side, `layout 1` and so on.
inline Comparison comparison_of(const std::vector<Lit>& lit) {
  Comparison comparison{.type = "downlight"};
  for (const Lit& one : lit) {
    comparison.rows.push_back(layout_of(one, "layout " + std::to_string(comparison.rows.size() + 1)));
    const ComparedLayout& row = comparison.rows.back();
    if (row.gives_all()) comparison.fewest = std::min(comparison.fewest.value_or(row.count()), row.count());
  }
  return comparison;
}

}  // namespace evenlit::sample
