#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "evenlit/base/length.hpp"
#include "evenlit/base/polygon.hpp"
#include "evenlit/base/result.hpp"
#include "evenlit/base/srgb.hpp"
#include "evenlit/job/controls.hpp"
#include "evenlit/job/origin.hpp"
#include "evenlit/job/taped.hpp"
#include "evenlit/job/wiring.hpp"
#include "evenlit/photometry/synthetic.hpp"

namespace evenlit {

/// A plane of the ceiling that stands at a height over the line of a wall and rises from there into the room.
struct Slope {
  std::string wall;
  double height_m = 0;  ///< above the floor, over the wall's line
  double rise = 0;      ///< over run: the tangent of its angle above level, above 0

  friend bool operator==(const Slope&, const Slope&) = default;
};

/// The room's shape. Wall i stands on the plan's edge from corner i to corner i+1.
struct Shape {
  std::string name;
  Polygon corners_m;                    ///< counter-clockwise, simple
  std::vector<std::string> wall_names;  ///< as many as corners; a rectangle's are south, east, north, west
  std::optional<double> ceiling_m;      ///< of its level plane above the floor; may be absent where there are slopes
  std::vector<Slope> slopes;            ///< the ceiling is the lowest of all of its planes: `Ceiling`

  friend bool operator==(const Shape&, const Shape&) = default;
};

/// Diffuse reflectances, 0...1 (exclusive of 1).
struct Finishes {
  double floor = 0.2;
  double ceiling = 0.8;
  double walls = 0.5;
  std::map<std::string, double> wall;  ///< by wall name, where it differs from `walls`

  friend bool operator==(const Finishes&, const Finishes&) = default;
};

/// What pictures show of the finishes.
struct Colours {
  SurfaceColour floor;
  SurfaceColour ceiling;
  SurfaceColour walls;
  std::map<std::string, SurfaceColour> wall;  ///< by wall name, where it differs from `walls`

  friend bool operator==(const Colours&, const Colours&) = default;
};

struct WorkPlane {
  double height_m = 0.762;          ///< 30 in
  std::optional<double> spacing_m;  ///< of the grid; by the rule of EN 12464-1 when absent
  double margin_m = 0;              ///< no grid point is nearer than this to a wall

  friend bool operator==(const WorkPlane&, const WorkPlane&) = default;
};

/// The luminous opening; absent lengths come from the photometric file.
struct OpeningSize {
  double width_m = 0;   ///< along horizontal angle 90; the diameter of a round opening
  double length_m = 0;  ///< along horizontal angle 0; 0 for a round opening

  friend bool operator==(const OpeningSize&, const OpeningSize&) = default;
};

/// What a recessed housing needs above the ceiling: a rectangle with the hole in its middle.
struct Housing {
  enum class Kind { remodel, new_work };      ///< goes in through the hole, or is set before the ceiling is closed
  enum class Lies { either, along, across };  ///< its length to the joists; `either` may be turned both ways

  double length_m = 0;
  double width_m = 0;
  Kind kind = Kind::remodel;
  Lies lies = Lies::either;
  std::optional<double> narrowest_bay_m;  ///< clear between the joists that its bars or clips can use
  std::optional<double> widest_bay_m;

  friend bool operator==(const Housing&, const Housing&) = default;
};

/// Whether a recessed can may touch insulation and wood: Type IC may.
enum class Rating { unknown, ic, non_ic };

struct CanType {
  std::string name;
  std::string file;                   ///< photometric file, relative to the job file; empty with `beam`
  std::optional<SyntheticBeam> beam;  ///< instead of a file
  int lamp_set = 1;                   ///< of the file, where it has several
  int quarters = 0;                   ///< the file's luminaire is turned so many times 90 degrees, seen from above
  std::optional<double> lumens;       ///< the file's luminaire with the same optic at this flux
  double light_loss_factor = 1;       ///< (0...1]: maintained over initial output
  std::optional<double> watts;        ///< absent: as the photometric file says
  std::optional<double> price;        ///< of one with its trim, in the job's currency
  std::optional<double> hole_m;       ///< diameter to cut
  std::optional<Housing> housing;
  Rating rating = Rating::unknown;
  std::optional<OpeningSize> opening;
  Driver dimming;
  std::optional<double> cct_k;         ///< correlated colour temperature at every level
  RisingTable warm_dim_k;              ///< instead of it: level to colour temperature
  std::optional<double> va;            ///< at full level
  std::optional<double> power_factor;  ///< (0...1], instead of `va`: watts over volt-amperes at full level
  Origin origin;

