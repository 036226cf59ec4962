#pragma once

#include <functional>

namespace evenlit {

/// Told how far a long computation has come, 0...1, never less than before; always called from the thread that began
/// it.
using Progress = std::function<void(double done)>;

/// For a part of the computation: its 0...1 becomes from...to of the whole. An empty function stays empty.
inline Progress part_of(const Progress& whole, double from, double to) {
  if (!whole) return {};
  return [whole, from, to](double done) { whole(from + done * (to - from)); };
}

}  // namespace evenlit
