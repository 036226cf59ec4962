#pragma once

namespace evenlit {

/// The style sheet of the handout: ink on paper, so that it prints without colour; one column on a phone. All text has
/// a contrast of 7 : 1 or more.
extern const char* const k_handout_style;

}  // namespace evenlit
