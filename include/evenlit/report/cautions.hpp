#pragma once

#include <span>
#include <string_view>

namespace evenlit {

/// What to mind before acting on a result: short sentences for the person who will cut and wire.
std::span<const std::string_view> cautions();

/// What a crew does with a set-out sheet, one after the other.
enum class Step { marking, cutting, wiring };

/// What to mind at a step, for a sheet that is taken up the ladder.
std::span<const std::string_view> cautions(Step step);

/// What who lives in the room should know before the work begins: who must do it, and what to stay clear of.
std::span<const std::string_view> owner_cautions();

}  // namespace evenlit
