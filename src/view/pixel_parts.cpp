#include "evenlit/view/pixel_parts.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "evenlit/base/parallel.hpp"
#include "face_image.hpp"

namespace evenlit {
namespace {

using Eigen::Vector2d;

constexpr int k_lines = 8;          ///< across each row of pixels
constexpr int k_rows_together = 8;  ///< whose faces are chosen at once

/// A row of pixels as its lines show it.
struct Row {
  std::array<std::vector<LineSpan>, k_lines> spans;
  std::array<std::vector<int>, k_lines> whole;  ///< by pixel: the face that fills it along the line, or -1
};

/// What one pixel shows of one face along all lines.
struct Sum {
  int face;
  double weight;
  Vector2d moment;
};

void fill_whole(const std::vector<LineSpan>& spans, std::vector<int>& whole) {
  std::ranges::fill(whole, -1);
  for (const LineSpan& span : spans) {
    const auto first = static_cast<std::ptrdiff_t>(std::ceil(span.begin_px));
    const auto last = static_cast<std::ptrdiff_t>(std::floor(span.end_px));
    if (first < last) std::fill(whole.begin() + first, whole.begin() + last, span.face);
  }
}

double y_of_line(int row, int line) { return row + (line + 0.5) / k_lines; }

class RowReader {
 public:
  RowReader(const std::vector<FaceImage>& images, const Camera& camera) : images_(images), camera_(camera) {
    for (auto& whole : row_.whole) whole.resize(static_cast<std::size_t>(camera.size.width));
  }

  void read(std::span<const int> among, int row, std::vector<PixelPart>& parts) {
    for (int line = 0; line < k_lines; ++line) {
      see_line(images_, among, y_of_line(row, line), camera_.size.width, row_.spans[line]);
      fill_whole(row_.spans[line], row_.whole[line]);
    }
    at_.fill(0);
    parts.reserve(static_cast<std::size_t>(camera_.size.width));
    for (int column = 0; column < camera_.size.width; ++column) {
      const int face = row_.whole[0][column];
      const bool is_whole =
          face >= 0 && std::ranges::all_of(row_.whole, [&](const auto& whole) { return whole[column] == face; });
      if (is_whole) {
        parts.push_back({column, face, 1, position({column + 0.5, row + 0.5}, face)});
      } else {
        add_parts(column, row, parts);
      }
    }
  }

 private:
  [[nodiscard]] Eigen::Vector3f position(const Vector2d& place_px, int face) const {
    const double nearness = images_[face].nearness_at(place_px);
    return (camera_.eye_m + camera_.ray(place_px) / nearness).cast<float>();
  }

  /// Calls visit(line, begin, end, face) for every stretch of a line in a pixel. Pixels must be asked for from left to
  /// right.
  template <class Visit>
  void for_each_stretch(int column, const Visit& visit) {
    for (int line = 0; line < k_lines; ++line) {
      const auto& spans = row_.spans[line];
      std::size_t& at = at_[line];
      while (at < spans.size() && spans[at].end_px <= column) ++at;
      for (std::size_t i = at; i < spans.size() && spans[i].begin_px < column + 1; ++i) {
        visit(line, std::max<double>(spans[i].begin_px, column), std::min<double>(spans[i].end_px, column + 1),
              spans[i].face);
      }
    }
  }

  void add_parts(int column, int row, std::vector<PixelPart>& parts) {
    sums_.clear();
    double whole = 0;
    for_each_stretch(column, [&](int line, double begin, double end, int face) {
      auto sum = std::ranges::find(sums_, face, &Sum::face);
      if (sum == sums_.end()) sum = sums_.insert(sum, {face, 0, Vector2d::Zero()});
      sum->weight += end - begin;
      sum->moment += (end - begin) * Vector2d((begin + end) / 2, y_of_line(row, line));
      whole += end - begin;
    });
    for (const Sum& sum : sums_) {
      if (!(sum.weight > 0)) continue;
      const Vector2d place = on_stretch(column, row, sum.face, sum.moment / sum.weight);
      parts.push_back({column, sum.face, static_cast<float>(sum.weight / whole), position(place, sum.face)});
    }
  }

  /// The place nearest to the middle of what is shown that shows the face itself.
  [[nodiscard]] Vector2d on_stretch(int column, int row, int face, const Vector2d& middle) {
    Vector2d nearest = middle;
    double least = 10;
    for_each_stretch(column, [&](int line, double begin, double end, int of) {
      if (of != face || !(begin < end)) return;
      const Vector2d place(std::clamp(middle.x(), begin, end), y_of_line(row, line));
      const double distance = (place - middle).squaredNorm();
      if (distance >= least) return;
      least = distance;
      nearest = place;
    });
    return nearest;
  }

  const std::vector<FaceImage>& images_;
  const Camera& camera_;
  Row row_;
  std::array<std::size_t, k_lines> at_{};  ///< on each line, the first span that is not wholly to the left
  std::vector<Sum> sums_;
};

/// The faces between two heights of the picture.
std::vector<int> faces_between(const std::vector<FaceImage>& images, double top_px, double bottom_px) {
  std::vector<int> between;
  for (int face = 0; face < static_cast<int>(images.size()); ++face) {
    const auto& edges = images[face].edges;
    const bool is_there = std::ranges::any_of(
        edges, [&](const ImageEdge& edge) { return edge.top_px.y() < bottom_px && edge.bottom_px.y() > top_px; });
    if (is_there) between.push_back(face);
  }
  return between;
}

}  // namespace

std::vector<std::vector<PixelPart>> pixel_parts(const std::vector<ShownFace>& faces, const Camera& camera) {
  std::vector<FaceImage> images;
  images.reserve(faces.size());
  for (const ShownFace& face : faces) images.push_back(image_of(face, camera));
  const int height = camera.size.height;
  std::vector<std::vector<PixelPart>> rows(static_cast<std::size_t>(height));
  parallel_for((height + k_rows_together - 1) / k_rows_together, [&](int block) {
    const int first = block * k_rows_together;
    const int last = std::min(height, first + k_rows_together);
    const std::vector<int> among = faces_between(images, first, last);
    RowReader reader(images, camera);
    for (int row = first; row < last; ++row) reader.read(among, row, rows[row]);
  });
  return rows;
}

}  // namespace evenlit
