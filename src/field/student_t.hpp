#pragma once

namespace evenlit {

/// The t that Student's t stays within, upwards and downwards, with the chance `inside`; to 1e-9 of itself.
///
/// @param inside  above 0, below 1 by 1e-6 or more
/// @param freedom degrees of freedom, 1 or more
/// @source Abramowitz and Stegun, 26.7.3 and 26.7.4 (finite sums; from memory)
double student_t_two_sided(double inside, int freedom);

}  // namespace evenlit
