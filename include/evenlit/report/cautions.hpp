#pragma once

#include <span>
#include <string_view>

namespace evenlit {

/// What to mind, each a short sentence or two; the first six at every result.
enum class Caution {
  plan,         ///< the result is a calculation
  licence,      ///< who may do the work
  look_above,   ///< what a blade meets
  dead,         ///< no voltage at the work
  insulation,   ///< heat of cans
  ladder,       ///< falls and eyes
  lock,         ///< the breaker stays off
  tester,       ///< a tester that is proven itself
  dust,         ///< eyes and lungs
  structure,    ///< what is never cut
  old_wiring,   ///< when to stop
  old_ceiling,  ///< when to stop
};

std::string_view caution_text(Caution caution);

/// What to mind before acting on a result: short sentences for the person who will cut and wire.
std::span<const std::string_view> cautions();

/// What a crew does with a set-out sheet, one after the other.
enum class Step { marking, cutting, wiring };

/// What to mind at a step, for a sheet that is taken up the ladder.
std::span<const std::string_view> cautions(Step step);

/// What who lives in the room should know before the work begins: who must do it, and what to stay clear of.
std::span<const std::string_view> owner_cautions();

}  // namespace evenlit