  friend bool operator==(const CanType&, const CanType&) = default;
};

struct Can {
  std::string type;
  Taped from[2];
  std::optional<double> drop_m;        ///< of the opening below the ceiling
  std::optional<double> height_m;      ///< of the opening above the floor; with neither it is flush with the ceiling
  bool is_square = false;              ///< aimed square to the ceiling's plane above it; then tilt and toward are 0
  double tilt_deg = 0;                 ///< of the aim from straight down
  double toward_deg = 0;               ///< plan direction of the tilt: 0 along +x (east), 90 along +y (north)
  double rotation_deg = 0;             ///< of the can about its aim, counter-clockwise seen from above
  double level = 1;                    ///< dimmer, fraction of full light output
  std::optional<std::string> circuit;  ///< whose level takes the place of `level` in a mood
  Origin origin;

  friend bool operator==(const Can&, const Can&) = default;
};

/// A rectangle on the plan.
struct TapedRectangle {
  Taped from[2];        ///< to the sides nearest to the walls, before it is turned
  double width_m = 0;   ///< along +x (east), before it is turned
  double depth_m = 0;   ///< along +y (north), before it is turned
  double turn_deg = 0;  ///< about its centre, counter-clockwise seen from above

  friend bool operator==(const TapedRectangle&, const TapedRectangle&) = default;
};

/// A circle on the plan.
struct TapedCircle {
  Taped from[2];  ///< to its centre
  double diameter_m = 0;

  friend bool operator==(const TapedCircle&, const TapedCircle&) = default;
};

/// A rectangle, or corners: counter-clockwise, simple.
using PlanArea = std::variant<TapedRectangle, Polygon>;

/// A series of ceiling joists, parallel to a wall. It begins with the first one and goes on into the room from there.
struct Joists {
  std::string parallel_to;       ///< wall name
  double first_m = 0;            ///< that wall to the centre of the first joist
  double spacing_m = 0;          ///< centre to centre
  double thickness_m = 0.0381;   ///< 1-1/2 in: actual thickness of 2x lumber, DOC PS 20
  std::optional<PlanArea> area;  ///< where a joist's centre line is in it there is the joist; absent: everywhere

  friend bool operator==(const Joists&, const Joists&) = default;
};

/// From point to point of the plan.
struct TapedLine {
  Taped start[2];
  Taped end[2];

  friend bool operator==(const TapedLine&, const TapedLine&) = default;
};

/// A single piece of framing that is no part of a series: a doubled joist, a beam, blocking.
struct Member {
  std::string name;
  std::variant<Taped, TapedLine> line;  ///< its centre: parallel to the wall through all of the room, or a piece
  double thickness_m = 0;               ///< on the plan
  Origin origin;

  friend bool operator==(const Member&, const Member&) = default;
};

/// What is in the ceiling or above it where no can may be: a vent, a smoke detector, a sprinkler, a duct, a pipe.
struct KeepOut {
  std::string name;
  std::variant<TapedRectangle, TapedCircle, Polygon> shape;
  double clearance_m = 0;  ///< of holes and housings from its edge
  Origin origin;

  friend bool operator==(const KeepOut&, const KeepOut&) = default;
};

/// A ceiling fan.
struct Fan {
  std::string name;
  Taped from[2];
  double diameter_m = 0;  ///< of the circle of its blades
  double drop_m = 0;      ///< of the blades below the ceiling
  Origin origin;

