#include "evenlit/drawing/elevations.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "evenlit/base/figures.hpp"
#include "evenlit/drawing/plan_map.hpp"
#include "evenlit/drawing/text.hpp"
#include "evenlit/job/ceiling.hpp"
#include "free_space.hpp"
#include "isolux_lines.hpp"
#include "light_scale.hpp"
#include "map_sheet.hpp"
#include "plan_view.hpp"
#include "plan_walls.hpp"
#include "room_plan.hpp"

namespace evenlit {
namespace {

constexpr double k_above_wall = 50;   // for the cans' numbers
constexpr double k_below_wall = 122;  // for length, name and average
constexpr double k_between_walls = 48;
constexpr double k_between_rows = 20;
constexpr Width k_walls{k_map_content.left + k_wall_band, k_map_content.right - k_wall_band};

/// A wall with what is written below it.
struct Elevation {
  const WallLight& light;
  std::string name;
  std::string length;
  std::string average;
  Eigen::Vector2d size_m;

  [[nodiscard]] double width(double units_per_m) const {
    constexpr double k_longest_name = 170;
    const double texts = std::max({text_width(length, k_small_text, Weight::regular),
                                   std::min(k_longest_name, text_width(name, k_small_text, Weight::bold)),
                                   text_width(average, k_smallest_text, Weight::regular)});
    return std::max(units_per_m * size_m.x(), texts);
  }
};

std::string average_text(const Eigen::VectorXd& lx, Units units) {
  constexpr double k_error = 0.005;  // of what is interpolated between points
  if (lx.size() == 0) return "covered";
  return "average " + illuminance_text(lx.mean(), k_error * lx.mean(), units);
}

std::vector<Elevation> elevations_of(const Job& job, const std::vector<WallLight>& light) {
  std::vector<Elevation> all;
  for (const WallLight& wall : light) {
    const Eigen::Vector2d size_m = bounds_of(wall.grid.outline_m).sizes();
    all.push_back({wall, job.room.wall_names[wall.grid.wall], length_text(size_m.x(), job.units),
                   average_text(wall.total_lx, job.units), size_m});
  }
  return all;
}

/// Walls on one floor line.
struct Row {
  std::size_t first = 0;
  std::size_t count = 0;
  double height_m = 0;  ///< of the highest
};

struct Arrangement {
  double units_per_m = 1;
  std::vector<Row> rows;

