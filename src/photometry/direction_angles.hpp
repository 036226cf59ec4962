#pragma once

namespace evenlit {

/// Polar angle from -z and azimuth from +x toward +y of many directions, in degrees; vector instructions where the
/// processor has them. Each angle is within 1e-5 degrees. Toward a pole the azimuth is 0.
///
/// @param gamma_deg 0...180
/// @param c_deg     -180...180; null where it is not wanted
void direction_angles(const float* x, const float* y, const float* z, int count, float* gamma_deg, float* c_deg);

}  // namespace evenlit
