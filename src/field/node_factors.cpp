#include "node_factors.hpp"

#include <algorithm>
#include <cmath>

#include "evenlit/base/vectorised.hpp"
#include "kernel.hpp"
#include "sums.hpp"

namespace evenlit {
namespace {

/// Around receivers of a viewpoint, which all face the same way.
struct Ball {
  float x, y, z, radius;
  float nx, ny, nz;
};

}  // namespace

/// What the receivers of a viewpoint have in common.
struct NodeFactors::Sights {
  Ball ball;
  std::vector<std::int32_t> is_close, is_facing;  ///< one a patch of the run
  std::vector<int> close;                         ///< patches of which cells may count exactly
  std::vector<int> exact;                         ///< those of which they do, for one receiver
  View view;
  std::vector<Passage> passages;  ///< where one line a cell is enough unless it is near
  std::vector<int> sampled;       ///< patches of the run, counted from its begin, that are looked at one by one
  std::vector<float> open;        ///< one a node: 0 where its patch is hidden, else 1
  std::vector<float> shares;      ///< one a node: what one receiver sees of its cell
  struct {
    std::vector<float> x, y, z, seen;
  } closely;  ///< of one patch
};

namespace {

/// Whether any of a surface can be above a receiver's horizon and see its front.
bool faces(const PatchRange& surface, const Receiver& receiver) {
  constexpr double k_on_plane_m = 1e-6;
  if (surface.normal.dot(receiver.position_m) - surface.offset_m <= k_on_plane_m) return false;
  return std::ranges::any_of(surface.corners_m, [&](const Eigen::Vector3d& corner) {
    return receiver.normal.dot(corner - receiver.position_m) > 0;
  });
}

/// The patches that any of some receivers can see, in as few runs as may be.
std::vector<PatchRun> faced(const Mesh& mesh, const Receiver* begin, const Receiver* end) {
  std::vector<PatchRun> runs;
  for (const auto& surface : mesh.surfaces) {
    if (surface.begin == surface.end) continue;
    if (std::none_of(begin, end, [&](const Receiver& receiver) { return faces(surface, receiver); })) continue;
    if (runs.empty() || runs.back().end != surface.begin) runs.push_back({surface.begin, surface.begin});
    runs.back().end = surface.end;
  }
  return runs;
}

/// Numbers in a vector, or in the largest: loops over whole ones need no remainder. Arrays have so many to spare.
constexpr int k_vector = 16;

int whole_vectors(int count) { return (count + k_vector - 1) / k_vector * k_vector; }

Ball ball_around(const Figures& viewpoints, int viewpoint, const Eigen::Vector3d& normal) {
  const Eigen::Vector3f n = normal.cast<float>();
  return {viewpoints.x_m[viewpoint],
          viewpoints.y_m[viewpoint],
          viewpoints.z_m[viewpoint],
          viewpoints.radius_m[viewpoint],
          n.x(),
          n.y(),
          n.z()};
}

/// Marks the patches that are nearer to the ball than `near` of their radii, or that its horizon may cut.
EVENLIT_VECTORISED
void mark_close(const Ball& ball, float near, bool cut_at_horizon, const float* __restrict x, const float* __restrict y,
                const float* __restrict z, const float* __restrict radius, int count, std::int32_t* __restrict close) {
  const float of_cut = cut_at_horizon ? 1.0F : 0.0F;
  for (int i = 0; i < count; ++i) {
    const float dx = x[i] - ball.x;
    const float dy = y[i] - ball.y;
    const float dz = z[i] - ball.z;
    const float reach = near * radius[i] + ball.radius;
    const float height = std::abs(dx * ball.nx + dy * ball.ny + dz * ball.nz);
    const std::int32_t is_near = dx * dx + dy * dy + dz * dz < reach * reach ? 1 : 0;
    const std::int32_t is_cut = height < of_cut * (radius[i] + ball.radius) ? 1 : 0;
    close[i] = is_near | is_cut;
  }
}

/// Marks the patches of which something is above the ball's horizon and may see something of the ball.
EVENLIT_VECTORISED
void mark_facing(const Ball& ball, const float* __restrict x, const float* __restrict y, const float* __restrict z,
                 const float* __restrict radius, const float* __restrict nx, const float* __restrict ny,
                 const float* __restrict nz, int count, std::int32_t* __restrict facing) {
  for (int i = 0; i < count; ++i) {
    const float dx = x[i] - ball.x;
    const float dy = y[i] - ball.y;
    const float dz = z[i] - ball.z;
    const float above = dx * ball.nx + dy * ball.ny + dz * ball.nz + radius[i];
    const float before = ball.radius - (dx * nx[i] + dy * ny[i] + dz * nz[i]);
    facing[i] = (above > 0 ? 1 : 0) & (before > 0 ? 1 : 0);
  }
}

EVENLIT_VECTORISED
void scale(const float* __restrict shares, int count, float* __restrict weights) {
  for (int i = 0; i < count; ++i) weights[i] *= shares[i];
}

/// Puts 1 for the nodes of figures that are seen in part, else 0.
void mark_sampled(const View& view, int per_figure, float* is_sampled) {
  for (std::size_t i = 0; i < view.sights.size(); ++i) {
    std::fill_n(is_sampled + i * per_figure, per_figure, view.sights[i] == Sight::mixed ? 1.0F : 0.0F);
  }
}

/// Makes sampled factors larger by a share of them.
EVENLIT_VECTORISED
void add_to_sampled(const float* __restrict is_sampled, float more, int count, float* __restrict factors) {
  for (int i = 0; i < count; ++i) factors[i] += more * is_sampled[i] * factors[i];
}

}  // namespace

GatherDetail receiver_detail(int lines_of_sight) {
  return {.near_lines = lines_of_sight + 2, .far_lines = lines_of_sight};
}

NodeFactors::NodeFactors(const Mesh& mesh, const Figures& patches, const Nodes& nodes, const Visibility& visibility,
                         const GatherDetail& detail)
    : mesh_(mesh),
      patches_(patches),
      nodes_(nodes),
      order_(order_of(nodes)),
      visibility_(visibility),
      detail_(detail),
      cells_(mesh, nodes),
      near_aims_(order_, detail.near_lines),
      far_aims_(order_, detail.far_lines) {
  if (visibility.is_always_clear()) return;
  for (const Patch& patch : mesh.patches) {
    normals_.x.push_back(static_cast<float>(patch.normal.x()));
    normals_.y.push_back(static_cast<float>(patch.normal.y()));
    normals_.z.push_back(static_cast<float>(patch.normal.z()));
  }
  const std::size_t per_patch = far_aims_.per_patch();
  for (auto* values : {&far_x_m_, &far_y_m_, &far_z_m_}) values->resize(mesh.size() * per_patch + k_vector);
  for (int i = 0; i < mesh.size(); ++i) {
    far_aims_.place(mesh.patches[i].corners_m, &far_x_m_[i * per_patch], &far_y_m_[i * per_patch],
                    &far_z_m_[i * per_patch]);
  }
}

void NodeFactors::see(const Lookout& lookout, int begin, int end, FactorRows& rows) const {
  const int first = begin * lookout.per_viewpoint;
  const int count = (end - begin) * lookout.per_viewpoint;
  const Receiver* const receivers = lookout.receivers.data() + first;
  rows.runs = faced(mesh_, receivers, receivers + count);
  rows.factors.resize(count, nodes_.size());
  rows.is_sampled.resize(end - begin, tells_sampled() ? nodes_.size() : 0);
  for (const PatchRun run : rows.runs) {
    for (int viewpoint = begin; viewpoint < end; ++viewpoint) fill(lookout, viewpoint, viewpoint - begin, run, rows);
  }
  close(lookout.per_viewpoint, rows);
}

void NodeFactors::fill(const Lookout& lookout, int viewpoint, int row, PatchRun run, FactorRows& rows) const {
  thread_local Sights sights;
  const int begin = run.begin * nodes_.per_patch;
  const Receiver* const receivers = lookout.receivers.data() + viewpoint * lookout.per_viewpoint;
  sights.ball = ball_around(lookout.viewpoints, viewpoint, receivers->normal);
  find_close(run, sights);
  if (may_hide()) look(lookout.viewpoints, viewpoint, run, sights);
  if (tells_sampled()) mark_sampled(sights.view, nodes_.per_patch, &rows.is_sampled(row, begin));
  for (int k = 0; k < lookout.per_viewpoint; ++k) {
    float* const factors = &rows.factors(row * lookout.per_viewpoint + k, begin);
    fill_open(receivers[k], run, sights, factors);
    if (may_hide()) take_hidden_off(receivers[k], run, sights, factors);
  }
}

void NodeFactors::find_close(PatchRun run, Sights& sights) const {
  sights.is_close.resize(run.size());
  mark_close(sights.ball, static_cast<float>(detail_.near), detail_.cut_at_horizon, &patches_.x_m[run.begin],
             &patches_.y_m[run.begin], &patches_.z_m[run.begin], &patches_.radius_m[run.begin], run.size(),
             sights.is_close.data());
  sights.close.clear();
  for (int i = 0; i < run.size(); ++i) {
    if (sights.is_close[i] != 0) sights.close.push_back(run.begin + i);
  }
}

void NodeFactors::look(const Figures& viewpoints, int viewpoint, PatchRun run, Sights& sights) const {
  visibility_.look(viewpoints, viewpoint, patches_, run.begin, run.end, sights.view);
  sights.is_facing.resize(run.size());
  mark_facing(sights.ball, &patches_.x_m[run.begin], &patches_.y_m[run.begin], &patches_.z_m[run.begin],
              &patches_.radius_m[run.begin], &normals_.x[run.begin], &normals_.y[run.begin], &normals_.z[run.begin],
              run.size(), sights.is_facing.data());
  for (int i = 0; i < run.size(); ++i) {  // factors of what does not face are 0 anyway
    if (sights.is_facing[i] == 0) sights.view.sights[i] = Sight::hidden;
  }
  sights.passages.clear();
  if (one_far_line()) sights.passages = passages(sights.view, far_aims_.per_patch());
  sights.sampled.clear();
  const int n = nodes_.per_patch;
  sights.open.resize(static_cast<std::size_t>(run.size()) * n + k_vector);
  for (int i = 0; i < run.size(); ++i) {
    const Sight sight = sights.view.sights[i];
    std::fill_n(sights.open.data() + i * n, n, sight == Sight::hidden ? 0.0F : 1.0F);
    if (sight == Sight::mixed && (sights.is_close[i] != 0 || !one_far_line())) sights.sampled.push_back(i);
  }
}

bool NodeFactors::is_near(const Receiver& receiver, int patch) const {
  const double reach = detail_.near * mesh_.patches[patch].radius_m;
  return (mesh_.patches[patch].centre_m - receiver.position_m).squaredNorm() < reach * reach;
}

bool NodeFactors::is_cut_by_horizon(const Receiver& receiver, int patch) const {
  const double height = receiver.normal.dot(mesh_.patches[patch].centre_m - receiver.position_m);
  return std::abs(height) < mesh_.patches[patch].radius_m;
}

void NodeFactors::fill_open(const Receiver& receiver, PatchRun run, Sights& sights, float* factors) const {
  const int n = nodes_.per_patch;
  point_kernel({receiver.position_m.cast<float>(), receiver.normal.cast<float>()}, nodes_, run.begin * n, run.end * n,
               factors);
  sights.exact.clear();
  for (const int patch : sights.close) {
    if (!is_near(receiver, patch) && !(detail_.cut_at_horizon && is_cut_by_horizon(receiver, patch))) continue;
    sights.exact.push_back(patch);
  }
  cells_.put(receiver, sights.exact, run.begin * n, factors);
}

void NodeFactors::take_hidden_off(const Receiver& receiver, PatchRun run, Sights& sights, float* factors) const {
  const Eigen::Vector3f from = receiver.position_m.cast<float>();
  sights.shares = sights.open;
  for (const auto& [obstacle, begin, end] : sights.passages) {
    const int count = whole_vectors((end - begin) * nodes_.per_patch);
    visibility_.cross(obstacle, from, far_aims_of(run.begin + begin), count,
                      sights.shares.data() + begin * nodes_.per_patch);
  }
  auto& [x, y, z, seen] = sights.closely;
  for (auto* values : {&x, &y, &z}) values->resize(near_aims_.per_patch());
  for (const int place : sights.sampled) {
    const int patch = run.begin + place;
    const bool closely = sights.is_close[place] != 0 && is_near(receiver, patch);
    if (!closely && one_far_line()) continue;
    const CellAims& aims = closely ? near_aims_ : far_aims_;
    if (closely) aims.place(mesh_.patches[patch].corners_m, x.data(), y.data(), z.data());
    seen.assign(aims.per_patch(), 1);
    visibility_.cross_seen(sights.view, place, from,
                           closely ? Points{x.data(), y.data(), z.data()} : far_aims_of(patch), aims.per_patch(),
                           seen.data());
    aims.average(seen.data(), sights.shares.data() + place * nodes_.per_patch);
  }
  scale(sights.shares.data(), run.size() * nodes_.per_patch, factors);
}

Points NodeFactors::far_aims_of(int patch) const {
  const std::size_t first = static_cast<std::size_t>(patch) * far_aims_.per_patch();
  return {&far_x_m_[first], &far_y_m_[first], &far_z_m_[first]};
}

void keep_uncertain_part(int nodes_per_patch, FactorRows& rows) {
  const Eigen::Index per_viewpoint = rows.factors.rows() / rows.is_sampled.rows();
  for (Eigen::Index i = 0; i < rows.factors.rows(); ++i) {
    for (const PatchRun run : rows.runs) {
      const int begin = run.begin * nodes_per_patch;
      const int width = run.size() * nodes_per_patch;
      rows.factors.row(i).segment(begin, width).array() *=
          rows.open[i] * rows.is_sampled.row(i / per_viewpoint).segment(begin, width).array();
    }
  }
}

/// What is far from 1 is no closed room, but a receiver inside a box or on an edge.
void NodeFactors::close(int per_viewpoint, FactorRows& rows) const {
  constexpr float k_open = 0.2F;
  constexpr float k_least_sampled = 1e-3F;
  const Eigen::Index receivers = rows.factors.rows();
  rows.missed.setZero(receivers);
  rows.open.setZero(receivers);
  for (Eigen::Index i = 0; i < receivers; ++i) {
    float all = 0;
    float sampled = 0;
    float squares = 0;
    for (const PatchRun run : rows.runs) {
      const int begin = run.begin * nodes_.per_patch;
      const int count = run.size() * nodes_.per_patch;
      const float* const factors = &rows.factors(i, begin);
      all += sum_of(factors, count);
      if (!tells_sampled()) continue;
      const float* const is_sampled = &rows.is_sampled(i / per_viewpoint, begin);
      sampled += sum_of_products(factors, is_sampled, count);
      squares += sum_of_products(factors, factors, is_sampled, count);
    }
    const float missed = 1 - all;
    if (std::abs(missed) >= k_open) continue;
    rows.missed[i] = std::abs(missed);
    if (detail_.scale_all) {
      for (const PatchRun run : rows.runs) {
        rows.factors.row(i).segment(run.begin * nodes_.per_patch, run.size() * nodes_.per_patch) /= all;
      }
    } else if (sampled > k_least_sampled) {
      // As if so many patches were sampled that all count the same.
      const float patches = sampled * sampled / squares / static_cast<float>(nodes_.per_patch);
      rows.open[i] = 1 / (static_cast<float>(order_ * detail_.far_lines) * std::sqrt(std::max(1.0F, patches)));
      const float more = std::clamp(missed / sampled, -k_open, k_open);
      for (const PatchRun run : rows.runs) {
        const int begin = run.begin * nodes_.per_patch;
        add_to_sampled(&rows.is_sampled(i / per_viewpoint, begin), more, run.size() * nodes_.per_patch,
                       &rows.factors(i, begin));
      }
    }
  }
}

Lookout lookout_of(const std::vector<Receiver>& receivers, const Visibility& visibility) {
  Facets facets;
  for (const auto& receiver : receivers) facets.add(receiver.position_m, receiver.normal);
  return {receivers, 1, visibility.figures_of(facets.points(), facets.size())};
}

Lookout lookout_of(const Nodes& nodes, const Figures& patches) {
  Lookout lookout{{}, nodes.per_patch, patches};
  for (int node = 0; node < nodes.size(); ++node) {
    lookout.receivers.push_back({nodes.point(node).cast<double>(), nodes.normal(node).cast<double>()});
  }
  return lookout;
}

}  // namespace evenlit
