#include "evenlit/view/light_texture.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <optional>

#include "atlas.hpp"
#include "evenlit/base/parallel.hpp"
#include "evenlit/base/srgb.hpp"
#include "free_pieces.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

constexpr int k_border = 1;

/// Texels that are lit together, a side; tiles that one thread takes at a time; after how many of these it is told how
/// far the texture is.
constexpr int k_tile = 24;
constexpr int k_tiles_together = 16;
constexpr int k_blocks_told = 8;

/// Where there is light on a surface.
struct FreePart {
  FaceFrame frame;
  std::vector<Trapezoid> pieces;
  Eigen::AlignedBox2d bounds;
};

std::vector<FreePart> free_parts(const Scene& scene) {
  std::vector<FreePart> parts;
  for (const Surface& surface : scene.surfaces) {
    FreePart& part = parts.emplace_back();
    part.frame = frame_of(surface.corners_m, surface.normal);
    part.pieces = without_slivers(free_pieces(surface.free_m, part.frame));
    for (const Trapezoid& piece : part.pieces) {
      for (const Vector2d& corner : piece) part.bounds.extend(corner);
    }
  }
  return parts;
}

int texels_along(double length_m, double texel_m) {
  return std::max(1, static_cast<int>(std::ceil(length_m / texel_m - 1e-9)));
}

/// Rectangles of the parts with texels of a size in so many columns; empty where they do not fit.
std::optional<LightTexture> laid_out(const std::vector<FreePart>& parts, double texel_m, int width) {
  std::vector<AtlasCell> cells;
  for (const FreePart& part : parts) {
    AtlasCell& cell = cells.emplace_back();
    if (part.pieces.empty()) continue;
    const Vector2d size = part.bounds.sizes();
    if (size.maxCoeff() > k_most_texels * texel_m) return std::nullopt;
    cell.columns = texels_along(size.x(), texel_m) + 2 * k_border;
    cell.rows = texels_along(size.y(), texel_m) + 2 * k_border;
    if (cell.columns > width) return std::nullopt;
  }
  const int rows = lay_out(cells, width);
  if (rows > k_most_texels) return std::nullopt;
  LightTexture texture{
      .width = width, .height = std::max(rows, 1), .texel_m = texel_m, .rectangles = {}, .groups_lx = {}};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    TextureRectangle& rectangle = texture.rectangles.emplace_back();
    if (parts[i].pieces.empty()) continue;
    rectangle = {.frame = parts[i].frame,
                 .low_m = parts[i].bounds.min(),
                 .size_m = parts[i].bounds.sizes(),
                 .column = cells[i].column + k_border,
                 .row = cells[i].row + k_border,
                 .columns = cells[i].columns - 2 * k_border,
                 .rows = cells[i].rows - 2 * k_border};
  }
  return texture;
}

/// With as few texels as a number of columns leads to.
std::optional<LightTexture> smallest(const std::vector<FreePart>& parts, double texel_m) {
  constexpr int k_width_step = 32;
  std::optional<LightTexture> best;
  for (int width = k_width_step; width <= k_most_texels; width += k_width_step) {
    auto texture = laid_out(parts, texel_m, width);
    if (texture && (!best || texture->width * texture->height < best->width * best->height)) best = std::move(texture);
  }
  return best;
}

LightTexture fitting(const std::vector<FreePart>& parts) {
  constexpr double k_usual_m = 0.02;
  constexpr double k_wider = 1.05;
  for (double texel_m = k_usual_m;; texel_m *= k_wider) {
    if (auto texture = smallest(parts, texel_m)) return *texture;
  }
}

/// For every texel of a rectangle the free point that is nearest to its middle, as far as it has one.
class NearestSamples {
 public:
  explicit NearestSamples(const TextureRectangle& rectangle)
      : rectangle_(rectangle),
        step_m_(rectangle.size_m.cwiseQuotient(Vector2d(rectangle.columns, rectangle.rows))),
        points_m_(static_cast<std::size_t>(rectangle.columns) * rectangle.rows) {}

