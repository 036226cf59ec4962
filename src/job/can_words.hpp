#pragma once

#include <array>
#include <string_view>
#include <utility>

#include "evenlit/job/job.hpp"

namespace evenlit {

// The words that a job file has for kinds of things; an absent key means the first.

inline constexpr std::array<std::pair<std::string_view, Housing::Kind>, 2> k_housing_kinds{
    {{"remodel", Housing::Kind::remodel}, {"new work", Housing::Kind::new_work}}};

inline constexpr std::array<std::pair<std::string_view, Housing::Lies>, 3> k_housing_lies{
    {{"either", Housing::Lies::either}, {"along", Housing::Lies::along}, {"across", Housing::Lies::across}}};

inline constexpr std::array<std::pair<std::string_view, Rating>, 3> k_ratings{
    {{"unknown", Rating::unknown}, {"IC", Rating::ic}, {"non-IC", Rating::non_ic}}};

inline constexpr std::array<std::pair<std::string_view, CurveLaw>, 3> k_curve_laws{
    {{"linear", CurveLaw::linear}, {"square", CurveLaw::square}, {"logarithmic", CurveLaw::logarithmic}}};

/// Of copper wire, in `k_wires`.
inline constexpr std::array<std::pair<std::string_view, int>, 3> k_wire_sizes{
    {{"14 AWG", 14}, {"12 AWG", 12}, {"10 AWG", 10}}};

inline constexpr std::array<std::pair<std::string_view, WallArea::Kind>, 3> k_wall_area_kinds{
    {{"plain", WallArea::Kind::plain}, {"door", WallArea::Kind::door}, {"window", WallArea::Kind::window}}};

inline constexpr std::array<std::pair<std::string_view, Wiring::Path>, 2> k_cable_paths{
    {{"open", Wiring::Path::open}, {"bays", Wiring::Path::bays}}};

inline constexpr std::array<std::pair<std::string_view, Wiring::Framing>, 2> k_framing_kinds{
    {{"lumber", Wiring::Framing::lumber}, {"engineered", Wiring::Framing::engineered}}};

}  // namespace evenlit
