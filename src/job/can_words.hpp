#pragma once

#include <array>
#include <string_view>
#include <utility>

#include "evenlit/job/job.hpp"

namespace evenlit {

// The words that a job file has for the kinds of a can and of dimming; an absent key means the first.

inline constexpr std::array<std::pair<std::string_view, Housing::Kind>, 2> k_housing_kinds{
    {{"remodel", Housing::Kind::remodel}, {"new work", Housing::Kind::new_work}}};

inline constexpr std::array<std::pair<std::string_view, Housing::Lies>, 3> k_housing_lies{
    {{"either", Housing::Lies::either}, {"along", Housing::Lies::along}, {"across", Housing::Lies::across}}};

inline constexpr std::array<std::pair<std::string_view, Rating>, 3> k_ratings{
    {{"unknown", Rating::unknown}, {"IC", Rating::ic}, {"non-IC", Rating::non_ic}}};

inline constexpr std::array<std::pair<std::string_view, CurveLaw>, 3> k_curve_laws{
    {{"linear", CurveLaw::linear}, {"square", CurveLaw::square}, {"logarithmic", CurveLaw::logarithmic}}};

}  // namespace evenlit
