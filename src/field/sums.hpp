#pragma once

namespace evenlit {

/// Sums that the compiler makes with vectors, always in the same order: in sixteen parts, as many numbers as the
/// largest vector has.
float sum_of(const float* values, int count);
float sum_of_products(const float* a, const float* b, int count);
float sum_of_products(const float* a, const float* b, const float* c, int count);

}  // namespace evenlit