  friend bool operator==(const Fan&, const Fan&) = default;
};

/// A box turned about the vertical that blocks and reflects light: furniture, a cabinet, an island, a beam, a soffit, a
/// step. What of it is beyond a wall does not count.
struct Obstruction : TapedRectangle {
  std::string name;
  double bottom_m = 0;       ///< height above the floor
  double top_m = 0;          ///< height above the floor; at most the ceiling's
  double reflectance = 0.5;  ///< diffuse, of all its faces, 0...1 (exclusive of 1)
  SurfaceColour colour;
  Origin origin;

  friend bool operator==(const Obstruction&, const Obstruction&) = default;
};

/// A level rectangle on which light is counted from above.
struct LevelRectangle : TapedRectangle {
  double height_m = 0;  ///< above the floor

  friend bool operator==(const LevelRectangle&, const LevelRectangle&) = default;
};

/// The corners of a plane, simple polygon: east, north, up. They run counter-clockwise seen from the side on which
/// light is counted.
using PlaneCorners = std::vector<Eigen::Vector3d>;

/// A plane area whose light is of interest: a desk, a countertop, a picture.
struct TaskArea {
  std::string name;
  std::variant<LevelRectangle, PlaneCorners> shape;
  std::optional<double> spacing_m;  ///< of its grid; by the rule of EN 12464-1 when absent
  std::optional<double> target_lx;  ///< wanted on average
  Origin origin;

  friend bool operator==(const TaskArea&, const TaskArea&) = default;
};

/// Illuminance of a small plane facet, by where its normal points.
struct Facing {
  double tilt_deg = 0;    ///< from straight up
  double toward_deg = 0;  ///< plan direction of the tilt

  friend bool operator==(const Facing&, const Facing&) = default;
};

/// Mean cylindrical illuminance: the average of the vertical illuminances of all directions.
struct Around {
  friend bool operator==(const Around&, const Around&) = default;
};

/// Luminance of what an eye sees in a direction.
struct Looking {
  double toward_deg = 0;  ///< plan direction
  double tilt_deg = 0;    ///< above level; negative below

  friend bool operator==(const Looking&, const Looking&) = default;
};

/// A point where light is read.
struct NamedPoint {
  std::string name;
  Taped from[2];
  double height_m = 0;  ///< above the floor
  std::variant<Facing, Around, Looking> reads;
  Origin origin;

  friend bool operator==(const NamedPoint&, const NamedPoint&) = default;
};

/// Eyes that look somewhere: those of a person in a chair or on a sofa.
struct Seat {
  std::string name;
  Taped from[2];
  double height_m = 0;  ///< of the eyes above the floor
  Looking looking;
  Origin origin;

  friend bool operator==(const Seat&, const Seat&) = default;
};

/// A point of the room.
struct Spot {
  Taped from[2];
  double height_m = 0;  ///< above the floor

  friend bool operator==(const Spot&, const Spot&) = default;
};

/// Where a picture of the room is taken from.
struct Viewpoint {
  std::string name;
  Taped from[2];
  double height_m = 1.6;  ///< of the eye above the floor; standing: common practice, no source
  std::variant<Looking, Spot> at;
  double width_deg = 75;  ///< horizontal angle that the picture takes in
  Origin origin;

  friend bool operator==(const Viewpoint&, const Viewpoint&) = default;
};

/// A rectangle on a wall. What of it is beyond the wall's outline does not count.
struct WallRectangle {
  std::string wall;
  Taped from;           ///< the neighbouring wall, and how far the near edge is along `wall` from their corner
  double width_m = 0;   ///< along the wall
  double bottom_m = 0;  ///< height above the floor
  double top_m = 0;     ///< height above the floor

  friend bool operator==(const WallRectangle&, const WallRectangle&) = default;
};

/// A rectangle that mirrors: a television, a picture behind glass, a window at night. It changes no light.
struct Screen {
  std::string name;
  std::variant<WallRectangle, PlaneCorners> shape;  ///< corners: four of a rectangle, seen from the side that mirrors
  Origin origin;