  /// Points of a piece, a little inside of it: where surfaces meet, light is hard to tell.
  void add(const Trapezoid& piece) {
    const double inside_m = std::min(k_inside_m, height_m(piece) / 4);
    const double low = piece[0].y() + inside_m;
    const double high = piece[3].y() - inside_m;
    const auto [first_row, last_row] =
        steps(piece[0].y() - rectangle_.low_m.y(), piece[3].y() - rectangle_.low_m.y(), step_m_.y(), rectangle_.rows);
    for (int row = first_row; row <= last_row; ++row) {
      const double y = std::clamp(middle_m(0, row).y(), low, high);
      const double up = (y - piece[0].y()) / height_m(piece);
      add_row(row, y, piece[0].x() + up * (piece[3].x() - piece[0].x()),
              piece[1].x() + up * (piece[2].x() - piece[1].x()));
    }
  }

  std::vector<std::optional<Vector2d>> take() { return std::move(points_m_); }

 private:
  static constexpr double k_inside_m = 1e-3;

  /// The texels, counted along one side, that a stretch touches.
  static std::pair<int, int> steps(double from_m, double to_m, double step_m, int count) {
    const auto step_at = [&](double m) { return std::clamp(static_cast<int>(std::floor(m / step_m)), 0, count - 1); };
    return {step_at(from_m), step_at(to_m)};
  }

  [[nodiscard]] Vector2d middle_m(int column, int row) const {
    return rectangle_.low_m + Vector2d(column + 0.5, row + 0.5).cwiseProduct(step_m_);
  }

  void add_row(int row, double y, double left, double right) {
    const double inside_m = std::min(k_inside_m, (right - left) / 4);
    const auto [first, last] =
        steps(left - rectangle_.low_m.x(), right - rectangle_.low_m.x(), step_m_.x(), rectangle_.columns);
    for (int column = first; column <= last; ++column) {
      const Vector2d middle = middle_m(column, row);
      const Vector2d point(std::clamp(middle.x(), left + inside_m, right - inside_m), y);
      auto& held = points_m_[static_cast<std::size_t>(row) * rectangle_.columns + column];
      if (!held || (point - middle).squaredNorm() < (*held - middle).squaredNorm()) held = point;
    }
  }

  const TextureRectangle& rectangle_;
  Vector2d step_m_;
  std::vector<std::optional<Vector2d>> points_m_;
};

std::vector<std::optional<Vector2d>> samples_of(const FreePart& part, const TextureRectangle& rectangle) {
  NearestSamples samples(rectangle);
  for (const Trapezoid& piece : part.pieces) samples.add(piece);
  return samples.take();
}

/// Texels of one surface that are lit together.
struct Tile {
  int surface = 0;
  Facets facets;
  std::vector<Eigen::Index> texels;  ///< in the texture
};

Tile tile_at(int surface, const Vector3d& normal, const TextureRectangle& rectangle, int width,
             const std::vector<std::optional<Vector2d>>& samples, int first_column, int first_row) {
  Tile tile{.surface = surface, .facets = {}, .texels = {}};
  for (int row = first_row; row < std::min(first_row + k_tile, rectangle.rows); ++row) {
    for (int column = first_column; column < std::min(first_column + k_tile, rectangle.columns); ++column) {
      const auto& sample = samples[static_cast<std::size_t>(row) * rectangle.columns + column];
      if (!sample) continue;
      tile.facets.add(rectangle.frame.lifted(*sample), normal);
      tile.texels.push_back(static_cast<Eigen::Index>(rectangle.row + row) * width + rectangle.column + column);
    }
  }
  return tile;
}

std::vector<Tile> tiles_of(const Scene& scene, const std::vector<FreePart>& parts, const LightTexture& texture) {
  std::vector<Tile> tiles;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const TextureRectangle& rectangle = texture.rectangles[i];
    if (rectangle.columns == 0) continue;
    const auto samples = samples_of(parts[i], rectangle);
    for (int row = 0; row < rectangle.rows; row += k_tile) {
      for (int column = 0; column < rectangle.columns; column += k_tile) {
        Tile tile =
            tile_at(static_cast<int>(i), scene.surfaces[i].normal, rectangle, texture.width, samples, column, row);
        if (!tile.texels.empty()) tiles.push_back(std::move(tile));
      }
    }
  }
  return tiles;
}

