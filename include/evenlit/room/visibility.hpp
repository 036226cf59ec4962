#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <span>
#include <vector>

#include "evenlit/room/box.hpp"
#include "evenlit/room/scene.hpp"

namespace evenlit {

/// How much of one thing another thing sees; the later value wins where two things stand between.
enum class Sight : std::int32_t { clear, mixed, hidden };

/// Bit f is set where something lies wholly outside face f of an obstacle, or on it.
using FaceCode = std::uint8_t;

/// How far figures reach from their centres in the frame of one obstacle: one a figure.
struct Reach {
  std::vector<float> along_m, across_m, up_m;
};

/// Convex figures in the room, or points, as arrays for loops that a compiler can vectorise.
struct Figures {
  std::vector<float> x_m, y_m, z_m;            ///< centres
  std::vector<float> radius_m;                 ///< no corner is farther from the centre
  std::vector<std::vector<FaceCode>> outside;  ///< for each obstacle of one `Visibility`: one a figure
  std::vector<Reach> reach;                    ///< for each obstacle

  [[nodiscard]] int size() const { return static_cast<int>(x_m.size()); }
};

/// Points as arrays.
struct Points {
  const float* x_m;
  const float* y_m;
  const float* z_m;
};

/// What one figure sees of a run of others; the vectors keep their memory from one look to the next.
struct View {
  std::vector<Sight> sights;             ///< one a figure of the run
  std::vector<int> obstacles;            ///< that may hide something of some figure
  std::vector<std::vector<Sight>> past;  ///< of each of these (and more): what it leaves in sight of each figure

  /// Figures that follow each other and that an obstacle, given by its index in `obstacles`, may hide something of.
  struct Stretch {
    int index;
    int begin;
    int end;
  };
  std::vector<Stretch> stretches;      ///< all there are; between them there may be figures in clear sight
  std::vector<int> index_of_obstacle;  ///< working space: in `obstacles`, or -1

  /// Forgets the last look.
  void clear(int figures, int obstacle_count);

  /// Notes what an obstacle leaves in sight of the figures from `begin` on.
  void add(int obstacle, int begin, std::span<const Sight> seen);
};

/// Figures of a view that follow each other and that one obstacle may hide something of.
struct Passage {
  int obstacle;
  int begin;  ///< first figure, counted from the view's
  int end;
};

/// All of a view. A passage may run over a few figures between that the obstacle does not hide, or that are hidden
/// anyway.
///
/// @param lines_a_figure lines of sight that are to be held against the obstacle: with many, fewer are run over
std::vector<Passage> passages(const View& view, int lines_a_figure);

/// What the room's walls and boxes hide.
///
/// The ceiling never hides: it is the lowest of planes, so the space below it is convex. A wall that stands on the
/// outline of the plan's convex hull never does either. What is left are obstacles that are convex and upright: the
/// other walls, from floor to ceiling, and the boxes.
class Visibility {
 public:
  Visibility(const Polygon& plan_m, const std::vector<Box>& boxes);
  explicit Visibility(const Scene& scene) : Visibility(scene.plan_m, scene.boxes) {}

  /// Whether nothing can ever hide anything.
  [[nodiscard]] bool is_always_clear() const { return walls_.empty() && boxes_.empty(); }

  [[nodiscard]] int obstacle_count() const { return static_cast<int>(slabs_.size()); }

  /// Whether the segment between two points of the room meets neither a wall nor a box. Touching is no meeting.
  [[nodiscard]] bool is_clear(const Eigen::Vector3d& from, const Eigen::Vector3d& to) const;

  /// Points as figures that are to be looked at with this visibility.
  [[nodiscard]] Figures figures_of(const Points& points, int count) const;

  /// Adds a figure to such figures.
  void add(Figures& figures, const Eigen::Vector3d& centre, double radius_m,
           std::span<const Eigen::Vector3d> corners_m) const;

  /// Looks from one figure at the figures begin ... end - 1 of a set. A sight is clear only where all of one figure
  /// sees all of the other, and hidden only where one box alone hides everything; mixed ones are to be sampled past
  /// the obstacles that the view names.
  void look(const Figures& from, int figure, const Figures& to, int begin, int end, View& view) const;

  /// Sets `clear` to 0 where the obstacle crosses the segment from a point to one of `count` others.
  void cross(int obstacle, const Eigen::Vector3f& from, const Points& to, int count, float* clear) const;

  /// Sets `clear` to 0 where any obstacle that may hide something of one figure of a view crosses the segment.
  void cross_seen(const View& view, int figure, const Eigen::Vector3f& from, const Points& to, int count,
                  float* clear) const;

 private:
  struct Wall {
    Eigen::Vector2d start;
    Eigen::Vector2d along;  ///< unit
    double length_m;
  };
  /// A box or a wall in single precision: its middle, the unit vector along it on the plan, half its sizes less what
  /// counts as touching. A wall has no thickness and no end in height.
  struct Slab {
    float x, y, z;
    float along_x, along_y;
    float half_along, half_across, half_up;
  };
  /// The upright cylinders around the obstacles, as arrays.
  struct Cylinders {
    std::vector<float> x, y, radius, low, high;
  };
  struct Tube;
  struct Kernels;

  [[nodiscard]] bool is_wall(int obstacle) const { return obstacle < static_cast<int>(walls_.size()); }
  /// A figure's centre and corners in an obstacle's frame, from its middle; a wall's has no height.
  [[nodiscard]] Eigen::Matrix3Xd in_frame(int obstacle, const Eigen::Vector3d& centre,
                                          std::span<const Eigen::Vector3d> corners_m) const;
  [[nodiscard]] FaceCode faces_outside(int obstacle, const Eigen::Ref<const Eigen::Matrix3Xd>& corners) const;
  [[nodiscard]] bool crosses(const Wall& wall, const Eigen::Vector3d& from, const Eigen::Vector3d& to) const;
  template <class Visit>
  void for_each_in(const Tube& tube, const Visit& visit) const;

  double touching_m_;        ///< what runs no deeper than this into an obstacle touches it
  std::vector<Wall> walls_;  ///< obstacles 0 ... walls - 1
  std::vector<Box> boxes_;   ///< the obstacles after these
  std::vector<Slab> slabs_;  ///< of all obstacles
  Cylinders cylinders_;      ///< of all obstacles
};

}  // namespace evenlit