  friend bool operator==(const Screen&, const Screen&) = default;
};

/// A rectangle on a wall with a reflectance of its own: a door, a window, a backsplash. A later one lies over an
/// earlier one.
struct WallArea : WallRectangle {
  enum class Kind { plain, door, window };

  std::string name;
  Kind kind = Kind::plain;
  double reflectance = 0.5;
  SurfaceColour colour;
  Origin origin;

  friend bool operator==(const WallArea&, const WallArea&) = default;
};

/// What a layout is to give besides the targets. What is absent does not matter.
struct Wanted {
  std::optional<double> minimum_lx;    ///< at the darkest point of the work plane
  std::optional<double> uniformity;    ///< minimum / average on the work plane, 0...1
  std::optional<double> watts;         ///< of all cans, no more
  std::optional<double> cost;          ///< of all cans, no more, in the job's currency
  bool is_symmetric = false;           ///< the cans mirror each other in both of the room's middle lines
  std::optional<double> from_walls_m;  ///< no can that is placed is nearer to a wall

  friend bool operator==(const Wanted&, const Wanted&) = default;
};

/// One room to be lit.
struct Job {
  Units units = Units::imperial;
  std::string currency = "$";
  Shape room;
  Finishes finishes;
  Colours colours;
  WorkPlane work_plane;
  std::optional<double> target_lx;  ///< wanted on average on the work plane
  Wanted wanted;
  std::vector<Joists> joists;
  std::vector<Member> members;            ///< names differ
  std::vector<KeepOut> keep_outs;         ///< names differ
  std::vector<Fan> fans;                  ///< names differ
  std::vector<Obstruction> obstructions;  ///< names differ
  std::vector<TaskArea> task_areas;       ///< names differ
  std::vector<NamedPoint> points;         ///< names differ
  std::vector<WallArea> wall_areas;       ///< names differ
  std::vector<Seat> seats;                ///< names differ
  std::vector<Screen> screens;            ///< names differ
  std::vector<Viewpoint> views;           ///< names differ
  std::vector<Dimmer> dimmers;            ///< names differ
  std::vector<Circuit> circuits;          ///< names differ
  std::vector<CanType> can_types;
  std::vector<Can> cans;
  std::vector<Mood> moods;  ///< names differ
  Energy energy;
  std::optional<Supply> supply;
  std::optional<Wiring> wiring;

  friend bool operator==(const Job&, const Job&) = default;
};

/// The wall of that name; empty when the room has none.
std::optional<int> wall_index(const Shape& room, std::string_view name);

/// The direction of a wall on the plan, unit; the room is on its left.
Eigen::Vector2d along_wall(const Shape& room, int index);

/// The reflectance of wall `index`.
double wall_reflectance(const Job& job, int index);

/// What pictures show of wall `index`.
SurfaceColour wall_colour(const Job& job, int index);

/// Where two tape measurements meet on the plan, of a can's centre or a point: the crossing of the two lines parallel
/// to the named walls.
///
/// Empty when a name is unknown or the walls are parallel.
std::optional<Eigen::Vector2d> plan_position(const Shape& room, const Taped (&from)[2]);
std::optional<Eigen::Vector2d> plan_position(const Shape& room, const Can& can);
std::optional<Eigen::Vector2d> plan_position(const Shape& room, const NamedPoint& point);

/// Where a rectangle's centre is on the plan: beyond the taped distance from each wall by half its extent square to
/// that wall, before it is turned.
///
/// Empty when a name is unknown or the walls are parallel.
std::optional<Eigen::Vector2d> plan_centre(const Shape& room, const TapedRectangle& rectangle);

/// A rectangle's corners on the plan, counter-clockwise from the southwest before it is turned.
///
/// @param rectangle whose walls are the room's and meet at an angle
Polygon corners_of(const Shape& room, const TapedRectangle& rectangle);

/// An area's corners in the room, counter-clockwise seen from the side on which light is counted.
///
/// @param area whose walls are the room's and meet at an angle
PlaneCorners corners_of(const Shape& room, const TaskArea& area);

}  // namespace evenlit