void put(const Tile& tile, const FacetLight& light, LightTexture& texture) {
  const bool has_colours = light.rgb_lx[0].size() > 0;
  for (Eigen::Index group = 0; group < light.lx.cols(); ++group) {
    auto& planes = texture.groups_lx[group];
    for (Eigen::Index i = 0; i < light.lx.rows(); ++i) {
      Eigen::Vector3f rgb = Eigen::Vector3f::Ones();
      if (has_colours) {
        for (int colour = 0; colour < 3; ++colour) rgb[colour] = light.rgb_lx[colour](i, group);
        const float whole = k_luminance_of_rgb.cast<float>().dot(rgb);
        rgb = whole > 0 ? Eigen::Vector3f(rgb / whole) : Eigen::Vector3f::Ones();
      }
      for (int colour = 0; colour < 3; ++colour) planes[colour][tile.texels[i]] = light.lx(i, group) * rgb[colour];
    }
  }
}

/// Repeats texels that are known into those around them, up to the border's: each takes after the nearest, counted in
/// steps aside, up and down.
void fill_around(const TextureRectangle& rectangle, const std::vector<char>& is_known, LightTexture& texture) {
  const int columns = rectangle.columns + 2 * k_border;
  const int rows = rectangle.rows + 2 * k_border;
  const auto texel = [&](int at) {
    return static_cast<Eigen::Index>(rectangle.row - k_border + at / columns) * texture.width + rectangle.column -
           k_border + at % columns;
  };
  std::vector<int> reached;
  std::vector<char> is_reached(static_cast<std::size_t>(columns) * rows);
  for (int at = 0; at < columns * rows; ++at) {
    is_reached[at] = is_known[texel(at)];
    if (is_reached[at] != 0) reached.push_back(at);
  }
  for (std::size_t next = 0; next < reached.size(); ++next) {
    const int from = reached[next];
    const auto reach = [&](bool is_inside, int to) {
      if (!is_inside || is_reached[to] != 0) return;
      is_reached[to] = 1;
      reached.push_back(to);
      for (auto& planes : texture.groups_lx) {
        for (auto& plane : planes) plane[texel(to)] = plane[texel(from)];
      }
    };
    const int column = from % columns;
    reach(column > 0, from - 1);
    reach(column + 1 < columns, from + 1);
    reach(from >= columns, from - columns);
    reach(from + columns < columns * rows, from + columns);
  }
}

void light_tiles(const LitRoom& room, const std::vector<Tile>& tiles, const Progress& progress, LightTexture& texture) {
  const int blocks = (static_cast<int>(tiles.size()) + k_tiles_together - 1) / k_tiles_together;
  for (int told = 0; told < blocks; told += k_blocks_told) {
    const int count = std::min(k_blocks_told, blocks - told);
    parallel_for(count, [&](int i) {
      const auto first = static_cast<std::size_t>(told + i) * k_tiles_together;
      const std::size_t last = std::min(first + k_tiles_together, tiles.size());
      std::vector<FacetRun> runs;
      for (std::size_t k = first; k < last; ++k) runs.push_back({tiles[k].surface, &tiles[k].facets});
      const std::vector<FacetLight> lights = room.light_on(runs);
      for (std::size_t k = first; k < last; ++k) put(tiles[k], lights[k - first], texture);
    });
    if (progress) progress(static_cast<double>(told + count) / blocks);
  }
}

}  // namespace

Vector2d TextureRectangle::place_of(const Vector3d& point_m) const {
  const Vector2d inside = (frame.flat(point_m) - low_m).cwiseMax(0).cwiseMin(size_m);
  return Vector2d(column, row) + inside.cwiseQuotient(size_m).cwiseProduct(Vector2d(columns, rows));
}

LightTexture light_texture(const LitRoom& room, const Progress& progress) {
  const std::vector<FreePart> parts = free_parts(room.scene());
  LightTexture texture = fitting(parts);
  const Eigen::ArrayXf dark = Eigen::ArrayXf::Zero(static_cast<Eigen::Index>(texture.width) * texture.height);
  texture.groups_lx.assign(room.groups(), {dark, dark, dark});
  if (room.groups() == 0) return texture;
  const std::vector<Tile> tiles = tiles_of(room.scene(), parts, texture);
  light_tiles(room, tiles, progress, texture);
  std::vector<char> is_known(static_cast<std::size_t>(dark.size()));
  for (const Tile& tile : tiles) {
    for (const Eigen::Index texel : tile.texels) is_known[static_cast<std::size_t>(texel)] = 1;
  }
  for (const TextureRectangle& rectangle : texture.rectangles) {
    if (rectangle.columns > 0) fill_around(rectangle, is_known, texture);
  }
  return texture;
}

}  // namespace evenlit
