#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "evenlit/job/origin.hpp"
#include "evenlit/job/taped.hpp"

// How the cans are to be cabled: what a take-off counts from.

namespace evenlit {

/// A cable of copper wires with a ground, as its jacket says: "14/2" has two insulated wires of 14 AWG.
struct CableKind {
  int awg = 14;       ///< one of `k_wires`
  int insulated = 2;  ///< wires besides the ground: 2 or 3

  friend auto operator<=>(const CableKind&, const CableKind&) = default;
};

/// The cables that a job may name.
inline constexpr std::array<std::pair<std::string_view, CableKind>, 6> k_cables{
    {{"14/2", {14, 2}}, {"14/3", {14, 3}}, {"12/2", {12, 2}}, {"12/3", {12, 3}}, {"10/2", {10, 2}}, {"10/3", {10, 3}}}};

/// A length in which a cable is sold.
struct Coil {
  CableKind cable;
  double length_m = 0;
  std::optional<double> price;  ///< in the job's currency

  friend bool operator==(const Coil&, const Coil&) = default;
};

/// A place on a wall, as a tape finds it.
struct WallPlace {
  std::string wall;
  Taped from;                ///< the neighbouring wall, and how far the place is along `wall` from their corner
  double height_m = 1.2192;  ///< above the floor; 48 in: common practice, no source

  friend bool operator==(const WallPlace&, const WallPlace&) = default;
};

/// A box with the switches and dimmers of one circuit or more, side by side.
struct SwitchBox {
  std::string name;
  WallPlace at;
  std::optional<WallPlace> also;      ///< a second box that switches the same circuits: three-way switches
  std::vector<std::string> circuits;  ///< one or more, none of them in another box
  std::optional<double> box_in3;      ///< volume as it is stamped, for the second box too; in cubic inches, as the
                                      ///< table that it is held against
  Origin origin;

  friend bool operator==(const SwitchBox&, const SwitchBox&) = default;
};

/// A point of the ceiling.
struct CeilingPoint {
  Taped from[2];

  friend bool operator==(const CeilingPoint&, const CeilingPoint&) = default;
};

/// Where the branch circuit comes in.
struct Feed {
  std::variant<std::string, CeilingPoint> at;  ///< the name of a switch box, or a box in the ceiling
  std::optional<double> run_m;                 ///< of cable from the panel to there, which is in place

  friend bool operator==(const Feed&, const Feed&) = default;
};

/// What is counted by the piece and may have a price.
enum class Piece {
  switch_box,
  ceiling_box,
  one_pole_switch,
  three_way_switch,
  dimmer,
  connector,
  splice,
  staple,
  plate
};

/// The keys of [wiring.prices].
inline constexpr std::array<std::pair<std::string_view, Piece>, 9> k_pieces{
    {{"switch_box", Piece::switch_box},
     {"ceiling_box", Piece::ceiling_box},
     {"switch", Piece::one_pole_switch},
     {"three_way_switch", Piece::three_way_switch},
     {"dimmer", Piece::dimmer},
     {"cable_connector", Piece::connector},
     {"wire_connector", Piece::splice},
     {"staple", Piece::staple},
     {"steel_plate", Piece::plate}}};

/// What the work takes.
struct Labour {
  std::optional<double> hours_per_can;
  std::optional<double> hours_per_switch;  ///< of each switch and dimmer
  std::optional<double> rate;              ///< of an hour, in the job's currency

  friend bool operator==(const Labour&, const Labour&) = default;
};

struct Wiring {
  enum class Path { open, bays };             ///< straight over the joists, or along them and square through them
  enum class Framing { lumber, engineered };  ///< engineered: trusses, I-joists, laminated members

  CableKind cable;  ///< of two insulated wires
  Path path = Path::open;
  Framing framing = Framing::lumber;
  std::optional<double> joist_depth_m;  ///< actual
  double slack_m = 0.2032;  ///< of a cable at each end, for the connections; 8 in: common practice, no source
  double waste = 0.1;       ///< of the length, added for cutting
  std::vector<Coil> coils;
  std::vector<SwitchBox> switches;  ///< one or more; names differ
  Feed feed;
  std::map<Piece, double> prices;  ///< of one, in the job's currency
  Labour labour;

  friend bool operator==(const Wiring&, const Wiring&) = default;
};

}  // namespace evenlit
