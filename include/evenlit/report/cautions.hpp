#pragma once

#include <span>
#include <string_view>

namespace evenlit {

/// What to mind before acting on a result: short sentences for the person who will cut and wire.
std::span<const std::string_view> cautions();

}  // namespace evenlit
