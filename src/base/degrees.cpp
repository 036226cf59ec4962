#include "evenlit/base/degrees.hpp"

#include <cmath>
#include <numbers>

namespace evenlit {

double sine_of_degrees(double degrees) {
  const double quarter_turns = degrees / 90;
  if (quarter_turns == std::round(quarter_turns)) {
    constexpr double k_sines[] = {0, 1, 0, -1};
    return k_sines[(static_cast<long>(std::fmod(quarter_turns, 4)) + 4) % 4];
  }
  return std::sin(degrees * (std::numbers::pi / 180));
}

double cosine_of_degrees(double degrees) { return sine_of_degrees(degrees + 90); }

}  // namespace evenlit
