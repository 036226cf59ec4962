#include "face_image.hpp"

#include <algorithm>
#include <cmath>

namespace evenlit {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// What is nearer than this to the camera's plane is cut off.
constexpr double k_nearest_m = 1e-7;

/// An eye that touches a face sees it from this far.
constexpr double k_touching_m = 1e-6;

/// An eye no farther than this behind a face touches it, as in `first_hit`.
constexpr double k_behind_m = 2e-5;

/// Trims lie over ceilings and openings over trims by a thousandth of the distance each.
constexpr double k_over = 1e-3;

/// To the right, up and ahead.
Vector3d in_camera(const Camera& camera, const Vector3d& point_m) {
  const Vector3d to = point_m - camera.eye_m;
  return {camera.right.dot(to), camera.up.dot(to), camera.forward.dot(to)};
}

/// The part of an outline that is before the camera; what is cut off leaves an edge along its plane.
std::vector<Vector3d> part_ahead(const Camera& camera, const Outline& outline) {
  std::vector<Vector3d> all;
  for (const Vector3d& corner : outline) all.push_back(in_camera(camera, corner));
  std::vector<Vector3d> part;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Vector3d& here = all[i];
    const Vector3d& next = all[(i + 1) % all.size()];
    if (here.z() >= k_nearest_m) part.push_back(here);
    if ((here.z() >= k_nearest_m) == (next.z() >= k_nearest_m)) continue;
    const double t = (k_nearest_m - here.z()) / (next.z() - here.z());
    part.emplace_back(here.x() + t * (next.x() - here.x()), here.y() + t * (next.y() - here.y()), k_nearest_m);
  }
  return part;
}

void add_edges(const Camera& camera, Outline outline, const Vector3d& moved_m, std::vector<ImageEdge>& edges) {
  for (Vector3d& corner : outline) corner += moved_m;
  std::vector<Vector2d> places;
  for (const Vector3d& corner : part_ahead(camera, outline)) {
    const double scale = camera.focal_px / corner.z();
    places.emplace_back(0.5 * camera.size.width + scale * corner.x(), 0.5 * camera.size.height - scale * corner.y());
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Vector2d& a = places[i];
    const Vector2d& b = places[(i + 1) % places.size()];
    if (a.y() < b.y()) edges.push_back({a, b});
    if (b.y() < a.y()) edges.push_back({b, a});
  }
}

/// A stretch of a line on which a face may be seen, and how near it is along it.
struct Candidate {
  double begin_px;
  double end_px;
  int face;
  double nearness;  ///< at the line's left end
  double nearness_per_px;

  [[nodiscard]] double nearness_at(double x_px) const { return nearness + nearness_per_px * x_px; }
};

struct LineWork {
  std::vector<double> crossings;
  std::vector<Candidate> candidates;
  std::vector<double> meetings;
  std::vector<Candidate> here;
};

void add_candidates(const FaceImage& image, int face, double y_px, double width_px, LineWork& work) {
  work.crossings.clear();
  for (const ImageEdge& edge : image.edges) {
    if (edge.top_px.y() <= y_px && y_px < edge.bottom_px.y()) work.crossings.push_back(edge.x_at(y_px));
  }
  std::ranges::sort(work.crossings);
  for (std::size_t i = 0; i + 1 < work.crossings.size(); i += 2) {
    const double begin = std::max(work.crossings[i], 0.0);
    const double end = std::min(work.crossings[i + 1], width_px);
    if (!(begin < end)) continue;
    work.candidates.push_back(
        {begin, end, face, image.before * image.nearness_at({0, y_px}), image.before * image.nearness.x()});
  }
}

void append(double begin_px, double end_px, int face, std::vector<LineSpan>& seen) {
  if (!seen.empty() && seen.back().face == face) {
    seen.back().end_px = end_px;
  } else {
    seen.push_back({begin_px, end_px, face});
  }
}

}  // namespace

FaceImage image_of(const ShownFace& face, const Camera& camera) {
  FaceImage image;
  const double height_m = face.normal.dot(camera.eye_m - face.plane_m);
  if (height_m < -k_behind_m) return image;
  const double above_m = std::max(height_m, k_touching_m);
  const Vector3d moved_m = (height_m - above_m) * face.normal;
  for (const Outline& outline : face.outlines) add_edges(camera, outline, moved_m, image.edges);
  const double scale = -1 / (camera.focal_px * above_m);
  image.nearness.x() = scale * face.normal.dot(camera.right);
  image.nearness.y() = -scale * face.normal.dot(camera.up);
  image.nearness.z() = -face.normal.dot(camera.ray(Vector2d::Zero())) / above_m;
  if (face.kind == ShownFace::Kind::trim) image.before = 1 + k_over;
  if (face.kind == ShownFace::Kind::opening) image.before = 1 + 2 * k_over;
  return image;
}

void see_line(const std::vector<FaceImage>& images, std::span<const int> among, double y_px, double width_px,
              std::vector<LineSpan>& seen) {
  thread_local LineWork work;
  seen.clear();
  work.candidates.clear();
  for (const int face : among) add_candidates(images[face], face, y_px, width_px, work);
  if (work.candidates.empty()) return;
  std::ranges::stable_sort(work.candidates, {}, &Candidate::begin_px);
  work.meetings.clear();
  for (const Candidate& candidate : work.candidates) {
    work.meetings.push_back(candidate.begin_px);
    work.meetings.push_back(candidate.end_px);
  }
  std::ranges::sort(work.meetings);
  work.here.clear();
  std::size_t next = 0;
  for (std::size_t i = 0; i + 1 < work.meetings.size(); ++i) {
    const double middle = (work.meetings[i] + work.meetings[i + 1]) / 2;
    for (; next < work.candidates.size() && work.candidates[next].begin_px <= middle; ++next) {
      work.here.push_back(work.candidates[next]);
    }
    std::erase_if(work.here, [&](const Candidate& candidate) { return candidate.end_px < middle; });
    if (!(work.meetings[i] < work.meetings[i + 1])) continue;
    const auto nearest =
        std::ranges::max_element(work.here, {}, [&](const Candidate& c) { return c.nearness_at(middle); });
    if (nearest != work.here.end()) append(work.meetings[i], work.meetings[i + 1], nearest->face, seen);
  }
  if (seen.empty()) return;
  // What rounding left between two faces.
  for (std::size_t i = 0; i + 1 < seen.size(); ++i) seen[i].end_px = seen[i + 1].begin_px;
  seen.front().begin_px = 0;
  seen.back().end_px = width_px;
}

}  // namespace evenlit