  [[nodiscard]] double height(const Row& row) const { return k_above_wall + units_per_m * row.height_m + k_below_wall; }
  [[nodiscard]] double total_height() const {
    double sum = 0;
    for (const Row& row : rows) sum += height(row) + k_between_rows;
    return sum;
  }
};

Arrangement arranged(const std::vector<Elevation>& walls, double units_per_m) {
  Arrangement arrangement{units_per_m, {}};
  double right = k_walls.right;  // of the row so far
  for (std::size_t i = 0; i < walls.size(); ++i) {
    const double width = walls[i].width(units_per_m);
    right += k_between_walls + width;
    if (right > k_walls.right + 1e-6) {
      arrangement.rows.push_back({i, 0, 0});
      right = k_walls.left + width;
    }
    Row& row = arrangement.rows.back();
    ++row.count;
    row.height_m = std::max(row.height_m, walls[i].size_m.y());
  }
  return arrangement;
}

/// As large as a sheet of a good height allows.
Arrangement best_arrangement(const std::vector<Elevation>& walls) {
  constexpr double k_tallest_wall = 360;
  constexpr double k_good_height = 1150;
  constexpr double k_smallest_wall = 90;
  Eigen::Vector2d largest_m = Eigen::Vector2d::Zero();
  for (const Elevation& wall : walls) largest_m = largest_m.cwiseMax(wall.size_m);
  const double fitting = (k_walls.right - k_walls.left) / largest_m.x();
  double units_per_m = std::min(fitting, k_tallest_wall / largest_m.y());
  Arrangement arrangement = arranged(walls, units_per_m);
  while (arrangement.total_height() > k_good_height && units_per_m * largest_m.y() > k_smallest_wall) {
    units_per_m *= 0.98;
    arrangement = arranged(walls, units_per_m);
  }
  return arrangement;
}

/// A name inside a figure: in its middle, or as near to that as there is space, above or below.
std::optional<Text> name_inside(const std::string& name, const Polyline& figure, const FreeSpace& space) {
  const Eigen::AlignedBox2d bounds = bounds_of(figure);
  const std::string shown = elided(name, k_small_text, Weight::regular, bounds.sizes().x() - 2 * k_halo_width - 8);
  if (shown.empty()) return std::nullopt;
  const FreeSpace inside(figure);
  for (const double share : {0.5, 0.65, 0.35, 0.8, 0.2}) {
    const Eigen::Vector2d centre(bounds.center().x(), bounds.min().y() + share * bounds.sizes().y());
    const Text text = halo_text(shown, centre, k_small_text, Weight::regular);
    if (inside.is_free(discs_of(text)) && space.is_free(discs_of(text))) return text;
  }
  return std::nullopt;
}

std::vector<DrawingItem> names_inside(const std::vector<WallPart>& parts, const PlanView& view, FreeSpace& space) {
  std::vector<DrawingItem> names;
  for (const WallPart& part : parts) {
    const auto name = name_inside(part.name, view.at(part.outline_m), space);
    if (!name) continue;
    space.take(discs_of(*name));
    names.emplace_back(*name);
  }
  return names;
}

void add_outline(std::vector<DrawingItem>& items, const Polyline& outline) {
  items.emplace_back(Stroke{outline, true, 3.6, {{255, 255, 255}, 0.6}, {}});
  items.emplace_back(Stroke{outline, true, 1.6, k_dark, {}});
}

/// What stands against a wall hides it.
std::vector<DrawingItem> covered_marks(const std::vector<Polyline>& outlines) {
  std::vector<DrawingItem> items;
  for (const Polyline& outline : outlines) items.emplace_back(Fill{{outline}, k_white});
  for (const Polyline& outline : outlines) items.emplace_back(Stroke{outline, true, 1.6, k_dark, {}});
  return items;
}

void add_picture(Sheet& sheet, const WallLight& light, const LightScale& scale, const PlanView& view) {
  const WallGrid& grid = light.grid;
  const SampledField field_m = close_field(sampled_field(grid.lattice, light.total_lx));
  const Polyline outline = view.at(grid.outline_m);
  std::vector<Polyline> covered;
  for (const WallPart& part : grid.covered) covered.push_back(view.at(part.outline_m));

  FreeSpace space(outline);
  std::vector<DrawingItem> names = names_inside(grid.covered, view, space);
  for (const Polyline& figure : covered) space.take(discs_on(figure));
  append(names, names_inside(grid.areas, view, space));

  sheet.items.emplace_back(
      FalseColour{.field = view.at(painted(field_m, scale)), .top = scale.painted(scale.top_lx), .clip = {outline}});
  sheet.add(isolux_lines(field_m, grid.outline_m, isolux_levels(scale), view, k_small_text, space));
  for (const WallPart& area : grid.areas) add_outline(sheet.items, view.at(area.outline_m));
  sheet.add(covered_marks(covered));
  sheet.items.push_back(wall_band(grid.outline_m, view));
  sheet.add(std::move(names));
}

/// How high a wall is at a place.
double height_at(const Polygon& outline_m, double along_m) {
  double height_m = 0;
  for (std::size_t i = 0; i < outline_m.size(); ++i) {
    const Eigen::Vector2d& a = outline_m[i];
    const Eigen::Vector2d& b = outline_m[(i + 1) % outline_m.size()];
    if (std::min(a.x(), b.x()) > along_m || std::max(a.x(), b.x()) < along_m || a.x() == b.x()) continue;
    height_m = std::max(height_m, a.y() + (along_m - a.x()) / (b.x() - a.x()) * (b.y() - a.y()));
  }
  return height_m;
}

std::vector<DrawingItem> can_tick(const Eigen::Vector2d& at) {
  return {Stroke{{at, at - Eigen::Vector2d(0, 12)}, false, 2.2, k_dark, {}}};
}

/// Numbers that lie over none before them.
void add_cans(Sheet& sheet, const WallGrid& grid, const PlanView& view) {
  constexpr double k_number = 26;  // above the band
  FreeSpace space({{0, 0}, {k_map_width, 0}, {k_map_width, 1e6}, {0, 1e6}});
  for (const LuminaireBefore& can : grid.luminaires) {
    const Eigen::Vector2d ceiling = view.at(Eigen::Vector2d(can.along_m, height_at(grid.outline_m, can.along_m)));
    const Eigen::Vector2d top = ceiling - Eigen::Vector2d(0, k_wall_band);
    sheet.add(can_tick(top));
    const Text number =
        centred_text(std::to_string(can.luminaire + 1), top - Eigen::Vector2d(0, k_number), k_small_text, Weight::bold);
    if (!space.is_free(discs_of(number))) continue;
    space.take(discs_of(number));
    sheet.items.emplace_back(number);
  }
}

void add_texts(Sheet& sheet, const Elevation& wall, const PlanView& view, double width) {
  const Eigen::Vector2d left = view.at(Eigen::Vector2d(0, 0));
  const Eigen::Vector2d right = view.at(Eigen::Vector2d(wall.size_m.x(), 0));
  sheet.add(dimension_line(left, right, k_wall_band + 22, wall.length));
  const double middle = (left.x() + right.x()) / 2;
  sheet.write(elided(wall.name, k_small_text, Weight::bold, width), middle, left.y() + 82, k_small_text, Weight::bold,
              k_dark, Anchor::middle);
  sheet.write(wall.average, middle, left.y() + 110, k_smallest_text, Weight::regular, k_grey, Anchor::middle);
}

/// @return where the walls end
double add_walls(Sheet& sheet, const std::vector<Elevation>& walls, const LightScale& colours, double top) {
  const Arrangement arrangement = best_arrangement(walls);
  const double scale = arrangement.units_per_m;
  for (const Row& row : arrangement.rows) {
    const double floor = top + k_above_wall + scale * row.height_m;
    double left = k_walls.left;
    for (std::size_t i = row.first; i < row.first + row.count; ++i) {
      const double width = walls[i].width(scale);
      const PlanView view{scale, {left + (width - scale * walls[i].size_m.x()) / 2, floor}};
      add_texts(sheet, walls[i], view, width);
      add_picture(sheet, walls[i].light, colours, view);
      add_cans(sheet, walls[i].light.grid, view);
      left += width + k_between_walls;
    }
    top += arrangement.height(row) + k_between_rows;
  }
  return top;
}

std::vector<LegendEntry> legend_of(const std::vector<WallLight>& light) {
  std::vector<LegendEntry> entries;
  const auto any = [&](auto parts) {
    return std::ranges::any_of(light, [&](const WallLight& wall) { return !(wall.grid.*parts).empty(); });
  };
  const Polyline sample{{-15, -10}, {15, -10}, {15, 10}, {-15, 10}};
  if (any(&WallGrid::luminaires)) {
    entries.push_back({can_tick({0, 6}), "the can nearest to the wall there, by its number", 12});
  }
  if (any(&WallGrid::areas))
    entries.push_back(
        {{Fill{{sample}, k_light_grey}, Stroke{sample, true, 1.6, k_dark, {}}}, "door, window and the like"});
  if (any(&WallGrid::covered)) entries.push_back({covered_marks({sample}), "covered by what stands against the wall"});
  return entries;
}

std::string ceiling_text(const Job& job) {
  const Ceiling ceiling = ceiling_of(job.room);
  const std::string highest = length_text(ceiling.highest_m, job.units);
  if (ceiling.is_level()) return "ceiling " + highest;
  return "ceiling " + length_text(ceiling.lowest_m, job.units) + " to " + highest;
}

double maximum_lx(const std::vector<WallLight>& light) {
  double maximum = 0;
  for (const WallLight& wall : light) {
    if (wall.total_lx.size() > 0) maximum = std::max(maximum, wall.total_lx.maxCoeff());
  }
  return maximum;
}

/// Of all points, each of which stands for all but the same area.
double average_lx(const std::vector<WallLight>& light) {
  double sum = 0;
  double points = 0;
  for (const WallLight& wall : light) {
    sum += wall.total_lx.sum();
    points += static_cast<double>(wall.total_lx.size());
  }
  return points > 0 ? sum / points : 0;
}

/// Where one bright spot would leave all else dark, colours go by the square root.
LightScale scale_of(const Job& job, const std::vector<WallLight>& light, std::optional<double> top_lx) {
  constexpr double k_spotty = 3;  // maximum over average
  const double maximum = maximum_lx(light);
  return {.units = job.units,
          .top_lx = top_lx.value_or(automatic_top_lx(maximum, job.units)),
          .is_root = maximum > k_spotty * average_lx(light)};
}

std::size_t points_of(const std::vector<WallLight>& light) {
  std::size_t points = 0;
  for (const WallLight& wall : light) points += wall.grid.lattice.points_m.size();
  return points;
}

}  // namespace

Drawing elevations(const Job& job, const std::vector<WallLight>& light, std::optional<double> top_lx) {
  const LightScale scale = scale_of(job, light, top_lx);
  Sheet sheet;
  const double heading = add_map_heading(
      sheet, job.room.name,
      {"light on the walls  ·  seen from inside, turning round to the right  ·  " + ceiling_text(job)}, k_map_content);
  const double walls_bottom = add_walls(sheet, elevations_of(job, light), scale, heading + 6);
  add_map_scale(sheet, scale, k_map_content, walls_bottom + 34);
  const double legend_bottom = add_legend(sheet, legend_of(light), k_map_content, walls_bottom + 112);
  const double bottom = add_footer(sheet,
                                   "Calculated at " + std::to_string(points_of(light)) +
                                       " points of the walls; what the room reflects, at one in " +
                                       std::to_string(k_wall_block * k_wall_block) + " of them.",
                                   k_map_content, legend_bottom + 24);
  return {k_map_width, std::ceil(bottom), {255, 255, 255}, std::move(sheet.items)};
}

}  // namespace evenlit
